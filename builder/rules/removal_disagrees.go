package rules

import (
	"fmt"
	"slices"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// removalDisagrees finds a chemistry that says it removes a soil whose article does not know it, and the other way round.
// The tables show what either says; this rule shows where one of the two was forgotten.
var removalDisagrees = finding.Rule{
	Name: "removal-disagrees", Severity: finding.Untidy,
	Finds:  "a soil and a chemistry of which only one says that the other belongs to it",
	Why:    "One of the two articles was not changed with the other, and its reader misses half.",
	Source: "the soil's article, removed-by, and the chemistry's, removes",
}

func findDisagreeingRemovals(p *proof, a *manual.Article) []finding.Finding {
	var list []finding.Finding
	switch {
	case a.Soil != nil:
		for _, r := range a.Soil.RemovedBy {
			c := p.Named(manual.Chemistry, r.Chemistry.Name)
			if c != nil && !slices.ContainsFunc(c.Chemistry.Removes, func(s manual.Ref) bool { return s.Name == a.Name }) {
				list = append(list, removalDisagrees.At(r.Chemistry.At, fmt.Sprintf("%s is said to lift this soil, but its own article does not name the soil.", c.Head.Title),
					"Add "+a.Name+" to its removes, or take it out here.", at(c, "removes")))
			}
		}
	case a.Chemistry != nil:
		for _, ref := range a.Chemistry.Removes {
			s := p.Named(manual.Soil, ref.Name)
			if s != nil && !slices.ContainsFunc(s.Soil.RemovedBy, func(r manual.Removal) bool { return r.Chemistry.Name == a.Name }) {
				list = append(list, removalDisagrees.At(ref.At, fmt.Sprintf("This chemistry is said to lift %s, whose own article does not name it.", s.Head.Title),
					"Add "+a.Name+" to its removed-by, with a window, or take it out here.", at(s, "removed-by")))
			}
		}
	}
	return list
}
