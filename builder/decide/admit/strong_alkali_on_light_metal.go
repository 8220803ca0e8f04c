package admit

import (
	"tankside/builder/finding"
	"tankside/calculators/safety"
)

// strongAlkaliOnLightMetal keeps free caustic, and baths that come above pH 11 without silicate, off what they dissolve:
// aluminium, zinc, tin, lead, brass, anodise, coated optics and polycarbonate. Aluminium and zinc in caustic also give off hydrogen.
// Steel, stainless steel, and magnesium by itself, stand such baths.
// Limit: Metal Finishing Guidebook 2011–12, metal cleaning (caustic on aluminium, zinc, galvanised steel, yellow brass);
// anodise, solder, coated optics and polycarbonate from memory of corrosion handbooks.
var strongAlkaliOnLightMetal = Exclusion{
	Rule: finding.Rule{
		Name: "strong-alkali-on-light-metal", Severity: finding.Parts,
		Finds:  "free caustic, or a pH above 11 without silicate, on aluminium, zinc, tin, lead, brass, anodise, coated optics or polycarbonate",
		Why:    "The part is etched or dissolved, and aluminium and zinc give off hydrogen that can burn.",
		Source: "Metal Finishing Guidebook 2011–12, metal cleaning; anodise, solder, optics and polycarbonate from memory, to be confirmed by the safety officer",
	},
	Group: "attack",
	Never: true,
	In: func(x *Meeting) *Hit {
		of, is := x.MadeOf("aluminium", "zinc", "tin", "lead", "brass", "anodise", "coated-optic", "polycarbonate")
		if !is {
			return nil
		}
		if caustic, has := x.Contains("free-caustic"); has {
			return &Hit{
				Verdict: No, Says: Say("{chemistry} has free caustic, which dissolves {substance}.", titled(x.Chemistry), spoken(of)),
				Remedy: "Take a neutral cleaner, or for aluminium a silicated one.", At: of.At, Also: caustic.At,
			}
		}
		_, silicated := x.Contains("silicate")
		silicated = silicated && of.Is() == "aluminium" // silicate shields nothing else
		ph := x.Chemistry.PH
		if !ph.Set || ph.High <= safety.LightMetalTo || silicated {
			return nil
		}
		says := Say("{chemistry} comes above pH 11, which dissolves {substance}.", titled(x.Chemistry), spoken(of))
		if of.Is() == "aluminium" {
			says = Say("{chemistry} comes above pH 11 without silicate, which dissolves {substance}.", titled(x.Chemistry), spoken(of))
		}
		return &Hit{
			Verdict: No, Says: says,
			Remedy: "Take a neutral cleaner, or for aluminium a silicated one.", At: of.At, Also: ph.At,
		}
	},
}
