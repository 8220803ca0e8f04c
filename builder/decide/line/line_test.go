package line

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"tankside/builder/manual"
)

const head = `title: %s
summary: An invented article.
station: wash
revision: A
approved: 2026-09-14, process engineer
review-by: 2027-09-14
sources: [from memory]
`

// read makes a manual of a shop file, of chemistries and of parts by their own keys.
func read(t *testing.T, shop string, chemistries, parts map[string]string) *manual.Manual {
	t.Helper()
	files := fstest.MapFS{"shop.yaml": {Data: []byte("name: Invented\nroles: [process engineer]\n" + shop)}}
	put := func(folder string, articles map[string]string, more string) {
		for name, keys := range articles {
			files[folder+"/"+name+".md"] = &fstest.MapFile{Data: []byte("---\n" + fmt.Sprintf(head, name) + more + keys + "\n---\nText.\n")}
		}
	}
	put("chemistries", chemistries, "")
	put("parts", parts, "material: [steel]\nsoil: [oil]\n")
	put("materials", map[string]string{"steel": "made-of: [carbon-steel]"}, "")
	put("soils", map[string]string{"oil": "nature: oil"}, "")
	m, findings, err := manual.Read(context.Background(), files)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range findings {
		t.Fatalf("%v %s", f.Place, f.Message)
	}
	return m
}

const (
	tap    = "water: {temperature: 15 °C, ph: 7.6, alkalinity: 220 mg/L}\n"
	washes = `tanks:
  - {id: a, name: Wash A, volume: 100 L, chemistry: alkaline, strength: 4 % v/v, temperature: 60 °C, drag-out: 1 L/h}
  - {id: b, name: Wash B, volume: 50 L, chemistry: sour, strength: 5 % v/v, temperature: 40 °C, drag-out: 1 L/h}
`
	rinses = `rinses:
  - {id: r1, name: First, volume: 90 L, water: mains, flow: 4 L/min}
  - {id: r2, name: Second, volume: 40 L, water: deionised, flow: 1 L/min}
`
)

var (
	alkaline = "ph: 9–11\nalkalinity: 500 meq/L\nstrength: 2–10 % v/v\ncontains: [carbonate]"
	sour     = "ph: 1.5–2.5\nacidity: 800 meq/L\nstrength: 2–5 % v/v\ncontains: [acid]"
)

func both() map[string]string { return map[string]string{"alkaline": alkaline, "sour": sour} }

func cold1(t *testing.T, m *manual.Manual, r int) Span {
	t.Helper()
	s := Of(m)[r]
	span, ok := s.Cold()
	if !ok {
		t.Fatalf("%s: %v", s.Rinse.Name, s.Missing)
	}
	return span
}

// TestWays: a part's last wash drags into the first of its rinses and on; a wash of no part into the first of the shop.
func TestWays(t *testing.T) {
	parts := map[string]string{
		"one": "steps:\n  - {tank: b, chemistry: sour}\n  - {tank: a, chemistry: alkaline}\nrinse: [r2, r1]",
		"two": "tank: a\nchemistry: alkaline\nrinse: [r2]",
	}
	m := read(t, tap+washes+rinses, both(), parts)
	var got []string
	for _, w := range ways(m) {
		got = append(got, fmt.Sprint(w.tank, w.from, w.to))
	}
	slices.Sort(got)
	if s := strings.Join(got, ", "); s != "0 -1 1, 0 1 0, 1 -1 0" {
		t.Errorf("ways %s", s)
	}
	states := Of(m)
	if len(states[1].Washes) != 1 || states[1].Washes[0].ID != "a" || len(states[0].Washes) != 2 {
		t.Errorf("%+v", states)
	}
	var files []string
	for _, p := range states[1].From {
		files = append(files, p.File)
	}
	for _, f := range []string{"shop.yaml", "chemistries/alkaline.md", "parts/one.md", "parts/two.md"} {
		if !slices.Contains(files, f) {
			t.Errorf("%s is not among what the second rinse rests on: %v", f, files)
		}
	}
	if slices.Contains(files, "chemistries/sour.md") {
		t.Error("the second rinse rests on a bath that does not reach it")
	}
}

// TestAcidAndAlkali: an acid brings a rinse below its water, an alkali above, and a counterflow keeps the last one clean.
func TestAcidAndAlkali(t *testing.T) {
	acid := read(t, tap+washes[:strings.Index(washes, "  - {id: a")]+washes[strings.Index(washes, "  - {id: b"):]+rinses, map[string]string{"sour": sour}, nil)
	// 1 L/h with 800 mmol/L into 240 L/h with 4.4: 3.3 of them are used up and stay as carbon dioxide, 1.1 are left: pH 6.35 + log(1.1/3.6), 5.8.
	s := Of(acid)[0].Stages[0]
	if !near(s.Cold.Low, 5.8, 0.1) || s.Cold.High > s.Feed.High {
		t.Errorf("%+v", s)
	}
	m := read(t, tap+washes+rinses, both(), map[string]string{"one": "tank: a\nchemistry: alkaline\nrinse: [r1, r2]", "two": "tank: b\nchemistry: sour\nrinse: [r2]"})
	if span := cold1(t, m, 1); span.Low > 3.5 {
		t.Errorf("800 mmol/L of acid, 1 L/h into 60 L/h of pure water: pH %+v, at least 2.7 of 13 mmol/L free", span)
	}
	// The second rinse's 240 L/h run on into the first, which two washes drag into: c₁·242 = 1 + 240·c₂ and c₂ = c₁/241.
	fed := `rinses:
  - {id: r1, name: First, volume: 90 L, fed-by: r2}
  - {id: r2, name: Second, volume: 40 L, water: mains, flow: 4 L/min}
`
	m = read(t, tap+washes+fed, both(), map[string]string{"one": "tank: a\nchemistry: alkaline\nrinse: [r1, r2]", "two": "tank: b\nchemistry: sour\nrinse: [r1]"})
	states := Of(m)
	first, second := states[0].Stages[0], states[1].Stages[0]
	if !near(first.Shares[0], 1/(242-240./241), 1e-9) || !near(second.Shares[0], first.Shares[0]/241, 1e-9) {
		t.Errorf("shares %v and %v", first.Shares, second.Shares)
	}
	if first.Heat < 15 || first.Heat > 15.6 {
		t.Errorf("warmed by a film of 60 °C to %g °C", first.Heat)
	}
}

// TestRangesWiden: a drag-out or a strength that is a range holds the answers of its ends; an unknown alkali holds more than carbonate.
func TestRangesWiden(t *testing.T) {
	with := func(drag, strength, contains string) Span {
		shop := strings.Replace(strings.Replace(washes, "strength: 4 % v/v", "strength: "+strength, 1), "60 °C, drag-out: 1 L/h", "60 °C, drag-out: "+drag, 1)
		shop = shop[:strings.Index(shop, "  - {id: b")]
		return cold1(t, read(t, tap+shop+rinses, map[string]string{"alkaline": strings.Replace(alkaline, "[carbonate]", contains, 1)}, nil), 0)
	}
	least, most, wide := with("0.5 L/h", "3 % v/v", "[carbonate]"), with("4 L/h", "5 % v/v", "[carbonate]"), with("0.5–4 L/h", "3–5 % v/v", "[carbonate]")
	if !near(wide.Low, least.Low, 1e-6) || !near(wide.High, most.High, 1e-6) || least.High > most.High {
		t.Errorf("%+v, %+v, together %+v", least, most, wide)
	}
	for _, contains := range []string{"[surfactant]", "[carbonate, silicate]", "[phosphate, chelant]"} {
		if unknown := with("4 L/h", "5 % v/v", contains); unknown.High < most.High+0.2 || unknown.High > 11 {
			t.Errorf("%s: %+v, as carbonate %+v", contains, unknown, most)
		}
	}
	if grams := with("4 L/h", "5 % v/v", "[phosphate]\ndensity: 1.1 kg/L"); !near(grams.High, most.High, 1e-9) {
		t.Errorf("phosphate: %+v", grams)
	}
	if mass := with("4 L/h", "55 g/L", "[carbonate]\ndensity: 1.1 kg/L"); !near(mass.High, most.High, 1e-6) {
		t.Errorf("55 g/L at 1.1 kg/L are 5 %%: %+v, want %+v", mass, most)
	}
}

// TestMissing: what is not known is named, with its place, and no number is given; what does not hang on it is given all the same.
func TestMissing(t *testing.T) {
	for name, c := range map[string]struct {
		shop        string
		chemistries map[string]string
		want        string // of the first rinse
	}{
		"alkalinity of the bath":     {tap + washes + rinses, map[string]string{"alkaline": "ph: 9–11", "sour": sour}, "alkalinity of alkaline"},
		"acidity of the bath":        {tap + washes + rinses, map[string]string{"alkaline": alkaline, "sour": "ph: 1–2"}, "acidity of sour"},
		"both of one across neutral": {tap + washes + rinses, map[string]string{"alkaline": alkaline, "sour": "ph: 3–8\nacidity: 100 meq/L"}, "alkalinity of sour"},
		"pH of the bath":             {tap + washes + rinses, map[string]string{"alkaline": "alkalinity: 500 meq/L", "sour": sour}, "ph of alkaline"},
		"drag-out":                   {tap + strings.Replace(washes, "60 °C, drag-out: 1 L/h", "60 °C", 1) + rinses, both(), "drag-out of Wash A"},
		"flow":                       {tap + washes + strings.Replace(rinses, ", flow: 4 L/min", "", 1), both(), "flow of First"},
		"the shop's water":           {washes + rinses, both(), "ph of First, alkalinity of First"},
		"an unknown water":           {tap + washes + strings.Replace(rinses, "water: mains", "water: from the well", 1), both(), "ph of First, alkalinity of First"},
		"density": {tap + washes + rinses, map[string]string{"alkaline": strings.Replace(alkaline, "2–10 % v/v", "20–100 g/L", 1), "sour": sour},
			"density of alkaline"},
		"nothing": {tap + washes + rinses, both(), ""},
	} {
		m := read(t, c.shop, c.chemistries, map[string]string{"one": "tank: a\nchemistry: alkaline\nrinse: [r1]", "two": "tank: b\nchemistry: sour\nrinse: [r1]"})
		states := Of(m)
		var got []string
		for _, miss := range states[0].Missing {
			got = append(got, miss.Key+" of "+miss.Of)
			if miss.At.File == "" || miss.At.Line == 0 {
				t.Errorf("%s: %+v has no place", name, miss)
			}
		}
		if s := strings.Join(got, ", "); s != c.want {
			t.Errorf("%s: missing %q, want %q", name, s, c.want)
		}
		if _, ok := states[0].Cold(); ok != (c.want == "") {
			t.Errorf("%s: a pH %v", name, ok)
		}
		if span, ok := states[1].Cold(); !ok || !near(span.High, 7, 0.1) {
			t.Errorf("%s: nothing is carried into the second rinse, whose pH is %+v, %v", name, span, states[1].Missing)
		}
	}
	dry := strings.Replace(tap+washes+rinses, "40 °C, drag-out: 1 L/h", "40 °C, drag-out: 0 L/h", 1)
	states := Of(read(t, dry, map[string]string{"alkaline": alkaline, "sour": "density: 1 kg/L"}, nil))
	if _, ok := states[0].Cold(); !ok || len(states[0].Washes) != 1 {
		t.Errorf("a tank that carries nothing over stands in the way: %v", states[0].Missing)
	}
	for _, empty := range []string{"", "rinses: [{id: r, name: R}]\n", tap + rinses} {
		for _, s := range Of(read(t, empty, nil, nil)) {
			if len(s.Washes) > 0 {
				t.Errorf("%q: %+v", empty, s)
			}
		}
	}
}

// TestOwnWater: keys of the rinse go before the shop's water; a well of its own is known by them.
func TestOwnWater(t *testing.T) {
	own := strings.Replace(rinses, "water: mains", "water: from the well, ph: 6.9, alkalinity: 60 mg/L", 1)
	m := read(t, tap+own, nil, nil)
	if span := cold1(t, m, 0); !near(span.Low, 6.9, 0.1) {
		t.Errorf("%+v", span)
	}
}

// TestHostile: whatever numbers stand in the files there is a state of every rinse, and numbers in it.
func TestHostile(t *testing.T) {
	for _, change := range [][2]string{
		{"flow: 4 L/min", "flow: 0 L/min"}, {"flow: 4 L/min", "flow: 1e-9 L/min"}, {"volume: 90 L", "volume: 0 L"}, {"water: mains", "water: mains, stages: 12"}, {"water: mains", "water: mains, stages: 100000"},
		{"drag-out: 1 L/h", "drag-out: 0 L/h"}, {"drag-out: 1 L/h", "drag-out: ≤ 1 L/h"}, {"drag-out: 1 L/h", "drag-out: ≥ 1 L/h"}, {"strength: 4 % v/v", "strength: ≤ 4 % v/v"}, {"strength: 4 % v/v", "strength: ≥ 4 % v/v"},
		{"temperature: 60 °C", "temperature: ≤ 60 °C"}, {"ph: 7.6", "ph: 14"}, {"ph: 7.6", "ph: 0"}, {"alkalinity: 220 mg/L", "alkalinity: 0 mg/L"}, {"water: mains", "water: mains, fed-by: r2"},
	} {
		m := read(t, strings.Replace(tap+washes+rinses, change[0], change[1], 1), both(), map[string]string{"one": "tank: a\nchemistry: alkaline\nrinse: [r1, r2, r1]", "two": "tank: b\nchemistry: sour\nrinse: [r1]"})
		for _, s := range Of(m) {
			if (len(s.Stages) == 0) == (len(s.Missing) == 0) {
				t.Errorf("%v: %s has %d stages and misses %v", change, s.Rinse.Name, len(s.Stages), s.Missing)
			}
			for _, stage := range s.Stages {
				for _, x := range []float64{stage.PH.Low, stage.PH.High, stage.Cold.Low, stage.Cold.High, stage.Feed.Low, stage.Alkali.Low, stage.Alkali.High, stage.Heat} {
					if x != x || x < -1e6 || x > 1e6 {
						t.Errorf("%v: %s: %+v", change, s.Rinse.Name, stage)
					}
				}
				if stage.Cold.Low > stage.Cold.High+1e-9 {
					t.Errorf("%v: %+v", change, stage)
				}
			}
		}
	}
}
