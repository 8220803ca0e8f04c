package relate

import (
	"math"

	"tankside/builder/admit"
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/calculators/quantity"
)

// Limit is what a chemistry, a material, a soil or a tank asks for, with the proof-reader's rule that guards it.
type Limit struct {
	What admit.What
	manual.Limit
	Asks      string // "the window to lift wax is 65–75 °C"
	Rule      finding.Rule
	Silicated string // see admit.Limit
}

// entry is the limit for an admit.Table.
func (l Limit) entry() admit.Limit {
	e := admit.Limit{
		What: l.What, Kind: l.Kind, Unit: l.Unit.Symbol, Asks: l.Asks,
		Place: place(l.At), Rule: l.Rule.Name, Silicated: l.Silicated,
	}
	if low := l.Low; !math.IsInf(low, 0) {
		e.Low = &low
	}
	if high := l.High; !math.IsInf(high, 0) {
		e.High = &high
	}
	return e
}

func entries(limits []Limit) []admit.Limit {
	var list []admit.Limit
	for _, l := range limits {
		list = append(list, l.entry())
	}
	return list
}

// limits collects limits that are set.
type limits struct {
	list []Limit
	in   quantity.System
}

// add adds a limit that is said as "the window to lift wax is 65–75 °C", so that it fits a title in singular and plural.
func (c *limits) add(what admit.What, l manual.Limit, of string, r finding.Rule) *Limit {
	if !l.Set {
		return new(Limit)
	}
	c.list = append(c.list, Limit{What: what, Limit: l, Asks: of + " is " + measure(what, l, c.in), Rule: r})
	return &c.list[len(c.list)-1]
}

// measure writes a limit as it stands in a sentence.
func measure(what admit.What, l manual.Limit, in quantity.System) string {
	if what == admit.PH {
		return "pH " + l.In(in)
	}
	return l.In(in)
}

// OfMaterial gives what a material asks for.
func OfMaterial(a *manual.Article, in quantity.System) []Limit {
	f := a.Material
	c := limits{in: in}
	of := "the limit of " + inSentence(a.Head.Title)
	if f.PHSilicated.Set {
		c.add(admit.PH, f.PH, of, PHOutsideMaterial).Silicated = "no"
		c.add(admit.PH, f.PHSilicated, of+" with silicate", PHOutsideMaterial).Silicated = "yes"
	} else {
		c.add(admit.PH, f.PH, of, PHOutsideMaterial)
	}
	c.add(admit.Temperature, f.Temperature, of, TooHotForMaterial)
	c.add(admit.Time, f.Time, of, TooLongForMaterial)
	c.add(admit.Frequency, f.Frequency, of, FrequencyOutsideMaterial)
	return c.list
}

// OfChemistry gives what a chemistry asks for.
func OfChemistry(a *manual.Article, in quantity.System) []Limit {
	f := a.Chemistry
	c := limits{in: in}
	title := inSentence(a.Head.Title)
	of := "the window of " + title
	c.add(admit.PH, f.PH, "the bath of "+title, finding.Rule{})
	c.add(admit.Strength, f.Strength, of, OutsideChemistryWindow)
	c.add(admit.Temperature, f.Temperature, of, OutsideChemistryWindow)
	c.add(admit.Time, f.Time, of, OutsideChemistryWindow)
	c.add(admit.Frequency, f.Frequency, of, OutsideChemistryWindow)
	c.add(admit.Temperature, below(f.Ceiling, 0), "the ceiling of "+title, AboveCeiling)
	c.add(admit.Temperature, below(f.CloudPoint, 0), "the cloud point of "+title, AboveCloudPoint)
	if f.FlashPoint.Set {
		c.add(admit.Temperature, below(f.FlashPoint, FlashMargin), "the distance to the flash point of "+title, nearFlashPoint.Rule)
	}
	return c.list
}

// below turns a single value into the limit of at most so much less.
func below(l manual.Limit, margin float64) manual.Limit {
	l.Low, l.High = math.Inf(-1), l.Low-margin
	return l
}

// OfLift gives what a soil asks for, to be lifted by a chemistry.
func OfLift(soil *manual.Article, r manual.Removal, in quantity.System) []Limit {
	c := limits{in: in}
	of := "the window to lift " + inSentence(soil.Head.Title)
	c.add(admit.Strength, r.Strength, of, OutsideSoilWindow)
	c.add(admit.Temperature, r.Temperature, of, OutsideSoilWindow)
	c.add(admit.Time, r.Time, of, OutsideSoilWindow)
	c.add(admit.Frequency, r.Frequency, of, OutsideSoilWindow)
	return c.list
}

// OfTank gives what a tank asks for: its frequency, which cannot be set.
func OfTank(t *manual.Tank, in quantity.System) []Limit {
	c := limits{in: in}
	c.add(admit.Frequency, t.Frequency, "the frequency of "+t.Name, OtherFrequency)
	return c.list
}

// LimitRules are the rules that guard limits.
func LimitRules() []finding.Rule {
	return []finding.Rule{
		PHOutsideMaterial, AttackOnPurpose, TooHotForMaterial, TooLongForMaterial, FrequencyOutsideMaterial,
		OutsideChemistryWindow, AboveCeiling, AboveCloudPoint, OutsideSoilWindow, OtherFrequency,
	}
}
