package handout

import (
	"slices"
	"strings"

	"tankside/builder/manual"
)

// procedures lists the procedures that name a tank, rinse or dryer, by path.
func (k *Kit) procedures(id string) []*manual.Article {
	return k.m.Select(func(a *manual.Article) bool {
		return a.Kind == manual.Procedure && a.Procedure != nil && slices.ContainsFunc(a.Procedure.Tanks, func(r manual.Ref) bool { return r.Name == id })
	})
}

// goesInto takes over the safety messages of everything that goes into a vessel beside what it holds: of the procedures on the line that name it,
// of the chemistries that they bring, and of soils that may hold what hurts people, on parts that go through it. A tank that holds a chemistry has
// that one's messages, so that of the procedures only those count that bring something else or have a hazard that it has not.
func (k *Kit) goesInto(m *messages, id string) {
	var holds *manual.Article
	if t := k.m.Shop.Tank(id); t != nil && t.Vessel != manual.Jar {
		holds = k.chemistry(t.Chemistry.Name)
	}
	for _, a := range k.procedures(id) {
		brings := k.brings(a)
		onLine := a.Head.Station == "wash" || a.Head.Station == "rinse" || a.Head.Station == "dry"
		if onLine && (holds == nil || len(brings) > 0) || k.hazardous(a, holds) {
			k.opening(m, a)
		}
		for _, chemistry := range brings {
			if onLine {
				k.opening(m, chemistry)
			}
		}
	}
	for _, a := range k.m.Select(func(a *manual.Article) bool { return isPart(a) && goesThrough(a.Part, id) }) {
		k.poisons(m, a.Part)
	}
}

// poisons takes over the messages of the soils on a part that may hold what hurts people.
func (k *Kit) poisons(m *messages, p *manual.PartFacts) {
	for _, r := range p.Soils {
		if soil := k.m.Named(manual.Soil, r.Name); soil != nil && len(soil.Soil.MayContain) > 0 {
			k.opening(m, soil)
		}
	}
}

// ofLoad takes over what can kill or hurt people badly from what a part is made of and from what is on it, and all that is said of soils that may poison.
// A CAUTION of other soils stays on the soil's page, and in the answer of “May it go in?”: a sheet has one side.
func (k *Kit) ofLoad(m *messages, p *manual.PartFacts) {
	k.poisons(m, p)
	for _, r := range p.Materials {
		if material := k.m.Named(manual.Material, r.Name); material != nil {
			k.openingBut(m, material, "CAUTION", "NOTICE")
		}
	}
	for _, r := range p.Soils {
		if soil := k.m.Named(manual.Soil, r.Name); soil != nil {
			k.openingBut(m, soil, "CAUTION", "NOTICE")
		}
	}
}

// brings gives the chemistries of a procedure where none of the vessels holds one of them which it names: otherwise they are what is in the
// vessels, or in others that the procedure is for as well.
func (k *Kit) brings(a *manual.Article) []*manual.Article {
	var list []*manual.Article
	for _, r := range a.Procedure.Chemistries {
		for _, v := range a.Procedure.Tanks {
			if t := k.m.Shop.Tank(v.Name); t != nil && t.Chemistry.Name == r.Name {
				return nil
			}
		}
		if chemistry := k.chemistry(r.Name); chemistry != nil {
			list = append(list, chemistry)
		}
	}
	return list
}

// hazardous tells whether a procedure has a hazard that the chemistry of the vessel has not: fire, above all.
func (k *Kit) hazardous(a, holds *manual.Article) bool {
	return slices.ContainsFunc(a.Procedure.Hazards, func(h manual.Ref) bool {
		return strings.HasPrefix(h.Is(), "H2") && h.Is() != "H290" && (holds == nil || !slices.ContainsFunc(holds.Chemistry.Hazards, func(o manual.Ref) bool { return o.Is() == h.Is() }))
	})
}

// goesThrough tells whether a part's sheet sends it through a vessel.
func goesThrough(p *manual.PartFacts, id string) bool {
	return p.Dry.Name == id || slices.ContainsFunc(p.Rinse, func(r manual.Ref) bool { return r.Name == id }) ||
		slices.ContainsFunc(p.Steps, func(s manual.Step) bool { return s.Tank.Name == id })
}
