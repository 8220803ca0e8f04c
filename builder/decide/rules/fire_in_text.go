package rules

import (
	"fmt"

	"tankside/builder/decide/relate"
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// fireInText finds, on the page of a chemistry that can be lit, a sentence that brings a flame, sparks or a hot thing to it, a vessel of it into a bath with
// heater and sound, the liquid itself into a drain, or its rags into an open bin. It prevents a fire: vapour creeps along the floor to a flame, heaters and
// generators spark, and rags heat up by themselves. Limit: UN GHS, chapter 2.6, for what can be lit; OSHA 29 CFR 1910.123–126, for tanks; 29 CFR
// 1910.106(e)(9)(iii) for rags in covered metal containers (as quoted in the demo manual's article on terpene).
func (p *proof) fireInText(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	if a.Chemistry == nil || a.Partial || s.Block.Kind == sentence.Cell || !s.Has(flames) && !s.Has(wipingCloths) && !s.Has(hotThings) && !s.Has(burning) && !s.Has(smallVessel) && !s.Has(sewers) || illOf(s) && !burnsOff(s) || s.Has(exceptions) {
		return nil
	}
	c := relate.Chemistry(a)
	if _, burns := c.Flammable(); !burns {
		return nil
	}
	other := otherBathIn(a, s)
	for k := range s.Clauses {
		if c := &s.Clauses[k]; c.Opener != "" || c.Mood == sentence.Was || c.Mood == sentence.MustNot || c.Mood == sentence.Example || c.Mood == sentence.Ask || denies(s, k) || s.ClauseHas(k, longAgo) || keptAway(s, k) {
			continue
		}
		says, remedy := "", "Keep flames, sparks and hot things away, and rags in a closed metal bin that is emptied daily."
		switch {
		case vesselInBath(a, s, k):
			says, remedy = fmt.Sprintf("The text puts a vessel with %s into a bath, whose heater and generator can light its vapour.", a.Head.Title), "Only in a tank that is built and approved for flammable liquids, or cold in a covered jar without heat and sound."
		case other:
			continue
		case s.ClauseHas(k, pouredAway) && s.ClauseHas(k, sewers) && !s.Has(licensed):
			says, remedy = fmt.Sprintf("The text pours %s into a drain, where its vapour can be lit.", a.Head.Title), "Collect it in a closed, labelled drum for licensed disposal."
		case s.ClauseHas(k, flames) && (s.ClauseHas(k, praised) || s.ClauseHas(k, goodUses) || s.Clauses[k].Mood == sentence.Do && s.ClauseHas(k, lights)):
			says = fmt.Sprintf("The text brings a flame or sparks to %s, which can be lit.", a.Head.Title)
		case s.ClauseHas(k, wipingCloths) && s.ClauseHas(k, openBins) && s.ClauseHas(k, thrown):
			says = fmt.Sprintf("The text leaves rags with %s in the open; they can heat up until they burn.", a.Head.Title)
		case s.ClauseHas(k, burning) && (burnsOff(s) || s.Clauses[k].Mood == sentence.Do):
			says = fmt.Sprintf("The text burns off %s, or has it lit.", a.Head.Title)
		case broughtToHeat(s, k):
			says = fmt.Sprintf("The text brings a hot thing to %s, which can be lit.", a.Head.Title)
		default:
			continue
		}
		f := textAgainstDecision.At(placeIn(a, s.Block, s.From+leading(s)), says, remedy)
		f.Severity = finding.People
		return &f
	}
	return nil
}

// burnsOff tells whether something is burnt off or away.
func burnsOff(s *sentence.Sentence) bool {
	words := s.Tokens()
	for i, w := range words {
		if burning[w.Text] && (textAt(words, i+1) == "off" || textAt(words, i+1) == "away") {
			return true
		}
	}
	return false
}

// keptAway tells whether a clause keeps something away, out or shut; what is taken or burnt off is not.
func keptAway(s *sentence.Sentence, k int) bool {
	if s.ClauseHas(k, kept) {
		return true
	}
	return s.ClauseHas(k, offWord) && !burnsOff(s) && !s.ClauseHas(k, driesOffBy)
}

// broughtToHeat tells whether a clause puts something on, before or over a hot thing, or dries or warms with one.
func broughtToHeat(s *sentence.Sentence, k int) bool {
	if !s.ClauseHas(k, hotThings) || !s.ClauseHas(k, putsToHeat) {
		return false
	}
	words := s.Tokens()
	for i, w := range words {
		if w.Clause != k || !hotThings[w.Text] || w.Text == "gun" && textAt(words, i-1) != "heat" {
			continue
		}
		for j := i - 1; j >= max(0, i-4); j-- {
			if nearHeat[words[j].Text] {
				return true
			}
		}
		if goodUses[textAt(words, i+1)] || textAt(words, i+1) == "takes" {
			return true // “A hairdryer takes the last of it off”
		}
	}
	return false
}

// vesselInBath tells whether a clause has a small vessel with something in it stand in a tank, a bath or its water: “a beaker of it in the warm water of the tank”.
func vesselInBath(a *manual.Article, s *sentence.Sentence, k int) bool {
	words := s.Tokens()
	for i, w := range words {
		if w.Clause != k || !smallVessel[w.Text] || textAt(words, i+1) != "of" && textAt(words, i+1) != "with" || textAt(words, i+2) == "water" {
			continue
		}
		for n := range s.Mentions {
			if m := &s.Mentions[n]; m.Thing.Kind() == manual.Chemistry && !m.Thing.Includes(a) {
				return false
			}
		}
		for j := i + 3; j < len(words) && words[j].Clause == k; j++ {
			if words[j].Text == "in" || words[j].Text == "into" {
				return nextOf(words[:min(len(words), j+6)], j, bathOrWater) || tankNamedAt(s, words, j)
			}
		}
	}
	return false
}

// tankNamedAt tells whether a tank of the shop is named within two words behind a place.
func tankNamedAt(s *sentence.Sentence, words []sentence.Token, j int) bool {
	for n := range s.Mentions {
		if m := &s.Mentions[n]; m.Thing != nil && m.Thing.Tank != nil && j+1 < len(words) && m.From >= words[j+1].From && m.From <= words[min(j+3, len(words)-1)].From {
			return true
		}
	}
	return false
}

var (
	hotThings   = sentence.Set("radiator radiators stove stoves heater oven hairdryer gun hotplate iron")
	putsToHeat  = sentence.Set("put stand set place hang lay dry blow warm heat takes take leave store keep is are goes go")
	nearHeat    = sentence.Set("on over before with under by in")
	burning     = sentence.Set("burn burnt burned match matches")
	smallVessel = sentence.Set("glass beaker jar cup tin bottle flask can tub bowl dish bag pot")
	bathOrWater = sentence.Set("tank bath water")
)

var (
	flames       = sentence.Set("burner burners flame flames candle lighter torch blowlamp welding grinding sparks smoking cigarette cigarettes hotplate")
	lights       = sentence.Set("heat warm use put light weld grind hold smoke dry")
	kept         = sentence.Set("away outside far metal closed covered lid lidded apart separate")
	wipingCloths = sentence.Set("rag rags cloths wipes")
	pouredAway   = sentence.Set("tip tipped pour poured empty emptied flush flushed rinse goes go drain drained dump")
	sewers       = sentence.Set("drain drains sink gully toilet sewer gutter")
	openBins     = sentence.Set("bin basket box heap pile pocket corner bench drawer bag sack radiator")
	driesOffBy   = sentence.Set("takes take taken blow blown dries dry comes come")
	thrown       = sentence.Set("throw thrown put go goes lie left leave drop dropped stay collect collected kept keep hang dry")
)
