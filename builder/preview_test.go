package builder

import (
	"context"
	"errors"
	"maps"
	"path/filepath"
	"strings"
	"testing"
)

// previewed gives what a sitting shows of a manual that cannot be published.
func previewed(t *testing.T, s *Sitting, src, to string, changed []string) map[string][]byte {
	t.Helper()
	var shown map[string][]byte
	_, err := Publish(context.Background(), Options{Manual: src, To: to, Now: day, Sitting: s, Changed: changed, Preview: func(files map[string][]byte) { shown = files }})
	if !errors.Is(err, ErrStopped) {
		t.Fatal(err)
	}
	return shown
}

// Whatever is wrong with one article, every other page is shown as it is now, the article's own says what is wrong, in which line and what to do, and the
// edition in its folder stays as it was.
func TestBrokenArticleFreezesNothing(t *testing.T) {
	d := newDesk(t, 1, plainManual(t))
	to := filepath.Join(t.TempDir(), "edition")
	s := NewSitting()
	defer s.Close()
	if r, err := Publish(context.Background(), Options{Manual: d.dir, To: to, Now: day, Sitting: s}); err != nil {
		t.Fatal(err, r.Findings)
	}
	before := files(t, to)
	good := d.read("chemistries/alkaline.md")
	lesson := d.read("lessons/sound.md")
	for name, broken := range map[string]struct{ text, says string }{
		"a missing date":      {strings.Replace(good, "review-by: 2027-09-14\n", "", 1), "has no “review-by”"},
		"a broken link":       {good + "\n[x](nowhere.md)\n", "nowhere.md"},
		"a header half done":  {strings.Replace(good, "summary: ", "summary: [", 1), "chemistries/alkaline.md:"},
		"no header":           {"Text.\n", "has no header"},
		"nothing":             {"", "has no header"},
		"a quantity":          {strings.Replace(good, "strength: ", "strength: lots of ", 1), "lots of"},
		"not UTF-8":           {"---\n\xff\n---\n", "not UTF-8"},
		"approved by a guess": {strings.Replace(good, "approved: 2026-09-14, ", "approved: 2026-09-14, M. Weber, ", 1), ""},
		"contains unknown":    {strings.Replace(good, "---\nsummary", "contains: [unobtainium]\n---\nsummary", 1) + "\n[x](nowhere.md)\n", "nowhere.md"},
	} {
		t.Run(name, func(t *testing.T) {
			if broken.says == "" {
				broken.text, broken.says = strings.Replace(broken.text, "process engineer", "process engineer, 0123456789abcdef", 1), "This is not what M. Weber (process engineer) approved"
			}
			d.t = t
			d.write("chemistries/alkaline.md", broken.text)
			d.write("lessons/sound.md", lesson+"\nA new line of "+name+".\n")
			shown := previewed(t, s, d.dir, to, nil)
			page := string(shown["chemistries/alkaline.html"])
			if !strings.Contains(page, broken.says) || !strings.Contains(page, "chemistries/alkaline.md") || !strings.Contains(page, "In no edition.") {
				t.Errorf("the page does not say %q:\n%.3000s", broken.says, page)
			}
			if other := string(shown["lessons/sound.html"]); !strings.Contains(other, "A new line of "+name+".") || strings.Contains(other, "chemistries/alkaline.md:") {
				t.Errorf("the other page is not as it is now:\n%.2000s", other)
			}
			if home := string(shown["index.html"]); !strings.Contains(home, "chemistries/alkaline.md") {
				t.Error("the home page does not say what stops publication")
			}
			if !maps.Equal(files(t, to), before) {
				t.Error("the edition in place is another")
			}
		})
	}
	d.write("chemistries/alkaline.md", good)
	d.write("lessons/sound.md", lesson)
	if r, err := Publish(context.Background(), Options{Manual: d.dir, To: to, Now: day, Sitting: s}); err != nil {
		t.Fatal(err, r.Findings)
	}
}

// What each of the demo manual's files would be without a half of it is shown, or said to be a page that cannot be: nothing ends the program.
func TestPreviewOfTheDemoManualWithoutAnArticle(t *testing.T) {
	for _, file := range []string{"chemistries/mild-alkaline.md", "materials/brass.md", "shop.yaml", "glossary.yaml", "parts/" + anyPart(t)} {
		d := newDesk(t, 1, demoManual)
		text := d.read(file)
		d.write(file, text[:len(text)/3]+"\n\t[\n[x](nowhere.md)\n") // wherever the cut falls, something is wrong with what is left
		s := NewSitting()
		shown := previewed(t, s, d.dir, filepath.Join(t.TempDir(), "edition"), nil)
		if err := s.Close(); err != nil {
			t.Error(err)
		}
		if len(shown) < 100 || !strings.Contains(string(shown["index.html"]), file) {
			t.Errorf("%s cut off: %d files are shown", file, len(shown))
		}
	}
}

func anyPart(t *testing.T) string {
	t.Helper()
	names, err := filepath.Glob("../content/parts/*.md")
	if err != nil || len(names) == 0 {
		t.Fatal(names, err)
	}
	return filepath.Base(names[0])
}
