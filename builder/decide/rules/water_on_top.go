package rules

import (
	"slices"
	"strings"

	"tankside/builder/expression"
	"tankside/builder/sentence"
)

// waterOnTop tells whether a sentence has water come onto acid or concentrate, told as things and places and not by a verb of pouring: what lies at the bottom
// and what comes on top of it, a dry tank that gets its soap, a list of what goes in after what. The sentence before may be nil; what it measures out is
// “it” here.
func waterOnTop(one, s *sentence.Sentence) bool {
	if s.Question || s.TakenBack || s.Block.Signal != "" || s.Block.Kind == sentence.Cell {
		return false
	}
	if one != nil && one.Block == s.Block && !one.Quiet() && (matterless(one, s) || filledNext(one, s)) {
		return true
	}
	words := s.Tokens()
	if s.Quiet() || illOf(s) || exceptedHere(words) || s.Has(notFilling) && !floorOfTank(words) || deniedHere(words) {
		return false
	}
	return onTopOfIt(s, words) || dryGetsStrong(s, words) || listedFirst(s, words) || wantsHotWater(s, words) || solidLikesHeat(s) || intoDrumOf(s, words)
}

// deniedHere tells whether a sentence has a word of negation but “nothing beats” and what only describes: “flakes that will not dissolve”.
func deniedHere(words []sentence.Token) bool {
	for i, w := range words {
		if forbiddingIt[w.Text] && !(w.Text == "nobody" && (wordAt(words, i+1) == "needs" || wordAt(words, i+1) == "has")) && !(w.Text == "nothing" && comparing[wordAt(words, i+1)]) && !(w.Text == "not" && i > 1 && (words[i-2].Text == "that" || words[i-2].Text == "which")) {
			return true
		}
	}
	return false
}

// exceptedHere tells whether a sentence has a word of an exception; what one only has to do is none.
func exceptedHere(words []sentence.Token) bool {
	for i, w := range words {
		if next := wordAt(words, i+1); exceptions[w.Text] && !(w.Text == "only" && (next == "have" || next == "need" || next == "has" || next == "needs")) {
			return true
		}
	}
	return false
}

// isStrong tells whether the word at a place is what must not get water: acid, concentrate, solid caustic or the cleaner as it is sold.
func isStrong(words []sentence.Token, i int) bool {
	w := words[i].Text
	return strongStuff[w] || solidForms[w] || powders[w] || neatThings[w] || w == "conc"
}

// onTopOfIt finds water, or the filling of a tank, that comes on top of, over or onto the strong stuff, or onto “it”, which is that.
func onTopOfIt(s *sentence.Sentence, words []sentence.Token) bool {
	strong, mixed := false, false // whether strong stuff, and other water, stands before
	for i, w := range words {
		if wetWords[w.Text] && !strong && wordAt(words, max(0, i-1)) != "than" {
			mixed = true
		}
		if isStrong(words, i) {
			strong = true
		}
		if !comesOn(words, i) || i == 0 || s.Has(otherOrders) || s.Clauses[w.Clause].Mood == sentence.Was || w.Text == "on" && wordAt(words, i+1) != "top" {
			continue
		}
		at := i + 1
		for at < len(words) && (words[at].Text == "top" || words[at].Text == "of" || words[at].Text == "the" || words[at].Text == "all" || words[at].Text == "your") {
			at++
		}
		if at >= len(words) || !wetBefore(words, i) {
			continue
		}
		if isStrong(words, at) && !tankWords[wordAt(words, at+1)] && !jugs[words[at].Text] {
			return true
		}
		if it := words[at].Text; (it == "it" || it == "them") && strong && !mixed {
			return true
		}
	}
	return false
}

// comesOn tells whether a word says that one thing comes onto another.
func comesOn(words []sentence.Token, i int) bool {
	t := words[i].Text
	return t == "onto" || t == "over" || t == "on"
}

// wetBefore tells whether water, or the filling of a tank, stands up to six words before a place in its clause.
func wetBefore(words []sentence.Token, i int) bool {
	for j := i - 1; j >= max(0, i-6) && words[j].Clause == words[i].Clause; j-- {
		if wetWords[words[j].Text] || words[j].Text == "filling" || words[j].Text == "jet" || words[j].Text == "h2o" {
			return true
		}
		if words[j].Text == "." || words[j].Text == ";" {
			return false
		}
	}
	return false
}

// dryGetsStrong finds a dry tank that is given its soap or acid before a later clause lets the water in.
func dryGetsStrong(s *sentence.Sentence, words []sentence.Token) bool {
	for i := 0; i+1 < len(words); i++ {
		k := words[i].Clause
		if !dryTank[words[i].Text] || !tub[words[i+1].Text] || s.Clauses[k].Opener != "" || s.Clauses[k].Mood == sentence.Was || s.ClauseHas(k, wetWords) {
			continue
		}
		for j := i + 2; j < len(words); j++ {
			if words[j].Clause == k {
				if !isStrong(words, j) {
					continue
				}
				for n := j + 1; n < len(words); n++ {
					if words[n].Clause > k && wetWords[words[n].Text] && s.ClauseHas(words[n].Clause, letsIn) {
						return true
					}
				}
			}
		}
	}
	return false
}

// listedFirst finds a list of what goes in, one thing after the other, in which the strong stuff stands before the first water: “Order: drum, hose, paddle”,
// “conc. 4.8 L, then H2O ad 120 L”, “Powder at the bottom, water from above”. It is a list where no clause has a verb, and an order where its label says
// so, where “then” stands between the two, or where they have a bottom and a top.
func listedFirst(s *sentence.Sentence, words []sentence.Token) bool {
	if slices.ContainsFunc(s.Clauses, func(c sentence.Clause) bool {
		return c.Opener != "" || c.Mood == sentence.Was || c.Mood == sentence.MustNot || c.Mood == sentence.If
	}) {
		return false
	}
	colon := slices.IndexFunc(words, func(w sentence.Token) bool { return w.Text == ":" })
	label := colon > 0 && colon < 7 && hasAny(words[:colon], sequence) && words[0].Text != "to"
	if s.Has(otherOrders) || colon > 0 && !label {
		return false
	}
	start := 0
	if label {
		start = colon + 1
	}
	strong := -1
	for i := start; i < len(words); i++ {
		switch {
		case wetWords[words[i].Text] || words[i].Text == "h2o":
			if strong < 0 || strong > start+3 || i-strong > 9 || !partedItems(words[strong:i]) || s.Clauses[words[strong].Clause].Mood != sentence.Fragment && !label {
				return false
			}
			then := hasAny(words[strong:i], thenMark) || wordAt(words, i+1) == "after" || wordAt(words, i+1) == "second"
			return label || then && (hasVolume(s) || len(words) < 12) || hasAny(words[strong:i], firstWords) && hasAny(words[i:min(len(words), i+4)], above)
		case isStrong(words, i) && strong < 0:
			strong = i
		}
	}
	return false
}

// partedItems tells whether a mark or a word of order parts two things of a list, and the first goes into no water or vessel of its own.
func partedItems(words []sentence.Token) bool {
	parted := false
	for _, w := range words {
		switch w.Text {
		case ",", ";", "then", ">", "→", "–", "+":
			parted = true
		case "into", "to", "with", "from", "of", "or", "per":
			return false
		}
	}
	return parted
}

// filledNext tells whether a sentence lets water into the vessel into which the one before has poured acid or concentrate: “It then takes as much water as
// the mark allows”.
func filledNext(one, s *sentence.Sentence) bool {
	if one.Question || one.TakenBack || denied(one) || illOf(one) || one.Has(notFilling) || one.Has(wetWords) || one.Has(exceptions) || !one.Commands() && one.Clauses[0].Mood != sentence.Fragment {
		return false
	}
	before := one.Tokens()
	at := poursAcid(before)
	if at < 0 || doseVessels[before[at].Text] || vesselWords[before[at].Text] && !dryTank[before[at-1].Text] {
		return false // a tank may have its water
	}
	list := strings.FieldsFunc(strings.ToLower(s.Text()), func(r rune) bool { return !(r >= 'a' && r <= 'z' || r == '-' || r == '\'') })
	water := slices.Index(list, "water")
	if water < 0 {
		return false
	}
	for i, w := range list {
		if intoPlaces[w] || rinses[w] || forbiddingIt[w] || ills[w] || w == "from" || w == "with" && i < water || strongStuff[w] && i < water || tub[w] && w != before[at].Text || notNear[w] {
			return false
		}
	}
	return slices.ContainsFunc(list[:water], func(w string) bool { return letsIn[w] }) || water < 2 && water+2 < len(list) && above[list[water+2]]
}

// wantsHotWater finds solid caustic that is said to want or like hot water: “Flakes that will not dissolve want boiling water”.
func wantsHotWater(s *sentence.Sentence, words []sentence.Token) bool {
	solid := -1
	for i, w := range words {
		switch {
		case solidForms[w.Text]:
			solid = i
		case solid >= 0 && likesIt[w.Text] && s.Clauses[w.Clause].Opener == "":
			for j := i + 1; j < min(i+4, len(words)); j++ {
				if heated[words[j].Text] && (wordAt(words, j+1) == "water" || tub[wordAt(words, j+1)]) {
					return true
				}
			}
		}
	}
	return false
}

// solidLikesHeat finds solid caustic that is said to dissolve better in what is hot, and a command to wait for that or to put it in.
func solidLikesHeat(s *sentence.Sentence) bool {
	if !s.Has(solidForms) || !s.Has(heated) && !s.Has(heatedWord) || s.Has(coldWord) || !s.Commands() {
		return false
	}
	return dissolvesBetter.MatchString(strings.ToLower(s.Text()))
}

// intoDrumOf finds water that is let into a drum of acid: “dribble water into the drum of acid”.
func intoDrumOf(s *sentence.Sentence, words []sentence.Token) bool {
	if s.Has(rinsedEmpty) {
		return false // what is left is rinsed into the bath
	}
	for i := 1; i+4 < len(words); i++ {
		k := words[i].Clause
		if words[i].Text != "water" || s.Clauses[k].Opener != "" || s.Clauses[k].Mood != sentence.Do || words[i+1].Text != "into" && words[i+1].Text != "to" && words[i+1].Text != "in" {
			continue
		}
		for j := i + 2; j+2 < min(i+6, len(words)); j++ {
			if jugs[words[j].Text] && words[j+1].Text == "of" && hasAny(words[j+2:min(len(words), j+5)], strongStuff) {
				return true
			}
			if strongStuff[words[j].Text] && jugs[words[j+1].Text] {
				return true
			}
		}
	}
	return false
}

// matterless tells whether a sentence answers “not” to the question before whether it matters which of acid and water goes in first.
func matterless(one, s *sentence.Sentence) bool {
	if !one.Question || !one.Has(mattering) || !eitherFirst(one.Tokens()) {
		return false
	}
	answer := strings.Fields(strings.ToLower(strings.TrimSpace(s.Text())))
	return len(answer) > 0 && (answer[0] == "no," || answer[0] == "no." || answer[0] == "not" || answer[0] == "hardly" || answer[0] == "never") && (len(answer) < 2 || answer[1] != "always")
}

var (
	// dissolvesBetter finds that something dissolves the better the hotter it is there.
	dissolvesBetter = expression.Of(`\b(?:dissolves?|melts?|vanish(?:es)?|goes?) (?:\w+ ){0,3}(?:fast|faster|quicker|better|easier|quickly|at once)\b[^.]*\b(?:hot|heated|warm|boiling|steaming)\b`)
	heatedWord      = sentence.Set("heated")
	coldWord        = sentence.Set("cold cool")
	comparing       = sentence.Set("beats compares is better quicker")
	dryTank         = sentence.Set("dry empty bare drained emptied")
	letsIn          = sentence.Set("turn open run let fill fills comes come takes take takes-up goes add pour top gets gets-up follows follow needs")
	sequence        = sentence.Set("order sequence filling make-up")
	thenMark        = sentence.Set("then → >")
	above           = sentence.Set("above top over last second after")
	intoPlaces      = sentence.Set("into onto")
	likesIt         = sentence.Set("want wants like likes love loves need needs prefer prefers take takes ask call deserve")
	vesselWords     = sentence.Set("tank vat container")
	doseVessels     = sentence.Set("jug beaker flask bottle cup")
	otherOrders     = sentence.Set("draining drain emptying price prices shopping delivery packing list store cleaning inventory film drop drops")
	rinsedEmpty     = sentence.Set("empty emptied rinse rinsed rinsing drained waste")
	mattering       = sentence.Set("matter matters difference important care")
)
