package admit

import (
	"tankside/builder/finding"
)

// acidOnHardSteel keeps acids off steel of 1000 MPa and more, hardened steel and springs: hydrogen from the acid makes them crack,
// hours or days later and without warning.
// Limit: ASTM B849 and B850 (steels of 1000 MPa or more, about 31 HRC: relief of hydrogen embrittlement).
var acidOnHardSteel = Exclusion{
	Rule: finding.Rule{
		Name: "acid-on-hard-steel", Severity: finding.Parts,
		Finds:  "an acid on high-strength, hardened or stressed steel",
		Why:    "Hydrogen from the acid goes into the steel; springs, bolts and gears then snap days later, under load and without warning.",
		Source: "ASTM B849 and B850: steels of 1000 MPa or more, about 31 HRC",
	},
	Group: "attack",
	Never: true,
	In: func(x *Meeting) *Hit {
		of, is := x.MadeOf("high-strength-steel")
		if !is {
			steel, isSteel := x.MadeOf("carbon-steel")
			_, hard := x.Has("hardened", "stressed")
			of, is = steel, isSteel && hard
		}
		if !is || !Acid(x.Chemistry) {
			return nil
		}
		return &Hit{
			Verdict: No, Says: Say("{chemistry} is an acid: hard steel takes up hydrogen from it and cracks later.", titled(x.Chemistry)),
			Remedy: "Take an alkaline derust. Acid only with written approval and a bake as the specification says; that is not a process sheet for operators.",
			At:     of.At, Also: chemistryPlace(x.Bath, "acid"),
		}
	},
}
