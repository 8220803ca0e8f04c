package admit

import (
	"math"

	"tankside/builder/decide/fact"
	"tankside/builder/finding"
	"tankside/builder/quantity"
	"tankside/calculators/safety"
)

// lowFrequencyOnSoftSurface keeps 20–30 kHz off polished faces, soft light and precious metals and optics, which it pits.
// It asks about tanks and washes that have a frequency, not about a chemistry by itself.
// Limit: ASTM G131-96 (2016), 5.3 (20–25 kHz damages aluminium and silver); 30 kHz is common practice, no source.
var lowFrequencyOnSoftSurface = Exclusion{
	Rule: finding.Rule{
		Name: "low-frequency-on-soft-surface", Severity: finding.Parts,
		Finds:  "30 kHz or less on a polished face, on aluminium, silver, gold or coated optics",
		Why:    "The large bubbles of a low frequency pit soft and polished faces within minutes.",
		Source: "ASTM G131-96 (2016), 5.3 (20–25 kHz on aluminium and silver); 30 kHz is common practice, no source",
	},
	Group: "sound",
	In: func(x *Meeting) *Hit {
		f := x.Frequency
		if !f.Set || f.Low > safety.PitsTo*(1+1e-9) {
			return nil
		}
		if x.Tank != nil && !x.Sheet && f.High > safety.PitsTo*(1+1e-9) {
			return nil // of several frequencies one that suits is chosen
		}
		of, is := x.soft()
		if !is {
			return nil
		}
		return &Hit{
			Verdict: No, Says: Say("At 30 kHz and less, sound pits {surface}.", surface(of)),
			Remedy: "Take a tank of 40 kHz or more; 68–170 kHz for polished faces.", At: of.At, Also: f.At,
		}
	},
}

// soft tells whether sound of a low frequency pits what is in the bath, and which fact says so.
func (x *Meeting) soft() (fact.Ref, bool) {
	if of, is := x.MadeOf("aluminium", "silver", "gold", "coated-optic"); is {
		return of, true
	}
	return x.Has("polished")
}

// ofSoft is what a soft surface asks of the frequency: the first whole kilohertz above 30.
func (x *Meeting) ofSoft() []Limit {
	of, is := x.soft()
	if !is {
		return nil
	}
	unit, _ := quantity.UnitNamed("kHz", quantity.Frequency)
	above := fact.Limit{Range: quantity.Range{Low: safety.PitsTo + 1e3, High: math.Inf(1), Kind: quantity.Frequency, Unit: unit}, At: of.At, Set: true}
	var c limits
	c.add(Frequency, above, &lowFrequencyOnSoftSurface.Rule, ofMaterial, "the limit of {material} is {limit}", within(x.Material))
	c[0].by = x.Material
	return c
}

func surface(word fact.Ref) Part {
	if word.Name == "polished" {
		return Word("polished faces")
	}
	return spoken(word)
}
