package manual

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"tankside/builder/finding"
)

// nameArticles fills the map of names, in which drafts come last, and reports names that two articles of a kind share.
func (m *Manual) nameArticles(d *decoder) {
	for _, a := range slices.Concat(m.articles, m.drafts) {
		if a.Language != "" {
			continue
		}
		if first := m.byName[a.Kind][a.Name]; first != nil {
			d.report(ruleSameAddress, finding.Place{File: a.Path}, fmt.Sprintf("There is another %s with the name “%s”, in %s.", a.Kind, a.Name, first.Path),
				"Rename one of the two files.", finding.Place{File: first.Path})
			continue
		}
		m.byName[a.Kind][a.Name] = a
	}
}

// lookUp reports names for which there is nothing. A name that several files give is reported once: where the shop file has not got what they all
// name, the fault is more likely there, unless something has been found in the lines (from 1) of shopFaults.
func (m *Manual) lookUp(d *decoder, names []pending, shopRead bool, shopFaults map[int]bool) {
	names = slices.DeleteFunc(names, func(p pending) bool { return m.knows(p, shopRead) })
	byName := make(map[string][]pending)
	for _, p := range names {
		byName[fmt.Sprint(p.kinds, p.ref.Name)] = append(byName[fmt.Sprint(p.kinds, p.ref.Name)], p)
	}
	// A list of the shop file in which several files miss a name is the one fault; what else is missing in it goes with that.
	lacking := make(map[shopList][]pending)
	for _, p := range names {
		if len(p.shop) > 0 && len(filesOf(byName[fmt.Sprint(p.kinds, p.ref.Name)])) > 1 {
			lacking[m.listOf(p, names)] = nil
		}
	}
	done := make(map[string]bool)
	for _, p := range names {
		list := m.listOf(p, names)
		group := byName[fmt.Sprint(p.kinds, p.ref.Name)]
		_, lacks := lacking[list]
		switch {
		case len(p.shop) > 0 && lacks:
			lacking[list] = append(lacking[list], p)
		case len(filesOf(group)) == 1:
			m.reportName(d, p)
		case !done[p.ref.Name]:
			done[p.ref.Name] = true
			m.reportMissing(d, group)
		}
	}
	for _, list := range []shopList{tankIDs, rinseIDs, dryerIDs, roleList} {
		if len(lacking[list]) > 0 && !shopFaults[m.Shop.At[shopKeyOf[list]].Line] {
			m.reportLacking(d, list, lacking[list])
		}
	}
}

// listOf gives the list of the shop file in which a name was to be, "" where it is the name of an article. Where it could be in several, what others
// take the name for decides.
func (m *Manual) listOf(p pending, names []pending) shopList {
	if len(p.shop) == 0 {
		return ""
	}
	if len(p.shop) > 1 {
		for _, other := range names {
			if len(other.shop) == 1 && other.ref.Name == p.ref.Name && slices.Contains(p.shop, other.shop[0]) {
				return other.shop[0]
			}
		}
	}
	return p.shop[0]
}

func filesOf(group []pending) []string {
	var files []string
	for _, p := range group {
		files = append(files, p.ref.At.File)
	}
	slices.Sort(files)
	return slices.Compact(files)
}

// reportMissing reports an article that several files name and that is not there.
func (m *Manual) reportMissing(d *decoder, group []pending) {
	what, candidates := m.candidates(group[0])
	name, files := group[0].ref.Name, filesOf(group)
	d.report(ruleUnknownName, group[0].ref.At, fmt.Sprintf("There is no %s “%s”, which %d files name: %s%s", what, clip(name, 40), len(files), someOf(files), stop(didYouMean(name, candidates))),
		"Names are file names without .md. Give the article this name, write it, or correct the name in these files.", placesOf(group[1:])...)
}

// reportLacking reports names that several files take from a list of the shop file which has not got them.
func (m *Manual) reportLacking(d *decoder, list shopList, group []pending) {
	key := shopKeyOf[list]
	at, given := m.Shop.At[key]
	if !given {
		at = finding.Place{File: ShopFile, Line: 1, Column: 1}
	}
	wanted := make(map[string]bool)
	for _, p := range group {
		wanted[p.ref.Name] = true
	}
	names, files := someOf(slices.Sorted(maps.Keys(wanted))), filesOf(group)
	remedy := fmt.Sprintf("Put %s into “%s” of the shop file, or correct the name in these files.", names, key)
	if have := m.shopNames(list); len(have) > 0 {
		remedy += " It has: " + strings.Join(have, ", ") + "."
	}
	d.report(ruleUnknownName, at, fmt.Sprintf("“%s” of the shop file has no %s, which %d files name: %s.", key, names, len(files), someOf(files)), remedy, placesOf(group)...)
}

func placesOf(group []pending) []finding.Place {
	var list []finding.Place
	for _, p := range group {
		list = append(list, p.ref.At)
	}
	return list
}

// shopKeyOf is the key of the shop file that has a list's names.
var shopKeyOf = map[shopList]string{tankIDs: "tanks", rinseIDs: "rinses", dryerIDs: "dryer", roleList: "roles"}

// someOf lists a few and counts the rest.
func someOf(list []string) string {
	const most = 4
	if len(list) <= most {
		return strings.Join(list, ", ")
	}
	return fmt.Sprintf("%s and %d more", strings.Join(list[:most], ", "), len(list)-most)
}

// candidates gives what a name could be the name of, in a sentence, and the names that there are.
func (m *Manual) candidates(p pending) (what string, names []string) {
	var sorts []string
	for _, k := range p.kinds {
		sorts = append(sorts, string(k))
		for n := range m.byName[k] {
			names = append(names, n)
		}
	}
	for _, l := range p.shop {
		sorts = append(sorts, string(l))
		names = append(names, m.shopNames(l)...)
	}
	names = append(names, p.words...)
	slices.Sort(names)
	return strings.Join(sorts, " or "), names
}

func (m *Manual) reportName(d *decoder, p pending) {
	what, candidates := m.candidates(p)
	remedy := "Names are file names without .md. Correct the name, or write the article."
	if len(p.shop) > 0 {
		remedy = "The shop file has: " + strings.Join(candidates, ", ") + "."
	}
	d.report(ruleUnknownName, p.ref.At, fmt.Sprintf("There is no %s “%s”, which “%s” names%s", what, clip(p.ref.Name, 40), p.key, stop(didYouMean(p.ref.Name, candidates))), remedy)
}

func (m *Manual) knows(p pending, shopRead bool) bool {
	if slices.Contains(p.words, p.ref.Name) {
		return true
	}
	for _, k := range p.kinds {
		if m.byName[k][p.ref.Name] != nil || m.refused[k.Folder()+"/"+p.ref.Name+".md"] {
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
