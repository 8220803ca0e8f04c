package admit

import (
	"tankside/builder/fact"
	"tankside/builder/finding"
)

// lowFrequencyOnSoftSurface keeps 20–30 kHz off polished faces, soft light and precious metals and optics, which it pits.
// It asks about tanks and washes that have a frequency, not about a chemistry by itself.
// Limit: ASTM G131, scope and significance (20–25 kHz damages aluminium and silver); 30 kHz is trade practice.
var lowFrequencyOnSoftSurface = Exclusion{
	Rule: finding.Rule{
		Name: "low-frequency-on-soft-surface", Severity: finding.Parts,
		Finds:  "30 kHz or less on a polished face, on aluminium, silver, gold or coated optics",
		Why:    "The large bubbles of a low frequency pit soft and polished faces within minutes.",
		Source: "ASTM G131 (20–25 kHz on aluminium and silver); 30 kHz is common practice, no source",
	},
	Group: "sound",
	In: func(x *Meeting) *Hit {
		f := x.Frequency
		if !f.Set || f.Low > 30e3*(1+1e-9) {
			return nil
		}
		of, is := x.MadeOf("aluminium", "silver", "gold", "coated-optic")
		if !is {
			of, is = x.Has("polished")
		}
		if !is {
			return nil
		}
		return &Hit{
			Verdict: No, Says: Say("At 30 kHz and less, sound pits {surface}.", surface(of)),
			Remedy: "Take a tank of 40 kHz or more; 68–170 kHz for polished faces.", At: of.At, Also: f.At,
		}
	},
}

func surface(word fact.Ref) Part {
	if word.Name == "polished" {
		return Word("polished faces")
	}
	return spoken(word)
}
