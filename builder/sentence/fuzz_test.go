package sentence

import (
	"context"
	"os"
	"strings"
	"testing"
	"unicode/utf8"

	"tankside/builder/manual"
)

func demoNames(t testing.TB) *Names {
	t.Helper()
	m, _, err := manual.Read(context.Background(), os.DirFS("../../content"))
	if err != nil {
		t.Fatal(err)
	}
	return NewNames(m)
}

// FuzzRead reads any bytes: no panic, no loop without end, and every place inside the text.
func FuzzRead(f *testing.F) {
	names := demoNames(f)
	for _, s := range []string{
		"", "Bring Wash 1 to 80 °C.", "pH 9,5", "1/4 in (6 mm)", "−3 °C ± 2 K", "| a | b |\n| --- | --- |\n| Wash 1 | 62 °C |", "> **WARNING** Hot.\n\n- if\n- until 80",
		"½ h", "10%-15%", "From 12 to", "between 5 and 6 L", "Wash", "eighty", "twenty-five degrees", "½½", "1:", "1:40 1:1:1", "e.g. 5.", "[a](b) ~~5 L~~ `6 L`", "\xff\xfe 5 °C", "as soon", "only when", "5 °",
	} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, body []byte) {
		if len(body) > 1<<12 {
			return
		}
		for _, s := range Read(body, names, func(string) string { return "" }) {
			if s.From < 0 || s.To > len(s.Block.Text) || s.From > s.To {
				t.Fatalf("a sentence at %d–%d of %d bytes", s.From, s.To, len(s.Block.Text))
			}
			for _, q := range s.Quantities {
				if q.From < s.From || q.To > s.To || q.From >= q.To || q.Clause < 0 || q.Clause >= len(s.Clauses) || q.Range.Low > q.Range.High {
					t.Fatalf("a quantity that is none: %+v in %q", q, s.Text())
				}
				if utf8.Valid(body) && s.Block.At(q.From) > len(body) {
					t.Fatalf("%q stands outside the text", q.Text)
				}
			}
		}
	})
}

// moods are sentences with the mood, relation and subject of their one quantity.
var moods = []struct {
	text     string
	mood     Mood
	relation Relation
	about    string
}{
	{"Bring Wash 1 to 80 °C.", Do, To, "wash 1"},
	{"Never bring Wash 1 above 75 °C.", MustNot, AtMost, "wash 1"},
	{"Do not start before Wash 1 is at 80 °C.", Do, At, "wash 1"},
	{"Keep Wash 2 no hotter than 55 °C.", Do, AtMost, "wash 2"},
	{"Never let Wash 2 fall below 40 °C.", MustNot, AtLeast, "wash 2"},
	{"If Wash 1 is at 80 °C, open the lid.", If, At, "wash 1"},
	{"Wash 1 was at 80 °C yesterday.", Was, At, "wash 1"},
	{"Is Wash 1 at 80 °C?", Ask, At, "wash 1"},
	{"Suppose Wash 1 runs at 80 °C.", Example, At, "wash 1"},
	{"Wash 1 runs at 62 °C.", Is, At, "wash 1"},
	{"Wash 1, 62 °C, ten times.", Fragment, At, "wash 1"},
	{"Brass stands 50 °C.", Able, At, "brass"},
	{"Wash 1 is 5 °C hotter.", Is, Difference, "wash 1"},
	{"Heat Wash 1. It should reach 62 °C.", Do, To, "it"},
	{"Beside Wash 1 the air is at 30 °C.", Is, At, ""},
	{"Take it at 62 °C in Wash 1.", Do, At, "wash 1"},
	{"Wait until Wash 1 reads eighty degrees.", Do, At, "wash 1"},
	{"For thick oil, run Wash 1 at 68 °C.", Do, At, "wash 1"},
	{"Wash 1: 62 °C, Wash 2: off.", Fragment, At, "wash 1"},
	{"Fill Wash 2 with water of 45 °C from the tap.", Do, At, "wash 2"},
	{"Wash 2 is 5 °C from the ceiling.", Is, Difference, "wash 2"},
	{"The timer runs, so that Wash 1 is at 62 °C.", Is, At, "wash 1"},
}

func TestMoodRelationAndSubject(t *testing.T) {
	names := demoNames(t)
	for _, c := range moods {
		found := 0
		for _, s := range Read([]byte(c.text), names, nil) {
			for _, q := range s.Quantities {
				found++
				about := ""
				if q.About != nil {
					about = q.About.Word
				}
				if m := s.Clauses[q.Clause].Mood; m != c.mood || q.Relation != c.relation || about != c.about {
					t.Errorf("%q: mood %d, relation %d, about %q; want %d, %d, %q", c.text, m, q.Relation, about, c.mood, c.relation, c.about)
				}
				if want := strings.Index(c.text, q.Text); s.Block.At(q.From) != want {
					t.Errorf("%q: %q stands at %d, is said to stand at %d", c.text, q.Text, want, s.Block.At(q.From))
				}
			}
		}
		if found != 1 {
			t.Errorf("%q: %d quantities", c.text, found)
		}
	}
}
