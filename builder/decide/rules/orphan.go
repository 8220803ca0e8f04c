package rules

import "tankside/builder/finding"

// orphan finds articles that no other article speaks of.
// It shows knowledge that nobody is led to. Kinds that stand alone are come to in another way: see manual.Declaration.
var orphan = finding.Rule{
	Name: "orphan", Severity: finding.Untidy,
	Finds:  "an article that no other speaks of",
	Why:    "Only those who know that it is there will find it.",
	Source: "the manual itself",
}

func findOrphans(p *proof) []finding.Finding {
	if p.NamesLost() {
		return nil // nobody knows which articles the headers would name
	}
	var list []finding.Finding
	for _, a := range p.Articles {
		if !a.Kind.Declared().Alone && len(p.used[a]) == 0 {
			list = append(list, orphan.At(at(a, "title"), "No other article links to this one or names it in its header.", "Link to it from where it is needed."))
		}
	}
	return list
}
