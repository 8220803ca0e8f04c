package admit

import (
	"tankside/builder/finding"
	"tankside/builder/quantity"
	"tankside/calculators/safety"
)

// enzymeKilled keeps enzyme baths at or below 50 °C: above it the enzyme is destroyed and protein sets on the part.
// Limit: from memory of biochemistry handbooks.
var enzymeKilled = Exclusion{
	Rule: finding.Rule{
		Name: "enzyme-killed", Severity: finding.Result,
		Finds:  "an enzyme bath above 50 °C or above pH 9",
		Why:    "The enzyme is destroyed and protein sets on the part, which comes out dirtier to clean than it went in.",
		Source: "from memory of biochemistry handbooks, to be confirmed by the process engineer",
	},
	Of: func(b *Bath, in quantity.System) *Hit {
		enzyme, has := b.Contains("enzyme")
		if !has {
			return nil
		}
		ph := b.Chemistry.PH
		switch {
		case b.Temperature.Set && b.Temperature.High > safety.EnzymeTo+1e-9:
			return &Hit{
				Verdict: No, Says: Say("{chemistry} has enzymes, which {temperature} destroys.", titled(b.Chemistry), Amount(b.Temperature.Range)),
				Remedy: "Stay at or below " + quantity.Show(safety.EnzymeTo, quantity.Temperature, in) + ".", At: enzyme.At, Also: b.Temperature.At,
			}
		case ph.Set && ph.High > safety.EnzymePHTo+1e-9:
			return &Hit{
				Verdict: No, Says: Say("{chemistry} has enzymes, which a pH above 9 destroys.", titled(b.Chemistry)),
				Remedy: "Keep the pH at 9 or below.", At: enzyme.At, Also: ph.At,
			}
		}
		return nil
	},
}
