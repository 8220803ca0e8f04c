package admit

import (
	"slices"
	"strings"

	"tankside/builder/decide/fact"
	"tankside/builder/finding"
)

// solventOnPlastic keeps solvents off plastics, rubber and paint that craze, soften or swell in them, and asks for a trial where it hangs on the grade.
// Limit: from memory of resistance tables for plastics and rubber; ASTM D543 (plastics) and D471 (rubber) are the tests.
var solventOnPlastic = Exclusion{
	Rule: finding.Rule{
		Name: "solvent-on-plastic", Severity: finding.Parts,
		Finds:  "a solvent on a plastic, a rubber or a paint that it crazes, dissolves or swells; unproved on one that hangs on the grade",
		Why:    "The plastic crazes or softens, often at a screw hole and a day later; a seal that has swollen leaks.",
		Source: "from memory of resistance tables; ASTM D543 and D471 are the tests, to be confirmed by the safety officer",
	},
	Group: "attack",
	In: func(x *Meeting) *Hit {
		for _, s := range solvents {
			contains, has := x.Contains(s.name)
			if !has {
				continue
			}
			if of, is := x.MadeOf(s.ruins...); is {
				return &Hit{
					Verdict: No, Says: Say("{chemistry} has {constituent}, which crazes or softens {substance}.", titled(x.Chemistry), spoken(contains), spoken(of)),
					Remedy: "Take a neutral cleaner.", At: of.At, Also: contains.At,
				}
			}
		}
		for _, s := range solvents {
			contains, has := x.Contains(s.name)
			of, is := x.MadeOf(s.tried...)
			_, attacked := fact.One(x.Material.AttackedBy, s.name)
			if !has || !is || attacked { // an attack that the material itself names is a no, by another exclusion
				continue
			}
			if !slices.Contains(rubbers, of.Is()) {
				return &Hit{
					Verdict: Conditions, Says: Say("Try it on a sample of {substance} and look for cracks and soft spots after a day: {chemistry} has {constituent}, which can craze or soften it.", spoken(of), titled(x.Chemistry), spoken(contains)),
					Brief: Say("trial with a sample first"), Remedy: "Make a trial with a sample of the material.", At: of.At, Also: contains.At,
				}
			}
			return &Hit{
				Verdict: Conditions, Says: Say("Weigh and measure a sample of {substance} before and after: {chemistry} has {constituent}, which can swell it.", spoken(of), titled(x.Chemistry), spoken(contains)),
				Brief: Say("trial of the rubber first"), Remedy: "Make a trial with a sample of the rubber.", At: of.At, Also: contains.At,
			}
		}
		return nil
	},
}

// solvents are the solvents among the constituents, with the substances that they ruin and those that are tried first.
var solvents = []struct {
	name         string
	ruins, tried []string
}{
	{"terpene", strings.Fields("polycarbonate acrylic abs polystyrene"), strings.Fields("nbr epdm fkm silicone-rubber pvc paint epoxy cyanoacrylate")},
	{"glycol-ether", strings.Fields("polycarbonate acrylic abs polystyrene"), strings.Fields("nbr epdm pvc paint epoxy cyanoacrylate")},
	{emulsion, nil, strings.Fields("nbr epdm fkm silicone-rubber pvc abs polystyrene paint epoxy cyanoacrylate")},
	{"ketone", strings.Fields("polycarbonate acrylic abs polystyrene pvc nbr fkm cyanoacrylate paint"), strings.Fields("epdm silicone-rubber epoxy coated-optic")},
	{"ester", strings.Fields("polycarbonate acrylic abs polystyrene pvc nbr fkm cyanoacrylate paint"), strings.Fields("epdm silicone-rubber epoxy coated-optic")},
	{"hydrocarbon", strings.Fields("polycarbonate abs polystyrene epdm silicone-rubber"), strings.Fields("acrylic pvc polyolefin nbr epoxy paint coated-optic")},
	{"alcohol", strings.Fields("acrylic"), strings.Fields("polycarbonate abs polystyrene nylon nbr paint epoxy coated-optic")},
}

// emulsion is a solvent that is stirred into water.
const emulsion = "solvent-emulsion"

// Solvents are the constituents that are solvents by themselves, and which of them can be lit when nothing is said of their flash point.
func Solvents() (all, lit []string) {
	for _, s := range solvents {
		if s.name == emulsion {
			continue
		}
		all = append(all, s.name)
		if s.name != "glycol-ether" { // many of them flash above 93 °C
			lit = append(lit, s.name)
		}
	}
	return all, lit
}

var rubbers = strings.Fields("nbr epdm fkm silicone-rubber")
