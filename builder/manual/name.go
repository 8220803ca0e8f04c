package manual

import (
	"fmt"
	"slices"
	"strings"

	"tankside/builder/finding"
)

// nameArticles fills the map of names and reports names that two articles of a kind share.
func (m *Manual) nameArticles(d *decoder) {
	for _, a := range m.articles {
		if first := m.byName[a.Kind][a.Name]; first != nil {
			d.report(ruleSameAddress, finding.Place{File: a.Path}, fmt.Sprintf("There is another %s with the name “%s”, in %s.", kindTable[a.Kind].one, a.Name, first.Path),
				"Rename one of the two files.", finding.Place{File: first.Path})
			continue
		}
		m.byName[a.Kind][a.Name] = a
	}
}

// lookUp reports names for which there is nothing.
func (m *Manual) lookUp(d *decoder, names []pending, shopRead bool) {
	for _, p := range names {
		if m.knows(p, shopRead) {
			continue
		}
		var candidates []string
		var what []string
		for _, k := range p.kinds {
			what = append(what, kindTable[k].one)
			for n := range m.byName[k] {
				candidates = append(candidates, n)
			}
		}
		for _, l := range p.shop {
			what = append(what, string(l))
			candidates = append(candidates, m.shopNames(l)...)
		}
		candidates = append(candidates, p.words...)
		slices.Sort(candidates)
		remedy := "Names are file names without .md. Correct the name, or write the article."
		if len(p.shop) > 0 {
			remedy = "The shop file has: " + strings.Join(candidates, ", ") + "."
		}
		d.report(ruleUnknownName, p.ref.At, fmt.Sprintf("There is no %s “%s”, which “%s” names%s", strings.Join(what, " or "), clip(p.ref.Name, 40), p.key, stop(didYouMean(p.ref.Name, candidates))), remedy)
	}
}

func (m *Manual) knows(p pending, shopRead bool) bool {
	if slices.Contains(p.words, p.ref.Name) {
		return true
	}
	for _, k := range p.kinds {
		if m.byName[k][p.ref.Name] != nil || m.refused[kindTable[k].folder+"/"+p.ref.Name+".md"] {
			return true
		}
	}
	return len(p.shop) > 0 && !shopRead || slices.ContainsFunc(p.shop, func(l shopList) bool { return slices.Contains(m.shopNames(l), p.ref.Name) })
}

func (m *Manual) shopNames(of shopList) []string {
	var names []string
	switch of {
	case tankIDs:
		for _, t := range m.Shop.Tanks {
			names = append(names, t.ID)
		}
	case rinseIDs:
		for _, r := range m.Shop.Rinses {
			names = append(names, r.ID)
		}
	case dryerIDs:
		names = append(names, m.Shop.Dryer.ID)
	case roleList:
		names = append(names, m.Shop.Roles...)
	}
	return names
}
