package builder

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"tankside/builder/edition"
	"tankside/builder/finding"
)

// drawing gives the seed, by which TANKSIDE_SEED draws the same mistakes again, and how many manuals are to be published, which TANKSIDE_DRAWS can say.
func drawing(t *testing.T, few int) (seed uint64, enough int) {
	t.Helper()
	seed, enough = uint64(time.Now().UnixNano()), few
	var err error
	if text := os.Getenv("TANKSIDE_SEED"); text != "" {
		if seed, err = strconv.ParseUint(text, 10, 64); err != nil {
			t.Fatal(err)
		}
	}
	if text := os.Getenv("TANKSIDE_DRAWS"); text != "" {
		if enough, err = strconv.Atoi(text); err != nil {
			t.Fatal(err)
		}
	}
	t.Logf("seed %d", seed)
	return seed, enough
}

// oddValues are what somebody may write where another value stood.
var oddValues = []string{
	"", "~", "[]", "{}", "-1", "0", "1e9", "NaN", "yes", "x", "../x", "/", ".", "..", "CON", "a?b", "Wash-1", "WASH-1", "index", "JPY", "INR", "PLN", "EUR", "9999-12-31", "0000-00-00", "2026-02-30",
	"120 L", "0 L", "-3 °C", "1e300 °C", "4 % v/v", "900 g/L", "50–40 °C", "60 °C–", "\u202ex", "\"", "'", "<b>x</b>", "&amp;", "a: b", "- a", "# a", "|", "]]>", "\x1f", "\x7f", "\ufeff", "\ufffd", "e\u0301",
	"https://127.0.0.1:9/x/", "javascript:x", "//x/y", "mailto:x", "http://[::1", "en", "es", "de", "xx-YY", "US", "SI", "desk", "tank-side", "soils/chips.md", "chips", "wash-1",
}

// mistake makes one in a file of the manual, as somebody who types, a program that saves, or malice makes it.
func mistake(draw *rand.Rand, dir string) (what string, err error) {
	var names []string
	err = filepath.WalkDir(dir, func(name string, e os.DirEntry, err error) error {
		if err == nil && !e.IsDir() {
			names = append(names, name)
		}
		return err
	})
	if err != nil {
		return "", err
	}
	slices.Sort(names)
	name := names[draw.IntN(len(names))]
	if draw.IntN(3) == 0 {
		name = filepath.Join(dir, "shop.yaml")
	}
	data, err := os.ReadFile(name)
	if err != nil {
		return "", err
	}
	lines := strings.SplitAfter(string(data), "\n")
	at := draw.IntN(len(lines))
	odd := oddValues[draw.IntN(len(oddValues))]
	rel, err := filepath.Rel(dir, name)
	if err != nil {
		return "", err
	}
	put := func(text string) error { return os.WriteFile(name, []byte(text), 0o644) }
	switch draw.IntN(8) {
	case 0:
		what, lines[at] = "line taken out", ""
	case 1:
		what, lines[at] = "line twice", lines[at]+lines[at]
	case 2, 3, 4: // the value of a key
		key, _, is := strings.Cut(lines[at], ":")
		if !is {
			key = ""
		}
		what, lines[at] = "value "+strconv.Quote(odd), key+": "+odd+"\n"
	case 5:
		what, lines[at] = "text "+strconv.Quote(odd), strings.TrimSuffix(lines[at], "\n")+" "+odd+"\n"
	case 6:
		if len(data) == 0 {
			return "nothing", nil
		}
		data[draw.IntN(len(data))] ^= 1 << draw.IntN(8)
		return rel + ": a bit", put(string(data))
	case 7:
		to := filepath.Join(filepath.Dir(name), []string{"Chips.md", "CHIPS.md", "x y.md", "größe.md", "gro\u0308ße.md", "a.b.md", "x.es.md", "x.png", "x.svg", "x.css", "en.yaml", "x.csv"}[draw.IntN(12)])
		return rel + " called " + filepath.Base(to), os.WriteFile(to, data, 0o644)
	}
	return fmt.Sprintf("%s:%d: %s", rel, at+1, what), put(strings.Join(lines, ""))
}

// What the proof-reader lets pass can be published: whatever mistakes are in a manual, either a finding stops it or an edition comes of it that is whole. A
// manual that is drawn has up to four mistakes.
func TestWhatProofLetsPassIsPublished(t *testing.T) {
	t.Parallel()
	seed, enough := drawing(t, 3)
	draw := rand.New(rand.NewPCG(seed, 0))
	source := plainManual(t)
	if err := os.MkdirAll(filepath.Join(source, "pictures"), 0o755); err != nil {
		t.Fatal(err)
	}
	for from, to := range map[string]string{"../themes/words/es.yaml": "theme/words/es.yaml", "../testdata/hostile/pictures/sound.svg": "pictures/sound.svg"} {
		data, err := os.ReadFile(from)
		if err := errors.Join(err, os.MkdirAll(filepath.Dir(filepath.Join(source, to)), 0o755), os.WriteFile(filepath.Join(source, to), data, 0o644)); err != nil {
			t.Fatal(err)
		}
	}
	published, n := 0, 0
	for ; published < enough && n < 50*enough; n++ {
		folder := t.TempDir()
		src, to := filepath.Join(folder, "content"), filepath.Join(folder, "edition")
		if err := os.CopyFS(src, os.DirFS(source)); err != nil {
			t.Fatal(err)
		}
		if n%4 != 0 { // with a look of the shop's own, proof tries the whole publication
			if err := os.RemoveAll(filepath.Join(src, "theme")); err != nil {
				t.Fatal(err)
			}
		}
		var made []string
		for range 1 + draw.IntN(4) {
			what, err := mistake(draw, src)
			if err != nil {
				t.Fatal(err)
			}
			made = append(made, what)
		}
		_, findings, err := Proof(context.Background(), src, day)
		if err != nil || finding.Stopping(findings) > 0 {
			continue
		}
		if _, err := publish(t, src, to, day); err != nil {
			t.Errorf("draw %d: proof lets %q pass, and publishing fails: %v", n, made, err)
			continue
		}
		r, err := edition.Verify(context.Background(), os.DirFS(to))
		if err != nil || !r.OK {
			t.Errorf("draw %d, %q: %+v, %v", n, made, r, err)
		}
		published++
	}
	t.Logf("of %d manuals %d were published", n, published)
	if published < enough {
		t.Errorf("only %d of %d manuals were published, which shows little", published, n)
	}
}
