package rules

import (
	"fmt"
	"strings"

	"tankside/builder/decide/admit"
	"tankside/builder/decide/relate"
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/quantity"
)

// tankWarmsItself finds tanks whose own sound takes the bath past what its chemistry stands: the thermostat switches the heater off, and nothing
// switches the sound off. It prevents that a bath drifts to its cloud point, its ceiling or the margin to its flash point while the dial shows
// the set-point. The limit is the chemistry's; where the temperature ends is computed from the sound's heat and the losses with the lid as the
// shop has it, as the calculator holding does it: its sources stand there. It speaks up only where even the least heat that is likely goes so far.
var tankWarmsItself = finding.Rule{
	Name: "tank-warms-itself", Severity: finding.Result,
	Finds:  "a tank whose sound alone takes the bath past its chemistry's ceiling, cloud point or distance to the flash point, even by the least heat that is likely; where it may, the answers say so",
	Why:    "The dial shows the set-point while the bath climbs: surfactant drops out, parts are etched, vapour rises.",
	Source: "computed from sound and losses, as the calculator holding does: its sources stand there",
}

func findWarmTanks(p *proof) []finding.Finding {
	var list []finding.Finding
	in := p.Shop.System()
	for _, t := range p.line.Tanks() {
		a := p.Named(manual.Chemistry, t.Chemistry.Name)
		_, given := t.Keys["duty"]
		if a == nil || !t.WarmsItself() || given && !t.Duty.Set {
			continue
		}
		c := relate.Chemistry(a)
		for _, l := range admit.OfChemistry(&c) {
			if l.What != admit.Temperature || l.Rule == &admit.OutsideChemistryWindow || t.Drift.Least <= l.High || t.Temperature.High > l.High {
				continue
			}
			list = append(list, tankWarmsItself.At(t.Power.At, fmt.Sprintf("With its heater off %s is warmed by its own sound to about %s%s, but %s.",
				t.Name, quantity.Show(t.Drift.Ends, quantity.Temperature, in), lidWords(t.Lid), strings.TrimSuffix(l.Asks.Within(nil, in), ".")),
				"Say under duty for what share of the time the sound runs, or under cooling what a coil takes away; or run it with the lid off, then lid: no.", l.At))
			break
		}
	}
	return list
}

func lidWords(lid bool) string {
	if lid {
		return " under its lid"
	}
	return ""
}
