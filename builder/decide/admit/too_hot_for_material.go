package admit

import "tankside/builder/finding"

// TooHotForMaterial guards a material against heat.
// The limit is the material's own.
var TooHotForMaterial = finding.Rule{
	Name: "too-hot-for-material", Severity: finding.Parts,
	Finds:  "a wash hotter than a part's material stands",
	Why:    "Above its limit the material etches faster, softens, loses its seal or its bond.",
	Source: "the material's article, temperature",
}
