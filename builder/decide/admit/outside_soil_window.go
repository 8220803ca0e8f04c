package admit

import "tankside/builder/finding"

// OutsideSoilWindow guards the window in which a chemistry lifts a soil.
// The limit is the soil's own window for that chemistry.
var OutsideSoilWindow = finding.Rule{
	Name: "outside-soil-window", Severity: finding.Result,
	Finds:  "a wash outside the window in which its chemistry lifts the part's soil",
	Why:    "The soil stays on the part.",
	Source: "the soil's article, removed-by",
}
