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

// A cell is told with its row, the washes of a part's sheet stand on the page, and a calculator's limit that has no source is not filed under
// the sources of its sums.
func TestRestsOfCellsPartsAndLimits(t *testing.T) {
	t.Parallel()
	site, files := demo(t)
	page := files[restsPage]
	for _, want := range []string{"hydrogen cyanide, limit, one country&#39;s: 10", "1301–1400, at least: 14"} {
		if !strings.Contains(page, want) {
			from := max(0, strings.Index(page, "in law; 50"))
			t.Errorf("the page lacks %q; near: %q", want, page[max(0, from-200):min(len(page), from+40)])
		}
	}
	for _, a := range site.Manual.Articles {
		if a.Part != nil && !strings.Contains(page, `href="`+articlePage(a)+`"`) {
			t.Errorf("%s has washes and is not on the page", a.Path)
		}
	}
	from, to := strings.Index(page, `id="standing-2"`), strings.Index(page, `id="standing-3"`)
	if at := strings.Index(page, "25 %: call service"); at < from && at >= 0 || at > to {
		t.Error("a limit that is common practice by its own words stands elsewhere")
	}
}
