package admit

import (
	"tankside/builder/decide/fact"
	"tankside/builder/finding"
)

// solventOnPlastic keeps terpenes and glycol ethers off plastics that craze or soften in them. Nitrile and EPDM rubber swell: they need
// a trial first.
// Limit: from memory of resistance tables for plastics; ASTM D543 (plastics) and D471 (rubber) are the tests.
var solventOnPlastic = Exclusion{
	Rule: finding.Rule{
		Name: "solvent-on-plastic", Severity: finding.Parts,
		Finds:  "terpene or glycol ether on polycarbonate, acrylic, ABS or polystyrene; unproved on nitrile or EPDM rubber",
		Why:    "The plastic crazes or softens, often at a screw hole and a day later.",
		Source: "from memory of resistance tables; ASTM D543 and D471 are the tests, to be confirmed by the safety officer",
	},
	Group: "attack",
	In: func(x *Meeting) *Hit {
		contains, has := x.Contains("terpene", "glycol-ether")
		if !has {
			return nil
		}
		if of, is := x.MadeOf("polycarbonate", "acrylic", "abs", "polystyrene"); is {
			return &Hit{
				Verdict: No, Says: Say("{chemistry} has {constituent}, which crazes or softens {substance}.", titled(x.Chemistry), spoken(contains), spoken(of)),
				Remedy: "Take a neutral cleaner.", At: of.At, Also: contains.At,
			}
		}
		of, is := x.MadeOf("nbr", "epdm")
		_, attacked := fact.One(x.Material.AttackedBy, contains.Is())
		if !is || attacked { // an attack that the material itself names is a no, by another exclusion
			return nil
		}
		return &Hit{
			Verdict: Conditions, Says: Say("Weigh and measure a sample of {substance} before and after: {chemistry} has {constituent}, which can swell it.", spoken(of), titled(x.Chemistry), spoken(contains)),
			Brief: Say("trial of the rubber first"), Remedy: "Make a trial with a sample of the rubber.", At: of.At, Also: contains.At,
		}
	},
}
