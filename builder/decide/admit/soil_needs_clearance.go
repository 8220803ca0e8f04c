package admit

import "tankside/builder/finding"

// SoilNeedsClearance holds back what may carry a substance that hurts people, until the safety officer has been asked.
// Limit: 29 CFR 1910.1001 (asbestos), 1910.1024 (beryllium), 1910.1025 (lead), 1910.1026 (chromate), 1910.1027 (cadmium), 1910.1030 (blood),
// from memory.
var SoilNeedsClearance = finding.Rule{
	Name: "soil-needs-clearance", Severity: finding.People,
	Finds:  "a part whose soil may contain asbestos, lead, beryllium, cadmium, chromate, PCB, radioactive or biological matter, without a DANGER or WARNING in its sheet",
	Why:    "What comes off goes into the bath, the sludge, the mist and on to hands; it needs the safety officer's word before washing and before draining.",
	Source: "29 CFR 1910.1001 and 1910.1024–1910.1030, from memory, to be confirmed by the safety officer",
}
