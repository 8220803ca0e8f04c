package rules

import (
	"slices"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// unnamedInBath finds a sentence that puts into a bath what it does not name: what is left of the old cleaner into the new bath, the rest of a drum whatever
// it was, or whatever stands nearest to top it up. What nobody has named, nobody has compared with what is in the bath.
func unnamedInBath(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	if s.Block.Kind == sentence.Cell || s.Block.Kind == sentence.Heading || s.Has(sameAgain) || s.Has(exceptions) {
		return nil
	}
	words := s.Tokens()
	if at := noMatterWhich(s, words); at >= 0 {
		return unnamed(a, s, words[at].From)
	}
	if at := fromOtherTank(s, words); at >= 0 {
		return unnamed(a, s, words[at].From)
	}
	at := restIntoNew(s, words)
	if at < 0 {
		at = toppedWithAny(s, words)
	}
	if at < 0 {
		at = baledOver(s, words)
	}
	if at < 0 {
		at = startedWithOld(s, words)
	}
	if at < 0 {
		at = oneIntoOther(s, words)
	}
	if at < 0 {
		return nil
	}
	c := &s.Clauses[words[at].Clause]
	if c.Opener != "" && c.Opener != "whatever" || c.Mood == sentence.Was || c.Mood == sentence.MustNot || against(s, words[at].Clause) {
		return nil
	}
	return unnamed(a, s, words[at].From)
}

// unnamedBetween finds liquid that goes from one tank of the shop to another that holds something else.
func (p *proof) unnamedBetween(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	if s.Block.Kind == sentence.Cell || s.Block.Kind == sentence.Heading || s.Has(exceptions) {
		return nil
	}
	words := s.Tokens()
	if at := acrossTanks(p, s, words); at >= 0 {
		return unnamed(a, s, words[at].From)
	}
	return nil
}

func unnamed(a *manual.Article, s *sentence.Sentence, from int) *finding.Finding {
	f := mixedInText.At(placeIn(a, s.Block, from), "The text puts into a bath what is left of another, or whatever is at hand.", "Nothing goes into a bath but its own chemistry and water, by the label; what is left of another goes to waste.")
	return &f
}

// noMatterWhich gives the place at which a sentence says that it does not matter which cleaner goes into a bath, or -1.
func noMatterWhich(s *sentence.Sentence, words []sentence.Token) int {
	if !s.Has(cleanerNouns) || s.Question || s.TakenBack || illOf(s) {
		return -1
	}
	for i := 2; i+1 < len(words); i++ {
		if !(words[i].Text == "matter" && (words[i-1].Text == "not" || words[i-1].Text == "no" || words[i-1].Text == "doesn't") || words[i].Text == "same" && words[i-1].Text == "the" && words[i-2].Text == "all") {
			continue
		}
		which := false
		for j := i + 1; j+1 < len(words); j++ {
			which = which || words[j].Text == "which" || words[j].Text == "what"
			if which && words[j].Text == "into" && (hasTank(s) || nextOf(words[:min(len(words), j+4)], j, bathWords)) {
				return i
			}
		}
	}
	return -1
}

// baledOver gives the place at which liquid is taken from one tank of the shop into another that holds another cleaner, or -1.
func baledOver(s *sentence.Sentence, words []sentence.Token) int {
	var from, to *manual.Tank
	k := -1
	for i := range s.Mentions {
		m := &s.Mentions[i]
		if m.Thing == nil || m.Thing.Tank == nil {
			continue
		}
		switch s.Before(m) {
		case "from", "of":
			from, k = m.Thing.Tank, s.ClauseOf(m)
		case "into", "to", "in", "up", "fill", "refill":
			to = m.Thing.Tank
		case "":
			if getsIt[s.After(m)] { // “Wash 2 borrows five litres from Wash 1”
				to = m.Thing.Tank
			}
		}
	}
	if from == nil || to == nil || from.Chemistry.Name == to.Chemistry.Name || !s.ClauseHas(k, bales) || !s.ClauseHas(k, liquids) && !hasVolume(s) || s.Has(pieces) || s.Has(samples) {
		return -1
	}
	return slices.IndexFunc(words, func(w sentence.Token) bool { return w.Clause == k })
}

// restIntoNew gives the place at which a sentence speaks of what is left of an old bath or cleaner, or of a drum of which nobody knows what is in it, and of
// a new bath into which it goes; or -1.
func restIntoNew(s *sentence.Sentence, words []sentence.Token) int {
	if at := anyLeftover(words); at >= 0 {
		return at
	}
	rest := restOf(words)
	if rest < 0 {
		return -1
	}
	if hasTank(s) && (wordAt(words, rest+2) == "both" || wordAt(words, rest+2) == "two" || wordAt(words, rest+3) == "two") {
		return rest // “Combine the rests of both drums in Wash 2”
	}
	old, unknown := false, strings.Contains(strings.ToLower(s.Text()), "whatever it ") || strings.Contains(strings.ToLower(s.Text()), "no matter w")
	for i := rest + 1; i+2 < len(words); i++ {
		old = old || i-rest < 7 && (oldOnes[words[i].Text] && restNouns[wordAt(words, i+1)] || unknown && restNouns[words[i].Text])
		if old && (words[i].Text == "into" || words[i].Text == "to" || words[i].Text == "in") {
			for j := i + 1; j+1 < min(i+4, len(words)); j++ {
				if newOnes[words[j].Text] && (freshBaths[words[j+1].Text] || freshBaths[wordAt(words, j+2)]) {
					return rest
				}
			}
		}
	}
	return -1
}

// anyLeftover gives the place at which any cleaner that is left over goes into a tank, or -1.
func anyLeftover(words []sentence.Token) int {
	for i := 0; i+2 < len(words); i++ {
		if !anyAtAll[words[i].Text] && words[i].Text != "every" || !leftOvers[words[i+1].Text] || !cleanerNouns[words[i+2].Text] {
			continue
		}
		for j := i + 3; j+1 < len(words); j++ {
			if words[j].Text == "into" && nextOf(words[:min(len(words), j+4)], j, tankWords) {
				return i
			}
		}
	}
	return -1
}

// restOf gives the place of a word for what is left, with “of” behind it, or -1.
func restOf(words []sentence.Token) int {
	for i, w := range words {
		switch {
		case rests[w.Text] && wordAt(words, i+1) == "of":
			return i
		case portions[w.Text] && wordAt(words, i+1) == "of" && wordAt(words, i+2) == "the" && oldOnes[wordAt(words, i+3)]:
			return i // “a bucket of the old bath”
		case (w.Text == "left" || w.Text == "remains" || w.Text == "over") && i > 0 && wordAt(words, i+1) == "of" && hasAny(words[max(0, i-3):i], whatWords):
			return i
		}
	}
	return -1
}

// toppedWithAny gives the place at which a sentence fills a bath with whatever is at hand, or -1. “Whatever the label says” is known.
func toppedWithAny(s *sentence.Sentence, words []sentence.Token) int {
	for i := 1; i < len(words); i++ {
		if !anyAtAll[words[i].Text] || words[i-1].Text != "with" && words[i-1].Text != "from" {
			continue
		}
		from := max(0, words[i].Clause-1)
		if !(s.ClauseHas(words[i].Clause, filledWords) || s.ClauseHas(from, filledWords) && s.Clauses[from].Opener == "") {
			continue
		}
		for j := i + 1; j < min(i+8, len(words)); j++ {
			if atHand[words[j].Text] {
				return i - 1
			}
		}
	}
	return -1
}

// gasComes tells whether a sentence says which gas comes of what it tells: “A cup of bleach in this bath is a cup of chlorine in the room”.
func gasComes(s *sentence.Sentence) bool {
	words := s.Tokens()
	verb := false
	for i, w := range words {
		if gases[w.Text] && verb && i > 0 && words[i-1].Text != "no" && wordAt(words, i+1) != "bleach" {
			return true
		}
		verb = verb || comesOf[w.Text]
	}
	return false
}

// heldApart tells whether a sentence keeps what it names apart. What “keeps the smell away” keeps no acid from bleach.
func heldApart(s *sentence.Sentence) bool {
	words := s.Tokens()
	for i, w := range words {
		if !apart[w.Text] {
			continue
		}
		if w.Text == "label" && hasAny(words[max(0, i-2):i], regardless) {
			continue // “whatever the label says”
		}
		if (w.Text == "keep" || w.Text == "keeps" || w.Text == "stop" || w.Text == "free") && nextOf(words, i, pests) || (w.Text == "stays" || w.Text == "stay") && i > 0 && (words[i-1].Text == "that" || words[i-1].Text == "which" || s.Clauses[w.Clause].Opener == "if" || s.Clauses[w.Clause].Opener == "when") {
			continue
		}
		return !oneAfterOther(s)
	}
	return false
}

// inTurn tells whether a sentence has one thing first and the next straight behind it, with no rinse or wash between.
func inTurn(s *sentence.Sentence) bool {
	if s.Has(rinses) || s.Has(washesOff) || s.Block.Kind == sentence.Cell {
		return false
	}
	words := s.Tokens()
	first := -1
	for i, w := range words {
		if w.Text == "first" {
			first = i
		}
		if first >= 0 && i > first && nextInTurn[w.Text] && s.Clauses[w.Clause].Mood != sentence.MustNot {
			return true
		}
	}
	return false
}

var (
	getsIt     = sentence.Set("borrows gets receives takes draws")
	regardless = sentence.Set("whatever whichever matter")
	bales      = sentence.Set("bale bail ladle pump siphon scoop carry pour draw take transfer move bring add top fill borrow borrows lend lends gets receives helps")
	liquids    = sentence.Set("some liquid water cleaner solution liquor bucket jug cup scoop ladle bucketful litre litres")
	leftOvers  = sentence.Set("leftover remaining spare surplus unused old other")
	tankWords  = sentence.Set("tank bath")
	sameAgain  = sentence.Set("same own label labelled if unless waste contractor sample sheet only")
	rests      = sentence.Set("rest rests remainder leftover leftovers remains residue dregs remnant remnants heel")
	whatWords  = sentence.Set("what whatever everything")
	oldOnes    = sentence.Set("old last spent previous former used other tired worn-out")
	restNouns  = sentence.Set("cleaner cleaners bath charge fill drum canister can bottle detergent product concentrate chemistry wash liquor solution descaler acid batch")
	newOnes    = sentence.Set("new fresh next other")
	freshBaths = sentence.Set("bath tank fill charge mix one wash batch")
	anyAtAll   = sentence.Set("whatever whichever anything any what")
	atHand     = sentence.Set("nearest near nearby hand handy open shelf around cheapest closest available stock finds find cupboard")
	gases      = sentence.Set("chlorine chloramine chloramines gas fumes hydrogen cyanide poison phosgene")
	comesOf    = sentence.Set("is turns turn makes make gives give becomes become means brings produces forms yields sets fill fills")
	washesOff  = sentence.Set("wash washed washes rinses")
	nextInTurn = sentence.Set("then after afterwards next straight followed behind second")
)
