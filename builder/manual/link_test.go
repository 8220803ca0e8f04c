package manual

import (
	"context"
	"os"
	"testing"
)

// The path that a link names is that of the article to which it leads, for every link of the demo manual and for what people write besides.
func TestPathOfIsWhereALinkLeads(t *testing.T) {
	t.Parallel()
	m, _, err := Read(context.Background(), os.DirFS("../../content"))
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	compare := func(a *Article, target string) {
		if to, problem := m.Resolve(a, target); problem == nil && to.Article != nil {
			n++
			if got := PathOf(a, target); got != to.Article.Path {
				t.Errorf("%s: [](%s) names %q and leads to %s", a.Path, target, got, to.Article.Path)
			}
		}
	}
	for _, a := range m.Articles {
		for i := range a.Blocks {
			for _, l := range a.Blocks[i].Links {
				compare(a, l.Target)
			}
		}
	}
	if n < 500 {
		t.Errorf("%d links were compared", n)
	}
	a := m.At("chemistries/mild-alkaline.md")
	for target, want := range map[string]string{
		"": a.Path, "#steps": a.Path, "./mild-alkaline.md": a.Path, "../chemistries/mild%2Dalkaline.md#x": a.Path, " ../soils/wax.md ": "soils/wax.md", "../soils/nothing.md": "soils/nothing.md",
		"https://example.com/a.md": "", "../../outside.md": "", `..\soils\wax.md`: "", "/soils/wax.md": "", "file:///a.md": "", "javascript:a.md": "",
	} {
		compare(a, target)
		if got := PathOf(a, target); got != want {
			t.Errorf("[](%s) names %q, not %q", target, got, want)
		}
	}
}
