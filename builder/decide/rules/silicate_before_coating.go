package rules

import (
	"tankside/builder/decide/fact"
	"tankside/builder/finding"
	"tankside/builder/manual"
)

// silicateBeforeCoating finds parts that leave a silicated wash for plating, painting or bonding.
// It prevents coats that peel from a glassy film that nobody sees.
// Limit: MIL-STD-1330D (1996, Change 1 2007), silicate residues; that it spoils plating, bonding and some paint is common practice.
var silicateBeforeCoating = finding.Rule{
	Name: "silicate-before-coating", Severity: finding.Result,
	Finds:  "a part that goes from a silicated wash to plating, painting or bonding",
	Why:    "Silicate leaves a glassy film that is not seen, and plating, paint and glue peel from it.",
	Source: "MIL-STD-1330D (1996, Change 1 2007), residues of silicate; common practice, no source, for plating, paint and bonds",
}

func findSilicateBeforeCoating(p *proof, a *manual.Article) []finding.Finding {
	if a.Part == nil || len(a.Part.Steps) == 0 || a.Part.Next != "plating" && a.Part.Next != "painting" && a.Part.Next != "bonding" {
		return nil
	}
	last := a.Part.Steps[len(a.Part.Steps)-1]
	c := p.Named(manual.Chemistry, last.Chemistry.Name)
	if c == nil {
		return nil
	}
	silicate, has := fact.One(c.Chemistry.Contains, "silicate")
	if !has {
		return nil
	}
	return []finding.Finding{silicateBeforeCoating.At(last.Chemistry.At, "The last wash has silicate, and the part goes on to "+a.Part.Next+".",
		"Wash last without silicate, or write the test for residues into the sheet and accept this finding with that reason.", silicate.At, at(a, "next"))}
}
