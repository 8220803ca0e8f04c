package rules

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strconv"
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
var impossible = []string{"implausible-value", "volume-against-sides"}

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

// suspect is the values of one sort in one header, or of one tank, and what contradicts them.
type suspect struct {
	of, sort string
	findings []int
	values   map[finding.Place]value
	against  map[string]finding.Place // by article or tank
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

// inTextOf parts what an article's text says from what its header says: each may contradict for itself.
const inTextOf = "#text"

// whose gives to what a place belongs: an article, its text, or a tank, rinse or dryer of the shop file.
func (p *proof) whose(place finding.Place) string {
	if place.File != manual.ShopFile {
		if a := p.At(place.File); a != nil && place.Line >= a.Start {
			return place.File + inTextOf
		}
		return place.File
	}
	of, line := "", 0
	begins := func(id string, at finding.Place) {
		if at.Line > line && at.Line <= place.Line {
			of, line = id, at.Line
		}
	}
	for _, t := range p.Shop.Tanks {
		begins(t.ID, t.At)
	}
	for _, r := range p.Shop.Rinses {
		begins(r.ID, r.At)
	}
	for _, at := range p.Shop.At {
		begins("", at)
	}
	begins(p.Shop.Dryer.ID, p.Shop.At["dryer"])
	return of
}

// neighbours gives for each article and tank those whose headers it is compared with.
func (p *proof) neighbours() map[string]map[string]bool {
	near := make(map[string]map[string]bool)
	link := func(a, b string) {
		for _, pair := range [][2]string{{a, b}, {b, a}} {
			if near[pair[0]] == nil {
				near[pair[0]] = make(map[string]bool)
			}
			near[pair[0]][pair[1]] = true
		}
	}
	named := func(from string, kind manual.Kind, name string) {
		if a := p.Named(kind, name); a != nil {
			link(from, a.Path)
		}
	}
	for _, t := range p.Shop.Tanks {
		named(t.ID, manual.Chemistry, t.Chemistry.Name)
	}
	for _, a := range p.Articles {
		switch {
		case a.Soil != nil:
			for _, r := range a.Soil.RemovedBy {
				named(a.Path, manual.Chemistry, r.Chemistry.Name)
				named(inside(a.Path, r.Chemistry.Name), manual.Chemistry, r.Chemistry.Name)
			}
		case a.Part != nil:
			for i, s := range a.Part.Steps {
				for _, of := range []string{a.Path, inside(a.Path, strconv.Itoa(i))} {
					named(of, manual.Chemistry, s.Chemistry.Name)
					link(of, s.Tank.Name)
				}
				for _, r := range a.Part.Soils {
					if soil := p.Named(manual.Soil, r.Name); soil != nil {
						link(a.Path, inside(soil.Path, s.Chemistry.Name))
					}
				}
			}
			for _, r := range a.Part.Materials {
				named(a.Path, manual.Material, r.Name)
			}
			for _, r := range a.Part.Soils {
				named(a.Path, manual.Soil, r.Name)
			}
			for _, r := range a.Part.Rinse {
				link(a.Path, r.Name)
			}
			link(a.Path, a.Part.Dry.Name)
		}
	}
	return near
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

// inside names one window of a soil, or one wash of a part.
func inside(of, part string) string { return of + "#" + part }

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

func graver(a, b finding.Severity) finding.Severity {
	order := []finding.Severity{finding.People, finding.Parts, finding.Result, finding.Untidy}
	if slices.Index(order, b) < slices.Index(order, a) {
		return b
	}
	return a
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
			id += " " + f.Rule
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
