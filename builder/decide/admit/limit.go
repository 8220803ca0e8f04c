package admit

import (
	"math"

	"tankside/builder/decide/fact"
	"tankside/builder/finding"
	"tankside/builder/quantity"
	"tankside/calculators/safety"
)

// Limit is what a chemistry, a material, a soil, a tank or a concession asks for, with the proof-reader's rule that guards it.
type Limit struct {
	What What
	fact.Limit
	Asks Sentence      // "the window to lift wax is 65–75 °C"
	Rule *finding.Rule // nil where none guards it

	of source
	by *Material // whose limit it is, where it is a material's

	turned bool // from another measure
}

// source tells whose a limit is.
type source uint8

const (
	ofChemistry source = iota
	ofTank
	ofMaterial
	ofSoil
	ofConcession
)

// limits collects limits that are set.
type limits []Limit

// add adds a limit that is said as “the window to lift wax is 65–75 °C”, so that it fits a title in singular and plural: the last hole of the
// phrase is for the limit.
func (c *limits) add(what What, l fact.Limit, r *finding.Rule, of source, phrase string, fill ...Part) {
	if l.Set {
		*c = append(*c, Limit{What: what, Limit: l, Asks: Say(phrase, append(fill, Amount(l.Range))...), Rule: r, of: of})
	}
}

// OfMaterial gives what a material asks of a bath: of its pH the limit with silicate, where the bath has silicate and the material such a limit.
func OfMaterial(m *Material, silicated bool) []Limit {
	const phrase = "the limit of {material} is {limit}"
	c := make(limits, 0, 4)
	if silicated && m.PHSilicated.Set {
		c.add(PH, m.PHSilicated, &PHOutsideMaterial, ofMaterial, "the limit of {material} with silicate is pH {limit}", within(m))
	} else {
		c.add(PH, m.PH, &PHOutsideMaterial, ofMaterial, "the limit of {material} is pH {limit}", within(m))
	}
	c.add(Temperature, m.Temperature, &TooHotForMaterial, ofMaterial, phrase, within(m))
	c.add(Time, m.Time, &TooLongForMaterial, ofMaterial, phrase, within(m))
	c.add(Frequency, m.Frequency, &FrequencyOutsideMaterial, ofMaterial, phrase, within(m))
	for i := range c {
		c[i].by = m
	}
	return c
}

// OfChemistry gives what a chemistry asks for.
func OfChemistry(a *Chemistry) []Limit {
	const phrase = "the window of {chemistry} is {limit}"
	c := make(limits, 0, 8)
	c.add(PH, a.PH, nil, ofChemistry, "the bath of {chemistry} is pH {limit}", within(a))
	c.add(Strength, a.Strength, &OutsideChemistryWindow, ofChemistry, phrase, within(a))
	c.add(Temperature, a.Temperature, &OutsideChemistryWindow, ofChemistry, phrase, within(a))
	c.add(Time, a.Time, &OutsideChemistryWindow, ofChemistry, phrase, within(a))
	c.add(Frequency, a.Frequency, &OutsideChemistryWindow, ofChemistry, phrase, within(a))
	c.add(Temperature, below(a.Ceiling), &AboveCeiling, ofChemistry, "the ceiling of {chemistry} is {limit}", within(a))
	c.add(Temperature, below(a.CloudPoint), &AboveCloudPoint, ofChemistry, "the cloud point of {chemistry} is {limit}", within(a))
	if flash := a.Flash(); flash.Set && !a.coldOnly() {
		c.add(Temperature, belowFlash(flash), &nearFlashPoint.Rule, ofChemistry, "the distance to the flash point of {chemistry} is {limit}", within(a))
	}
	if a.coldOnly() {
		c.add(Temperature, atRoom(a.Flash().At), &nearFlashPoint.Rule, ofChemistry, "{chemistry} can be lit and has to stay at {limit}", within(a))
	}
	return c
}

// atRoom is the limit of what has no heat.
func atRoom(at finding.Place) fact.Limit {
	unit, _ := quantity.UnitNamed("°C", quantity.Temperature)
	return fact.Limit{Range: quantity.Range{Low: math.Inf(-1), High: Room, Kind: quantity.Temperature, Unit: unit}, At: at, Set: true}
}

// below turns a single value into the limit of at most that.
func below(l fact.Limit) fact.Limit {
	l.Low, l.High = math.Inf(-1), l.Low
	return l
}

// belowFlash turns a flash point into the limit of at most its margin less.
func belowFlash(flash fact.Limit) fact.Limit {
	flash.Low, flash.High = math.Inf(-1), safety.BelowFlash(flash.Low)
	return flash
}

// OfLift gives what a soil asks for, to be lifted by a chemistry.
func OfLift(soil *Soil, r fact.Removal) []Limit {
	const phrase = "the window to lift {soil} is {limit}"
	var c limits
	c.add(Strength, r.Strength, &OutsideSoilWindow, ofSoil, phrase, within(soil))
	c.add(Temperature, r.Temperature, &OutsideSoilWindow, ofSoil, phrase, within(soil))
	c.add(Time, r.Time, &OutsideSoilWindow, ofSoil, phrase, within(soil))
	c.add(Frequency, r.Frequency, &OutsideSoilWindow, ofSoil, phrase, within(soil))
	return c
}

// OfTank gives what a tank asks for: its frequency, which cannot be set, and of a jar that it is no warmer than the room.
func OfTank(t *Tank) []Limit {
	var c limits
	c.add(Frequency, t.Frequency, &OtherFrequency, ofTank, "the frequency of {tank} is {limit}", Title(t.Name))
	if t.Vessel == fact.Jar {
		c.add(Temperature, atRoom(t.At), &jarWithHeatOrSound.Rule, ofTank, "{tank} has no heat and stands at {limit}", Title(t.Name))
	}
	return c
}

// ofConceded gives the limits within which a concession holds.
func ofConceded(c *fact.Concession, m *Material) []Limit {
	const phrase = "{role} lives with it within {limit}"
	var list limits
	list.add(Strength, c.Strength, &OutsideConcession, ofConcession, phrase, Title(c.By))
	list.add(Temperature, c.Temperature, &OutsideConcession, ofConcession, phrase, Title(c.By))
	list.add(Time, c.Time, &OutsideConcession, ofConcession, phrase, Title(c.By))
	list.add(Frequency, c.Frequency, &OutsideConcession, ofConcession, phrase, Title(c.By))
	for i := range list {
		list[i].by = m
	}
	return list
}

// Rules are the rules that guard what is decided, but for those that have a check of their own in package rules.
func Rules() []finding.Rule {
	list := []finding.Rule{DissimilarMetals, SoilNotRemoved, DryerTooHot, FlammableIntoDryer, OtherChemistry}
	for i := range exclusions {
		list = append(list, exclusions[i].Rule)
	}
	return append(list,
		PHOutsideMaterial, AttackOnPurpose, TooHotForMaterial, TooLongForMaterial, FrequencyOutsideMaterial,
		OutsideChemistryWindow, AboveCeiling, AboveCloudPoint, OutsideSoilWindow, OtherFrequency, OutsideConcession, NotComparable, RinseOutsideMaterial)
}
