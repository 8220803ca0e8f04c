package rules

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// contradictedValue gathers the findings that follow from one value which more places of the manual contradict than agree with: a unit that was
// mistaken, a digit too many. It prevents that one mistake is sought in thirty articles that have none.
// The limit is a majority of those that compare themselves with the value.
var contradictedValue = finding.Rule{
	Name: "contradicted-value", Severity: finding.People,
	Finds:  "a value of a header or the shop file that most of what depends on it contradicts",
	Why:    "One wrong value makes everything that rests on it wrong; whoever mends the others instead makes the mistake the rule.",
	Source: "our own limit: contradicted in two places or more, and in more than agree with it",
}

// suspect is the values of one sort in one header, or of one tank, and what contradicts them.
type suspect struct {
	of, sort string
	findings []int
	values   map[finding.Place]value
	against  map[string]finding.Place // by article or tank
}

// mostContradicted gives the values that most is against, if more is against them than agrees.
func (g *gathering) mostContradicted() *suspect {
	all := make(map[string]*suspect)
	for i := range g.list {
		for _, v := range g.values[i] {
			g.accuse(all, v.of, v, i)
			if v.part != "" {
				g.accuse(all, inside(v.of, v.part), v, i)
			}
		}
	}
	var most *suspect
	for _, id := range slices.Sorted(maps.Keys(all)) {
		if s := all[id]; len(s.findings) > 1 && len(s.against) > 1 && len(s.against) > g.agree(s) && (most == nil || len(s.against) > len(most.against)) {
			most = s
		}
	}
	return most
}

// accuse notes that a finding rests on a value.
func (g *gathering) accuse(all map[string]*suspect, of string, v value, i int) {
	id := v.sort() + " " + of
	s := all[id]
	if s == nil {
		s = &suspect{of: of, sort: v.sort(), values: make(map[finding.Place]value), against: make(map[string]finding.Place)}
		all[id] = s
	}
	s.values[v.at()] = v
	if len(s.findings) == 0 || s.findings[len(s.findings)-1] != i {
		s.findings = append(s.findings, i)
	}
	for _, place := range places(g.list[i]) {
		if other := g.p.whose(place); other != v.of {
			if _, is := g.at[place]; is || s.against[other] == (finding.Place{}) {
				s.against[other] = place
			}
		}
	}
}

// agree counts what is compared with a suspect's values and goes with them.
func (g *gathering) agree(s *suspect) int {
	n := 0
	for of := range g.near[s.of] {
		if _, against := s.against[of]; !against && g.goesWith(of, s) {
			n++
		}
	}
	return n
}

// goesWith tells whether something has a value of a suspect's sort that can be together with one of the suspect's. A part that does not say how hot
// or strong goes by its tank, and says nothing for or against it.
func (g *gathering) goesWith(of string, s *suspect) bool {
	values := g.given[of][s.sort]
	if a := g.p.At(of); len(values) == 0 && a != nil && a.Part != nil {
		for _, step := range a.Part.Steps {
			if step.Tank.Name != s.of {
				values = append(values, g.given[step.Tank.Name][s.sort]...)
			}
		}
	}
	for _, v := range s.values {
		if slices.ContainsFunc(values, func(w value) bool {
			return w.limit.Kind == v.limit.Kind && w.limit.Low <= v.limit.High && w.limit.High >= v.limit.Low
		}) {
			return true
		}
	}
	return false
}

// take puts one finding about a suspect in the place of those that rest on it.
func (g *gathering) take(s *suspect) {
	values := slices.SortedFunc(maps.Values(s.values), func(a, b value) int {
		return cmp.Or(cmp.Compare(a.at().Line, b.at().Line), cmp.Compare(a.at().Column, b.at().Column))
	})
	var written []string
	for _, v := range values {
		if w := "“" + v.written() + "”"; !slices.Contains(written, w) {
			written = append(written, w)
		}
	}
	var against []string
	var also []finding.Place
	severity := finding.Untidy
	for _, i := range s.findings {
		severity = graver(severity, g.list[i].Severity)
		also = append(also, places(g.list[i])...)
	}
	for _, of := range slices.Sorted(maps.Keys(s.against)) {
		against = append(against, g.said(of, s))
	}
	agree := ""
	if n := g.agree(s); n > 0 {
		agree = fmt.Sprintf(", while %d agree", n)
	} else {
		agree = ", and none agrees"
	}
	verb := "contradicts"
	if len(written) > 1 {
		verb = "contradict"
	}
	f := contradictedValue.At(values[0].at(), fmt.Sprintf("%s of %s %s %d places%s: %s.", strings.Join(written, ", "), values[0].label, verb, len(s.against), agree, few(against)),
		"Correct it here."+g.meant(s, values)+" Where it is right, each of the others has to be corrected instead.")
	f.Severity = severity
	slices.SortFunc(also, func(a, b finding.Place) int {
		return cmp.Or(cmp.Compare(a.File, b.File), cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column))
	})
	for _, place := range slices.Compact(also) {
		if place != f.Place {
			f.Also = append(f.Also, place)
		}
	}
	gone := make(map[int]bool)
	for _, i := range s.findings {
		gone[i] = true
	}
	g.leave(gone)
	g.list, g.values = append(g.list, f), append(g.values, nil)
}

// said names what contradicts a suspect, with its value where it has one.
func (g *gathering) said(of string, s *suspect) string {
	place := s.against[of]
	label := of
	if file, is := strings.CutSuffix(of, inTextOf); is {
		label = "the text of " + file
	}
	if v, is := g.at[place]; is {
		if place.File == manual.ShopFile {
			label = v.label
		}
		if v.sort() == s.sort {
			return label + " has " + v.limit.In(g.p.Shop.System())
		}
	}
	return label
}

// few lists some of many.
func few(list []string) string {
	const most = 4
	if len(list) <= most {
		return strings.Join(list, "; ")
	}
	return fmt.Sprintf("%s; and %d more", strings.Join(list[:most], "; "), len(list)-most)
}

// meant suggests what was likely meant: the same number in another unit, or with its decimal point moved, where that goes with most of what
// contradicts the values now. A unit that was mistaken for one value was mistaken for all that have it.
func (g *gathering) meant(s *suspect, values []value) string {
	for i, slip := range slipsOfWhole {
		fits, n := 0, 0
		of := values
		if i < unitSlips {
			of = g.inSameUnit(s, values)
		}
		var list []string
		for _, v := range of {
			if r, can := slip(v.limit.Range); can && !slices.Contains(list, v.key+": "+r.String()) {
				list = append(list, v.key+": "+r.String())
			}
		}
		for _, v := range values {
			r, can := slip(v.limit.Range)
			if !can {
				continue
			}
			for of, place := range s.against {
				w, is := g.at[place]
				if !is || w.limit.Kind != v.limit.Kind || of == v.of {
					continue
				}
				n++
				isCeiling := v.key == "ceiling" || v.key == "cloud-point" || v.key == "flash-point"
				if w.limit.Low <= r.High && (w.limit.High >= r.Low || isCeiling) {
					fits++
				}
			}
		}
		if n > 0 && fits*2 > n {
			return " Did you mean " + strings.Join(list, ", ") + "?"
		}
	}
	return ""
}

// inSameUnit gives all values of a suspect's sort that are written in the unit of those that are contradicted.
func (g *gathering) inSameUnit(s *suspect, values []value) []value {
	var list []value
	for _, v := range g.given[values[0].of][s.sort] {
		if v.limit.Unit.Symbol == values[0].limit.Unit.Symbol && (v.of == s.of || inside(v.of, v.part) == s.of) {
			list = append(list, v)
		}
	}
	return list
}
