package admit

import "tankside/builder/finding"

// TooLongForMaterial guards a material against sound that goes on for too long.
// The limit is the material's own, for all washes of one visit together.
var TooLongForMaterial = finding.Rule{
	Name: "too-long-for-material", Severity: finding.Parts,
	Finds:  "washes that together last longer than a part's material stands",
	Why:    "Cavitation wears soft and polished faces; the time counts for the whole visit.",
	Source: "the material's article, time",
}
