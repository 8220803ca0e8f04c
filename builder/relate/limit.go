package relate

import (
	"math"

	"tankside/builder/admit"
	"tankside/builder/finding"
	"tankside/builder/manual"
)

// Limit is what a chemistry, a material, a soil or a tank asks for, with the proof-reader's rule that guards it.
type Limit struct {
	What admit.What
	manual.Limit
	Asks      admit.Sentence // "the window to lift wax is 65–75 °C"
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
type limits []Limit

// add adds a limit that is said as “the window to lift wax is 65–75 °C”, so that it fits a title in singular and plural: the last hole of the
// phrase is for the limit.
func (c *limits) add(what admit.What, l manual.Limit, r finding.Rule, phrase string, of admit.Part) *Limit {
	if !l.Set {
		return new(Limit)
	}
	*c = append(*c, Limit{What: what, Limit: l, Asks: admit.Say(phrase, of, admit.Amount(l.Range)), Rule: r})
	return &(*c)[len(*c)-1]
}

// OfMaterial gives what a material asks for.
func OfMaterial(a *manual.Article) []Limit {
	const phrase = "the limit of {material} is {limit}"
	f, of := a.Material, within(a)
	var c limits
	one := c.add(admit.PH, f.PH, PHOutsideMaterial, "the limit of {material} is pH {limit}", of)
	if f.PHSilicated.Set {
		one.Silicated = "no"
		c.add(admit.PH, f.PHSilicated, PHOutsideMaterial, "the limit of {material} with silicate is pH {limit}", of).Silicated = "yes"
	}
	c.add(admit.Temperature, f.Temperature, TooHotForMaterial, phrase, of)
	c.add(admit.Time, f.Time, TooLongForMaterial, phrase, of)
	c.add(admit.Frequency, f.Frequency, FrequencyOutsideMaterial, phrase, of)
	return c
}

// OfChemistry gives what a chemistry asks for.
func OfChemistry(a *manual.Article) []Limit {
	const phrase = "the window of {chemistry} is {limit}"
	f, of := a.Chemistry, within(a)
	var c limits
	c.add(admit.PH, f.PH, finding.Rule{}, "the bath of {chemistry} is pH {limit}", of)
	c.add(admit.Strength, f.Strength, OutsideChemistryWindow, phrase, of)
	c.add(admit.Temperature, f.Temperature, OutsideChemistryWindow, phrase, of)
	c.add(admit.Time, f.Time, OutsideChemistryWindow, phrase, of)
	c.add(admit.Frequency, f.Frequency, OutsideChemistryWindow, phrase, of)
	c.add(admit.Temperature, below(f.Ceiling, 0), AboveCeiling, "the ceiling of {chemistry} is {limit}", of)
	c.add(admit.Temperature, below(f.CloudPoint, 0), AboveCloudPoint, "the cloud point of {chemistry} is {limit}", of)
	if f.FlashPoint.Set {
		c.add(admit.Temperature, below(f.FlashPoint, FlashMargin), nearFlashPoint.Rule, "the distance to the flash point of {chemistry} is {limit}", of)
	}
	return c
}

// below turns a single value into the limit of at most so much less.
func below(l manual.Limit, margin float64) manual.Limit {
	l.Low, l.High = math.Inf(-1), l.Low-margin
	return l
}

// OfLift gives what a soil asks for, to be lifted by a chemistry.
func OfLift(soil *manual.Article, r manual.Removal) []Limit {
	const phrase = "the window to lift {soil} is {limit}"
	of := within(soil)
	var c limits
	c.add(admit.Strength, r.Strength, OutsideSoilWindow, phrase, of)
	c.add(admit.Temperature, r.Temperature, OutsideSoilWindow, phrase, of)
	c.add(admit.Time, r.Time, OutsideSoilWindow, phrase, of)
	c.add(admit.Frequency, r.Frequency, OutsideSoilWindow, phrase, of)
	return c
}

// OfTank gives what a tank asks for: its frequency, which cannot be set.
func OfTank(t *manual.Tank) []Limit {
	var c limits
	c.add(admit.Frequency, t.Frequency, OtherFrequency, "the frequency of {tank} is {limit}", admit.Title(t.Name))
	return c
}

// LimitRules are the rules that guard limits.
func LimitRules() []finding.Rule {
	return []finding.Rule{
		PHOutsideMaterial, AttackOnPurpose, TooHotForMaterial, TooLongForMaterial, FrequencyOutsideMaterial,
		OutsideChemistryWindow, AboveCeiling, AboveCloudPoint, OutsideSoilWindow, OtherFrequency,
	}
}
