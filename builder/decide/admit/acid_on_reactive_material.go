package admit

import (
	"tankside/builder/finding"
)

// acidOnReactiveMaterial keeps acids off what they eat: magnesium, zinc, cadmium, cast iron, the cobalt binder of carbide, black oxide
// and phosphate coats.
// Limit: papers on the corrosion of WC-Co (cobalt dissolves fast in dilute acid); the metals and coats from memory of corrosion handbooks.
var acidOnReactiveMaterial = Exclusion{
	Rule: finding.Rule{
		Name: "acid-on-reactive-material", Severity: finding.Parts,
		Finds:  "an acid on magnesium, zinc, cadmium, cast iron, cobalt-bound carbide, black oxide or phosphate",
		Why:    "The acid eats the metal, the binder or the coat, with gas and froth, and leaves the part porous or bare.",
		Source: "W. J. Tomlinson and I. D. Molyneux, J. Mater. Sci. 26 (1991) 1605, abstract, of cobalt-bound carbide at pH 1; metals and coats from memory of corrosion handbooks, to be confirmed by the safety officer",
	},
	Group: "attack",
	Never: true,
	In: func(x *Meeting) *Hit {
		of, is := x.MadeOf("magnesium", "zinc", "cadmium", "cast-iron", "cobalt-carbide", "black-oxide", "phosphate-coat")
		if !is || !Acid(x.Chemistry) {
			return nil
		}
		return &Hit{
			Verdict: No, Says: Say("{chemistry} is an acid and eats {substance}.", titled(x.Chemistry), spoken(of)),
			Remedy: "Take a neutral or alkaline cleaner.", At: of.At, Also: chemistryPlace(x.Bath, "acid"),
		}
	},
}
