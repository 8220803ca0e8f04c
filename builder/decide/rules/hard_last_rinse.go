package rules

import (
	"fmt"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/calculators/safety"
)

// spotLimit is the conductivity in S/m that the last rinse of a part may have which must not spot.
const spotLimit = safety.SpotLimit

// hardLastRinse finds parts that must not spot and are dried from water that leaves spots.
// It prevents white rings on parts that are painted, bonded, sealed against or sold for their looks.
// Limit: 30 µS/cm in the last rinse for cosmetic parts is common practice, no source.
var hardLastRinse = finding.Rule{
	Name: "hard-last-rinse", Severity: finding.Result,
	Finds:  "a part that must not spot, dried from water of more than 30 µS/cm or without a rinse",
	Why:    "Every drop that dries leaves behind what was dissolved in it: rings, chalk, and paint that does not hold.",
	Source: "common practice, no source",
}

func findHardLastRinses(p *proof, a *manual.Article) []finding.Finding {
	if a.Part == nil || !a.Part.MustNotSpot || len(a.Part.Steps) == 0 {
		return nil
	}
	if len(a.Part.Rinse) == 0 {
		return []finding.Finding{hardLastRinse.At(at(a, "must-not-spot"), "The part must not spot, and it is not rinsed.", "Give its rinses, the last one with deionised water.")}
	}
	last := a.Part.Rinse[len(a.Part.Rinse)-1]
	r := p.Shop.RinseTank(last.Name)
	if r == nil {
		return nil
	}
	conductivity := r.Conductivity
	if mains := p.Shop.Water.Conductivity; r.Water == "mains" && mains.Set && (!conductivity.Set || conductivity.High < mains.Low) {
		conductivity = mains // no rinse is purer than what it is fed with
	}
	if !conductivity.Set || conductivity.High <= spotLimit*(1+1e-9) {
		return nil
	}
	return []finding.Finding{hardLastRinse.At(last.At, fmt.Sprintf("The part must not spot, but its last rinse, %s, has %s; the limit is %s.",
		r.Name, conductivity.In(p.Shop.System()), quantity.Show(spotLimit, quantity.Conductivity, p.Shop.System())), "Rinse last in deionised water.", conductivity.At, at(a, "must-not-spot"))}
}
