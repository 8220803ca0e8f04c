package page

import (
	"strings"
	"testing"

	"tankside/builder/manual"
)

// Every key that decides about harm has its line on the page: a key that is declared so and has none would be missing there.
func TestEveryHarmKeyIsWritten(t *testing.T) {
	for _, k := range manual.Kinds {
		for _, key := range manual.HarmKeys(k) {
			if harmRows[key] == nil {
				t.Errorf("“%s” of a %s decides about harm and has no line in harmRows", key, k)
			}
		}
	}
}

// The page of the demo manual has each value of a header and each statement that names a source, with that source, and nothing without one.
func TestWhatRestsOnWhat(t *testing.T) {
	t.Parallel()
	site, files := demo(t)
	m := site.Manual
	page := files[restsPage]
	if page == "" {
		t.Fatal("there is no page")
	}
	for _, a := range m.Articles {
		for _, key := range manual.HarmKeys(a.Kind) {
			if _, given := a.Head.At[key]; given && len(a.SourcesOf(key)) == 0 {
				t.Errorf("%s: “%s” rests on nothing", a.Path, key)
			}
		}
		if len(a.Marks) > 0 && !strings.Contains(page, `href="`+articlePage(a)+`"`) {
			t.Errorf("%s names sources and is not on the page", a.Path)
		}
		if !strings.Contains(files[articlePage(a)], `href="`+rootOf(articlePage(a))+restsPage+`"`) {
			t.Errorf("%s does not lead to it", a.Path)
		}
	}
	if strings.Contains(page, `id="standing-0"`) {
		t.Error("something in the demo manual says nothing of what it rests on")
	}
	for _, standing := range []string{"standing-1", "standing-2", "standing-3", "standing-5", "standing-6", "standing-7"} {
		if !strings.Contains(page, `id="`+standing+`"`) {
			t.Errorf("nothing of the demo manual is of %s", standing)
		}
	}
	steel := files["materials/high-strength-steel.html"]
	if !strings.Contains(steel, `<sup class="rests"><a href="#source-`) || strings.Contains(steel, "(source:") || !strings.Contains(steel, `<li id="source-1">`) {
		t.Error("a statement does not lead to its source")
	}
}
