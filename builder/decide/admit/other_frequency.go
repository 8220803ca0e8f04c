package admit

import "tankside/builder/finding"

// OtherFrequency guards what a tank can do.
// The limit is what is built into the tank.
var OtherFrequency = finding.Rule{
	Name: "other-frequency", Severity: finding.Result,
	Finds:  "a wash at a frequency that its tank does not have",
	Why:    "The frequency of a tank is built in; the operator cannot do what the sheet says.",
	Source: "the shop file, frequency of the tank",
}
