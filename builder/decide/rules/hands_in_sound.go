package rules

import (
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// handsInSound finds text that says to reach into a bath while the sound runs, or to hold something in it by hand. It prevents harm to skin,
// bone and joints, which come before it hurts.
// Limit: university safe-work instructions, no part of the body in a running bath; Health Canada Safety Code 24, contact exposure, from memory.
var handsInSound = finding.Rule{
	Name: "hands-in-sound", Severity: finding.People,
	Finds:  "a text that says to put a hand, or something held in it, into a running bath",
	Why:    "Sound passes through liquid into bone and joints, and does harm before it is felt.",
	Source: "university safe-work instructions for ultrasonic baths; Health Canada Safety Code 24, contact exposure (from memory, to be confirmed by the safety officer)",
}

var (
	handWords    = sentence.Set("knuckle glove hand hands finger fingers fingertip fingertips arm arms thumb palm knuckles wrist gloved bare-handed fist elbow")
	reachWords   = sentence.Set("reaches gropes grabs reach feel touch grope grab fish dunk")
	intoBath     = sentence.Set("stir bath tank liquid water wash beam sound surface solution field basket tray rack plate plates foil strip in into under inside")
	runningWords = sentence.Set("running runs sonicating cavitating live energised energized pulsing ultrasonic")
	soundWords   = sentence.Set("sound ultrasound ultrasonics generator transducers cavitation")
	onWords      = sentence.Set("on starts start stay stays while during runs running hums working active works going")
	offWords     = sentence.Set("off stopped stop before thermometer held-off out isolated disconnected handle rail unplugged standstill rubber-gloved-off switch stops dead locked second-hand hand-held hand-wash away clear after silent height lifter")
)

func findHandsInSound(p *proof, a *manual.Article) []finding.Finding {
	var list []finding.Finding
	said := p.reading(a)
	for i := range said.sentences {
		s := &said.sentences[i]
		if s.Quiet() || s.Has(penalties) {
			continue
		}
		var one *sentence.Sentence
		if i > 0 {
			one = &said.sentences[i-1]
		}
		if handsAtWork(s) || bodyInSound(s) || touchedWhileOn(one, s) || p.reachedInRun(a, s) {
			list = append(list, inSound(a, s))
			continue
		}
		if s.Question || s.Has(notInIt) || s.Has(outsideOf) {
			continue
		}
		k := handIn(s)
		if k >= 0 && soundGoesOn(s, k) {
			list = append(list, inSound(a, s))
			continue
		}
		late := k >= 0 && offAfterwards(s, k)
		if turnsOff(s) && !s.Has(leftOn) && !late || k >= 0 && handsAway(s) {
			continue
		}
		if k < 0 || against(s, k) || s.Block.Signal != "" || !s.Has(intoBath) && !s.Has(pieces) {
			continue
		}
		running := late || duringRun(s) && byHand(s, k) || s.Has(runningWords) && s.Has(nearBath) || s.Has(soundWords) && (s.Has(onWords) || s.Has(leftOn))
		if !running || !allows(s) && !byHand(s, k) {
			continue
		}
		list = append(list, inSound(a, s))
	}
	return list
}

// notInIt are things outside the liquid that a hand is at.
var notInIt = sentence.Set("lid lids panel log write reading doctor")

var outsideOf = sentence.Set("outside")

// turnsOff tells whether a sentence has a word with which the sound is off, or the hand away. “Wipe the bubbles off the wall” has none, nor has a
// condition: “if the noise stops”.
func turnsOff(s *sentence.Sentence) bool {
	words := s.Tokens()
	for i, w := range words {
		if !offWords[w.Text] || s.Clauses[w.Clause].Opener == "if" && w.Text != "off" {
			continue
		}
		if w.Text == "out" && (i > 0 && (words[i-1].Text == "find" || words[i-1].Text == "finds") || i+1 < len(words) && words[i+1].Text == "whether") {
			continue
		}
		if w.Text == "off" && i > 1 && i+1 < len(words) && (words[i+1].Text == "the" || words[i+1].Text == "a") && !soundWords[words[i-1].Text] && !switches[words[i-1].Text] && words[i-1].Text != "it" {
			continue
		}
		return true
	}
	return false
}

// handsAway tells whether the hands are where no sound is: “with their hands behind their backs”.
func handsAway(s *sentence.Sentence) bool {
	words := s.Tokens()
	for i, w := range words {
		if handWords[w.Text] && i+2 < len(words) && (words[i+1].Text == "stay" || words[i+1].Text == "stays" || words[i+1].Text == "are" || words[i+1].Text == "keep") && keptOff[words[i+2].Text] {
			return true
		}
		if handWords[w.Text] && i+1 < len(words) && (words[i+1].Text == "behind" || words[i+1].Text == "on" && nextOf(words[:min(len(words), i+5)], i+1, dryPlaces)) || w.Text == "pockets" || w.Text == "pocket" {
			return true
		}
	}
	return false
}

var keptOff = sentence.Set("out away off clear dry outside on behind")

var dryPlaces = sentence.Set("rail rim bench lid edge knees table panel switch")

// offAfterwards tells whether work by hand comes before the sound is switched off: “take the tile out by hand and then switch the sound off”.
func offAfterwards(s *sentence.Sentence, k int) bool {
	if !byHand(s, k) || s.Clauses[k].Mood != sentence.Do {
		return false
	}
	words := s.Tokens()
	for i, w := range words {
		if w.Text == "then" && i+2 < len(words) && switches[words[i+1].Text] && (nextOf(words, i+1, soundWords) || words[i+2].Text == "off") {
			for _, before := range words[:i] {
				if switches[before.Text] || before.Text == "off" || handWords[before.Text] && before.Clause != k {
					return false
				}
			}
			return w.Clause >= k && words[0].Clause <= k
		}
	}
	return false
}

// duringRun tells whether something is done during the run: the sound is on then.
func duringRun(s *sentence.Sentence) bool {
	words := s.Tokens()
	for i, w := range words {
		if w.Text == "during" && i+2 < len(words) && (words[i+1].Text == "the" || words[i+1].Text == "a") && (words[i+2].Text == "run" || words[i+2].Text == "cycle") {
			return s.Has(underLiquid)
		}
	}
	return false
}

var (
	switches    = sentence.Set("switch turn switched turned switching turning power shut")
	underLiquid = sentence.Set("under floating liquid bath tank basket")
)

func inSound(a *manual.Article, s *sentence.Sentence) finding.Finding {
	return handsInSound.At(placeIn(a, s.Block, s.From+leading(s)), "The text puts a hand, or what it holds, into a running bath.", "Sound off first; hang the thing on a hook or a holder that stands by itself.")
}

// soundGoesOn tells whether a sentence of hands says that the sound need not be stopped for them: “by hand without stopping the sound”.
func soundGoesOn(s *sentence.Sentence, k int) bool {
	if s.TakenBack || s.Block.Signal != "" || illOf(s) || s.ClauseHas(k, longAgo) || !s.ClauseHas(k, handWords) {
		return false
	}
	words := s.Tokens()
	from := len(words)
	for i, w := range words {
		if !noStop[w.Text] {
			continue
		}
		for j := i + 1; j < min(i+5, len(words)); j++ {
			if stopsSound[words[j].Text] && nextOf(words, j, soundWords) || soundWords[words[j].Text] && nextOf(words, j, soundStopped) {
				from = min(from, i)
			}
		}
	}
	if from == len(words) {
		return false
	}
	for i, w := range words { // a negation of its own
		if noWords[w.Text] && w.Clause == k && i != from && (i < from || i > from+6) {
			return false
		}
	}
	return true
}

// nextOf tells whether one of the words stands within four behind a place.
func nextOf(words []sentence.Token, i int, of map[string]bool) bool {
	for j := i + 1; j < min(i+5, len(words)); j++ {
		if of[words[j].Text] {
			return true
		}
	}
	return false
}

// byHand tells whether a clause says that work is done by hand, or that a hand is in the liquid.
func byHand(s *sentence.Sentence, k int) bool {
	c := &s.Clauses[k]
	if c.Opener != "" || c.Mood == sentence.Was || c.Mood == sentence.MustNot || c.Mood == sentence.Example || s.Has(noWords) || s.Block.Kind == sentence.Cell || s.ClauseHas(k, lids) {
		return false
	}
	words := s.Tokens()
	for i, w := range words {
		if w.Clause != k || !handWords[w.Text] {
			continue
		}
		for j := i - 1; j >= max(0, i-3); j-- {
			if t := words[j].Text; t == "by" || t == "with" {
				return true
			}
		}
		if i+2 < len(words) && words[i+1].Text == "held" && words[i+2].Text == "in" {
			return true
		}
		if i+1 < len(words) && (words[i+1].Text == "in" || words[i+1].Text == "into") {
			return true
		}
	}
	return false
}

// lids are what is put on and off above the liquid.
var lids = sentence.Set("lid lids cover")

var (
	soundStopped = sentence.Set("interrupted stopped off paused switched")
	noStop       = sentence.Set("without no not needn't don't")
	stopsSound   = sentence.Set("stop stopping interrupt interrupting switching switch pause pausing off halting halt turning turn")
)

// handIn gives the clause in which a hand, or the reach of one, stands, or -1.
func handIn(s *sentence.Sentence) int {
	for k := range s.Clauses {
		if s.ClauseHas(k, handWords) {
			return k
		}
	}
	for k := range s.Clauses {
		if s.ClauseHas(k, reachWords) {
			return k
		}
	}
	return -1
}

// leftOn are words with which the sound goes on.
var leftOn = sentence.Set("stay stays keep-on leave left")

// allows tells whether a sentence commands or allows something.
func allows(s *sentence.Sentence) bool {
	for i := range s.Clauses {
		if m := s.Clauses[i].Mood; m == sentence.Do || m == sentence.Able {
			return true
		}
	}
	return s.Has(lightly)
}

var nearBath = sentence.Set("bath tank sound ultrasonics wash water liquid")

var lightly = sentence.Set("fine safe harmless may can fastest easiest quickest best simplest ok tell tells")
