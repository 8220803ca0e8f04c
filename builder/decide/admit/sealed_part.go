package admit

import (
	"tankside/builder/finding"
)

// sealedPart keeps out of every bath what is closed or lubricated for life: assembled bearings, sealed cans, batteries, pressure vessels.
// Limit: common practice, no source.
var sealedPart = Exclusion{
	Rule: finding.Rule{
		Name: "sealed-part", Severity: finding.People,
		Finds:  "a sealed part, an assembled bearing or a part under pressure in a bath",
		Why:    "Batteries, cartridges and cans can burst when they are heated; bearings lose their grease and take in grit.",
		Source: "common practice, no source",
	},
	Group: "sound",
	In: func(x *Meeting) *Hit {
		of, is := x.Has("sealed")
		if !is {
			return nil
		}
		return &Hit{
			Verdict: No, Says: Say("{material}: a sealed part is never immersed.", titled(x.Material)),
			Remedy: "Take it apart first, or refuse it.", At: of.At,
		}
	},
}
