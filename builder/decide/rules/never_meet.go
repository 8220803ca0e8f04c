package rules

import (
	"tankside/builder/decide/admit"
	"tankside/builder/decide/relate"
	"tankside/builder/finding"
	"tankside/builder/manual"
)

// findEnemiesInArticle finds chemistries of one procedure that must never meet, and chemistries that a soil's article has lift what must never
// come into them: see admit.NeverMeet. Neighbouring washes of a part are looked at with the rest of its sheet.
func findEnemiesInArticle(p *proof, a *manual.Article) []finding.Finding {
	var list []finding.Finding
	in := p.Shop.System()
	if a.Soil != nil {
		soil := admit.Soil{Item: admit.Item{Name: a.Name, Title: a.Head.Title, Path: a.Path}, Soil: *a.Soil}
		for _, r := range a.Soil.RemovedBy {
			if c := p.Named(manual.Chemistry, r.Chemistry.Name); c != nil {
				chemistry := relate.Chemistry(c)
				for _, reason := range admit.ContentAgainst(&soil, &chemistry) {
					list = append(list, reason.Guard.At(r.Chemistry.At, reason.Says.In(nil, in), "Take "+c.Head.Title+" out of removed-by: what may contain this never meets it.", others(reason, r.Chemistry.At)...))
				}
			}
		}
	}
	if a.Procedure == nil {
		return list
	}
	chemistries := named(p, manual.Chemistry, a.Procedure.Chemistries)
	for i, x := range chemistries {
		for _, y := range chemistries[:i] {
			before, after := relate.Chemistry(y), relate.Chemistry(x)
			if why, one, other := admit.Enmity(&before, &after); why.Phrase != "" {
				list = append(list, admit.NeverMeet.At(at(a, "chemistry"), "The procedure uses both "+y.Head.Title+" and "+x.Head.Title+": "+why.Within(nil, in)+".", admit.KeepApart, one, other))
			}
		}
	}
	return list
}

// named gives the articles of a kind that are named and could be read.
func named(p *proof, kind manual.Kind, refs []manual.Ref) []*manual.Article {
	var list []*manual.Article
	for _, r := range refs {
		if a := p.Named(kind, r.Name); a != nil {
			list = append(list, a)
		}
	}
	return list
}

// findEnemiesInTanks finds neighbouring tanks whose baths must never meet: see admit.NeverMeet.
func findEnemiesInTanks(p *proof) []finding.Finding {
	var list []finding.Finding
	for i := 1; i < len(p.Shop.Tanks); i++ {
		before, after := &p.Shop.Tanks[i-1], &p.Shop.Tanks[i]
		x, y := p.Named(manual.Chemistry, before.Chemistry.Name), p.Named(manual.Chemistry, after.Chemistry.Name)
		if x == nil || y == nil {
			continue
		}
		one, two := relate.Chemistry(x), relate.Chemistry(y)
		if why, at, other := admit.Enmity(&one, &two); why.Phrase != "" {
			list = append(list, admit.NeverMeet.At(after.At, before.Name+" and "+after.Name+" stand side by side: "+why.Within(nil, p.Shop.System())+".", admit.KeepApart, at, other))
		}
	}
	return list
}
