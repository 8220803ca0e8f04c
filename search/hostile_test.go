package search_test

import (
	"context"
	"math"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"tankside/search"
)

// hostile are questions nobody asks in earnest.
var hostile = []string{
	strings.Repeat("spots ", 10_000/6),
	strings.Repeat("a", 10_000),
	strings.Repeat("*?", 5_000),
	strings.Repeat("(((((\"wax\"^9~2)))))", 500),
	strings.Repeat("w a x - ", 1_200),
	strings.Repeat("wax-", 2_500),
	strings.Repeat("9", 10_000),
	strings.Repeat("1:", 5_000),
	strings.Repeat("1,", 5_000),
	strings.Repeat("5–6 °", 1_500),
	strings.Repeat("'", 10_000),
	strings.Repeat("ʼ", 5_000),
	strings.Repeat("°", 5_000),
	strings.Repeat("\u202e\u2066", 3_000) + "xaw",
	strings.Repeat("e\u0301", 4_000),
	"\x00\x01\x02\x1b[2J\x7f wax",
	"\xff\xfe\xc0\xaf wax \xed\xa0\x80",
	"<script>alert(1)</script><mark>wax</mark>",
	"+title:wax^1e308 -text:/(a+)+$/ _id:[* TO *]",
	"'; DROP TABLE wax; --",
	strings.Repeat("wax spots foam ", 600),
	"ﬀﬁ ß æ ø İı 水 洗浄 🧼",
}

// No question hangs on a manual of 2,000 sections (a quiet machine takes well under a second),
// however it is made; the answer is in order and shows only text of the manual.
func TestHostileQuestions(t *testing.T) {
	t.Parallel()
	f := open(t, invented(400), sayings)
	for _, words := range hostile {
		start := time.Now()
		a := ask(t, f, search.Question{Words: words})
		if took := time.Since(start); took > 2*time.Minute { // a hang, not a slow machine
			t.Errorf("%.40q took %v", words, took)
		}
		sound(t, a)
	}
}

// sound checks what holds for every answer.
func sound(t testing.TB, a search.Answer) {
	t.Helper()
	if len(a.Hits) > a.Total || len(a.Hits) > search.MaxLimit {
		t.Errorf("%d hits of %d", len(a.Hits), a.Total)
	}
	before := math.Inf(1)
	for _, h := range a.Hits {
		if !(h.Score > 0) || h.Score > before {
			t.Errorf("score %v after %v", h.Score, before)
		}
		before = h.Score
		if h.Path == "" || h.Title == "" {
			t.Errorf("a hit that leads nowhere: %+v", h)
		}
		for _, run := range h.Snippet {
			if run.Text == "" || !utf8.ValidString(run.Text) {
				t.Errorf("snippet run %q", run.Text)
			}
		}
	}
}

func FuzzAsk(f *testing.F) {
	for _, words := range hostile {
		if len(words) > 100 {
			words = words[:100]
		}
		f.Add(words)
	}
	for _, words := range []string{"won't come clean", "60 °C", "9.5–10.5", "6061-T6", "1:40", "ultra sonic", "hardwater", "1,000 ppm", "pH 9"} {
		f.Add(words)
	}
	finder := open(f, shelf, sayings)
	f.Fuzz(func(t *testing.T, words string) {
		a, err := finder.Ask(context.Background(), search.Question{Words: words})
		if err != nil {
			t.Fatal(err)
		}
		sound(t, a)
	})
}

// Whatever text an article holds, its index builds, opens and finds it again.
func FuzzIndex(f *testing.F) {
	for _, words := range hostile {
		if len(words) > 200 {
			words = words[:200]
		}
		f.Add("Wax", words)
	}
	f.Fuzz(func(t *testing.T, title, text string) {
		blob, err := search.Index([]search.Document{{Path: "a.html", Title: title + " paraffin", Text: text, Section: text, AlsoCalled: []string{text}}}, nil)
		if err != nil {
			t.Fatal(err)
		}
		finder, err := search.Open(blob)
		if err != nil {
			t.Fatal(err)
		}
		defer finder.Close()
		a, err := finder.Ask(context.Background(), search.Question{Words: "paraffin "})
		if err != nil || a.Total != 1 {
			t.Fatalf("%+v, %v", a, err)
		}
		sound(t, a)
	})
}
