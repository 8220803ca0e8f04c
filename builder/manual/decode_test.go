package manual

import (
	"os"
	"slices"
	"strings"
	"testing"

	"tankside/builder/finding"
	"tankside/builder/quantity"
)

func TestShopFile(t *testing.T) {
	m, list := read(t, os.DirFS("../../content"))
	if len(list) > 0 {
		t.Fatal(places(list))
	}
	s := &m.Shop
	wash2 := s.Tank("wash-2")
	if s.US || s.System() != quantity.SI || len(s.Tanks) != 2 || s.Tank("nothing") != nil || s.RinseTank("nothing") != nil || wash2 == nil {
		t.Fatalf("%+v", s)
	}
	if r := s.RinseTank("rinse-2"); r == nil || r.Water != "deionised" || r.Stages != 1 {
		t.Errorf("%+v", r)
	}
	// 28 L and 80 kHz are in SI base units here; “none” for insulation is a thickness of nothing, and known.
	if wash2.Volume.High != 0.028 || wash2.Frequency.Low != 80e3 || !wash2.Insulation.Set || wash2.Insulation.High != 0 || !wash2.Lid || wash2.Flammables {
		t.Errorf("%+v", wash2)
	}
	if s.EnergyPrice != 0.28 || s.Water.Hardness.Low != 0.26 || s.Dryer.Means == "" || !slices.Contains(s.Roles, "safety officer") {
		t.Errorf("%+v", s)
	}
}

// Each case is one mistake in a sound file.
func TestMistakesInTheShopFileAndTheGlossary(t *testing.T) {
	for name, c := range map[string]struct{ shop, glossary, want string }{
		"id twice":             {strings.Replace(smallShop, "id: rinse-1", "id: wash-1", 1), "", "shop.yaml:5:5 duplicate-key"},
		"unknown units":        {smallShop + "units: imperial\n", "", "shop.yaml:8:8 unknown-word"},
		"US units":             {smallShop + "units: US\n", "", ""},
		"yes or no":            {strings.Replace(smallShop, "volume: 120 L", "volume: 120 L, lid: maybe", 1), "", "shop.yaml:3:52 wrong-value"},
		"range for a value":    {strings.Replace(smallShop, "120 L", "100–120 L", 1), "", "shop.yaml:3:40 wrong-value"},
		"half a stage":         {strings.Replace(smallShop, "name: Rinse", "name: Rinse, stages: 1.5", 1), "", "shop.yaml:5:40 wrong-value"},
		"price below nothing":  {smallShop + "energy-price: -1\n", "", "shop.yaml:8:15 wrong-value"},
		"tank without volume":  {strings.Replace(smallShop, ", volume: 120 L", "", 1), "", "shop.yaml:3:5 missing-key"},
		"text for keys":        {smallShop + "air: fresh\n", "", "shop.yaml:8:6 wrong-value"},
		"tank is a text":       {strings.Replace(smallShop, "{id: wash-1, name: Wash 1, volume: 120 L}", "wash-1", 1), "", "shop.yaml:3:5 wrong-value"},
		"insulation in inches": {strings.Replace(smallShop, "volume: 120 L", "volume: 32 US gal, insulation: 1 in", 1), "", ""},
		"insulation unknown":   {strings.Replace(smallShop, "volume: 120 L", "volume: 120 L, insulation: some", 1), "", "shop.yaml:3:59 wrong-quantity"},
		"shop is a list":       {"- tank\n", "", "shop.yaml:1:1 unreadable-yaml"},
		"shop is empty":        {"", "", "shop.yaml:1 missing-key\nsoils/wax.md:6:11 unknown-name"},
		"glossary":             {smallShop, "b: {means: x}\na:\n  means: y\n  also-called: [z]\n", ""},
		"term is a text":       {smallShop, "a: x\n", "glossary.yaml:1:1 wrong-value"},
		"term twice":           {smallShop, "a: {means: x}\nA: {means: y}\n", "glossary.yaml:2:1 duplicate-key"},
		"term without meaning": {smallShop, "a: {also-called: x}\n", "glossary.yaml:1:4 missing-key"},
	} {
		fsys := files(map[string]string{"soils/wax.md": soilHead})
		fsys[ShopFile].Data = []byte(c.shop)
		if c.glossary != "" {
			fsys[GlossaryFile] = files(map[string]string{"x": c.glossary})["x"]
		}
		if _, list := read(t, fsys); places(list) != c.want {
			t.Errorf("%s: %s, want %s", name, places(list), c.want)
		}
	}
}

const partHead = `---
title: Shaft
summary: Turned steel.
station: wash
revision: A
approved: 2026-09-14, process engineer
review-by: 2027-09-14
sources: [common practice, no source]
material: [steel]
soil: [wax]
`

// A part writes its one wash directly, or several below steps.
func TestWashesOfParts(t *testing.T) {
	others := map[string]string{
		"soils/wax.md":          soilHead,
		"materials/steel.md":    strings.NewReplacer("Wax", "Steel", "nature: wax", "made-of: [carbon-steel]\nfrequency: none").Replace(soilHead),
		"chemistries/mild.md":   strings.NewReplacer("Wax", "Mild", "nature: wax", "hazards: [H318]\ncontrol-test: fill").Replace(soilHead),
		"procedures/fill.md":    strings.NewReplacer("Wax", "Fill", "nature: wax", "tank: [wash-1, rinse-1, dryer]").Replace(soilHead),
		"lessons/one.md":        strings.NewReplacer("Wax", "One", "nature: wax", "order: 1\nfor: [operator]\nneeds: [fill]\nsee-also: [wax, ../parts/shaft.md]").Replace(soilHead),
		"chemistries/acidic.md": strings.NewReplacer("Wax", "Acidic", "nature: wax", "never-with: [mild, alkali, cyanide]").Replace(soilHead),
	}
	for name, c := range map[string]struct {
		washes string
		steps  int
		want   string
	}{
		"one":              {"tank: wash-1\nchemistry: mild\ntime: 5 min\n", 1, ""},
		"two":              {"steps:\n  - {tank: wash-1, chemistry: mild, time: 5 min}\n  - tank: wash-1\n    chemistry: mild\n", 2, ""},
		"none":             {"", 0, ""},
		"both":             {"tank: wash-1\nchemistry: mild\nsteps: [{tank: wash-1, chemistry: mild}]\n", 1, "parts/shaft.md:11:7 duplicate-key"},
		"without tank":     {"chemistry: mild\n", 1, "parts/shaft.md:11:12 missing-key"},
		"step unknown key": {"steps: [{tank: wash-1, chemistry: mild, hour: 1}]\n", 1, "parts/shaft.md:11:41 unknown-key"},
		"unknown tank":     {"tank: wash-9\nchemistry: mild\n", 1, "parts/shaft.md:11:7 unknown-name"},
		"unknown dryer":    {"dry: oven\n", 0, "parts/shaft.md:11:6 unknown-name"},
	} {
		all := map[string]string{"parts/shaft.md": partHead + c.washes + "---\nHang it.\n"}
		for k, v := range others {
			all[k] = v
		}
		m, list := read(t, files(all))
		a := m.At("parts/shaft.md")
		if places(list) != c.want || len(a.Part.Steps) != c.steps {
			t.Errorf("%s: %s, %d washes, want %s, %d", name, places(list), len(a.Part.Steps), c.want, c.steps)
		}
		if !m.At("materials/steel.md").Material.NoSound {
			t.Error("a material that stands no sound is not known as such")
		}
		if to, problem := m.Reference(m.At("lessons/one.md"), "../parts/shaft.md"); problem != nil || to != a {
			t.Errorf("%s: the reference leads to %v, %v", name, to, problem)
		}
	}
}

func TestReferences(t *testing.T) {
	m, _ := read(t, files(map[string]string{
		"soils/wax.md": soilHead, "procedures/rinse.md": soilHead, "soils/rinse.md": soilHead, "pictures/a.svg": "<svg/>",
	}))
	from := m.At("soils/wax.md")
	for entry, want := range map[string]string{
		"wax": "soils/wax.md", "rinse.md": "soils/rinse.md", "../procedures/rinse.md": "procedures/rinse.md",
		"rinse": "! is the name of two articles", "wex": "! did you mean “wax”", "../pictures/a.svg": "! is no article", "nothing.md": "! leads to no article",
	} {
		to, problem := m.Reference(from, entry)
		switch fragment, bad := strings.CutPrefix(want, "! "); {
		case bad && (problem == nil || !strings.Contains(problem.Error(), fragment) || problem.Remedy == ""):
			t.Errorf("%s: %v, %v", entry, to, problem)
		case !bad && (problem != nil || to.Path != want):
			t.Errorf("%s: %v, %v", entry, to, problem)
		}
	}
	if found := m.Lookup("rinse"); len(found) != 2 || found[0].Kind != Soil {
		t.Errorf("%v", found)
	}
}

func TestAnswersOfASection(t *testing.T) {
	body := "## A?\n\n- Yes, **really**: [B](#b)\n- [B](#b).\n- `no` – [wax](wax.md)\n\n## B\n\n- one: [B](#b)\n- two\n\n## C\n\n1. [B](#b)\n\n## D\n\n- x: [a](https://example.org) and more\n\n### Sub\n\n- y: [b](#b)\n"
	m, list := read(t, files(map[string]string{"soils/wax.md": soilHead + body}))
	if len(list) > 0 {
		t.Fatal(places(list))
	}
	var got []string
	for _, s := range m.At("soils/wax.md").Sections {
		line := s.Heading + ":"
		for _, a := range s.Answers {
			line += " " + a.Text + "→" + a.Link.Target
		}
		for _, p := range s.Unlinked {
			line += " !" + p.String()
		}
		got = append(got, line)
	}
	want := "A?: Yes, really→#b B→#b no→wax.md|B: !soils/wax.md:20:1|C:|D: y→#b|Sub:"
	if g := strings.Join(got, "|"); g != want {
		t.Errorf("got  %s\nwant %s", g, want)
	}
}

func TestRulesOfTheReaderAreDistinct(t *testing.T) {
	seen := map[string]bool{}
	for _, r := range Rules() {
		if seen[string(r.Name)] || r.Severity == finding.Parts {
			t.Errorf("%+v", r)
		}
		seen[string(r.Name)] = true
	}
	if Soil.Folder() != "soils" || Chemistry.Folder() != "chemistries" {
		t.Error("folders of kinds")
	}
}
