package book

import (
	"html"
	"os"
	"regexp"
	"strings"
	"testing"

	"tankside/builder/decide/admit"
	"tankside/builder/decide/admit/markup"
	"tankside/builder/decide/relate"
	"tankside/builder/manual"
	"tankside/builder/quantity"
)

var cellOf = regexp.MustCompile(`<td class="(yes|conditions|no)"><a href="([^"]*)">(.*?)</a>`)

// cells reads the cells of a table by the address to which each leads, without the page.
func cells(text string) map[string][2]string {
	list := map[string][2]string{}
	for _, m := range cellOf.FindAllStringSubmatch(text, -1) {
		_, key, _ := strings.Cut(html.UnescapeString(m[2]), "#")
		list[key] = [2]string{m[1], said(m[3])}
	}
	return list
}

var (
	groupOf = regexp.MustCompile(`(?s)<div class="suit-group"><[^>]*class="suit-verdict"><span class="verdict-mark" aria-hidden="true">(.)</span>.*?</div>`)
	itemOf  = regexp.MustCompile(`(?s)<li[^>]*><a href="([^"]*)"[^>]*>(.*?)</li>`)
	verdict = map[string]string{"✓": "yes", "◐": "conditions", "✕": "no"}
)

// verdictsOn reads the lists of verdicts on a page by the question that each item asks.
func verdictsOn(text string) map[string][2]string {
	list := map[string][2]string{}
	for _, g := range groupOf.FindAllStringSubmatch(text, -1) {
		for _, item := range itemOf.FindAllStringSubmatch(g[0], -1) {
			if _, key, asks := strings.Cut(html.UnescapeString(item[1]), markup.Page+"#"); asks {
				list[key] = [2]string{verdict[g[1]], said(item[2])}
			}
		}
	}
	return list
}

// rowItem is what a list with reasons in full says at an anchor, with the mark of the group it stands in.
func rowItem(text, anchor string) (string, string) {
	before, after, found := strings.Cut(text, `id="`+html.EscapeString(anchor)+`"`)
	if !found {
		return "", ""
	}
	i := strings.LastIndex(before, `<span class="verdict-mark" aria-hidden="true">`)
	mark := []rune(before[i+len(`<span class="verdict-mark" aria-hidden="true">`):])[0]
	after, _, _ = strings.Cut(after, "</li>")
	return verdict[string(mark)], said(after)
}

// One decision: whatever the answer to a question is, every place of the edition that says something of it has the same verdict with every
// condition: the tables, the lists of tanks and materials, the page without scripts, what the browser answers, and the same on paper.
func TestEveryPlaceSaysTheSame(t *testing.T) {
	m, files := demoEdition(t)
	table := relate.Table(m)
	sheet := markup.Sheet{Table: table}
	browser, err := markup.Unpack(sheet.Pack())
	if err != nil {
		t.Fatal(err)
	}
	tanks, chemistries := cells(files["tables/materials-tanks.html"]), cells(files["tables/chemistries-materials.html"])
	onPaper := cells(files["book/tables.html"])
	pairs, kept := 0, 0
	check := func(where, question string, a admit.Answer, got [2]string, full bool) {
		t.Helper()
		pairs++
		if got[0] != string(a.Verdict) {
			t.Errorf("%s: %s is %s, and it says %q", where, question, a.Verdict, got[0])
			return
		}
		keep := strings.ReplaceAll(a.Brief(nil, quantity.SI), "\u00a0", " ")
		if !full {
			if keep != "" && !strings.HasSuffix(got[1], keep) {
				t.Errorf("%s: %s has the conditions %q, and it says %q", where, question, keep, got[1])
			}
			return
		}
		for _, r := range a.Reasons {
			if text := strings.ReplaceAll(r.Text, "\u00a0", " "); r.Keeps() && !strings.Contains(got[1], text) {
				t.Errorf("%s: %s: it does not say %q", where, question, text)
			}
			if r.Keeps() {
				kept++
			}
		}
	}
	for i := range table.Materials {
		material := &table.Materials[i]
		lists := verdictsOn(files[strings.TrimSuffix(material.Path, ".md")+".html"])
		for _, b := range table.Baths() {
			q := admit.Question{Materials: []string{material.Name}, Bath: b.Name}
			a, err := table.Answer(q)
			if err != nil {
				t.Fatal(err)
			}
			name, key := material.Name+" × "+b.Name, markup.Key(q)
			check("page of the material", name, a, lists[key], false)
			answer := browser.Answer(q)
			check("browser", name, a, [2]string{regexp.MustCompile(`class="verdict (\w+)"`).FindStringSubmatch(answer)[1], said(answer)}, true)
			if b.Tank != nil {
				check("table of tanks", name, a, tanks[key], false)
				check("table of tanks on paper", name, a, onPaper[key], false)
				check("page of the tank", name, a, verdictsOn(files["tanks/"+b.Name+".html"])[key], false)
				v, text := rowItem(files[markup.Page], key)
				check("page without scripts", name, a, [2]string{v, text}, true)
				v, text = rowItem(files["tables/materials-tanks.html"], material.Name+"."+b.Name)
				check("list of the table of tanks", name, a, [2]string{v, text}, true)
				continue
			}
			check("table of chemistries", name, a, chemistries[material.Name+"."+b.Name], false)
			check("table of chemistries on paper", name, a, onPaper["tables.chemistries-materials."+material.Name+"."+b.Name], false)
			v, text := rowItem(files["tables/chemistries-materials.html"], material.Name+"."+b.Name)
			check("list of the table of chemistries", name, a, [2]string{v, text}, true)
		}
	}
	soils := cells(files["tables/soils-chemistries.html"])
	for i := range table.Soils {
		for j := range table.Chemistries {
			soil, chemistry := &table.Soils[i], &table.Chemistries[j]
			key := soil.Name + "." + chemistry.Name
			a, err := table.Answer(admit.Question{Soil: soil.Name, Bath: chemistry.Name})
			if err != nil {
				t.Fatal(err)
			}
			if _, lifts := admit.Lifts(chemistry, soil); !lifts {
				if a.Verdict != admit.No || soils[key][0] != "" {
					t.Errorf("%s is %s, and the table says %q", key, a.Verdict, soils[key][0])
				}
				continue
			}
			check("table of soils", key, a, soils[key], false)
			v, text := rowItem(files["tables/soils-chemistries.html"], key)
			check("list of the table of soils", key, a, [2]string{v, text}, true)
			for _, path := range []string{soil.Path, chemistry.Path} {
				page := said(files[strings.TrimSuffix(path, ".md")+".html"])
				for _, r := range a.Reasons {
					if brief := r.Brief.Within(nil, a.System); r.Verdict == admit.Conditions && r.Keeps() && !strings.Contains(page, strings.ReplaceAll(brief, "\u00a0", " ")) {
						t.Errorf("%s: %s: it does not say %q", path, key, brief)
					}
				}
			}
		}
	}
	for i := range table.Parts {
		part := &table.Parts[i]
		a, err := table.Sheet(part.Name)
		if err != nil {
			t.Fatal(err)
		}
		for file, from := range map[string]string{strings.TrimSuffix(part.Path, ".md") + ".html": part.Title, "book/wash.html": `<section class="leaf" id="parts.` + part.Name + `"`} {
			_, text, found := strings.Cut(files[file], from)
			_, text, sheeted := strings.Cut(text, "By this process sheet")
			text, _, _ = strings.Cut(text, "</section>")
			if !found || !sheeted {
				t.Errorf("%s says nothing of %s", file, part.Name)
				continue
			}
			check(file, part.Name, a, [2]string{verdict[regexp.MustCompile(`aria-hidden="true">(.)</span>`).FindStringSubmatch(text)[1]], said(text)}, true)
		}
	}
	if pairs < 4000 || kept < 1400 {
		t.Errorf("only %d verdicts and %d conditions were compared", pairs, kept)
	}
	t.Logf("%d verdicts, %d conditions in full", pairs, kept)
}

// What a material of the demo asks of Wash 1 stands on its card, all of it.
func TestZincInWashOneIsToldInFull(t *testing.T) {
	m, _, err := manual.Read(t.Context(), os.DirFS("../../content"))
	if err != nil {
		t.Fatal(err)
	}
	a, err := relate.Table(m).Answer(admit.Question{Materials: []string{"zinc-and-galvanised"}, Bath: "wash-1"})
	if err != nil {
		t.Fatal(err)
	}
	keep := strings.ReplaceAll(a.Brief(nil, quantity.SI), "\u00a0", " ")
	for _, want := range []string{"pH 9–10", "50–55 °C", "≤ 3 min"} {
		if a.Verdict != admit.Conditions || !strings.Contains(keep, want) {
			t.Errorf("%s: %q lacks %s", a.Verdict, keep, want)
		}
	}
}
