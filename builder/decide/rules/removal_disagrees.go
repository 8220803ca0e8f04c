package rules

import (
	"fmt"
	"slices"
	"strings"

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

// disagreement is a soil and a chemistry of which one names the other.
type disagreement struct {
	soil, chemistry *manual.Article
	at              finding.Place // where the one is named
	bySoil          bool          // in the soil's article
}

func findDisagreeingRemovals(p *proof) []finding.Finding {
	silent := make(map[*manual.Article][]disagreement) // by the article that does not name the other
	for _, a := range p.Articles {
		switch {
		case a.Partial:
		case a.Soil != nil:
			for _, r := range a.Soil.RemovedBy {
				c := p.Named(manual.Chemistry, r.Chemistry.Name)
				if c != nil && !slices.ContainsFunc(c.Chemistry.Removes, func(s manual.Ref) bool { return s.Name == a.Name }) {
					silent[c] = append(silent[c], disagreement{a, c, r.Chemistry.At, true})
				}
			}
		case a.Chemistry != nil:
			for _, ref := range a.Chemistry.Removes {
				s := p.Named(manual.Soil, ref.Name)
				if s != nil && !slices.ContainsFunc(s.Soil.RemovedBy, func(r manual.Removal) bool { return r.Chemistry.Name == a.Name }) {
					silent[s] = append(silent[s], disagreement{s, a, ref.At, false})
				}
			}
		}
	}
	var list []finding.Finding
	for _, a := range p.Articles {
		all := silent[a]
		named := 0
		if a.Soil != nil {
			named = len(a.Soil.RemovedBy)
		} else if a.Chemistry != nil {
			named = len(a.Chemistry.Removes)
		}
		if len(all) > 1 && len(all) > named {
			list = append(list, forgotten(a, all))
			continue
		}
		for _, d := range all {
			list = append(list, d.finding())
		}
	}
	return list
}

// finding says where the one names the other.
func (d disagreement) finding() finding.Finding {
	if d.bySoil {
		return removalDisagrees.At(d.at, fmt.Sprintf("%s is said to lift this soil, but its own article does not name the soil.", d.chemistry.Head.Title),
			fmt.Sprintf("Add %s to removes in %s, or take %s out here.", d.soil.Name, d.chemistry.Path, d.chemistry.Name), at(d.chemistry, "removes"))
	}
	return removalDisagrees.At(d.at, fmt.Sprintf("This chemistry is said to lift %s, whose own article does not name it.", d.soil.Head.Title),
		fmt.Sprintf("Add %s to removed-by in %s, with a window, or take %s out here.", d.chemistry.Name, d.soil.Path, d.soil.Name), at(d.soil, "removed-by"))
}

// forgotten reports an article in which most of what others say of it is missing: it was forgotten there.
func forgotten(a *manual.Article, all []disagreement) finding.Finding {
	key := "removes"
	if a.Soil != nil {
		key = "removed-by"
	}
	var names []string
	var also []finding.Place
	for _, d := range all {
		other := d.soil
		if a == d.soil {
			other = d.chemistry
		}
		names, also = append(names, other.Name), append(also, d.at)
	}
	return removalDisagrees.At(at(a, key), fmt.Sprintf("%d articles say what this one does not: %s lifts or is lifted by %s.", len(all), a.Head.Title, few(names)),
		fmt.Sprintf("Add to the header: %s: [%s]", key, strings.Join(names, ", ")), also...)
}
