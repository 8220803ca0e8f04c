package rules

import (
	"strings"

	"tankside/builder/decide/admit"
	"tankside/builder/decide/fact"
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/calculators/safety"
)

// phWithoutWater finds chemistries that say that there is no water in them (ph: none, or rinses: dries-off) beside what comes in water. It prevents that the
// limits of pH of every material are passed over for an alkali or an acid.
// Limit: our own; a solvent of 90 % and more, with nothing in it that comes dissolved in water.
var phWithoutWater = finding.Rule{
	Name: "ph-without-water", Severity: finding.Parts,
	Finds:  "ph: none of a chemistry that names no solvent, may be weaker than 90 %, or has something that comes in water; rinses: dries-off of one with a pH",
	Why:    "What has no pH is compared with no material's limit; an alkali that is called dry would get a yes for aluminium.",
	Source: "our own limit",
}

// inWater are constituents that come dissolved in water.
var inWater = strings.Fields("silicate free-caustic phosphate carbonate chelant ammonia chloride nitrite hypochlorite peroxide fluoride enzyme acid soap cyanide sulfide")

func findPHWithoutWater(p *proof, a *manual.Article) []finding.Finding {
	c := a.Chemistry
	if c == nil {
		return nil
	}
	const give = "Give the pH of the bath"
	if !c.NoWater {
		if c.Rinses != driesOff {
			return nil
		}
		return []finding.Finding{phWithoutWater.At(at(a, "rinses"), "By rinses: dries-off nothing of it stays on the part, and it has a pH, so there is water in it and something that makes the pH.",
			"Write easy, fair or hard, and rinse it off; or, where there is no water in it, ph: none.", at(a, "ph"))}
	}
	solvents, _ := admit.Solvents()
	one := func(key, message, remedy string) []finding.Finding {
		return []finding.Finding{phWithoutWater.At(c.PH.At, "By ph: none there is no water in it, "+message, give+remedy, at(a, key))}
	}
	if wet, has := fact.One(c.Contains, inWater...); has {
		return one("contains", "and it contains "+strings.ReplaceAll(wet.Name, "-", " ")+", which comes in water.", ".")
	}
	if _, has := fact.One(c.Contains, solvents...); !has {
		return one("contains", "and contains names no solvent.", "; or write under contains which solvent it is: "+strings.Join(solvents, ", ")+".")
	}
	switch {
	case c.Alkalinity.Set, c.Acidity.Set:
		return one("alkalinity", "and it has an alkalinity or an acidity.", "; or take the alkalinity or acidity out.")
	case !c.Strength.Set, c.Strength.Kind == quantity.MassConcentration, c.Strength.Low < safety.Neat-1e-9:
		return one("strength", "and its strength does not say that it is used at 90 % at least.", "; or, where it is used as it comes, the strength, such as strength: 95–100 % v/v.")
	}
	return nil
}
