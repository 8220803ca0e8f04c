package rules

import (
	"fmt"
	"slices"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// unlistedChemistry finds steps of a procedure that use a chemistry which its header does not name. It prevents that hazards, protective
// equipment and what must never meet are checked for the chemistries of the header, and somebody handles another.
// The limit is the procedure's own header: chemistry, and what is in its tanks.
var unlistedChemistry = finding.Rule{
	Name: "unlisted-chemistry", Severity: finding.People,
	Finds:  "a step of a procedure that uses a chemistry which the header does not name",
	Why:    "Protective equipment and what must never meet are checked by the header; for this chemistry nobody has checked them.",
	Source: "the procedure's header",
}

var handles = sentence.Set("add pour use dose fill dip rinse wash put clean mix dilute soak spray wipe charge apply immerse measure take top brush descale derust degrease stir tip")

func findUnlistedChemistries(p *proof, a *manual.Article) []finding.Finding {
	if a.Procedure == nil {
		return nil
	}
	listed := named(p, manual.Chemistry, a.Procedure.Chemistries)
	for _, t := range a.Procedure.Tanks {
		if tank := p.Shop.Tank(t.Name); tank != nil {
			if c := p.Named(manual.Chemistry, tank.Chemistry.Name); c != nil {
				listed = append(listed, c)
			}
		}
	}
	var list []finding.Finding
	said := p.reading(a)
	for i := said.summary; i < len(said.sentences); i++ {
		s := &said.sentences[i]
		if len(s.Mentions) == 0 || s.Question || denied(s) || s.Block.Signal != "" || s.Block.Kind == sentence.Heading || s.Block.Kind == sentence.Cell {
			continue
		}
		for j := range s.Mentions {
			m := &s.Mentions[j]
			c := &s.Clauses[s.ClauseOf(m)]
			if m.Thing.Kind() != manual.Chemistry || m.Where || c.Mood != sentence.Do || !handles[c.Verb] || c.Opener != "" || s.Has(conditional) {
				continue
			}
			chemistry := m.Thing.Articles[0]
			if slices.Contains(listed, chemistry) || !slices.ContainsFunc(chemistry.Chemistry.Hazards, func(h manual.Ref) bool { return hurtsPeople(h.Name) }) {
				continue
			}
			list = append(list, unlistedChemistry.At(placeIn(a, s.Block, m.From), fmt.Sprintf("The step uses %s, which the header's chemistry does not name.", chemistry.Head.Title), "Add it to chemistry in the header, with its hazards and protective equipment, or take it out here.", at(a, "chemistry")))
		}
	}
	return list
}

var conditional = sentence.Set("if unless where instead")
