package rules

import (
	"slices"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// brokenLink finds links to articles and headings that are not there, in texts and in see-also.
// It prevents that a reader at the tank is sent to a page that does not exist. Its limit is the manual itself.
var brokenLink = finding.Rule{
	Name: "broken-link", Severity: finding.Result,
	Finds:  "a link to an article or heading that is not there",
	Why:    "The reader is sent on and arrives nowhere, often in the middle of a procedure.",
	Source: "the manual itself",
}

func findBrokenLinks(p *proof, a *manual.Article) []finding.Finding {
	list := badLinks(p, a, brokenLink, manual.NotFound, manual.NoHeading)
	if a.Language != "" {
		return list // its see-also is the original's
	}
	for _, entry := range a.Head.SeeAlso {
		if _, problem := p.Reference(a, entry.Name); problem != nil {
			list = append(list, brokenLink.At(entry.At, problem.Message, problem.Remedy))
		}
	}
	return list
}

// badLinks reports the links of an article's text that have one of the problems, except the answers of a symptom tree:
// package tree reports those that lead to no step.
func badLinks(p *proof, a *manual.Article, r finding.Rule, problems ...manual.LinkProblem) []finding.Finding {
	var list []finding.Finding
	for _, l := range a.Links {
		_, problem := p.Resolve(a, l.Target)
		if problem == nil || !slices.Contains(problems, problem.Problem) || problem.Problem == manual.NoHeading && isAnswer(a, l) {
			continue
		}
		list = append(list, r.At(l.At, problem.Message, problem.Remedy))
	}
	return list
}

// isAnswer tells whether a link of a symptom article is an answer that leads to another of its steps.
func isAnswer(a *manual.Article, l manual.Link) bool {
	if a.Kind != manual.Symptom {
		return false
	}
	for _, s := range a.Sections {
		if slices.ContainsFunc(s.Answers, func(w manual.Answer) bool { return w.Link.At == l.At && w.Link.Target[0] == '#' }) {
			return true
		}
	}
	return false
}
