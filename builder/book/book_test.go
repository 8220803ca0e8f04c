package book

import (
	"fmt"
	"html"
	"io/fs"
	"os"
	"path"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"
	"testing/fstest"

	marks "tankside/builder/edition"
	"tankside/builder/manual"
	"tankside/builder/page"
	"tankside/themes"
)

// edition renders the pages of a manual, the book and the cards among them.
func edition(t *testing.T, m *manual.Manual) map[string]string {
	t.Helper()
	files, err := editionWith(t, m, nil)
	if err != nil {
		t.Fatal(err)
	}
	return files
}

// editionWith is edition with files of the shop's own in the theme.
func editionWith(t *testing.T, m *manual.Manual, own fs.FS) (map[string]string, error) {
	t.Helper()
	var lock sync.Mutex
	files := map[string]string{}
	in := page.Input{Manual: m, Theme: themes.New(own), Mark: marks.Mark{Edition: 7, Date: "2026-12-01", Code: "234-567-89A"}, Day: "2026-12-01", Beside: Sheets}
	_, err := page.Render(t.Context(), in, func(path string, data []byte) error {
		lock.Lock()
		defer lock.Unlock()
		files[path] = string(data)
		return nil
	})
	return files, err
}

var demo = struct {
	sync.Once
	manual *manual.Manual
	files  map[string]string
}{}

func demoEdition(t *testing.T) (*manual.Manual, map[string]string) {
	t.Helper()
	demo.Do(func() {
		m, _, err := manual.Read(t.Context(), os.DirFS("../../content"))
		if err != nil {
			t.Fatal(err)
		}
		demo.manual, demo.files = m, edition(t, m)
	})
	if demo.files == nil {
		t.Fatal("the demo manual was not rendered")
	}
	return demo.manual, demo.files
}

// ours are the files of the book and of the cards.
func ours(files map[string]string) map[string]string {
	list := map[string]string{}
	for name, text := range files {
		if strings.HasPrefix(name, folder) || name == cover || name == page.CardsPage {
			_, text, _ = strings.Cut(text, "<main")
			text, _, _ = strings.Cut(text, "</main>")
			list[name] = text
		}
	}
	return list
}

var (
	anyID    = regexp.MustCompile(` id="([^"]*)"`)
	anyLink  = regexp.MustCompile(`<a [^>]*href="([^"]*)"[^>]*>`)
	anyImage = regexp.MustCompile(` src="([^"]*)"`)
	titled   = regexp.MustCompile(`<section class="leaf" id="([^"]*)">(?s:.*?)<h2 class="leaf-title"><span class="section-number">([^<]*)</span> ([^<]*)</h2>`)
	numbered = regexp.MustCompile(`<a href="([^"]*)"[^>]*>([^<]*)</a> <span class="see">\((?:see\x{a0})?([0-9.]+)\)</span>`)
	listed   = regexp.MustCompile(`<li><a href="([^"]*)"><span class="section-number">([^<]*)</span> ([^<]*)</a></li>`)
)

// Every link and picture of the book leads to a file of the edition, and to a place in it; no place has two things of one name.
func TestEveryLinkOfTheBookLeadsSomewhere(t *testing.T) {
	_, files := demoEdition(t)
	ids := map[string]bool{}
	for name, text := range files {
		seen := map[string]bool{}
		for _, m := range anyID.FindAllStringSubmatch(text, -1) {
			if seen[m[1]] {
				t.Errorf("%s has two of the name %s", name, m[1])
			}
			seen[m[1]], ids[name+"#"+html.UnescapeString(m[1])] = true, true
		}
	}
	links := 0
	for name, text := range ours(files) {
		for _, m := range slices.Concat(anyLink.FindAllStringSubmatch(text, -1), anyImage.FindAllStringSubmatch(text, -1)) {
			target, fragment, named := strings.Cut(html.UnescapeString(m[1]), "#")
			if strings.HasPrefix(target, "https:") {
				continue
			}
			links++
			to := name
			if target != "" {
				to = path.Join(path.Dir(name), target)
			}
			if _, there := files[to]; !there {
				t.Errorf("%s: %s leads to no file", name, m[1])
			} else if named && strings.HasSuffix(to, ".html") && !ids[to+"#"+fragment] && !strings.Contains(fragment, "=") {
				t.Errorf("%s: %s leads to no place", name, m[1])
			}
		}
	}
	if links < 2000 {
		t.Errorf("only %d links were looked at", links)
	}
}

// Every article is in the book once, under the number that the contents give, in the file of its station; a number beside a link is that of the
// section which the link leads to.
func TestNumbersOfSections(t *testing.T) {
	m, files := demoEdition(t)
	numbers, titles := map[string]string{}, map[string]string{}
	for name, text := range ours(files) {
		for _, leaf := range titled.FindAllStringSubmatch(text, -1) {
			numbers[name+"#"+leaf[1]], titles[name+"#"+leaf[1]] = leaf[2], leaf[3]
		}
	}
	for _, a := range m.Articles {
		file := string(a.Head.Station)
		if a.Kind == manual.Lesson {
			file = a.Kind.Folder()
		}
		at := folder + file + ".html#" + a.Kind.Folder() + "." + a.Name
		if numbers[at] == "" || html.UnescapeString(titles[at]) != a.Head.Title {
			t.Errorf("%s: the book has %q under the number %q at %s", a.Path, titles[at], numbers[at], at)
		}
	}
	contents := listed.FindAllStringSubmatch(files[cover], -1)
	if len(contents) < m.Count() {
		t.Errorf("the contents list %d sections for %d articles", len(contents), m.Count())
	}
	for _, c := range contents {
		if numbers[c[1]] != c[2] || titles[c[1]] != c[3] {
			t.Errorf("the contents call %s %s %s; it is %s %s", c[1], c[2], c[3], numbers[c[1]], titles[c[1]])
		}
	}
	beside := 0
	for name, text := range ours(files) {
		for _, l := range numbered.FindAllStringSubmatch(text, -1) {
			target, fragment, _ := strings.Cut(l[1], "#")
			at := name
			if target != "" {
				at = path.Join(path.Dir(name), target)
			}
			section := strings.Join(strings.SplitN(fragment, ".", 3)[:2], ".")
			if numbers[at+"#"+section] != l[3] {
				t.Errorf("%s: “%s” leads to %s, which is %s, and %s stands beside it", name, l[2], l[1], numbers[at+"#"+section], l[3])
			}
			beside++
		}
	}
	if beside < 500 {
		t.Errorf("only %d links have the number of a section", beside)
	}
}

// Every no and every condition in the broad table, and every yes with something to keep to, has the number of its reason, and the reason of that number is about that cell.
func TestReasonsAreNumbered(t *testing.T) {
	_, files := demoEdition(t)
	_, text, _ := strings.Cut(files["book/tables.html"], `id="tables.chemistries-materials"`)
	text, _, _ = strings.Cut(text, `<section class="leaf"`)
	reasons := map[string]string{}
	for _, m := range regexp.MustCompile(`<li id="([^"]*)"><b class="note-number">(\d+)</b> <a [^>]*>[^<]*</a>[^:]*: <a class="fact"`).FindAllStringSubmatch(text, -1) {
		reasons[m[1]] = m[2]
	}
	for i, m := range regexp.MustCompile(`<td class="(no|conditions|yes)"><a href="#([^"]*)">.*?</a>(?:<sup class="note-mark">(\d+)</sup>)?</td>`).FindAllStringSubmatch(text, -1) {
		if m[3] == "" && m[1] != "yes" || reasons[m[2]] != m[3] {
			t.Errorf("cell %d (%s, %s) has the number %q; its reason has %q", i, m[1], m[2], m[3], reasons[m[2]])
		}
		delete(reasons, m[2])
	}
	if len(reasons) > 0 {
		t.Errorf("%d reasons belong to no cell", len(reasons))
	}
	if !strings.Contains(text, `<sup class="note-mark">200</sup>`) {
		t.Error("the demo's table has less than 200 reasons")
	}
}

// A chapter that grows beyond a file goes on in the next, with its numbers; beyond what anybody prints there is no book, and the page says so.
func TestLargeManuals(t *testing.T) {
	read := func(articles int) *manual.Manual {
		fsys := fstest.MapFS{"shop.yaml": {Data: []byte("name: Shop\nroles: [engineer]\n")}}
		for i := range articles {
			fsys[fmt.Sprintf("procedures/article-%04d.md", i)] = &fstest.MapFile{Data: fmt.Appendf(nil, "---\ntitle: Article %04d\nsummary: One.\nstation: wash\nrevision: A\n"+
				"approved: 2026-09-14, engineer\nreview-by: 2027-09-14\nsources: [common practice]\n---\nText, see [the last](article-%04d.md).\n", i, articles-1)}
		}
		m, _, err := manual.Read(t.Context(), fsys)
		if err != nil {
			t.Fatal(err)
		}
		return m
	}
	files := edition(t, read(FileSize+1))
	if n := strings.Count(files["book/wash.html"], `<section class="leaf"`); n != FileSize {
		t.Errorf("the first file has %d articles", n)
	}
	second := files["book/wash-2.html"]
	if !strings.Contains(second, fmt.Sprintf(`<span class="section-number">3.%d</span> Article %04d</h2>`, FileSize+1, FileSize)) || strings.Count(second, `<section class="leaf"`) != 1 {
		t.Errorf("the second file is %.2000s", second)
	}
	if want := fmt.Sprintf(`<a href="../book/wash-2.html#procedures.article-%04d">the last</a> <span class="see">(see`+"\u00a0"+`3.%d)`, FileSize, FileSize+1); !strings.Contains(files["book/wash.html"], want) {
		t.Errorf("a link from the first file to the second is not %s", want)
	}
	files = edition(t, read(MostArticles+1))
	for name := range ours(files) {
		if strings.HasPrefix(name, folder) {
			t.Errorf("a manual of more than %d articles has %s", MostArticles, name)
		}
	}
	if !strings.Contains(files[cover], fmt.Sprintf("This manual has %d articles: too many for a book.", MostArticles+1)) {
		t.Error("the page does not say why there is no book")
	}
}
