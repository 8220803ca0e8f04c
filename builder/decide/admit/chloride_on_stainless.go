package admit

import (
	"tankside/builder/finding"
)

// chlorideOnStainless keeps chloride and hypochlorite off stainless steel and titanium: it pits them, and what stays in crevices
// cracks them later, titanium when it is heated.
// Limit: ASTM A380 (chlorides out of crevices of stainless steel); ASTM F945 (stress corrosion of titanium by cleaning materials).
var chlorideOnStainless = Exclusion{
	Rule: finding.Rule{
		Name: "chloride-on-stainless", Severity: finding.Parts,
		Finds:  "chloride or hypochlorite on stainless steel or titanium",
		Why:    "Chloride pits the steel and stays in crevices, where it cracks steel and titanium in service.",
		Source: "ASTM A380 (stainless steel); ASTM F945 (titanium)",
	},
	Group: "attack",
	In: func(x *Meeting) *Hit {
		of, is := x.MadeOf("stainless-steel", "titanium")
		contains, has := x.Contains("chloride", "hypochlorite")
		if !is || !has {
			return nil
		}
		return &Hit{
			Verdict: No, Says: Say("{chemistry} has {constituent}, which pits and cracks {substance}.", titled(x.Chemistry), spoken(contains), spoken(of)),
			Remedy: "Take a chemistry without chloride.", At: of.At, Also: contains.At,
		}
	},
}
