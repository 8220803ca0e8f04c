package admit

import "tankside/builder/finding"

// AboveCeiling guards the highest temperature of a chemistry.
// The limit is the chemistry's own ceiling; its article says why.
var AboveCeiling = finding.Rule{
	Name: "above-ceiling", Severity: finding.People,
	Finds:  "a wash, tank or window hotter than the chemistry's ceiling",
	Why:    "Above its ceiling a bath steams, burns, gives off vapour or attacks what it should clean.",
	Source: "the chemistry's article, ceiling",
}
