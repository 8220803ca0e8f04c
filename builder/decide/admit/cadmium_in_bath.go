package admit

import "tankside/builder/finding"

// cadmiumInBath keeps cadmium out of every bath that other parts share: it dissolves and wears into it, is toxic, and goes on to other parts,
// hands and drains.
// Limit: 29 CFR 1910.1027 (cadmium), from memory; that cadmium-plated parts are not cleaned in shared baths is common practice, no source.
var cadmiumInBath = Exclusion{
	Rule: finding.Rule{
		Name: "cadmium-in-a-bath", Severity: finding.People,
		Finds:  "a cadmium-plated part in a bath",
		Why:    "Cadmium wears and dissolves into the bath and its sludge, and harms kidneys and lungs of whoever empties it.",
		Source: "29 CFR 1910.1027, from memory, to be confirmed by the safety officer; common practice, no source",
	},
	Group: "people",
	In: func(x *Meeting) *Hit {
		of, is := x.MadeOf("cadmium")
		if !is {
			return nil
		}
		return &Hit{
			Verdict: No, Says: Say("{material} has cadmium, which is toxic and goes into the bath: it is not washed here.", titled(x.Material)),
			Remedy: "Bag it, label it, and ask the safety officer; it is cleaned by who is equipped for cadmium.", At: of.At,
		}
	},
}
