package admit

import "tankside/builder/finding"

// PHOutsideMaterial guards a material against a pH that it does not stand.
// The limits are the material's own; that half of the bath's range decides is ours: see package
var PHOutsideMaterial = finding.Rule{
	Name: "ph-outside-material", Severity: finding.Parts,
	Finds:  "a chemistry whose pH leaves what a part's material stands",
	Why:    "Outside its band the material is etched, stained or rusts.",
	Source: "the material's article, ph and ph-silicated; the chemistry's article, ph",
}
