package rules

import (
	"slices"
	"strings"

	"tankside/builder/expression"
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// neutralisedOnSkin finds text that says to neutralise acid or alkali on skin or in eyes. It prevents a second burn: neutralising gives heat,
// and the time it takes is missing for rinsing.
// Limit: first aid of safety data sheets, section 4: rinse with much water at once, for 15 minutes and more; from memory. Calcium gluconate on
// hydrogen fluoride is a treatment of its own and is left alone.
var neutralisedOnSkin = finding.Rule{
	Name: "neutralised-on-skin", Severity: finding.People,
	Finds:  "a text that says to neutralise acid or alkali on skin or in eyes",
	Why:    "It gives off heat on the burn, and the time for it is missing for rinsing.",
	Source: "first aid of safety data sheets, section 4 (from memory, to be confirmed by the safety officer)",
}

var (
	bodyWords    = sentence.Set("skin eye eyes face hand hands arm arms burn burns burnt finger fingers body splash splashed somebody's person's leg legs forearm wound wrist wrists knuckles neck cheek")
	neutralisers = sentence.Set("vinegar neutralise neutralize neutralises neutralizes neutralising neutralizing neutralised neutralized bicarbonate soda lemon citric baking borax chalk ammonia milk acetic boric counteract")
	notOnBody    = sentence.Set("gluconate floor spill effluent waste drain bath tank gloves bench rinse-water sheet")
	alsoGood     = sentence.Set("dab rub bathe wash rinse treat pour put apply use spray wipe swab neutralise neutralize sprinkle cover soak flush hold dip counteract help helps works give dust neutralised neutralized treated washed dabbed rinsed bathed wiped dipped covered powder powdered dusted held sprayed flushed soaked poured applied counteracted takes stops soothes shortens eases relieves saves cures heals calms cools work best answered faster answers dabbing rubbing wiping remedy antidote restores")
)

func findNeutralisedOnSkin(p *proof, a *manual.Article) []finding.Finding {
	var list []finding.Finding
	said := p.reading(a)
	hurt, block := 0, (*sentence.Block)(nil) // sentences since a part of the body was named in the block
	for i := range said.sentences {
		s := &said.sentences[i]
		if hurt++; s.Block != block {
			hurt, block = 9, s.Block
		}
		if !s.Quiet() && s.Has(bodyWords) {
			hurt = 0
		}
		if worsened(s) {
			continue
		}
		if hurt <= 2 && (offered(s) || weakAcidOn(s) || wipedWithSide(s)) || firstAidOf(s) || metWithOpposite(s) || keptForSplashes(s) || labelledRemedy(s) || oppositeOnSkin(a, s) {
			list = append(list, neutralisedOnSkin.At(placeIn(a, s.Block, s.From+leading(s)), "The text says to neutralise on skin or in eyes.", "Rinse with much water at once, for 15 minutes and more, and call for help; no neutralising."))
			continue
		}
		if s.Quiet() || !s.Has(bodyWords) || !s.Has(neutralisers) || offBody(s) || !s.Has(alsoGood) || !treats(s) {
			continue
		}
		list = append(list, neutralisedOnSkin.At(placeIn(a, s.Block, s.From+leading(s)), "The text says to neutralise on skin or in eyes.", "Rinse with much water at once, for 15 minutes and more, and call for help; no neutralising."))
	}
	return append(list, remediesInTable(a, said.sentences)...)
}

// labelledRemedy tells whether a remedy is the first thing behind a label of acid or lye on the body: “Acid in the eye: soda water, then plain water”.
func labelledRemedy(s *sentence.Sentence) bool {
	if s.Quiet() || s.Question || s.TakenBack || s.Block.Signal != "" || denied(s) || illOf(s) {
		return false
	}
	words := s.Tokens()
	colon := slices.IndexFunc(words, func(w sentence.Token) bool { return w.Text == ":" })
	return colon > 2 && colon < 8 && onBody(words[:colon]) && hasAny(words[colon+1:min(len(words), colon+3)], remedies)
}

// worsened tells whether a sentence says that what is put on a burn makes it worse, or only what somebody believes of it.
func worsened(s *sentence.Sentence) bool {
	return !s.Quiet() && (s.Has(beliefs) || s.Has(worseBegins) && makesWorse.MatchString(strings.ToLower(s.Text())))
}

var (
	worseBegins = sentence.Set("only just nothing") // one of which makesWorse has
	makesWorse  = expression.Of(`\b(?:only|just) (?:holds|keeps|locks|traps|drives|makes|spreads|adds)\b|\bis nothing\b`)
	beliefs     = sentence.Set("tale tales believe believes belief think thinks hear hears")
)

// offBody tells whether a sentence is about another place than the body. A bath with which somebody is rinsed is none: “a rinse with the citric bath”.
func offBody(s *sentence.Sentence) bool {
	words := s.Tokens()
	for i, w := range words {
		if notOnBody[w.Text] && !(w.Text == "bath" && i > 1 && neutralisers[words[i-1].Text] && (words[i-2].Text == "with" || i > 2 && words[i-3].Text == "with")) {
			return true
		}
	}
	return false
}

// metWithOpposite tells whether burns or splashes are answered with what is sour or alkaline: “Acid burns are met with something alkaline”.
func metWithOpposite(s *sentence.Sentence) bool {
	if s.Quiet() || s.Question || s.TakenBack || s.Block.Signal != "" || !s.Has(bodyWords) || !s.Has(oppositeSides) || offBody(s) || denied(s) || illOf(s) {
		return false
	}
	words := s.Tokens()
	for i := 1; i < len(words); i++ {
		w := words[i]
		if !oppositeSides[w.Text] || s.Clauses[w.Clause].Opener != "" || !s.ClauseHas(w.Clause, answers) && !s.ClauseHas(w.Clause, alsoGood) {
			continue
		}
		if littleOf[words[i-1].Text] && i > 1 && (words[i-2].Text == "with" || words[i-2].Text == "by") {
			return true
		}
	}
	return false
}

// wipedWithSide tells whether somebody is wiped or rinsed with acid, a descaler or alkali: “a wipe with the descaler takes that away”.
func wipedWithSide(s *sentence.Sentence) bool {
	if s.Quiet() || s.Question || s.TakenBack || s.Block.Signal != "" || s.Has(notOnBody) || denied(s) || illOf(s) {
		return false
	}
	words := s.Tokens()
	for i := 1; i+1 < len(words); i++ {
		if words[i].Text != "with" || s.Clauses[words[i].Clause].Opener != "" || !hasAny(words[max(0, i-3):i], wipedOff) {
			continue
		}
		if side := words[i+1 : min(len(words), i+4)]; hasAny(side, acids) || hasAny(side, alkalis) {
			return true
		}
	}
	return false
}

// onBody tells whether acid or lye is somewhere on the body: “lye on the arm”.
func onBody(words []sentence.Token) bool {
	for i, w := range words {
		if (acids[w.Text] || alkalis[w.Text]) && (wordAt(words, i+1) == "on" || wordAt(words, i+1) == "in") && nextOf(words[:min(len(words), i+5)], i+1, partsOfBody) {
			return true
		}
	}
	return false
}

// keptForSplashes tells whether a sentence has what people take against burns kept ready for splashes on the body: “Keep a bottle of vinegar beside the caustic
// tank for splashes on the skin”.
func keptForSplashes(s *sentence.Sentence) bool {
	if s.Quiet() || s.Question || s.TakenBack || s.Block.Signal != "" || !s.Has(remedies) && !s.Has(citric) || !s.Has(splashWords) && !onBody(s.Tokens()) || !s.Has(partsOfBody) || s.Has(waterWord) || denied(s) || illOf(s) {
		return false
	}
	words := s.Tokens()
	for i, w := range words {
		if !keepsReady[w.Text] || s.Clauses[w.Clause].Opener != "" || s.Clauses[w.Clause].Mood == sentence.Was {
			continue
		}
		if (nextOf(words[:min(len(words), i+6)], i, remedies) || nextOf(words[:min(len(words), i+6)], i, citric)) && wordAt(words, i+2) != "out" || i > 0 && remedies[words[i-1].Text] {
			return true
		}
	}
	return false
}

// weakAcidOn tells whether a sentence has somebody rinse or wipe with dilute acid or alkali.
func weakAcidOn(s *sentence.Sentence) bool {
	if s.Quiet() || s.Question || s.Block.Signal != "" || s.Has(notOnBody) {
		return false
	}
	words := s.Tokens()
	for i, w := range words {
		if !dilute[w.Text] || i+1 >= len(words) {
			continue
		}
		if (opposites[words[i+1].Text] || i+2 < len(words) && neutralisers[words[i+1].Text] && opposites[words[i+2].Text]) && s.ClauseHas(w.Clause, alsoGood) && !against(s, w.Clause) {
			return s.Clauses[w.Clause].Opener == ""
		}
	}
	return false
}

// firstAidOf tells whether a sentence keeps acid for splashes of alkali, or the reverse.
func firstAidOf(s *sentence.Sentence) bool {
	if s.Quiet() || s.Question || s.Has(notOnBody) {
		return false
	}
	words := s.Tokens()
	for i := 0; i+4 < len(words); i++ {
		if (acids[words[i].Text] || remedies[words[i].Text]) && words[i+1].Text == "for" && (words[i+2].Text == "splashes" || words[i+2].Text == "burns") && words[i+3].Text == "of" && (alkalis[words[i+4].Text] || acids[words[i+4].Text]) {
			return !denies(s, words[i].Clause) && s.Clauses[words[i].Clause].Mood != sentence.MustNot && s.Clauses[words[i].Clause].Mood != sentence.Was && !s.TakenBack
		}
	}
	return false
}

var (
	// oppositeSides are words for acid and alkali as a remedy, littleOf for how little of it.
	oppositeSides = sentence.Set("alkaline sour acidic acid alkali base basic lye")
	answers       = sentence.Set("met meet answer answered countered counter fought cured cure")
	littleOf      = sentence.Set("something anything weak mild dilute some")
	wipedOff      = sentence.Set("wipe rinse dab rub wash bathe swab wiped rinsed dabbed rubbed washed bathed")
	citric        = sentence.Set("citric")
	splashWords   = sentence.Set("splash splashes burn burns drop drops")
	partsOfBody   = sentence.Set("skin eye eyes face hand hands arm arms finger fingers")
	keepsReady    = sentence.Set("keep have place put store stands hangs belongs hang")
	dilute        = sentence.Set("weak dilute diluted mild some little")
	opposites     = sentence.Set("acid alkali lye vinegar soda")
)

// offered tells whether a sentence offers what people take against burns by acid or lye: “vinegar over it”, “a wipe of lemon juice”.
func offered(s *sentence.Sentence) bool {
	if s.Quiet() || s.Question || s.Has(notOnBody) || s.Block.Signal != "" {
		return false
	}
	words := s.Tokens()
	for i, w := range words {
		if !remedies[w.Text] || against(s, w.Clause) || s.Clauses[w.Clause].Opener != "" || s.Clauses[w.Clause].Mood == sentence.Was || s.Clauses[w.Clause].Mood == sentence.Example {
			continue
		}
		if w.Text == "soda" && i > 0 && words[i-1].Text == "caustic" {
			continue
		}
		if w.Text == "soda" && i > 0 && (words[i-1].Text == "wet" || i+1 < len(words) && words[i+1].Text == "paste") {
			return true // “wet soda on it until it stops fizzing”
		}
		if i > 0 && (helped[words[i-1].Text] || i > 1 && helped[words[i-2].Text]) {
			return true
		}
		for j := i + 1; j < min(i+3, len(words)); j++ {
			if helping[words[j].Text] {
				return true
			}
		}
	}
	return false
}

var (
	remedies = sentence.Set("vinegar lemon bicarbonate baking borax chalk milk buttermilk soda")
	helped   = sentence.Set("with of in by some little")
	helping  = sentence.Set("over onto against helps takes works stops first")
)

// treats tells whether a clause that speaks for itself has a neutraliser and what is done with it.
func treats(s *sentence.Sentence) bool {
	k := clauseWith(s, neutralisers)
	words := s.Tokens()
	for i, w := range words { // “Vinegar in the eye is rinsed out with water”
		if neutralisers[w.Text] && i+1 < len(words) && (words[i+1].Text == "in" || words[i+1].Text == "on") && nextOf(words, i+4, waterWord) {
			return false
		}
	}
	return s.ClauseHas(k, alsoGood) && !reasonOpeners[s.Clauses[k].Opener] && !against(s, k)
}

var reasonOpeners = sentence.Set("because since as whereas although though")

// clauseWith gives the first clause that has one of the words, or the last of all.
func clauseWith(s *sentence.Sentence, words map[string]bool) int {
	for k := range s.Clauses {
		if s.ClauseHas(k, words) {
			return k
		}
	}
	return len(s.Clauses) - 1
}
