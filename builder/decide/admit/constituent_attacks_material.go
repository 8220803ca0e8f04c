package admit

import (
	"tankside/builder/finding"
)

// constituentAttacksMaterial keeps a chemistry off a material that names one of its constituents under attacked-by.
// The limit is the material's own article, with its sources.
var constituentAttacksMaterial = Exclusion{
	Rule: finding.Rule{
		Name: "constituent-attacks-material", Severity: finding.Parts,
		Finds:  "a chemistry with a constituent that attacks the material",
		Why:    "The part is stained, etched, cracked or dissolved.",
		Source: "the material's article, attacked-by",
	},
	Group: "attack",
	In: func(x *Meeting) *Hit {
		for _, by := range x.Material.AttackedBy {
			contains, has := x.Contains(by.Is())
			if by.Is() == "acid" && !has && Acid(x.Chemistry) {
				contains, has = by, true
				contains.At = x.Chemistry.PH.At
			}
			if has {
				return &Hit{
					Verdict: No, Says: Say("{chemistry} has {constituent}, which attacks {material}.", titled(x.Chemistry), spoken(by), titled(x.Material)),
					Remedy: "Take a chemistry without it.", At: by.At, Also: contains.At,
				}
			}
		}
		return nil
	},
}
