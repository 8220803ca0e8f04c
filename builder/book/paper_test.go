package book

import (
	"fmt"
	"io/fs"
	"maps"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"tankside/builder/decide/admit"
	"tankside/builder/decide/admit/markup"
	"tankside/builder/decide/relate"
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/themes"
)

// builtIn is a template as the command has it.
func builtIn(t *testing.T, name string) string {
	t.Helper()
	data, err := themes.New(nil).Read("templates/" + name + ".html")
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

func ownTemplates(texts map[string]string) fstest.MapFS {
	own := fstest.MapFS{}
	for name, text := range texts {
		own["templates/"+name+".html"] = &fstest.MapFile{Data: []byte(text)}
	}
	return own
}

// printedFiles are the whole files of the book and the cards.
func printedFiles(files map[string]string) map[string]string {
	list := map[string]string{}
	for name := range ours(files) {
		list[name] = files[name]
	}
	return list
}

var attributes = regexp.MustCompile(`(class|id|data-[a-z-]+)="`)

// A shop may show its pages as it likes: other classes, other tags, another order, blocks left out. Its book stays the same to the byte.
func TestTemplatesOfPagesHaveNoPartInTheBook(t *testing.T) {
	m, usual := demoEdition(t)
	renamed := map[string]string{}
	for _, name := range []string{"article", "symptom", "tank", "table", "parts", "suits", "tank-card", "list"} {
		text := attributes.ReplaceAllString(builtIn(t, name), `$1="own-`)
		for _, turned := range []struct{ from, to string }{{"<dl", "<div><dl"}, {"</dl>", "</dl></div>"}, {"<h2", "<h3"}, {"</h2>", "</h3>"}, {"<li", "<li><li"}} {
			text = strings.ReplaceAll(text, turned.from, turned.to)
		}
		renamed[name] = text
	}
	for _, block := range []string{`{{range .Safety}}{{.}}{{end}}`, `{{template "tables-of-facts" .Facts}}`, `{{if .Suits}}`, `<p class="own-summary">{{.Summary}}</p>`} {
		before := renamed["article"]
		if renamed["article"] = strings.Replace(before, block, map[bool]string{true: "{{if false}}"}[strings.HasPrefix(block, "{{if")], 1); renamed["article"] == before {
			t.Fatalf("the template of the articles has no %s", block)
		}
	}
	files, err := editionWith(t, m, ownTemplates(renamed))
	if err != nil {
		t.Fatal(err)
	}
	for _, page := range []string{"soils/wax.html", "symptoms/flash-rust.html", "tanks/wash-1.html", "tables/materials-tanks.html"} {
		if files[page] == usual[page] || files[page] == "" {
			t.Errorf("%s is as always, so nothing is tried", page)
		}
	}
	got, want := printedFiles(files), printedFiles(usual)
	if len(want) < 12 || !slices.Equal(slices.Sorted(maps.Keys(got)), slices.Sorted(maps.Keys(want))) {
		t.Errorf("the book has the files %v", slices.Sorted(maps.Keys(got)))
	}
	for name := range want {
		if got[name] != want[name] {
			t.Errorf("%s is another", name)
		}
	}
}

// some is the demo's shop with its articles in some folders.
func some(t *testing.T, folders ...string) fstest.MapFS {
	t.Helper()
	content := fstest.MapFS{}
	for _, name := range append([]string{"shop.yaml"}, folders...) {
		err := fs.WalkDir(os.DirFS("../../content"), name, func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() {
				return err
			}
			data, err := os.ReadFile("../../content/" + path)
			content[path] = &fstest.MapFile{Data: data}
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	return content
}

// A shop that wants its book otherwise puts its own paper templates into its theme; its pages stay as they are.
func TestShopPrintsWithItsOwnTemplate(t *testing.T) {
	m, _, err := manual.Read(t.Context(), some(t, "soils", "symptoms", "chemistries"))
	if err != nil {
		t.Fatal(err)
	}
	usual := edition(t, m)
	files, err := editionWith(t, m, ownTemplates(map[string]string{
		"paper-article": `{{define "content"}}{{with .Content}}<p class="own">{{$.Number}} {{.Summary}}</p>{{range .Safety}}{{.}}{{end}}<div class="own-text">{{.Body}}</div>{{end}}{{end}}`,
	}))
	if err != nil {
		t.Fatal(err)
	}
	n, want := 0, 0
	for _, a := range m.Articles {
		if a.Kind != manual.Symptom {
			want++
		}
	}
	for name, text := range files {
		if strings.HasPrefix(name, folder) {
			n += strings.Count(text, `<p class="own">`)
		}
	}
	if n != want || n < 50 {
		t.Errorf("%d articles of %d are printed with the shop's template", n, want)
	}
	for name, text := range files {
		if !strings.HasPrefix(name, folder) && text != usual[name] {
			t.Errorf("%s is another", name)
		}
	}
	walk := func(files map[string]string) string {
		_, text, _ := strings.Cut(files["book/wash.html"], `<section class="leaf" id="symptoms.foam"`)
		text, _, _ = strings.Cut(text, `<section class="leaf"`)
		return text
	}
	if walk(files) != walk(usual) || walk(usual) == "" {
		t.Error("the symptoms are printed with the template of the articles")
	}
	for _, wrong := range []string{`{{define "content"}}{{.Content.Nonsense}}{{end}}`, `{{define "content"}}{{if}}{{end}}`} {
		if _, err := editionWith(t, m, ownTemplates(map[string]string{"paper-article": wrong})); err == nil || !strings.Contains(err.Error(), "paper-article.html") {
			t.Errorf("%s: %v", wrong, err)
		}
	}
}

// The tables of a shop with many tanks have narrow cells, which cannot lead a reader of paper to the page that asks: each has the number of its
// reason, and the reason says the whole decision.
func TestManyTanksOnPaper(t *testing.T) {
	content := some(t, "materials/brass.md", "materials/zinc-and-galvanised.md", "chemistries/mild-alkaline.md")
	shop := string(content["shop.yaml"].Data)
	before, rest, _ := strings.Cut(shop, "tanks:\n")
	_, after, _ := strings.Cut(rest, "\nrinses:\n")
	tanks := ""
	for i := 1; i <= 6; i++ {
		tanks += fmt.Sprintf("  - {id: wash-%d, name: Wash %d, volume: 60 L, chemistry: mild-alkaline, strength: 3 %% v/v, temperature: %d °C, frequency: 40 kHz}\n", i, i, 45+4*i)
	}
	content["shop.yaml"].Data = []byte(before + "tanks:\n" + tanks + "rinses:\n" + after)
	m, _, err := manual.Read(t.Context(), content)
	if err != nil {
		t.Fatal(err)
	}
	files := edition(t, m)
	_, text, _ := strings.Cut(files["book/tables.html"], `id="tables.materials-tanks"`)
	text, _, _ = strings.Cut(text, `<section class="leaf"`)
	table := relate.Table(m)
	looked := 0
	for _, material := range table.Materials {
		for i := 1; i <= 6; i++ {
			bath := fmt.Sprintf("wash-%d", i)
			a, err := table.Answer(admit.Question{Materials: []string{material.Name}, Bath: bath})
			if err != nil {
				t.Fatal(err)
			}
			anchor := "tables.materials-tanks." + material.Name + "." + bath
			cell := regexp.MustCompile(`<td class="` + string(a.Verdict) + `"><a href="#` + anchor + `">.*?</a><sup class="note-mark">(\d+)</sup></td>`).FindStringSubmatch(text)
			item := regexp.MustCompile(`(?s)<li id="` + anchor + `"><b class="note-number">(\d+)</b> .*?</li>`).FindStringSubmatch(text)
			if cell == nil || item == nil || cell[1] != item[1] {
				t.Errorf("%s in %s is %s: cell %q, reason %q", material.Name, bath, a.Verdict, cell, item)
				continue
			}
			for _, r := range a.Reasons {
				if words := strings.ReplaceAll(r.Says.In(nil, quantity.SI), "\u00a0", " "); r.Keeps() && !strings.Contains(said(item[0]), words) {
					t.Errorf("%s in %s: the reason lacks %q", material.Name, bath, words)
				}
				looked++
			}
		}
	}
	if looked < 12 || !strings.Contains(files["tables/materials-tanks.html"], markup.Page+"#material=brass") {
		t.Errorf("%d reasons were looked at, and the cells of the page lead elsewhere", looked)
	}
}

// What the text of an article can hold stands in the book as it is written: nothing in it is taken for something of ours.
func TestTextOnPaper(t *testing.T) {
	const head = "---\ntitle: %s\nsummary: One.\nstation: wash\nrevision: A\napproved: 2026-09-14, engineer\nreview-by: 2027-09-14\nsources: [common practice]\n---\n"
	const text = "See [b](b.md), again [b](b.md), then [c](c.md) and [b](b.md#deep).\n\n" +
		"# First\n\n> ### Quoted\n> [Itself](a.md), [a place](#deep), [bare](https://example.org/?a=1&b=2).\n\n" +
		"- [b](b.md)\n  - [b](b.md)\n- `<dl class=\"facts\">` and \\<p class=\"kind\">\n\n" +
		"| [b](b.md) | x |\n| --- | --- |\n| [c](c.md), [c](c.md) | y |\n\n" +
		"###### Deep\n\n```html\n<section class=\"used\"><h1>kept</h1></section>\n```\n\n```calculator dilution\nvolume: 10 L\nstrength: 4 % v/v\n```\n"
	fsys := fstest.MapFS{"shop.yaml": {Data: []byte("name: Shop\nroles: [engineer]\n")}}
	for name, body := range map[string]string{"a": text, "b": "## Deep\n\nText.\n", "c": "Text.\n"} {
		fsys["procedures/"+name+".md"] = &fstest.MapFile{Data: fmt.Appendf(nil, head+"%s", "The "+name, body)}
	}
	m, _, err := manual.Read(t.Context(), fsys)
	if err != nil {
		t.Fatal(err)
	}
	_, got, _ := strings.Cut(edition(t, m)["book/wash.html"], `id="procedures.a"`)
	got, _, _ = strings.Cut(got, `<section class="leaf"`)
	const see = "\u00a0"
	for _, want := range []string{
		`See <a href="#procedures.b">b</a> <span class="see">(see` + see + `3.2)</span>, again <a href="#procedures.b">b</a>, then <a href="#procedures.c">c</a> <span class="see">(see` + see + `3.3)</span> and <a href="#procedures.b.deep">b</a> <span class="see">(see` + see + `3.2)</span>.`,
		`<h2 id="procedures.a.first">First</h2>`, `<h4 id="procedures.a.quoted">Quoted</h4>`, `<h6 id="procedures.a.deep">Deep</h6>`,
		`<a href="#procedures.a">Itself</a>, <a href="#procedures.a.deep">a place</a>, <a href="https://example.org/?a=1&amp;b=2">bare</a>.`,
		`<code>&lt;dl class=&quot;facts&quot;&gt;</code> and &lt;p class=&quot;kind&quot;&gt;`,
		`aria-label="3.1 Table 1"`, `<th><a href="#procedures.b">b</a> <span class="see">(3.2)</span></th>`, `<td><a href="#procedures.c">c</a> <span class="see">(3.3)</span>, <a href="#procedures.c">c</a></td>`,
		`<section class="sum" id="procedures.a.sum-dilution">`, `class="sum-value"`, "kept",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("the sheet lacks %s", want)
		}
	}
	for _, never := range []string{"<form", "<button", "<details", "data-sum", `loading="lazy"`, "<h1 id"} {
		if strings.Contains(got, never) {
			t.Errorf("the sheet has %s", never)
		}
	}
	if t.Failed() {
		t.Log(got)
	}
}
