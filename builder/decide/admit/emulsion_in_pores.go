package admit

import (
	"tankside/builder/decide/fact"
	"tankside/builder/finding"
)

// emulsionInPores keeps solvent emulsions out of sintered and porous metal, which holds them for good. Blind holes have to be drained.
// Limit: ASM Handbook vol. 5 (1994), emulsion cleaning, limitations.
var emulsionInPores = Exclusion{
	Rule: finding.Rule{
		Name: "emulsion-in-pores", Severity: finding.Parts,
		Finds:  "a solvent emulsion on sintered or porous material, or in blind holes",
		Why:    "The solvent stays in pores and holes, bleeds out later and spoils paint, plating and bearings.",
		Source: "ASM Handbook vol. 5 (1994), emulsion cleaning",
	},
	Group: "attack",
	In: func(x *Meeting) *Hit {
		contains, has := x.Contains("solvent-emulsion")
		if !has {
			return nil
		}
		if of, is := x.Has("sintered", "porous"); is {
			return &Hit{
				Verdict: No, Says: Say("{chemistry} is a solvent emulsion, and {material} is {feature} and would hold it for good.", titled(x.Chemistry), titled(x.Material), spoken(of)),
				Remedy: "Take a water-based cleaner without solvent.", At: of.At, Also: contains.At,
			}
		}
		of, is := x.Has("blind-holes")
		_, attacked := fact.One(x.Material.AttackedBy, contains.Is())
		if !is || attacked {
			return nil
		}
		return &Hit{
			Verdict: Conditions, Says: Say("Turn the parts and drain every blind hole: what stays of {chemistry} bleeds out later.", titled(x.Chemistry)),
			Brief: Say("drain blind holes"), Remedy: "Say how the holes are drained, or take a cleaner without solvent.", At: of.At, Also: contains.At,
		}
	},
}
