package admit

import "tankside/builder/finding"

// AboveCloudPoint guards the cloud point of a chemistry.
// The limit is the chemistry's own cloud point (Langmuir 1997: above it an ethoxylated surfactant splits off).
var AboveCloudPoint = finding.Rule{
	Name: "above-cloud-point", Severity: finding.Result,
	Finds:  "a wash, tank or window hotter than the chemistry's cloud point",
	Why:    "Above its cloud point the surfactant drops out as an oily scum and sits on the parts.",
	Source: "the chemistry's article, cloud-point; Langmuir 1997, ethoxylated surfactants above their cloud point",
}
