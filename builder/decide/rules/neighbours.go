package rules

import (
	"strconv"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

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

// inside names one window of a soil, or one wash of a part.
func inside(of, part string) string { return of + "#" + part }
