package manual

import (
	"bytes"
	"context"
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/yuin/goldmark/ast"
)

func visitHeadings(doc ast.Node, visit func(id string)) {
	err := ast.Walk(doc, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if h, ok := n.(*ast.Heading); ok && entering {
			visit(string(idOf(h)))
		}
		return ast.WalkContinue, nil
	})
	if err != nil {
		panic(err)
	}
}

// FuzzArticle feeds any bytes as an article: whatever they are, reading gives findings with places inside the file, never a panic, and the
// same twice.
func FuzzArticle(f *testing.F) {
	for _, name := range []string{"script", "links", "bomb", "deep", "tag", "latin", "nul-byte", "utf-16"} {
		data, err := os.ReadFile("../../testdata/hostile/soils/" + name + ".md")
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Add([]byte(soilHead + "## A\n\n- x: [b](#b)\n- y\n\n> **WARNING:** z\n\n```calculator heat-up\na: b\n```\n"))
	f.Add([]byte("---\ntitle: >=\n---\n\\\n"))
	f.Add([]byte("---\r? a\r: - b\r---\r\r<!--"))
	f.Add([]byte("---\n" + strings.Repeat("a: {", 400) + "\n---\n" + strings.Repeat("> - ", 400)))
	f.Fuzz(func(t *testing.T, data []byte) {
		for _, path := range []string{"soils/x.md", "parts/x.md", "symptoms/x.md"} {
			fsys := fstest.MapFS{ShopFile: {Data: []byte(smallShop)}, path: {Data: data}}
			m, list, err := Read(context.Background(), fsys)
			if err != nil {
				t.Fatal(err)
			}
			lines := 2 + bytes.Count(data, []byte("\n")) + bytes.Count(data, []byte("\r"))
			for _, f := range list {
				if f.File == path && (f.Line < 0 || f.Line > lines || f.Column < 0) {
					t.Errorf("%v is outside the file of %d lines: %s", f.Place, lines, f.Message)
				}
				if f.Message == "" || f.Remedy == "" {
					t.Errorf("half a note: %+v", f)
				}
			}
			for _, a := range m.Articles {
				for _, l := range append(append([]Link{}, a.Links...), a.Pictures...) {
					to, problem := m.Resolve(a, l.Target)
					if problem == nil && to.Outside == "" && to.Article != nil && to.Article != a {
						t.Errorf("%q leads to %s", l.Target, to.Article.Path)
					}
					if lower := strings.ToLower(to.Outside); strings.HasPrefix(lower, "javascript") || strings.HasPrefix(lower, "data") {
						t.Errorf("%q is followed to %q", l.Target, to.Outside)
					}
				}
			}
			_, again, err := Read(context.Background(), fsys)
			if err != nil || places(list) != places(again) {
				t.Errorf("two readings differ: %s, %s, %v", places(list), places(again), err)
			}
		}
	})
}

// FuzzShop does the same for the shop file and the glossary.
func FuzzShop(f *testing.F) {
	f.Add([]byte(smallShop), []byte("cavitation: {means: bubbles}\n"))
	f.Add([]byte("tanks: [{}, x, {id: [a]}]\nair: 3\nunits: x\nenergy-price: -1\n"), []byte("- a\n"))
	f.Add([]byte("dryer: {id: a\n"), []byte("? {a: b}\n: c\n"))
	f.Fuzz(func(t *testing.T, shop, glossary []byte) {
		m, list, err := Read(context.Background(), fstest.MapFS{ShopFile: {Data: shop}, GlossaryFile: {Data: glossary}, "soils/wax.md": {Data: []byte(soilHead)}})
		if err != nil || m == nil {
			t.Fatal(err)
		}
		for _, f := range list {
			if f.Message == "" || f.Remedy == "" || f.Why == "" {
				t.Errorf("half a note: %+v", f)
			}
		}
	})
}

// FuzzPicture feeds any bytes as a drawing: what passes as safe has no script in it that an XML reader would see.
func FuzzPicture(f *testing.F) {
	for _, name := range []string{"script", "event", "outside", "entity", "sound"} {
		data, err := os.ReadFile("../../testdata/hostile/pictures/" + name + ".svg")
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Add([]byte(`<svg xmlns="http://www.w3.org/2000/svg"><a xlink:href=" javascript:x"/><style>a{b:url( 'http://x')}</style></svg>`))
	f.Fuzz(func(t *testing.T, data []byte) {
		d := &decoder{file: "pictures/x.svg"}
		if safePicture(d, "pictures/x.svg", data) {
			lower := bytes.ToLower(data)
			if bytes.Contains(lower, []byte("<script")) && !bytes.Contains(lower, []byte("<!--")) && !bytes.Contains(lower, []byte("<![cdata[")) {
				t.Errorf("%q passes as safe", data)
			}
			if len(d.findings) > 0 {
				t.Error("safe, and yet there is a finding")
			}
		} else if len(d.findings) != 1 {
			t.Errorf("%d findings", len(d.findings))
		}
	})
}
