package rules

import (
	"strings"

	"tankside/builder/sentence"
)

// handsAtWork tells whether a sentence has somebody work by hand inside a bath while its sound is on, in whatever order the two are told: “Feel for dead
// corners with your hand while the sound is on”, “A part that slips is picked out of the running bath with the fingers”, “Reach in and pick it up; no
// need to stop the generator”.
func handsAtWork(s *sentence.Sentence) bool {
	if s.Question && !s.Has(tingles) || s.TakenBack || s.Block.Signal != "" || s.Block.Kind == sentence.Cell || s.Has(outside) || illOf(s) || s.Has(mishaps) {
		return false
	}
	words := s.Tokens()
	hand := handClause(s, words) // first: few sentences have a hand
	if hand < 0 {
		return false
	}
	on, unstopped := soundIsOn(words)
	if !on {
		return false
	}
	if c := &s.Clauses[hand]; c.Mood == sentence.Was || c.Mood == sentence.MustNot && !dispensed(words, hand, unstopped) || c.Mood == sentence.Example || c.Opener != "" && c.Opener != "which" && c.Opener != "who" && c.Opener != "while" || s.ClauseHas(hand, longAgo) {
		return false
	}
	for i, w := range words {
		if offWords[w.Text] && !unstopped[i] && !offOfPlace(words, i) {
			return false
		}
		if noWords[w.Text] && !unstopped[i] && !(w.Text == "without" && i+1 < len(words) && words[i+1].Text == "gloves") {
			return false
		}
	}
	return true
}

// dispensed tells whether the negation of a clause is that of “need not stop the unit”.
func dispensed(words []sentence.Token, k int, unstopped map[int]bool) bool {
	for i, w := range words {
		if w.Clause == k && unstopped[i] && noStop[w.Text] {
			return true
		}
	}
	return false
}

// offOfPlace tells whether “off” or “out” is of a place and not of the sound: “slips off the rack”, “picked out”.
func offOfPlace(words []sentence.Token, i int) bool {
	switch words[i].Text {
	case "out":
		if i > 3 && soundWords[words[i-1].Text] && (words[i-2].Text == "keep" || words[i-3].Text == "keep" || words[i-3].Text == "keeps") {
			return true // “gloves keep the sound out”
		}
		return i > 0 && !soundWords[words[i-1].Text] || i+1 < len(words) && words[i+1].Text == "of"
	case "off":
		return i > 0 && offTheRack[words[i-1].Text] || hasAny(words[max(0, i-4):i], skims)
	case "away", "lifter", "height", "handle", "clear":
		return false
	case "dead":
		return deadPlaces[wordAt(words, i+1)] || soundWords[strings.TrimSuffix(wordAt(words, i+1), "s")+"s"]
	case "after":
		return i+1 < len(words) && words[i+1].Text != "the"
	}
	return false
}

// wordAt is the word at a place, or "" behind the last.
func wordAt(words []sentence.Token, i int) string {
	if i < len(words) {
		return words[i].Text
	}
	return ""
}

// soundIsOn tells whether the sound of a bath is said to be on, and gives the places of words that say that it is not to be stopped.
func soundIsOn(words []sentence.Token) (on bool, unstopped map[int]bool) {
	unstopped = map[int]bool{}
	for i, w := range words {
		next := func(n int) string { return wordAt(words, i+n) }
		switch {
		case w.Text == "running" && (runs[next(1)] || i > 0 && (words[i-1].Text == "is" || words[i-1].Text == "keep")), w.Text == "live" && runs[next(1)]:
			on = true
		case soundWords[w.Text] && (next(1) == "is" || next(1) == "stays" || next(1) == "may" && next(2) == "stay") && nextOf(words[:min(len(words), i+5)], i, goesOn):
			on = true
		case soundWords[w.Text] && (goesOn[next(1)] || next(1) == "runs" || next(1) == "works" || next(1) == "work"):
			on = true
		case runs[w.Text] && next(1) == "runs" && i > 1 && words[i-1].Text == "the" && (words[i-2].Text == "as" || words[i-2].Text == "while"):
			on = true
		case soundWords[w.Text] && i > 2 && words[i-1].Text == "of" && words[i-2].Amount && partOfRun(words[max(0, i-5):i-2]):
			on = true
		case w.Text == "until" && soundEnds(words[i:min(len(words), i+10)]):
			on = true
		case w.Text == "until" && next(1) == "the" && next(2) == "run" && (next(4) == "over" || next(4) == "finished"), w.Text == "during" && (next(2) == "run" || next(2) == "cycle" || next(2) == "sound" || next(2) == "wash"), w.Text == "whole" && (next(1) == "run" || next(1) == "cycle"), next(1) == "it" && next(2) == "runs" && (w.Text == "while" || w.Text == "as"):
			on = true
		case w.Text == "with" && next(1) == "the" && soundWords[next(2)] && goesOn[next(3)]:
			on = true
		case (w.Text == "while" || w.Text == "as") && buzzes[next(2)] && (next(1) == "it" || next(1) == "they"), (w.Text == "while" || w.Text == "as") && next(1) == "the" && (runs[next(2)] || soundWords[next(2)]) && buzzes[next(3)]:
			on = true
		case (runs[w.Text] || soundWords[w.Text]) && (next(1) == "may" || next(1) == "can") && (buzzes[next(2)] || goesOn[next(3)] && (next(2) == "stay" || next(2) == "go" || next(2) == "keep" || next(2) == "be")):
			on = true
		case (w.Text == "halfway" || w.Text == "midway") && next(1) == "through" && cycles[next(3)], w.Text == "middle" && next(1) == "of" && cycles[next(3)], w.Text == "between" && (next(2) == "beeps" || next(2) == "pulses" || next(1) == "beeps" || next(1) == "pulses"):
			on = true
		case w.Text == "keep" && next(1) == "the" && soundWords[next(2)] && next(3) == "on", w.Text == "leave" && next(1) == "the" && soundWords[next(2)] && next(3) == "on":
			on = true
		}
		if noStop[w.Text] && next(1) == "need" && next(2) == "to" && next(3) == "wait" && hasAny(words[i:min(len(words), i+11)], cycles) {
			on = true
			for m := i; m < i+9; m++ {
				unstopped[m] = true // “no need to wait for the end of the cycle”
			}
		}
		if soundWords[w.Text] && next(1) == "or" && (next(2) == "no" || next(2) == "not") {
			on, unstopped[i+2] = true, true // “sound or no sound”
		}
		if noStop[w.Text] {
			for j := i + 1; j < min(i+5, len(words)); j++ {
				if stopsSound[words[j].Text] || words[j].Text == "switched" || words[j].Text == "stopped" {
					for n := j + 1; n < min(j+4, len(words)); n++ {
						if soundWords[words[n].Text] || runs[words[n].Text] || words[n].Text == "run" || words[n].Text == "it" || words[n].Text == "anything" {
							on = true
							for m := i; m <= n+1; m++ {
								unstopped[m] = true
							}
						}
					}
				}
			}
		}
	}
	return on, unstopped
}

// partOfRun tells whether some words have something done for or during a time, and not after it.
func partOfRun(words []sentence.Token) bool {
	for _, w := range words {
		if w.Text == "for" || w.Text == "during" || w.Text == "in" {
			return true
		}
	}
	return false
}

// soundEnds tells whether some words have the sound come to its end: “until the sound has done its work”, “until the two minutes of sound are over”.
func soundEnds(words []sentence.Token) bool {
	for i, w := range words {
		if soundWords[w.Text] {
			return hasAny(words[i:], ended)
		}
	}
	return false
}

// handClause gives the clause that has a hand at work in the bath, or -1.
func handClause(s *sentence.Sentence, words []sentence.Token) int {
	for i, w := range words {
		switch {
		case !handWords[w.Text] && w.Text != "hand-hold" && !(w.Text == "reach" || w.Text == "reaches"):
			continue
		case w.Text == "hand-hold":
			return w.Clause
		case w.Text == "reach" || w.Text == "reaches":
			if i+1 < len(words) && (words[i+1].Text == "in" || words[i+1].Text == "into") {
				return w.Clause
			}
			continue
		}
		if !s.ClauseHas(w.Clause, handWork) && !s.ClauseHas(w.Clause, intoWords) {
			continue
		}
		for j := i - 1; j >= max(0, i-4); j-- {
			if t := words[j].Text; t == "by" || t == "with" || t == "your" || t == "put" || t == "dip" || t == "hold" {
				return w.Clause
			}
		}
		if i+1 < len(words) && intoWords[words[i+1].Text] {
			return w.Clause
		}
	}
	return -1
}

var (
	// buzzes are verbs of a bath whose sound is on, and of the work in it.
	buzzes    = sentence.Set("degasses buzzes buzz hums hum sings sing vibrates vibrate rattles drones washes wash cleans clean runs run works sounds fizzes humming buzzing running")
	skims     = sentence.Set("skim scoop scrape pick rub wipe brush")
	ended     = sentence.Set("over done finished ended through")
	cycles    = sentence.Set("cycle run wash programme program washing")
	runs      = sentence.Set("bath tank unit machine wash liquid run cleaner")
	goesOn    = sentence.Set("on running going")
	intoWords = sentence.Set("in into")
	// tingles are words of a question that the hand is to answer: “finger in the running bath, does it tingle?”
	tingles    = sentence.Set("tingle tingles prickle prickles")
	offTheRack = sentence.Set("slips slip falls fall fell drops comes come wipe wiped knock brush")
	handWork   = sentence.Set("skim stir feel pick picked fish turn turned move moved push pushed pull take taken hold held check swish touch reach shift spread lift lifted grab shake find stirred felt straighten press pressed rearrange swirl steady hang test")
	// outside are things that are touched outside of the liquid.
	outside = sentence.Set("panel lid lids cover log card reading knob button switch door screen display form write written note record tongs magnet hook pliers tweezers net timer gauge valve handle rail thermometer plug label mop floor generator's headset cloth rag outside rim casing hose bench table")
	// mishaps are words of somebody who has done it.
	mishaps = sentence.Set("somebody someone reported report doctor has had found means find finds finding trainee visitor")
)
