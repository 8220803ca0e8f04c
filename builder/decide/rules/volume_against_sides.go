package rules

import (
	"fmt"
	"math"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/quantity"
)

// volumeTolerance is by how much of it a tank's volume may differ from length times width times depth: for rounded corners, sloped floors and built-in radiators.
const volumeTolerance = 0.05

// volumeAgainstSides finds tanks whose volume is not that of their sides.
// It prevents that concentrate is measured for another amount of water than is in the tank, and that it is filled over its rim.
// Limit: 5 %, our own: a depth is measured to a centimetre or so.
var volumeAgainstSides = finding.Rule{
	Name: "volume-against-sides", Severity: finding.Parts,
	Finds:  "a tank whose volume differs by more than 5 % from length × width × depth",
	Why:    "Every dose of concentrate, the heating time and the mark up to which the tank is filled follow from its volume.",
	Source: "geometry; 5 % is our own limit",
}

func findVolumesAgainstSides(p *proof) []finding.Finding {
	var list []finding.Finding
	for i := range p.Shop.Tanks {
		t := &p.Shop.Tanks[i]
		if !t.Volume.Set || !t.Length.Set || !t.Width.Set || !t.Depth.Set {
			continue
		}
		sides := t.Length.High * t.Width.High * t.Depth.High
		if sides <= 0 || math.Abs(t.Volume.High-sides) <= volumeTolerance*sides*(1+1e-9) {
			continue
		}
		remedy := "Measure again, inside, the depth up to the mark, and correct what is wrong: volume: " + inUnit(sides, t.Volume) + " goes with these sides"
		if depth := t.Volume.High / (t.Length.High * t.Width.High); depth > t.Depth.High/2 && depth < t.Depth.High*2 {
			remedy += "; depth: " + inUnit(depth, t.Depth) + " goes with this volume, length and width"
		}
		list = append(list, volumeAgainstSides.At(t.Volume.At, fmt.Sprintf("The volume of %s is %s, but %s × %s × %s are %s.",
			t.Name, t.Volume, t.Length, t.Width, t.Depth, inUnit(sides, t.Volume)), remedy+".",
			t.Length.At, t.Width.At, t.Depth.At))
	}
	return list
}

// inUnit writes an amount with three digits in the unit of a limit.
func inUnit(si float64, like manual.Limit) string {
	return quantity.ShowIn(si, like.Unit)
}
