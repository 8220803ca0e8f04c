package markup_test

import (
	"cmp"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"tankside/builder/decide/admit"
	"tankside/builder/decide/admit/markup"
	"tankside/builder/decide/fact"
	"tankside/builder/decide/relate"
	"tankside/builder/finding"
	"tankside/builder/language/marked"
	"tankside/builder/manual"
	"tankside/builder/quantity"
)

var (
	tags    = regexp.MustCompile(`<[^>]*>`)
	ofAlone = regexp.MustCompile(`(?s)<section class="careful">.*?</section>`) // what articles say of safety, in their own language
)

// Nothing of an answer is said but with the words of the language: reasons, conditions, recipe, what is read out. What is left are the
// manual's own titles, and units.
func TestNothingIsSaidWithoutWords(t *testing.T) {
	m, _, err := manual.Read(t.Context(), os.DirFS("../../../../content"))
	if err != nil {
		t.Fatal(err)
	}
	mishandle(m)
	table := relate.Table(m)
	forget(table)
	table.Soils = append(table.Soils, admit.Soil{Item: admit.Item{Name: "mud", Title: "Mud", Path: "soils/mud.md"}}) // which nothing lifts
	marks := marked.New(marked.Phrases(t, "words/es.yaml"))
	s := markup.Sheet{Table: table, Words: marks.Words}
	var titles []string
	for _, items := range [][]admit.Item{table.MaterialItems(), table.SoilItems()} {
		for _, x := range items {
			titles = append(titles, x.Title)
		}
	}
	baths := table.Baths()
	for i := range baths {
		titles = append(titles, baths[i].Title, baths[i].Chemistry.Title)
	}
	for _, p := range table.Parts {
		titles = append(titles, p.Title)
	}
	for i := range table.Rinses {
		titles = append(titles, table.Rinses[i].Rinse.Name)
	}
	for i := range table.Tanks {
		titles = append(titles, table.Tanks[i].Tank.Name)
	}
	titles = append(titles, "Wrong sharp", "Wrong blind", "Wrong dryer", "oddium", "riddlium", "Riddle", "Tube", "nowhere", "everywhere", "nothing")
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
		for j, b := range baths {
			if i < 36 && (i+j)%3 > 0 {
				continue // a third of what the demo has says all of it
			}
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
	for _, p := range table.Parts {
		answer, err := table.Sheet(p.Name)
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range answer.Reasons {
			check(r.Says.In(s.Words, quantity.SI) + "\n" + r.Brief.In(s.Words, quantity.US))
		}
	}
	table.Dryer.Temperature = fact.Limit{}
	answer, err := table.Sheet("patient")
	if err != nil {
		t.Fatal(err)
	}
	if answer.Verdict == admit.No {
		t.Errorf("the sheet of many conditions is refused: %v", answer.Reasons)
	}
	for _, r := range answer.Reasons {
		check(r.Says.In(s.Words, quantity.SI))
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
		t.Errorf("words/es.yaml lacks %q", p)
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
		wrong.DragOut = fact.Limit{Range: quantity.Range{Kind: quantity.Flow}, Set: true} // nothing of it drips into the rinses
		m.Shop.Tanks = append(m.Shop.Tanks, wrong)
	}
}

// forget makes of a table one in which much is missing or goes wrong that no shop would have at once: vessels of which nothing is known, jars,
// a tank that warms itself, rinses that bite, and parts that go through them one after the other.
func forget(t *admit.Table) {
	quick := func(text string, kinds ...quantity.Kind) fact.Limit {
		r, err := quantity.ParseRange(text, kinds...)
		if err != nil {
			panic(err)
		}
		return fact.Limit{Range: r, Set: true, At: finding.Place{File: "shop.yaml", Line: 1}}
	}
	ref := func(names ...string) (list []fact.Ref) {
		for _, n := range names {
			list = append(list, fact.Ref{Name: n, At: finding.Place{File: "shop.yaml", Line: 1}})
		}
		return list
	}
	chemistry := func(name, title string, c fact.Chemistry) {
		t.Chemistries = append(t.Chemistries, admit.Chemistry{Item: admit.Item{Name: name, Title: title, Path: "chemistries/" + name + ".md"}, Chemistry: c})
	}
	ph, warm := quick("6–8", quantity.PH), quick("20 °C", quantity.Temperature)
	chemistry("spirit", "Spirit", fact.Chemistry{PH: ph, Window: fact.Window{Temperature: quick("15–25 °C", quantity.Temperature), Time: quick("20–60 min", quantity.Time)}, Hazards: ref("H225"), Contains: ref("alcohol"), Removes: ref("wax")})
	chemistry("strange", "Strange", fact.Chemistry{Contains: []fact.Ref{{Name: "oddium", Unchecked: true}}, Window: fact.Window{Strength: quick("5 g/L", quantity.MassConcentration)}, Removes: ref("wax")})
	chemistry("ferment", "Ferment", fact.Chemistry{PH: quick("8–10", quantity.PH), Window: fact.Window{Temperature: warm}, Contains: ref("enzyme")})
	chemistry("brine", "Brine", fact.Chemistry{PH: ph, Window: fact.Window{Temperature: warm, Strength: quick("2 % v/v", quantity.VolumeFraction)}, Contains: ref("chloride")})
	chemistry("bleach", "Bleach", fact.Chemistry{PH: quick("11–12", quantity.PH), Window: fact.Window{Temperature: warm, Strength: quick("900 g/L", quantity.MassConcentration)}, Contains: ref("hypochlorite", "nitrite", "peroxide"), NeverWith: ref("brine", "amine")})
	chemistry("amines", "Amines", fact.Chemistry{PH: ph, Window: fact.Window{Temperature: warm}, Contains: ref("amine", "ammonia")})
	chemistry("sour", "Sour", fact.Chemistry{PH: quick("2–3", quantity.PH), Window: fact.Window{Temperature: warm}, Contains: ref("acid", "cyanide", "sulfide"), Removes: ref("wax"), NeverWith: ref("mercury")})
	chemistry("close", "Close", fact.Chemistry{PH: ph, Window: fact.Window{Temperature: quick("60 °C", quantity.Temperature)}, FlashPoint: quick("70 °C", quantity.Temperature)})
	chemistry("plain", "Plain", fact.Chemistry{PH: ph, Window: fact.Window{Temperature: quick("20–50 °C", quantity.Temperature)}, Removes: ref("wax")})
	tank := func(id string, one fact.Tank) {
		one.ID, one.Name = id, "Wrong "+id
		t.Tanks = append(t.Tanks, admit.Tank{Tank: one, Drift: admit.Drift{Known: true, Ends: 75}, Rinses: []string{"sharp", "blind"}})
	}
	tank("bare", fact.Tank{Chemistry: ref("mild-alkaline")[0]})
	tank("quiet", fact.Tank{Chemistry: ref("neutral-detergent")[0], Temperature: quick("40 °C", quantity.Temperature), Frequency: quick("40 kHz", quantity.Frequency)})
	tank("jar", fact.Tank{Chemistry: ref("spirit")[0], Vessel: fact.Jar, Lid: true, Ventilated: true})
	tank("open", fact.Tank{Chemistry: ref("spirit")[0], Vessel: fact.Jar})
	tank("hot", fact.Tank{Chemistry: ref("spirit")[0], Vessel: fact.Jar, Heater: quick("1 kW", quantity.Power)})
	tank("close", fact.Tank{Chemistry: ref("close")[0], Temperature: quick("65 °C", quantity.Temperature), Flammables: true})
	tank("flame", fact.Tank{Chemistry: ref("spirit")[0], Flammables: true})
	tank("shut", fact.Tank{Chemistry: ref("plain")[0], Lid: true, Temperature: quick("50 °C", quantity.Temperature)})
	tank("mystery", fact.Tank{Chemistry: ref("nothing")[0], Temperature: quick("50 °C", quantity.Temperature)})
	t.Tanks[len(t.Tanks)-1].Drift = admit.Drift{}
	t.Rinses = append(t.Rinses,
		admit.Rinse{Rinse: fact.Rinse{ID: "sharp", Name: "Wrong sharp"}, RunsPH: quick("12–13", quantity.PH), RunsAt: quick("95 °C", quantity.Temperature)},
		admit.Rinse{Rinse: fact.Rinse{ID: "blind", Name: "Wrong blind"}, RunsPH: quick("1–13", quantity.PH), Plain: ph, Missing: admit.Say("not checked")})
	t.Dryer = fact.Dryer{ID: "dryer", Name: "Wrong dryer", Temperature: quick("120 °C", quantity.Temperature)}
	t.Materials = append(t.Materials,
		admit.Material{Item: admit.Item{Name: "riddle", Title: "Riddle", Path: "materials/riddle.md"}, Material: fact.Material{MadeOf: []fact.Ref{{Name: "riddlium", Unchecked: true}}}},
		admit.Material{Item: admit.Item{Name: "chip", Title: "Chip", Path: "materials/chip.md"}, Material: fact.Material{MadeOf: ref("stainless-steel"), Features: ref("mems", "loose-set", "blind-holes"), PH: quick("1–14", quantity.PH), Temperature: quick("≤ 95 °C", quantity.Temperature)}},
		admit.Material{Item: admit.Item{Name: "board", Title: "Board", Path: "materials/board.md"}, Material: fact.Material{MadeOf: ref("stainless-steel"), Features: ref("electronic"), PH: quick("1–14", quantity.PH), Temperature: quick("≤ 95 °C", quantity.Temperature), Frequency: quick("≥ 20 kHz", quantity.Frequency)}},
		admit.Material{Item: admit.Item{Name: "ring", Title: "Ring", Path: "materials/ring.md"}, Material: fact.Material{MadeOf: ref("nbr"), PH: quick("1–14", quantity.PH), Temperature: quick("≤ 95 °C", quantity.Temperature), Frequency: quick("≥ 20 kHz", quantity.Frequency)}},
		admit.Material{Item: admit.Item{Name: "tube", Title: "Tube", Path: "materials/tube.md"}, Material: fact.Material{MadeOf: ref("brass"), PH: quick("1–14", quantity.PH), Temperature: quick("≤ 95 °C", quantity.Temperature),
			Concessions: []fact.Concession{{Chemistry: ref("amines")[0], Rules: ref("ammonia-on-copper-alloy"), By: "Riddle", Reason: "Tube", Window: fact.Window{Temperature: quick("≤ 15 °C", quantity.Temperature)}}}}},
		admit.Material{Item: admit.Item{Name: "inlay", Title: "Inlay", Path: "materials/inlay.md"}, Material: fact.Material{MadeOf: ref("magnesium", "zinc"), Features: ref("blind-holes"), PH: quick("1–14", quantity.PH), Temperature: quick("≤ 95 °C", quantity.Temperature)}},
		admit.Material{Item: admit.Item{Name: "pane", Title: "Pane", Path: "materials/pane.md"}, Material: fact.Material{MadeOf: ref("acrylic"), PH: quick("9–10", quantity.PH), Temperature: quick("≤ 35 °C", quantity.Temperature), Time: quick("≤ 1 min", quantity.Time)}})
	t.Materials = append(t.Materials, admit.Material{Item: admit.Item{Name: "skin", Title: "Skin", Path: "materials/skin.md"}, Material: fact.Material{
		MadeOf: ref("paint"), PH: quick("1–14", quantity.PH), Temperature: quick("≤ 55 °C", quantity.Temperature), Time: quick("≤ 9 min", quantity.Time)}})
	t.Soils = append(t.Soils, admit.Soil{Item: admit.Item{Name: "poison", Title: "Poison", Path: "soils/poison.md"}, Soil: fact.Soil{MayContain: ref("cyanide", "sulfide", "nitrite", "mercury")}})
	part := func(name string, p fact.Part) {
		t.Parts = append(t.Parts, admit.PartSheet{Item: admit.Item{Name: name, Title: "Part " + name, Path: "parts/" + name + ".md"}, Part: p})
	}
	steps := func(names ...string) (list []fact.Step) {
		for _, n := range names {
			tank, chemistry, _ := strings.Cut(n, " ")
			list = append(list, fact.Step{Tank: ref(tank)[0], Chemistry: ref(chemistry)[0]})
		}
		return list
	}
	part("patient", fact.Part{Materials: ref("skin", "oddium"), Steps: steps("jar spirit", "mystery plain", "shut plain"), Dry: ref("dryer")[0]})
	part("nowhere", fact.Part{Steps: steps("bare nothing")})
	part("everywhere", fact.Part{
		Materials: ref("pane", "riddle", "tube"), Soils: ref("poison"), Rinse: ref("sharp", "blind"), Dry: ref("dryer")[0],
		Steps: steps("bare bleach", "bare amines", "bare sour", "bare brine", "quiet mild-alkaline", "quiet strange"),
	})
	part("acids", fact.Part{Materials: ref("pane"), Steps: steps("bare sour", "bare bleach")})
	part("poisons", fact.Part{Materials: ref("pane"), Soils: ref("poison"), Steps: steps("bare sour", "quiet sour", "bare amines")})
	part("spirits", fact.Part{Materials: ref("pane"), Steps: steps("jar spirit"), Dry: ref("dryer")[0]})
	part("enemies", fact.Part{Materials: ref("chip"), Steps: steps("bare brine", "bare bleach", "bare brine", "bare amines", "bare nitrite")})
	part("peroxides", fact.Part{Materials: ref("chip"), Steps: steps("bare bleach", "bare bleach")})
}
