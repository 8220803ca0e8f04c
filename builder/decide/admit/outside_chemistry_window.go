package admit

import "tankside/builder/finding"

// OutsideChemistryWindow guards the window of a chemistry.
// The limit is the chemistry's own window.
var OutsideChemistryWindow = finding.Rule{
	Name: "outside-chemistry-window", Severity: finding.Result,
	Finds:  "a wash or tank whose strength, temperature, time or frequency leaves the chemistry's window",
	Why:    "Weaker or colder it does not clean; stronger or hotter it leaves film, foams or attacks.",
	Source: "the chemistry's article",
}
