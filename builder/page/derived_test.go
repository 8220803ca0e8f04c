package page

import (
	"io/fs"
	"os"
	"path"
	"regexp"
	"strings"
	"sync"
	"testing"
	"testing/fstest"

	"tankside/builder/decide/admit"
	"tankside/builder/decide/admit/markup"
	"tankside/builder/edition"
	"tankside/builder/manual"
	"tankside/themes"
)

// rendered renders a manual's pages and gives them with the site that they are of.
func rendered(t *testing.T, folder fs.FS) (*site, map[string]string) {
	t.Helper()
	m, _, err := manual.Read(t.Context(), folder)
	if err != nil {
		t.Fatal(err)
	}
	files, add := collecting()
	s, err := newSite(Input{Manual: m, Theme: themes.New(nil), Mark: edition.Mark{Edition: 1, Date: "2026-12-01", Code: "234-567-89A"}, Day: "2026-12-01"}, add)
	if err != nil {
		t.Fatal(err)
	}
	for _, j := range s.pages() {
		if err := j.render(add); err != nil {
			t.Fatalf("%s: %v", j.path, err)
		}
	}
	return s, files
}

func demo(t *testing.T) (*site, map[string]string) {
	t.Helper()
	return rendered(t, os.DirFS("../../content"))
}

var (
	cells   = regexp.MustCompile(`<td[^>]*>(.*?)</td>`)
	rowHead = regexp.MustCompile(`<tr><th scope="row">`)
	hrefs   = regexp.MustCompile(`href="([^"]*)"`)
)

// Every cell of the tables says what the answer to its question says, and leads to a place that exists.
func TestTablesSayWhatTheAnswersSay(t *testing.T) {
	s, files := demo(t)
	for page, baths := range map[string][]*admit.Bath{"tables/materials-tanks.html": s.tankBaths(), "tables/chemistries-materials.html": s.chemistries()} {
		rows := rowHead.Split(files[page], -1)[1:]
		if len(rows) != len(s.sheet.Table.Materials) {
			t.Fatalf("%s has %d rows for %d materials", page, len(rows), len(s.sheet.Table.Materials))
		}
		for i, row := range rows {
			m := s.sheet.Table.Materials[i]
			found := cells.FindAllStringSubmatch(row, -1)
			if len(found) != len(baths) {
				t.Fatalf("%s, %s: %d cells for %d baths", page, m.Title, len(found), len(baths))
			}
			for j, b := range baths {
				a, err := s.sheet.Table.Answer(admit.Question{Materials: []string{m.Name}, Bath: b.Name})
				if err != nil {
					t.Fatal(err)
				}
				cell := found[j][0]
				if !strings.Contains(cell, `<td class="`+string(a.Verdict)+`">`) || !strings.Contains(cell, ">"+markup.Marks[a.Verdict]+"<") {
					t.Errorf("%s, %s in %s is %s, the cell says %s", page, m.Title, b.Title, a.Verdict, cell)
				}
				if a.Verdict != admit.Yes && !strings.Contains(cell, `class="note"`) {
					t.Errorf("%s, %s in %s: the cell does not say why", page, m.Title, b.Title)
				}
				leads(t, files, page, cell)
			}
		}
	}
	soils := files["tables/soils-chemistries.html"]
	for _, want := range []string{`id="wax.mild-alkaline"`, `href="#wax.mild-alkaline"`} {
		if !strings.Contains(soils, want) {
			t.Errorf("soils × chemistries lacks %s", want)
		}
	}
	if strings.Contains(soils, `id="wax.neutral-detergent"`) {
		t.Error("neutral detergent is said to lift wax")
	}
	if i := strings.Index(soils, `id="wax.mild-alkaline"`); !strings.Contains(strings.ReplaceAll(soils[i:i+600], "\u00a0", " "), "65–70 °C") {
		t.Error("the window in which wax is lifted does not stand beside it")
	}
}

// leads checks that the links of a piece of a page name a page that is there, and an anchor in it.
func leads(t *testing.T, files map[string]string, page, html string) {
	t.Helper()
	for _, h := range hrefs.FindAllStringSubmatch(html, -1) {
		file, anchor, in := strings.Cut(h[1], "#")
		target := page
		if file != "" {
			target = path.Join(path.Dir(page), file)
		}
		content, is := files[target]
		if !is {
			t.Errorf("%s: %s leads to no page", page, h[1])
		} else if in && !strings.Contains(content, `id="`+anchor+`"`) {
			t.Errorf("%s: %s leads to no place of its page", page, h[1])
		}
	}
}

// The lists of the tables, tanks and materials lead to places that exist.
func TestReasonsLeadToTheirArticles(t *testing.T) {
	s, files := demo(t)
	for _, page := range []string{"tables/soils-chemistries.html", "tables/chemistries-materials.html", "tables/materials-tanks.html", markup.Page} {
		for _, part := range strings.Split(files[page], `<section class="suit-row"`)[1:] {
			leads(t, files, page, asking.ReplaceAllString(part, ""))
		}
	}
	baths := s.sheet.Table.Baths()
	for i := range baths {
		b := &baths[i]
		for _, m := range s.sheet.Table.Materials {
			html := s.sheet.Answer(admit.Question{Materials: []string{m.Name}, Bath: b.Name})
			leads(t, files, markup.Page, askAbout.ReplaceAllString(html, ""))
		}
	}
}

// Links that ask carry a question, which is no place of the page.
var (
	asking   = regexp.MustCompile(`<a class="asking".*?</a>`)
	askAbout = regexp.MustCompile(`href="may-it-go-in\.html#[^"]*"`)
)

// The page of a tank says what it may and may not take and why; that of a material where it may go; both, what else to see.
func TestTanksAndMaterialsSayWhatMayGoIn(t *testing.T) {
	_, files := demo(t)
	_, tank, _ := strings.Cut(files["tanks/wash-1.html"], `id="at.suits"`)
	_, tank, _ = strings.Cut(tank, "</summary>") // which counts them
	no, yes := strings.Index(tank, "Must not go in"), strings.Index(tank, "May go in")
	brass, steel := strings.Index(tank, ">Brass</a>: <span class=\"fact\">The bath of mild alkaline cleaner is pH 9–11, but the limit of brass is pH 6–9.5."), strings.Index(tank, ">Carbon and low-alloy steel</a>: <span class=\"fact\">≤")
	if no < 0 || yes < 0 || !(no < brass && brass < yes && yes < steel) {
		t.Errorf("no at %d, brass with its reason at %d, yes at %d, steel at %d", no, brass, yes, steel)
	}
	material := files["materials/brass.html"]
	for _, want := range []string{`href="../may-it-go-in.html#material=brass&amp;bath=wash-2">Wash 2</a>: <span class="fact">`, `<h2>See also</h2>`, `<h2>Where it is used</h2>`, "Chemistries by themselves"} {
		if !strings.Contains(material, want) {
			t.Errorf("the page of brass lacks %s", want)
		}
	}
	for _, page := range []string{"index.html", "materials/index.html", "chemistries/index.html", "soils/index.html"} {
		if !strings.Contains(files[page], "tables/") {
			t.Errorf("%s leads to no table", page)
		}
	}
}

// A manual without materials, soils or chemistries has none of these pages and no links to them; a tank without chemistry says that
// nothing can be said of it.
func TestNothingToDerive(t *testing.T) {
	const shop = "name: Small Shop\nnote: An invented shop.\nlanguage: en\nunits: SI\ntanks:\n  - {id: wash-1, name: Wash 1, volume: 120 L}\n"
	s, files := rendered(t, fstest.MapFS{"shop.yaml": {Data: []byte(shop)}})
	for name, content := range files {
		if strings.HasPrefix(name, "tables/") || name == markup.Page || strings.Contains(name, "admit-") && !strings.Contains(name, "admit.") {
			t.Errorf("there is %s", name)
		}
		if strings.HasSuffix(name, ".html") && strings.Contains(content, markup.Page) {
			t.Errorf("%s links a page that is not there", name)
		}
	}
	if s.asks() {
		t.Error("there is nothing to ask")
	}
	const material = "---\ntitle: Steel\nsummary: Iron.\nstation: wash\nrevision: A\nmade-of: [carbon-steel]\nph: 9–13\n---\n\nText.\n"
	_, files = rendered(t, fstest.MapFS{"shop.yaml": {Data: []byte(shop)}, "materials/steel.md": {Data: []byte(material)}})
	if !strings.Contains(files["tanks/wash-1.html"], "names no chemistry of this manual") {
		t.Error("of a tank without chemistry the page does not say that nothing can be said")
	}
}

// Each reason has a word for a narrow cell.
func TestEveryReasonHasAWord(t *testing.T) {
	_, files := demo(t)
	if page := files["tables/chemistries-materials.html"]; strings.Contains(page, "see why") {
		i := strings.Index(page, "see why")
		t.Errorf("a rule has no word for a narrow cell: %s", page[max(0, i-300):i+40])
	}
}

// collecting gives a place for files, and what puts them there.
func collecting() (map[string]string, Sink) {
	var lock sync.Mutex
	files := map[string]string{}
	return files, func(path string, data []byte) error {
		lock.Lock()
		defer lock.Unlock()
		files[path] = string(data)
		return nil
	}
}
