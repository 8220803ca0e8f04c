package rules

import (
	"strings"

	"tankside/builder/finding"
)

// duplicateTitle finds two articles with one title.
// It prevents that somebody opens the wrong one of two from a list of titles. Its limit is the manual itself.
var duplicateTitle = finding.Rule{
	Name: "duplicate-title", Severity: finding.Result,
	Finds:  "two articles with the same title",
	Why:    "In the search and in the index nobody can tell the two apart, and half the readers open the wrong one.",
	Source: "WCAG 2.2, success criterion 2.4.2, from memory, to be confirmed by the process engineer; the manual itself",
}

func findDuplicateTitles(p *proof) []finding.Finding {
	first := make(map[string]finding.Place, p.Count())
	var list []finding.Finding
	for _, a := range p.Articles {
		title := strings.ToLower(strings.TrimSpace(a.Head.Title))
		if title == "" {
			continue // reported as missing
		}
		if before, twice := first[title]; twice {
			list = append(list, duplicateTitle.At(at(a, "title"), "The title “"+a.Head.Title+"” is also that of "+before.File+".", "Say in each title what the other is not.", before))
			continue
		}
		first[title] = at(a, "title")
	}
	return list
}
