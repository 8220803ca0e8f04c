package rules

import (
	"fmt"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/relate"
)

const keepApart = "Put a full rinse between them and check the pH, or keep the two in separate places: other tanks, other baskets, other procedures."

// findEnemiesInArticle finds neighbouring washes of a part, and the chemistries of one procedure, that must never meet: see relate.NeverMeet.
func findEnemiesInArticle(p *proof, a *manual.Article) []finding.Finding {
	var list []finding.Finding
	all := washes(p, a)
	for i := 1; i < len(all); i++ {
		before, after := all[i-1], all[i]
		if why, one, other := relate.Enmity(before.Chemistry, after.Chemistry); why != "" {
			list = append(list, relate.NeverMeet.At(after.step.Chemistry.At, fmt.Sprintf("Wash %d and wash %d follow each other: %s.", before.number, after.number, why), keepApart, one, other))
		}
	}
	if a.Procedure == nil {
		return list
	}
	chemistries := named(p, manual.Chemistry, a.Procedure.Chemistries)
	for i, x := range chemistries {
		for _, y := range chemistries[:i] {
			if why, one, other := relate.Enmity(y, x); why != "" {
				list = append(list, relate.NeverMeet.At(at(a, "chemistry"), "The procedure uses both "+y.Head.Title+" and "+x.Head.Title+": "+why+".", keepApart, one, other))
			}
		}
	}
	return list
}

// findEnemiesInTanks finds neighbouring tanks whose baths must never meet: see relate.NeverMeet.
func findEnemiesInTanks(p *proof) []finding.Finding {
	var list []finding.Finding
	for i := 1; i < len(p.Shop.Tanks); i++ {
		before, after := &p.Shop.Tanks[i-1], &p.Shop.Tanks[i]
		x, y := p.Named(manual.Chemistry, before.Chemistry.Name), p.Named(manual.Chemistry, after.Chemistry.Name)
		if x == nil || y == nil {
			continue
		}
		if why, one, other := relate.Enmity(x, y); why != "" {
			list = append(list, relate.NeverMeet.At(after.At, before.Name+" and "+after.Name+" stand side by side: "+why+".", keepApart, one, other))
		}
	}
	return list
}
