package rules

import (
	"strings"

	"tankside/builder/sentence"
)

// bodyInSound tells whether a sentence has a part of the body at work in a bath whose sound is on. It reads three things and asks for no order
// of them: that the sound is on, or is what one wants to feel; that a hand, a finger or somebody himself is in the liquid; and that nothing
// in the sentence forbids it, tells of harm, or switches the sound off.
func bodyInSound(s *sentence.Sentence) bool {
	if !s.Has(handWords) && !s.Has(reachesIn) && !s.Has(selfWords) && !s.Has(helpers) && !rolledUp(s.Tokens()) || s.Question || s.TakenBack || s.Block.Signal != "" || s.Block.Kind == sentence.Cell || s.Has(outside) || illOf(s) || s.Has(mishaps) || s.Has(dryBody) && !rolledUp(s.Tokens()) || handsAway(s) || handsOut(s.Tokens()) || s.Has(penalties) {
		return false
	}
	words := s.Tokens()
	on, unstopped := soundIsOn(words)
	if !on && !soundFelt(s, words) {
		return false
	}
	k := bodyClause(words)
	if k < 0 {
		return false
	}
	c := &s.Clauses[k]
	switch {
	case c.Mood == sentence.Was, c.Mood == sentence.MustNot && !dispensed(words, k, unstopped), c.Mood == sentence.Example, s.ClauseHas(k, longAgo):
		return false
	case c.Opener == "if" || c.Opener == "when":
		if !s.Has(learns) && !s.Has(tickles) {
			return false
		}
	case c.Opener != "" && c.Opener != "while" && c.Opener != "until" && c.Opener != "before":
		return false
	}
	for i, w := range words {
		if offWords[w.Text] && !unstopped[i] && !offOfPlace(words, i) && !oneByOne(words, i) && w.Text != "before" {
			return false
		}
		if forbiddingIt[w.Text] && !unstopped[i] && !(w.Text == "no" && holdersOf[wordAt(words, i+1)]) && !(w.Text == "stay" && goesOn[wordAt(words, i+1)]) {
			return false
		}
	}
	return true
}

// bodyClause gives the clause in which a part of the body, or somebody with it, is in the liquid, or -1.
func bodyClause(words []sentence.Token) int {
	for i, w := range words {
		next := func(n int) string { return wordAt(words, i+n) }
		switch {
		case reachesIn[w.Text] && (next(1) == "in" || next(1) == "into" || next(1) == "inside" || next(1) == "down" || next(1) == "under" || next(1) == "through"):
			return w.Clause
		case handWords[w.Text]:
			for j := max(0, i-5); j < i; j++ {
				if t := words[j].Text; bodyActs[t] || t == "tingling" {
					return w.Clause
				}
			}
			for j := i + 1; j+1 < min(i+10, len(words)); j++ {
				if words[j].Text == "running" && runs[words[j+1].Text] {
					return w.Clause
				}
			}
			for j := i + 1; j < min(i+5, len(words)); j++ {
				if intoWords[words[j].Text] || words[j].Text == "under" || words[j].Text == "inside" || words[j].Text == "below" {
					return w.Clause
				}
			}
		case (w.Text == "sleeve" || w.Text == "sleeves") && rolledUp(words) && hasAny(words, picksUp):
			return w.Clause
		case (w.Text == "yourself" || w.Text == "himself") && hasAny(words, holdsIt):
			return w.Clause
		case helpers[w.Text] && (holdsIt[strings.TrimSuffix(next(1), "s")] || next(1) == "steadies") && nextOf(words[:min(len(words), i+8)], i+2, underIt):
			return w.Clause
		case (w.Text == "gloves" || w.Text == "glove" || w.Text == "gloved") && worksIn(words):
			return w.Clause
		case (w.Text == "gloves" || w.Text == "glove" || w.Text == "gloved") && takesFrom(words):
			return w.Clause
		}
	}
	return -1
}

// rolledUp tells whether a sleeve is rolled up: an arm goes in.
func rolledUp(words []sentence.Token) bool {
	for i, w := range words {
		if (w.Text == "roll" || w.Text == "push" || w.Text == "rolled") && nextOf(words[:min(len(words), i+5)], i, sleeves) {
			return true
		}
	}
	return false
}

// worksIn tells whether work by hand is done in a live or running bath.
func worksIn(words []sentence.Token) bool {
	for i, w := range words {
		if (w.Text == "in" || w.Text == "inside") && nextOf(words[:min(len(words), i+4)], i, runningWords) && hasAny(words[:i], handWork) {
			return true
		}
	}
	return false
}

// takesFrom tells whether something is taken out of a running bath.
func takesFrom(words []sentence.Token) bool {
	for i := 0; i+3 < len(words); i++ {
		if picksUp[words[i].Text] {
			for j := i + 1; j+1 < min(i+8, len(words)); j++ {
				if (words[j].Text == "of" || words[j].Text == "from") && (nextOf(words[:min(len(words), j+5)], j, runningWords) || nextOf(words[:min(len(words), j+4)], j, bathWords)) {
					return true
				}
			}
		}
	}
	return false
}

// soundFelt tells whether a sentence is about what the hand learns of the sound, or about switching nothing off.
func soundFelt(s *sentence.Sentence, words []sentence.Token) bool {
	if s.Has(soundWords) && s.Has(learns) && s.Has(intoWords) {
		return true
	}
	if s.Has(tickles) && (s.Commands() || s.Has(lightly) || s.Has(noMore)) {
		return true
	}
	for i, w := range words {
		if noStop[w.Text] && nextOf(words[:min(len(words), i+3)], i, stopsSound) {
			for j := i + 1; j < min(i+6, len(words)); j++ {
				if words[j].Text == "anything" || soundWords[words[j].Text] || words[j].Text == "it" || words[j].Text == "run" || runs[words[j].Text] {
					return true
				}
			}
		}
	}
	return false
}

// oneByOne tells whether “after” only stands in “one after the other”.
func oneByOne(words []sentence.Token, i int) bool {
	return words[i].Text == "after" && i > 0 && words[i-1].Text == "one" || words[i].Text == "after" && i+1 < len(words) && words[i+1].Text == "another"
}

// handsOut tells whether hands are said to be out of the liquid: “keep your hands out of the bath”.
func handsOut(words []sentence.Token) bool {
	for i, w := range words {
		if handWords[w.Text] {
			for j := i + 1; j < min(i+4, len(words)); j++ {
				if keptOff[words[j].Text] && words[j].Text != "on" || words[j].Text == "back" {
					return true
				}
			}
		}
	}
	return false
}

func hasAny(words []sentence.Token, of map[string]bool) bool {
	for _, w := range words {
		if of[w.Text] {
			return true
		}
	}
	return false
}

var (
	helpers      = sentence.Set("apprentice helper trainee operator colleague assistant mate pupil")
	underIt      = sentence.Set("under in below inside")
	noMore       = sentence.Set("bit all little only")
	tickles      = sentence.Set("tingle tingles tingling prickle prickles prickling tickle tickles tickling")
	sleeves      = sentence.Set("sleeve sleeves")
	holdersOf    = sentence.Set("holder hook stand clamp fixture hanger tool bar need reason")
	reachesIn    = sentence.Set("grip grips dip dips reach reaches reaching grope gropes groping dive dives lean leans delve grab grabs grabbing")
	bodyActs     = sentence.Set(`by with put putting dip dipping hold holding stick sticking lower plunge slide slip push run bare gloved using use keep keeping place insert`)
	selfWords    = sentence.Set("yourself himself gloves glove gloved")
	holdsIt      = sentence.Set("hold keep steady guide press carry")
	picksUp      = sentence.Set("take pick fish lift grab collect pull fetch get remove picked taken lifted fished grabbed removed collected")
	learns       = sentence.Set("feel feels felt tells tell know knows notice notices learn judge check find")
	penalties    = sentence.Set("loses lose fined sent home dismissed pays job whoever fool hospital")
	forbiddingIt = sentence.Set("not never no don't nobody cannot nor mistake wrong avoid instead nothing forbidden stays stay neither without")
	dryBody      = sentence.Set("table bench desk hook tongs stick rod ruler after-run pole grabber tweezers pliers net magnet rule off unplugged outside dry cloth sleeve")
)
