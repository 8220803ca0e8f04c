package line

import (
	"math"
	"slices"

	"tankside/builder/decide/fact"
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/calculators/mix"
	"tankside/calculators/safety"
	"tankside/calculators/water"
)

// perEquivalent turns kg/m³ as CaCO₃ into mol/m³ of equivalents.
const perEquivalent = 1 / mix.EquivalentCaCO3

// fluid is a water or a bath: what it may be, its alkalinity in kg/m³ as CaCO₃, its temperature, and what one would have to know first.
type fluid struct {
	water.Liquid
	alkali  Span
	heat    float64 // °C, NaN where nothing says
	missing []Missing
	from    []finding.Place
}

func (f *fluid) lacks(key, of string, at finding.Place) {
	f.missing = append(f.missing, Missing{key, of, at})
}

func (f *fluid) rests(limits ...manual.Limit) {
	for _, l := range limits {
		if l.Set {
			f.from = append(f.from, l.At)
		}
	}
}

// held is the alkali of which about half or more is held back below pH 8.3, and loose what may give off all of it: from the constants of
// dissociation of carbonic, phosphoric and silicic acid, of amines, ammonia and chelants (EDTA 10.2 and 6.1, NTA 9.7) in any table. A bath that
// names the first and none of the second is taken at its word; of any other nothing is known.
var (
	held  = []string{"carbonate", "phosphate"}
	loose = []string{"silicate", "chelant", "free-caustic", "amine", "ammonia", "hypochlorite", "peroxide", "soap", "cyanide", "sulfide"}
)

func carbonate(c *manual.ChemistryFacts) bool {
	_, holds := fact.One(c.Contains, held...)
	_, frees := fact.One(c.Contains, loose...)
	return holds && !frees && !slices.ContainsFunc(c.Contains, func(r manual.Ref) bool { return r.Unchecked })
}

// Limits of pH between which a bath's titration means something: below the first end point there is no alkalinity, and a bath that may be on
// either side of neutral has to be known on both.
const (
	endPoint = safety.EndPoint
	neutral  = safety.Neutral
)

// bath is what is in a tank.
func bath(m *manual.Manual, t *manual.Tank) (f fluid) {
	f.heat = middle(t.Temperature)
	f.rests(t.Temperature, t.Strength)
	if t.Chemistry.Name == "" {
		f.lacks("chemistry", t.Name, t.At)
		return f
	}
	f.from = append(f.from, t.Chemistry.At)
	a := m.Named(manual.Chemistry, t.Chemistry.Name)
	if a == nil {
		f.lacks("chemistry", t.Name, t.Chemistry.At)
		return f
	}
	c := a.Chemistry
	if at := a.Head.At["contains"]; len(c.Contains) > 0 {
		f.from = append(f.from, at)
	}
	top := finding.Place{File: a.Path, Line: 1, Column: 1}
	if c.NoWater { // what drips from it is neither acid nor alkali
		f.from = append(f.from, c.PH.At)
		return f
	}
	if !c.PH.Set {
		f.lacks("ph", a.Head.Title, top)
		return f
	}
	f.rests(c.PH, c.Alkalinity, c.Acidity, c.Strength)
	low, high := math.Max(c.PH.Low, 0), math.Min(c.PH.High, 14)
	switch {
	case high > neutral && !c.Alkalinity.Set:
		f.lacks("alkalinity", a.Head.Title, c.PH.At)
	case low < endPoint && !c.Acidity.Set, !c.Alkalinity.Set && !c.Acidity.Set:
		f.lacks("acidity", a.Head.Title, c.PH.At)
	}
	scale, ok := strength(t, c)
	if !ok {
		f.lacks("density", a.Head.Title, top)
	}
	if len(f.missing) > 0 {
		return f
	}
	for i, s := range []float64{scale.Low, scale.High} {
		alkalinity, acidity := s*math.Max(0, c.Alkalinity.High), s*math.Max(0, c.Acidity.High)
		reach := Span{alkalinity, alkalinity}
		if c.Alkalinity.Set {
			f.Liquid = append(f.Liquid, water.Alkaline(math.Max(low, endPoint), math.Max(high, endPoint), alkalinity*perEquivalent, carbonate(c))...)
		}
		if c.Acidity.Set && low < neutral {
			f.Liquid = append(f.Liquid, water.Acidic(low, math.Min(high, neutral), acidity*perEquivalent)...)
			reach.Low = -acidity
			if !c.Alkalinity.Set {
				reach.High = -acidity
			}
		}
		if i == 0 {
			f.alkali = reach
		}
		f.alkali = f.alkali.with(reach.Low, reach.High)
	}
	return f
}

// strength is how strong the bath in a tank is beside the upper end of its chemistry; 1 where either is not given. ok is false where they are in
// measures that cannot be compared without the density of the concentrate.
func strength(t *manual.Tank, c *manual.ChemistryFacts) (scale Span, ok bool) {
	if !t.Strength.Set || !c.Strength.Set || math.IsInf(c.Strength.High, 1) || math.IsInf(t.Strength.High, 1) {
		return Span{1, 1}, true
	}
	full, ok1 := byVolume(c.Strength.High, c.Strength.Kind, t.Strength.Kind, c.Density)
	low, ok2 := byVolume(t.Strength.Low, t.Strength.Kind, c.Strength.Kind, c.Density)
	high, ok3 := byVolume(t.Strength.High, t.Strength.Kind, c.Strength.Kind, c.Density)
	if !ok1 || !ok2 || !ok3 || full <= 0 {
		return Span{}, false
	}
	return Span{math.Max(0, low/full), high / full}, true
}

// byVolume is a strength as it is where the other is of the same kind, and otherwise as a fraction by volume.
func byVolume(si float64, kind, other quantity.Kind, density manual.Limit) (float64, bool) {
	switch {
	case kind == other || kind == quantity.VolumeFraction:
		return si, true
	case !density.Set || density.High <= 0:
		return 0, false
	}
	return mix.ByVolume(si, kind, density.High), true
}

// middle of a limit, NaN where it is not set or is open.
func middle(l manual.Limit) float64 {
	if !l.Set || math.IsInf(l.Low, 0) || math.IsInf(l.High, 0) {
		return math.NaN()
	}
	return (l.Low + l.High) / 2
}
