package markup_test

import (
	"cmp"
	"maps"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"tankside/builder/admit"
	"tankside/builder/admit/markup"
	"tankside/builder/manual"
	"tankside/builder/relate"
	"tankside/calculators/language/marked"
	"tankside/calculators/quantity"
)

var (
	tags    = regexp.MustCompile(`<[^>]*>`)
	ofAlone = regexp.MustCompile(`(?s)<section class="careful">.*?</section>`) // what articles say of safety, in their own language
)

// Nothing of an answer is said but with the words of the language: reasons, conditions, recipe, what is read out. What is left are the
// manual's own titles, and units.
func TestNothingIsSaidWithoutWords(t *testing.T) {
	m, _, err := manual.Read(t.Context(), os.DirFS("../../../content"))
	if err != nil {
		t.Fatal(err)
	}
	mishandle(m)
	table := relate.Table(m)
	table.Soils = append(table.Soils, admit.Item{Name: "mud", Title: "Mud", Path: "soils/mud.md"}) // which nothing lifts
	marks := marked.New(slices.Sorted(maps.Keys(marked.Read(t, "words/en.yaml"))))
	s := markup.Sheet{Table: table, Words: marks.Words}
	var titles []string
	for _, items := range [][]admit.Item{table.Materials, table.Soils} {
		for _, x := range items {
			titles = append(titles, x.Title)
		}
	}
	for i := range table.Baths {
		titles = append(titles, table.Baths[i].Title, table.Baths[i].Chemistry)
	}
	slices.SortFunc(titles, func(a, b string) int { return cmp.Compare(len(b), len(a)) }) // one may be part of another
	for _, title := range titles {
		titles = append(titles, strings.ToLower(title[:1])+title[1:])
	}
	abbreviations := []string{"ABS", "PVC", "PTFE", "PEEK", "EPDM", "NBR", "FKM", "MEMS", "PCB"}
	check := func(text string) {
		if left := marks.Unsaid(text, slices.Concat(titles, abbreviations)...); left != "" {
			t.Fatalf("%q is said without words: %s", left, text)
		}
	}
	for i, x := range table.Materials {
		for j, b := range table.Baths {
			q := admit.Question{Materials: []string{x.Name}, Bath: b.Name}
			switch {
			case x.Name == "glass":
			case (i+j)%4 == 0:
				q.Materials = append(q.Materials, table.Materials[(i+j+7)%len(table.Materials)].Name)
			case (i+j)%4 < 3:
				q.Soil = table.Soils[(i*7+j)%len(table.Soils)].Name
			}
			check(tags.ReplaceAllString(ofAlone.ReplaceAllString(s.Answer(q), ""), "\n"))
			check(s.Spoken(q, quantity.US))
		}
	}
	needed := map[string]bool{}
	table.Phrases(func(p string) { needed[p] = true })
	for i, p := range marks.Phrases {
		if needed[p] && strings.HasSuffix(p, ".") && !marks.Said[i] {
			t.Errorf("these answers never come to %q, so nobody has looked what is said there", p)
		}
		delete(needed, p)
	}
	for p := range needed {
		t.Errorf("words/en.yaml lacks %q", p)
	}
}

// mishandle adds to the shop a tank of each chemistry in which everything is wrong: it is too hot, the frequency is low, and it is not built
// for flammable liquids; and to glass a rubber.
func mishandle(m *manual.Manual) {
	glass := m.Named(manual.Material, "glass").Material
	glass.MadeOf = append(glass.MadeOf, manual.Ref{Name: "nbr"})
	shop := m.Shop.Tanks[0]
	for _, a := range m.Articles {
		if a.Kind != manual.Chemistry {
			continue
		}
		wrong := shop
		wrong.ID, wrong.Name, wrong.Chemistry.Name, wrong.Flammables = "wrong-"+a.Name, "Wrong "+a.Name, a.Name, false
		wrong.Temperature.Low, wrong.Temperature.High = 85, 85
		wrong.Frequency.Low, wrong.Frequency.High = 25e3, 25e3
		m.Shop.Tanks = append(m.Shop.Tanks, wrong)
	}
}
