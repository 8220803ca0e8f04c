package rules

import (
	"slices"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// missingFirstAid finds harms that the manual's chemistries, soils and tanks can do and for which no article gives first aid.
// It prevents that somebody looks for calcium gluconate, or for the main switch, only when it is needed.
// What calls for which: fluoride, sulfide and cyanide by the constituents of chemistries and soils; swallowed by H304; eyes and skin by H314, H318, H310 and
// H311 and by a pH of 2 or less or 11.5 or more; shock by a tank that holds a bath, for tanks are electric.
var missingFirstAid = finding.Rule{
	Name: "missing-first-aid", Severity: finding.People,
	Finds:  "a harm that a chemistry, a soil or a tank can do, for which no article gives first aid",
	Why:    "In the first minutes the wrong help kills: going in after somebody who lies in gas, bringing up what was swallowed, touching before the current is off.",
	Source: "29 CFR 1910.151; Regulation (EC) No 1272/2008 (CLP), Annex IV: P301 + P310 + P331 for H304, P305 + P351 for eyes (from memory, to be confirmed by the safety officer); US ATSDR, Medical Management Guidelines, hydrogen fluoride (calcium gluconate); NIOSH 86-110 (would-be rescuers)",
}

// call is what calls for a first aid: the harm, what does it, and the fact that says so.
type call struct {
	harm, by string
	at       finding.Place
}

func findMissingFirstAid(p *proof) []finding.Finding {
	given := make(map[string]bool)
	var places []finding.Place
	article := ""
	for _, a := range p.Articles {
		if len(a.FirstAid()) > 0 && article == "" {
			article = a.Path
		}
		if at, has := a.Head.At["first-aid"]; has {
			places = append(places, at)
		}
		for _, r := range a.FirstAid() {
			given[r.Name] = true
		}
	}
	var harms, said []string
	var facts []finding.Place
	for _, c := range p.calls() {
		if given[c.harm] || slices.Contains(harms, c.harm) {
			continue
		}
		harms = append(harms, c.harm)
		said = append(said, c.harm+" ("+c.by+")")
		facts = append(facts, c.at)
	}
	if len(harms) == 0 {
		return nil
	}
	remedy := "Write a procedure with first-aid: [" + strings.Join(harms, ", ") + "] in its header, whose text says: "
	if article != "" {
		remedy = "Add " + strings.Join(harms, ", ") + " to first-aid in " + article + ", or in a procedure of its own, whose text says: "
	}
	return []finding.Finding{missingFirstAid.At(facts[0], "No article gives first aid for "+strings.Join(said, ", ")+".",
		remedy+strings.Join(measuresOf(harms), "; ")+". Follow section 4 of the safety data sheets.", append(facts[1:], places...)...)}
}

// calls gives what calls for which first aid, in the order of FirstAidWords; of several facts for one harm the first.
func (p *proof) calls() []call {
	found := make(map[string]call)
	note := func(harm, by string, at finding.Place) {
		if _, twice := found[harm]; !twice {
			found[harm] = call{harm, by, at}
		}
	}
	for _, a := range p.Articles {
		codes, _ := hazardsOf(a)
		for _, h := range codes {
			for _, harm := range harmsOf[h.Name] {
				note(harm, a.Head.Title+", "+h.Name, h.At)
			}
		}
		switch {
		case a.Chemistry != nil:
			for _, c := range a.Chemistry.Contains {
				if slices.Contains(poisons, c.Name) {
					note(c.Name, a.Head.Title+" contains "+c.Name, c.At)
				}
			}
			if ph := a.Chemistry.PH; ph.Set && corrosive(ph) {
				note("eyes", a.Head.Title+", pH "+ph.In(p.Shop.System()), ph.At)
				note("skin", a.Head.Title+", pH "+ph.In(p.Shop.System()), ph.At)
			}
		case a.Soil != nil:
			for _, c := range a.Soil.MayContain {
				if slices.Contains(poisons, c.Name) {
					note(c.Name, a.Head.Title+" may contain "+c.Name, c.At)
				}
			}
		}
	}
	for _, t := range p.Shop.Tanks {
		if t.Chemistry.Name != "" {
			note("shock", t.Name+" is electric", t.At)
		}
	}
	var list []call
	for _, harm := range manual.FirstAidWords.Words {
		if c, is := found[harm]; is {
			list = append(list, c)
		}
	}
	return list
}

var (
	poisons = []string{"fluoride", "sulfide", "cyanide"}

	harmsOf = map[string][]string{
		"H304": {"swallowed"}, "H314": {"eyes", "skin"}, "H318": {"eyes"}, "H310": {"skin"}, "H311": {"skin"},
	}
)
