package admit

import "tankside/builder/finding"

// FrequencyOutsideMaterial guards a material against a frequency that it does not stand.
// The limit is the material's own; ASTM G131 gives the direction: the lower the frequency, the more damage.
var FrequencyOutsideMaterial = finding.Rule{
	Name: "frequency-outside-material", Severity: finding.Parts,
	Finds:  "a wash at a frequency that a part's material does not stand",
	Why:    "The bubbles of too low a frequency pit the face.",
	Source: "the material's article, frequency; ASTM G131 for the direction",
}
