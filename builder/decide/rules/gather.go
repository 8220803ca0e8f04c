package rules

import (
	"slices"
	"strconv"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// gather makes one finding of those that rest on the same value.
func (p *proof) gather(list []finding.Finding) []finding.Finding {
	if len(list) < 2 {
		return list
	}
	g := p.newGathering(list)
	g.absorb()
	for {
		s := g.mostContradicted()
		if s == nil {
			break
		}
		g.take(s)
	}
	return g.joined()
}

// absorb takes the findings that rest on a value which cannot be into the finding about that value: they follow from it.
func (g *gathering) absorb() {
	at := make(map[finding.Place]int)
	for i, f := range g.list {
		if slices.Contains(impossible, f.Rule) {
			at[f.Place] = i
		}
	}
	gone := make(map[int]bool)
	for i, f := range g.list {
		for _, place := range places(f) {
			to, is := at[place]
			if !is || to == i || gone[to] {
				continue
			}
			gone[i] = true
			g.list[to].Severity = graver(g.list[to].Severity, f.Severity)
			g.list[to].Also = slices.Clone(g.list[to].Also) // it may share them with what a memo keeps
			for _, also := range places(f) {
				if also != g.list[to].Place && !slices.Contains(g.list[to].Also, also) {
					g.list[to].Also = append(g.list[to].Also, also)
				}
			}
			break
		}
	}
	g.leave(gone)
}

// impossible are the rules by which a value is wrong whatever else the manual says.
var impossible = []finding.RuleName{implausibleValue.Name, volumeAgainstSides.Name}

// leave leaves findings out.
func (g *gathering) leave(gone map[int]bool) {
	kept, rest := g.list[:0:0], g.values[:0:0]
	for i := range g.list {
		if !gone[i] {
			kept, rest = append(kept, g.list[i]), append(rest, g.values[i])
		}
	}
	g.list, g.values = kept, rest
}

// gathering sorts findings by the values that they rest on.
type gathering struct {
	p      *proof
	list   []finding.Finding
	at     map[finding.Place]value
	values [][]value // that each finding rests on
	near   map[string]map[string]bool
	given  map[string]map[string][]value // by what has them, and by sort
}

func (p *proof) newGathering(list []finding.Finding) *gathering {
	g := &gathering{p: p, list: list, at: make(map[finding.Place]value), given: make(map[string]map[string][]value)}
	note := func(v value) {
		if before, twice := g.at[v.at()]; twice && before.key != v.key {
			return
		}
		g.at[v.at()] = v
		if g.given[v.of] == nil {
			g.given[v.of] = make(map[string][]value)
		}
		g.given[v.of][v.sort()] = append(g.given[v.of][v.sort()], v)
	}
	for _, v := range valuesOfShop(&p.Shop) {
		note(v)
	}
	for _, a := range p.Articles {
		for _, v := range valuesOf(a) {
			note(v)
		}
	}
	g.near = p.neighbours()
	g.values = make([][]value, len(list))
	for i, f := range list {
		for _, place := range places(f) {
			if v, is := g.at[place]; is {
				g.values[i] = append(g.values[i], v)
			}
		}
		g.values[i] = append(g.values[i], g.ofTank(f, g.values[i])...)
	}
	return g
}

// ofTank gives the values of a tank on which a finding about a wash rests: those of the sorts that it is about and that the wash does not give itself.
// Such a finding stands at the chemistry of the wash.
func (g *gathering) ofTank(f finding.Finding, about []value) []value {
	a := g.p.At(f.File)
	if a == nil || a.Part == nil {
		return nil
	}
	var list []value
	for i, s := range a.Part.Steps {
		if s.Chemistry.At != f.Place {
			continue
		}
		for _, v := range about {
			own := slices.ContainsFunc(g.given[a.Path][v.sort()], func(w value) bool { return w.part == strconv.Itoa(i) })
			if tank := g.given[s.Tank.Name][v.sort()]; !own && v.of != s.Tank.Name {
				list = append(list, tank...)
			}
		}
	}
	return list
}

// places gives where a finding is and what it rests on.
func places(f finding.Finding) []finding.Place { return append([]finding.Place{f.Place}, f.Also...) }

func graver(a, b finding.Severity) finding.Severity {
	order := []finding.Severity{finding.People, finding.Parts, finding.Result, finding.Untidy}
	if slices.Index(order, b) < slices.Index(order, a) {
		return b
	}
	return a
}

// joined makes one finding of those that are about the same value, where each says something else of it, and of what one rule says twice of
// one place of the shop file.
func (g *gathering) joined() []finding.Finding {
	var list []finding.Finding
	first := make(map[string]int)
	for _, f := range g.list {
		id := f.Place.String()
		if _, is := g.at[f.Place]; !is {
			if f.File != manual.ShopFile {
				list = append(list, f)
				continue
			}
			id += " " + string(f.Rule)
		}
		before, twice := first[id]
		if !twice {
			first[id] = len(list)
			list = append(list, f)
			continue
		}
		list[before] = join(list[before], f)
	}
	return list
}

// join makes one finding of two about one value: the graver one, which also says what the other says.
func join(a, b finding.Finding) finding.Finding {
	if a.Severity != b.Severity && graver(a.Severity, b.Severity) == b.Severity {
		a, b = b, a
	}
	if !strings.Contains(a.Message, b.Message) {
		a.Message += " " + b.Message
	}
	if !strings.Contains(a.Remedy, b.Remedy) {
		a.Remedy += " " + b.Remedy
	}
	a.Also = slices.Clone(a.Also)
	for _, place := range b.Also {
		if !slices.Contains(a.Also, place) {
			a.Also = append(a.Also, place)
		}
	}
	return a
}
