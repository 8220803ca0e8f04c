package admit

import (
	"tankside/builder/finding"
)

// ammoniaOnCopperAlloy keeps ammonia and amines off brass and off stressed copper alloys, which crack from them.
// Limit: corrosion papers (NACE/AMPP): ammonia cracks stressed brass, fastest near pH 6–7 with copper in the bath.
var ammoniaOnCopperAlloy = Exclusion{
	Rule: finding.Rule{
		Name: "ammonia-on-copper-alloy", Severity: finding.Parts,
		Finds:  "ammonia or an amine on brass or on a stressed copper alloy",
		Why:    "Brass that is under stress from drawing or pressing cracks from ammonia, often after it has been built in.",
		Source: "corrosion papers (NACE/AMPP) on the season cracking of brass",
	},
	Group: "attack",
	In: func(x *Meeting) *Hit {
		of, is := x.MadeOf("brass")
		if !is {
			alloy, isAlloy := x.MadeOf("copper", "bronze", "beryllium-copper")
			_, stressed := x.Has("stressed")
			of, is = alloy, isAlloy && stressed
		}
		contains, has := x.Contains("ammonia", "amine")
		if !is || !has {
			return nil
		}
		return &Hit{
			Verdict: No, Says: Say("{chemistry} has {constituent}, which cracks {substance}.", titled(x.Chemistry), spoken(contains), spoken(of)),
			Remedy: "Take a cleaner without ammonia and amines.", At: of.At, Also: contains.At,
		}
	},
}
