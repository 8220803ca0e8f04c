package rules

import (
	"strings"

	"tankside/builder/expression"
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// oppositeOnSkin tells whether a sentence answers what burns with its opposite: “Lye burns take vinegar, acid burns take soda”, “bicarbonate for acid in the eyes”,
// “Burns from caustic are taken care of with the citric solution”, “Do not run to the tap first: whoever got acid in the eye drips soda in”. What stands on the
// one side is acid or lye that does harm, on the other a remedy of the other side; whichever word joins them. That water may wait denies nothing.
func oppositeOnSkin(a *manual.Article, s *sentence.Sentence) bool {
	if s.Quiet() || s.Question || s.TakenBack || s.Block.Signal != "" || s.Block.Kind == sentence.Cell || offBody(s) || s.Has(beliefs) || s.Has(heatOnSkin) || !s.Has(bodyWords) && !(a.Procedure != nil && strings.Contains(a.Name, "first-aid")) {
		return false
	}
	words := s.Tokens()
	waits := waterWaits(s)
	for i, w := range words {
		k := w.Clause
		remedy := remedySide(words, i)
		if remedy == 0 || s.Clauses[k].Mood == sentence.Was && !s.ClauseHas(k, whoeverWord) || s.Clauses[k].Mood == sentence.Example || s.Clauses[k].Opener != "" && s.Clauses[k].Opener != "who" && s.Clauses[k].Opener != "which" || denies(s, k) || s.ClauseHas(k, longAgo) || s.ClauseHas(k, stillAway) {
			continue
		}
		if !waits && (denied(s) || illOf(s)) {
			continue
		}
		for j, h := range words {
			if burnSide(words, j) != -remedy || h.Clause > k+1 || h.Clause < k-1 || j == i {
				continue
			}
			if joinedAsCure(words, min(i, j), max(i, j), waits) {
				return true
			}
		}
	}
	return false
}

// remedySide gives −1 where the word at a place is a sour remedy, 1 for an alkaline one, 0 otherwise. “Caustic soda” is none.
func remedySide(words []sentence.Token, i int) int {
	switch w := words[i].Text; {
	case w == "soda" && i > 0 && words[i-1].Text == "caustic":
		return 0
	case sourRemedies[w]:
		return -1
	case softRemedies[w]:
		return 1
	}
	return 0
}

// burnSide gives the side of what burns at a place: acid or lye with a burn, a splash or a part of the body close by.
func burnSide(words []sentence.Token, i int) int {
	side := 0
	switch w := words[i].Text; {
	case w == "acid" || w == "descaler":
		side = -1
	case alkalis[w]:
		side = 1
	default:
		return 0
	}
	if wordAt(words, i+1) == "soda" && words[i].Text != "caustic" || words[max(0, i-1)].Text == "weak" || words[max(0, i-1)].Text == "citric" || words[max(0, i-1)].Text == "boric" {
		return 0
	}
	return side
}

// joinedAsCure tells whether a word of help, and no water, stands between or beside a burn and a remedy.
func joinedAsCure(words []sentence.Token, from, to int, waits bool) bool {
	for i := from; !waits && i < min(len(words), to+8); i++ {
		if curesRinse[words[i].Text] && !(words[i].Text == "water" && remedySide(words, i-1) != 0) { // “boric water” is a remedy
			return false
		}
	}
	return hasAny(words[max(0, from-3):min(len(words), to+4)], cureWords)
}

// waterWaits tells whether a sentence says that water comes later or is not needed, which is a negation that denies no remedy.
func waterWaits(s *sentence.Sentence) bool {
	if besidesWater.MatchString(strings.ToLower(s.Text())) {
		return true
	}
	words := s.Tokens()
	for i, w := range words {
		if wetWords[w.Text] && (wordAt(words, i+1) == "can" && wordAt(words, i+2) == "wait" || hasAny(words[max(0, i-5):i], noWords) && wordAt(words, i+1) == "first") {
			return true
		}
	}
	return false
}

// remediesInTable finds a table of first aid whose rows give acid something alkaline, or lye something sour.
func remediesInTable(a *manual.Article, said []sentence.Sentence) []finding.Finding {
	body := false
	for i := range said {
		s := &said[i]
		if s.Block.Kind != sentence.Cell {
			continue
		}
		if s.Block.First {
			head := strings.Fields(strings.ToLower(s.Block.Column + " " + s.Text()))
			body = (hasWord(head, bodyWords) || strings.Contains(a.Name, "first-aid")) && !hasWord(head, notOnBody) && !hasWord(head, spiltWords)
			continue
		}
		list := plainWords(s)
		if !body || len(list) > 4 || hasWord(list, noWords) || hasWord(strings.Fields(strings.ToLower(s.Block.Column)), noWords) || hasWord(strings.Fields(strings.ToLower(s.Block.Column)), exceptHeads) {
			continue
		}
		row := strings.Fields(strings.ToLower(s.Block.Row))
		acid, lye := hasWord(row, acids), hasWord(row, alkalis)
		if acid && hasWord(list, softRemedies) || lye && hasWord(list, sourRemedies) {
			return []finding.Finding{neutralisedOnSkin.At(placeIn(a, s.Block, s.From+leading(s)), "The table says to neutralise on skin or in eyes.", "Rinse with much water at once, for 15 minutes and more, and call for help; no neutralising.")}
		}
	}
	return nil
}

var (
	spiltWords   = sentence.Set("spilt spilled spills clothes")
	besidesWater = expression.Of(`\b(?:rather than|instead of|and not|better than) (?:plain |only |just )?(?:water|the tap)\b`)
	whoeverWord  = sentence.Set("whoever who")
	sourRemedies = sentence.Set("vinegar lemon citric boric sour")
	softRemedies = sentence.Set("bicarbonate soda chalk magnesia borax baking buttermilk")
	cureWords    = sentence.Set("take takes taken for against with heals heal cures cure helps help drips drip on over nothing hand ready gets get wants want needs answers works")
	curesRinse   = sentence.Set("water tap eyewash shower rinse rinsed before")
	heatOnSkin   = sentence.Set("heat hot warms kitchen")
	stillAway    = sentence.Set("stay stays kept away out cupboard later shelf nobody")
)
