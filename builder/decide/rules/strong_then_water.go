package rules

import "tankside/builder/sentence"

// strongThenWater tells whether a sentence puts acid or concentrate into a vessel before its water, by whatever words tell the order: ordinals,
// “start with”, “then”, “after which”, “follows”, “on top”. The strong stuff stands before the water; a word of order stands at the
// one, between the two, or behind the other; and nothing says that water is there already.
func strongThenWater(s *sentence.Sentence) bool {
	if s.Quiet() || !s.Has(strongStuff) && !s.Has(powders) && !s.Has(neatThings) || s.Question || s.TakenBack || s.Block.Signal != "" || s.Block.Kind == sentence.Cell || denied(s) && !s.Has(beginWord) || illOf(s) || s.Has(notFilling) && !floorOfTank(s.Tokens()) || s.Has(exceptions) || s.Has(mostWater) || otherFilling(s) {
		return false
	}
	words := s.Tokens()
	if beginsWith(s, words, wetWords) {
		return false
	}
	if beginsWith(s, words, strongStuff) && s.Has(wetWords) || thereFirst(s, words) {
		return true
	}
	stuff, water := -1, -1
	for i, w := range words {
		switch {
		case wetWords[w.Text]:
			if stuff < 0 {
				return false
			}
			if water < 0 {
				water = i
			}
		case stuff < 0 && (strongStuff[w.Text] || powders[w.Text] || neatThings[w.Text]):
			if next := wordAt(words, i+1); (next == "bath" || next == "tank" || next == "wash") && s.Has(bags) {
				continue // “Whoever fills the caustic tank tips the bag first”
			} else if next == "bath" || next == "tank" || next == "wash" || s.Clauses[w.Clause].Opener != "" {
				return false
			}
			stuff = i
		}
	}
	if stuff >= 0 && water < 0 {
		return inFirst(words, stuff)
	}
	if stuff < 0 || water < 0 || s.Clauses[words[water].Clause].Opener != "" && s.Clauses[words[water].Clause].Opener != "after" && s.Clauses[words[water].Clause].Opener != "which" || intoWater(words, stuff) || joinsWater(words, stuff, water) {
		return false
	}
	if c := &s.Clauses[words[stuff].Clause]; c.Mood == sentence.Was || c.Mood == sentence.MustNot || c.Mood == sentence.Example {
		return false
	}
	if wordAt(words, stuff+1) == "in" && thenMarks[wordAt(words, stuff+2)] && s.Clauses[words[stuff].Clause].Mood != sentence.Do {
		return true // “Caustic in, water on”
	}
	first, then := false, false
	for i := max(0, stuff-4); i < min(stuff+5, water); i++ {
		first = first || firstWords[words[i].Text]
	}
	for i := stuff + 1; i < min(water+6, len(words)); i++ {
		then = then || thenWords[words[i].Text] && (i < water || i <= water+5)
	}
	if neatThings[words[stuff].Text] && words[stuff].Text != "soap" && !first && !nextOf(words, stuff+1, vessels) && !nextOf(words, stuff+3, vessels) {
		return false // “Tip the drum onto its side, then run the tap”
	}
	dry := false
	for i := stuff; i+1 < water; i++ {
		dry = dry || dryVessel[words[i].Text] && vessels[words[i+1].Text] || words[i].Text == "in" && words[i+1].Text == "dry"
	}
	if k := words[water].Clause; k > words[stuff].Clause && s.ClauseHas(words[stuff].Clause, fillsFirst) && s.ClauseHas(words[stuff].Clause, withWord) && s.ClauseHas(k, dilutes) {
		return true // “Fill the tub with acid to a third and make up with water”
	}
	poured := stuff+1 < len(words) && words[stuff+1].Text == "in" || s.Has(pourVerbs) || s.Has(chargeWords)
	return (first || dry) && then || then && poured && s.Has(vessels) || first && poured && words[water].Clause > words[stuff].Clause
}

// beginsWith tells whether a command begins with one of some things: “begin with the acid”.
func beginsWith(s *sentence.Sentence, words []sentence.Token, what map[string]bool) bool {
	for i, w := range words {
		if !beginWord[w.Text] || wordAt(words, i+1) != "with" || s.Clauses[w.Clause].Mood != sentence.Do || s.Clauses[w.Clause].Opener != "" || denies(s, w.Clause) {
			continue
		}
		if nextOf(words[:min(len(words), i+5)], i+1, what) {
			return true
		}
	}
	return false
}

// thereFirst tells whether a clause has acid or concentrate in the vessel first, whatever another says of water: “so the acid has to be there first”.
func thereFirst(s *sentence.Sentence, words []sentence.Token) bool {
	for i, w := range words {
		if !strongStuff[w.Text] || s.Clauses[w.Clause].Opener != "" || s.Clauses[w.Clause].Mood != sentence.Do || s.ClauseHas(w.Clause, wetWords) || denies(s, w.Clause) {
			continue
		}
		for j := i + 1; j+1 < min(i+8, len(words)) && words[j].Clause == w.Clause; j++ {
			if (words[j].Text == "there" || words[j].Text == "in") && words[j+1].Text == "first" && s.Has(wetWords) {
				return true
			}
		}
	}
	return false
}

// floorOfTank tells whether the floor of a sentence is the one of a vessel.
func floorOfTank(words []sentence.Token) bool {
	for i, w := range words {
		if notFilling[w.Text] && !(w.Text == "floor" && wordAt(words, i+1) == "of" && (tub[wordAt(words, i+3)] || tub[wordAt(words, i+2)])) {
			return false
		}
	}
	return true
}

// otherFilling tells whether a sentence is about another work than filling. A dry vessel, and what goes in dry, are of this one.
func otherFilling(s *sentence.Sentence) bool {
	words := s.Tokens()
	for i, w := range words {
		if noFill[w.Text] && !(w.Text == "floor" && wordAt(words, i+1) == "of") && !(w.Text == "dry" && i > 0 && (words[i-1].Text == "in" || vessels[wordAt(words, i+1)])) {
			return true
		}
	}
	return false
}

// inFirst tells whether acid or concentrate goes in first, before any water: “by laying the acid in first”, “The concentrate is the first thing that goes into
// the empty tank”.
func inFirst(words []sentence.Token, stuff int) bool {
	if !strongStuff[words[stuff].Text] {
		return false
	}
	first := false
	for i := stuff + 1; i+1 < len(words); i++ {
		if i < stuff+5 && words[i].Text == "in" && words[i+1].Text == "first" {
			return true
		}
		if first && (dryVessel[words[i].Text] && words[i].Text != "clean") && vessels[words[i+1].Text] {
			return true
		}
		first = first || words[i].Text == "first" && i < stuff+5
	}
	return false
}

// joinsWater tells whether strong stuff and water are only named side by side, or the one is what the other is mixed with.
func joinsWater(words []sentence.Token, stuff, water int) bool {
	for i := stuff + 1; i < water; i++ {
		switch words[i].Text {
		case ",", ";", ".", ":":
			return false
		}
		if thenWords[words[i].Text] || firstWords[words[i].Text] {
			return false
		}
	}
	for i := stuff + 1; i < water; i++ {
		switch words[i].Text {
		case "and", "or", "with", "of", "to", "into", "in", "without":
			return !thenNear(words, water)
		}
	}
	return false
}

// thenNear tells whether a word of order stands right behind the water: “and the water on top”.
func thenNear(words []sentence.Token, water int) bool {
	for i := water + 1; i < min(water+6, len(words)); i++ {
		if thenWords[words[i].Text] || words[i].Text == "run" {
			return true
		}
	}
	return false
}

var (
	wetWords    = sentence.Set("water hose tap")
	fillsFirst  = sentence.Set("fill charge filled charged")
	neatThings  = sentence.Set("soap drum can canister descaler bag bags sack sacks")
	thenMarks   = sentence.Set(", then and ;")
	beginWord   = sentence.Set("begin start")
	bags        = sentence.Set("bag bags sack sacks")
	firstWords  = sentence.Set("first start starts begin begins firstly bottom floor")
	thenWords   = sentence.Set("then second secondly next follows follow followed afterwards subsequently thereafter thereupon top after last later finally filled")
	chargeWords = sentence.Set("charging charge adding fill filling made prepared prepare")
	noFill      = sentence.Set("rolled aside rinse rinses rinsed wipe wiped dry dried part parts basket sample litmus hands glove gloves clothes spent old leak leaks floor cap close closed wash-down foam foams flows boil boils drain drained empty-drum label jug-rinsed weigh heel lines store")
)
