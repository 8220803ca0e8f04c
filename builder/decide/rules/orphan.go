package rules

import (
	"tankside/builder/finding"
	"tankside/builder/manual"
)

// orphan finds articles that no other article speaks of.
// It shows knowledge that nobody is led to. Lessons stand in the course and are found there; the index lists every article.
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
		if !standsAlone(a) && len(p.used[a]) == 0 {
			list = append(list, orphan.At(at(a, "title"), "No other article links to this one or names it in its header.", "Link to it from where it is needed."))
		}
	}
	return list
}

// standsAlone tells whether readers come to an article without being led there by another: symptoms from the home page, lessons
// from the course, parts from the list of parts.
func standsAlone(a *manual.Article) bool {
	return a.Kind == manual.Symptom || a.Kind == manual.Lesson || a.Kind == manual.Part
}
