package rules

import (
	"tankside/builder/finding"
	"tankside/builder/manual"
)

// brokenGlossaryLink finds terms of the glossary that name an article which is not there.
// It prevents that somebody who looks up a word is sent to a page that does not exist.
var brokenGlossaryLink = finding.Rule{
	Name: "broken-glossary-link", Severity: finding.Result,
	Finds:  "a term of the glossary whose article is not there",
	Why:    "Whoever looks a word up is sent on and arrives nowhere.",
	Source: "the manual itself",
}

func findGlossaryLinks(p *proof) []finding.Finding {
	var list []finding.Finding
	for _, t := range p.Glossary {
		if t.Article == "" {
			continue
		}
		to, problem := p.Resolve(nil, t.Article)
		switch {
		case problem != nil:
			list = append(list, brokenGlossaryLink.At(t.At, "The term “"+t.Term+"” names “"+t.Article+"”, where there is no article.", problem.Remedy))
		case to.Article == nil && to != (manual.Destination{}):
			list = append(list, brokenGlossaryLink.At(t.At, "The term “"+t.Term+"” names “"+t.Article+"”, which is no article.", "Write the path of an article: lessons/how-cavitation-cleans.md"))
		}
	}
	return list
}
