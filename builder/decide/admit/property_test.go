package admit

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"tankside/builder/decide/fact"
	"tankside/builder/finding"
	"tankside/builder/quantity"
	"tankside/calculators/mix"
)

var rank = map[Verdict]int{Yes: 0, Conditions: 1, No: 2}

// maker makes up facts.
type maker struct{ *rand.Rand }

func (r maker) between(low, high float64, kind quantity.Kind, unit string) fact.Limit {
	a, b := low+r.Float64()*(high-low), low+r.Float64()*(high-low)
	if r.IntN(8) == 0 {
		a = math.Inf(-1)
	}
	u, known := quantity.UnitNamed(unit, kind)
	if !known {
		panic(unit)
	}
	return fact.Limit{Range: quantity.Range{Low: math.Min(a, b), High: math.Max(a, b), Kind: kind, Unit: u}, Set: r.IntN(12) > 0, At: finding.Place{File: "x.md", Line: 1 + r.IntN(9)}}
}

func (r maker) single(l fact.Limit) fact.Limit { l.Low = l.High; return l }

func (r maker) strength() fact.Limit {
	switch r.IntN(4) {
	case 0:
		return r.between(5, 200, quantity.MassConcentration, "g/L")
	case 1:
		return r.between(0.005, 0.2, quantity.MassFraction, "% w/w")
	}
	return r.between(0.005, 0.2, quantity.VolumeFraction, "% v/v")
}

func (r maker) words(n int, from ...string) []fact.Ref {
	var list []fact.Ref
	for range r.IntN(n + 1) {
		w := fact.Ref{Name: from[r.IntN(len(from))], At: finding.Place{File: "x.md", Line: 3}}
		if r.IntN(15) == 0 {
			w.Unchecked, w.Name = true, "own"
		}
		list = append(list, w)
	}
	return list
}

func (r maker) window() fact.Window {
	return fact.Window{Strength: r.strength(), Temperature: r.between(20, 90, quantity.Temperature, "°C"), Time: r.between(30, 1200, quantity.Time, "min"), Frequency: r.between(25e3, 170e3, quantity.Frequency, "kHz")}
}

// table makes up a tank, a jar, chemistries, materials and soils.
func (r maker) table() *Table {
	t := &Table{System: "SI"}
	for _, name := range []string{"one", "two"} {
		c := fact.Chemistry{PH: r.between(2, 13, quantity.PH, ""), Window: r.window(), Contains: r.words(2, "silicate", "acid", "free-caustic", "amine", "chloride", "surfactant", "alcohol", "ketone", "hydrocarbon"), Hazards: r.words(1, "H225", "H226", "H318")}
		if r.IntN(2) == 0 {
			c.Density = fact.Limit{Range: quantity.Range{Low: 1100, High: 1100, Kind: quantity.Density}, Set: true}
		}
		if r.IntN(3) == 0 {
			c.FlashPoint = r.single(r.between(20, 120, quantity.Temperature, "°C"))
		}
		c.Ceiling = r.single(r.between(40, 95, quantity.Temperature, "°C"))
		t.Chemistries = append(t.Chemistries, Chemistry{Item{Name: name, Title: name}, c})
	}
	for _, name := range []string{"a", "b", "c"} {
		t.Materials = append(t.Materials, Material{Item{Name: name, Title: name}, fact.Material{
			MadeOf: r.words(2, "carbon-steel", "aluminium", "brass", "zinc", "glass", "titanium", "acrylic", "epdm"), Features: r.words(1, "polished", "blind-holes", "mems"),
			PH: r.between(3, 13, quantity.PH, ""), Temperature: r.between(20, 95, quantity.Temperature, "°C"), Time: r.between(60, 1500, quantity.Time, "min"),
			Frequency: r.between(25e3, 170e3, quantity.Frequency, "kHz"), NoSound: r.IntN(9) == 0,
		}})
	}
	for _, name := range []string{"oil", "salt"} {
		t.Soils = append(t.Soils, Soil{Item{Name: name, Title: name}, fact.Soil{MayContain: r.words(1, "cyanide", "lead", "nitrite"), RemovedBy: []fact.Removal{{Chemistry: fact.Ref{Name: "one"}, Window: r.window()}}}})
	}
	tank := fact.Tank{ID: "tank", Name: "Tank", Chemistry: fact.Ref{Name: "one"}, Strength: r.single(r.strength()), Temperature: r.single(r.between(20, 90, quantity.Temperature, "°C")),
		Frequency: r.single(r.between(25e3, 170e3, quantity.Frequency, "kHz")), Flammables: r.IntN(2) == 0}
	t.Tanks = []Tank{{Tank: tank, Drift: Drift{Known: r.IntN(2) == 0, Ends: 20 + 80*r.Float64()}}}
	return t
}

// asked asks a made-up table every question of one or two materials, and hands on what was asked.
func asked(t *testing.T, n int, check func(r maker, made *Table, q Question, before Verdict)) {
	t.Helper()
	for seed := range uint64(n) {
		r := maker{rand.New(rand.NewPCG(seed, 11))}
		made := r.table()
		for _, q := range []Question{
			{Materials: []string{"a"}, Soil: "", Bath: "tank"}, {Materials: []string{"a"}, Soil: "oil", Bath: "tank"}, {Materials: []string{"a"}, Soil: "", Bath: "one"}, {Materials: []string{"b"}, Soil: "salt", Bath: "two"}, {Materials: []string{"a", "b"}, Soil: "oil", Bath: "one"},
		} {
			check(r, made, q, ask(t, made, q))
		}
	}
}

func ask(t *testing.T, made *Table, q Question) Verdict {
	t.Helper()
	a, err := made.Answer(q)
	if err != nil {
		t.Fatal(err)
	}
	return a.Verdict
}

// copyOf is a table whose materials, soils and chemistries can be changed.
func copyOf(t *Table) *Table {
	c := *t
	c.Materials, c.Chemistries, c.Soils, c.Tanks = slices.Clone(t.Materials), slices.Clone(t.Chemistries), slices.Clone(t.Soils), slices.Clone(t.Tanks)
	for i := range c.Soils {
		c.Soils[i].RemovedBy = slices.Clone(c.Soils[i].RemovedBy)
	}
	return &c
}

// limitsOf are the limits that materials, soils and the ceiling set: what is asked for, not what a bath is.
func limitsOf(t *Table) []*fact.Limit {
	var list []*fact.Limit
	for i := range t.Materials {
		m := &t.Materials[i]
		list = append(list, &m.PH, &m.Temperature, &m.Time, &m.Frequency)
	}
	for i := range t.Soils {
		w := &t.Soils[i].RemovedBy[0].Window
		list = append(list, &w.Strength, &w.Temperature, &w.Time, &w.Frequency)
	}
	return append(list, &t.Chemistries[0].Ceiling)
}

// Tightening what is asked for never turns a no into a yes, nor into anything milder.
func TestTighterIsNeverMilder(t *testing.T) {
	asked(t, 1500, func(r maker, made *Table, q Question, before Verdict) {
		tighter := copyOf(made)
		limits := limitsOf(tighter)
		l := limits[r.IntN(len(limits))]
		if !l.Set {
			return
		}
		switch width := l.High - l.Low; {
		case math.IsInf(width, 0):
			l.High -= math.Abs(l.High) * 0.3 * r.Float64()
		case width == 0: // a ceiling
			l.High *= 1 - 0.3*r.Float64()
			l.Low = l.High
		case r.IntN(2) == 0:
			l.High -= width * r.Float64()
		default:
			l.Low += width * r.Float64()
		}
		if after := ask(t, tighter, q); rank[after] < rank[before] {
			t.Fatalf("%+v: %s, tighter %s", q, before, after)
		}
	})
}

// Adding a material to an assembly never makes the answer milder.
func TestOneMoreMaterialIsNeverMilder(t *testing.T) {
	asked(t, 1500, func(_ maker, made *Table, q Question, before Verdict) {
		more := q
		more.Materials = append(slices.Clone(q.Materials), "c")
		if after := ask(t, made, more); rank[after] < rank[before] {
			t.Fatalf("%+v: %s, with c %s", q, before, after)
		}
	})
}

// What is written in another unit, or another measure of strength where the density is known, is the same.
func TestUnitsDoNotMatter(t *testing.T) {
	turned := 0
	asked(t, 1500, func(_ maker, made *Table, q Question, before Verdict) {
		other := copyOf(made)
		turn := func(l *fact.Limit, density fact.Limit) {
			if l.Kind == quantity.Temperature {
				l.Unit, _ = quantity.UnitNamed("°F", quantity.Temperature)
			}
			if !l.Set || !density.Set || !strength(l.Kind) {
				return
			}
			kind := map[quantity.Kind]quantity.Kind{quantity.VolumeFraction: quantity.MassConcentration, quantity.MassConcentration: quantity.MassFraction, quantity.MassFraction: quantity.VolumeFraction}[l.Kind]
			to := func(x float64) float64 {
				if math.IsInf(x, 0) {
					return x
				}
				switch l.Kind {
				case quantity.VolumeFraction:
					return mix.ToMassConcentration(x, density.Low)
				case quantity.MassConcentration:
					return mix.ToMassFraction(mix.FromMassConcentration(x, density.Low), density.Low)
				}
				return mix.FromMassFraction(x, density.Low)
			}
			l.Range = quantity.Range{Low: to(l.Low), High: to(l.High), Kind: kind, Unit: unitOf(kind)}
			turned++
		}
		for _, l := range limitsOf(other) {
			turn(l, other.Chemistries[0].Density)
		}
		turn(&other.Tanks[0].Strength, other.Chemistries[0].Density)
		turn(&other.Chemistries[0].Strength, other.Chemistries[0].Density)
		if after := ask(t, other, q); after != before {
			t.Fatalf("%+v: %s, in other units %s", q, before, after)
		}
	})
	if turned < 1000 {
		t.Errorf("only %d strengths were turned", turned)
	}
}

// Forgetting a fact never turns what was no yes into a yes.
func TestForgettingIsNoYes(t *testing.T) {
	asked(t, 1500, func(r maker, made *Table, q Question, before Verdict) {
		if before == Yes {
			return
		}
		less := copyOf(made)
		c, m := &less.Chemistries[0], &less.Materials[0]
		facts := []*fact.Limit{&c.PH, &c.Temperature, &c.Density, &m.PH, &m.Temperature, &less.Tanks[0].Strength, &less.Tanks[0].Temperature}
		for range 1 + r.IntN(2) {
			*facts[r.IntN(len(facts))] = fact.Limit{}
		}
		if after := ask(t, less, q); after == Yes {
			t.Fatalf("%+v: %s; with less known it is yes", q, before)
		}
	})
}

// A bath without sound has neither a frequency nor a time under ultrasonics, whatever is asked.
func TestNoSoundMeansNoSound(t *testing.T) {
	silent := 0
	asked(t, 1500, func(_ maker, made *Table, q Question, _ Verdict) {
		quiet := copyOf(made)
		quiet.Materials[0].NoSound, quiet.Materials[1].NoSound = true, true
		a, err := quiet.Answer(q)
		if err != nil {
			t.Fatal(err)
		}
		if a.Recipe == nil {
			return
		}
		silent++
		for _, s := range a.Recipe.Spans {
			if s.What == Time || s.What == Frequency || q.Bath == "tank" {
				t.Fatalf("%+v: a recipe with %s", q, s.What)
			}
		}
		if a.Verdict == Yes || a.Recipe.Method == "" {
			t.Fatalf("%+v: %s by %q", q, a.Verdict, a.Recipe.Method)
		}
	})
	if silent < 50 {
		t.Errorf("only %d answers had a recipe", silent)
	}
}

// Of a bath without water no pH is compared, told or missed, whatever the materials ask for; everything else is as it was.
func TestNoWaterMeansNoPH(t *testing.T) {
	dry := 0
	asked(t, 1500, func(r maker, made *Table, q Question, _ Verdict) {
		neat := copyOf(made)
		for i := range neat.Chemistries {
			neat.Chemistries[i].PH, neat.Chemistries[i].NoWater = fact.Limit{}, true
			neat.Chemistries[i].Contains = []fact.Ref{{Name: "alcohol"}}
		}
		before := ask(t, neat, q)
		for i := range neat.Materials {
			neat.Materials[i].PH = r.between(3, 13, quantity.PH, "")
		}
		a, err := neat.Answer(q)
		if err != nil {
			t.Fatal(err)
		}
		if a.Verdict != before {
			t.Fatalf("%+v: %s with other limits of pH, %s before", q, a.Verdict, before)
		}
		for _, reason := range a.Reasons {
			if strings.Contains(reason.Text, "pH") {
				t.Fatalf("%+v: %s", q, reason.Text)
			}
		}
		if a.Recipe == nil {
			return
		}
		dry++
		for _, s := range a.Recipe.Spans {
			if s.What == PH {
				t.Fatalf("%+v: a recipe with a pH", q)
			}
		}
	})
	if dry < 50 {
		t.Errorf("only %d answers had a recipe", dry)
	}
}
