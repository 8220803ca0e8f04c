package rules

import (
	"fmt"
	"slices"
	"strings"

	"tankside/builder/expression"
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// acrossTanks gives the place at which a sentence that names two tanks with other cleaners has liquid go from one to the other, or has both filled from one drum; or -1: “Wash 2 is
// low, Wash 1 is full: carry a bucket across”, “A hose between the two evens it out”, “Both washes may be topped up from one and the same drum”.
func acrossTanks(p *proof, s *sentence.Sentence, words []sentence.Token) int {
	if s.Question || s.TakenBack || denied(s) || illOf(s) || s.Has(pieces) || s.Has(samples) || s.Has(ownVessels) || s.Has(ownWord) || !twoTanks(p, s) {
		return -1
	}
	for i, w := range words {
		k := w.Clause
		if s.Clauses[k].Opener != "" || s.Clauses[k].Mood == sentence.Was {
			continue
		}
		if crosses[w.Text] && (s.ClauseHas(k, bales) || s.ClauseHas(k, hoseWord)) && (s.ClauseHas(k, liquids) || s.ClauseHas(k, hoseWord) || hasVolume(s)) {
			return i
		}
		if w.Text == "from" && s.ClauseHas(k, filledWords) && hasAny(words[i:min(len(words), i+6)], sameWord) && hasAny(words[i:min(len(words), i+7)], drums) {
			return i
		}
	}
	return -1
}

// twoTanks tells whether a sentence speaks of both of two tanks that hold something else.
func twoTanks(p *proof, s *sentence.Sentence) bool {
	var of []string
	for i := range s.Mentions {
		if t := s.Mentions[i].Thing; t != nil && t.Tank != nil && !slices.Contains(of, t.Tank.Chemistry.Name) {
			of = append(of, t.Tank.Chemistry.Name)
		}
	}
	if len(of) > 1 {
		return true
	}
	return len(p.Shop.Tanks) == 2 && p.Shop.Tanks[0].Chemistry.Name != p.Shop.Tanks[1].Chemistry.Name && hasSign(s.Text(), "ashes", "anks", "aths") && bothTanks.MatchString(strings.ToLower(s.Text()))
}

// stillFull finds acid that comes to an alkaline bath which is still there, or the reverse: “While the old alkaline bath is still warm, tip in the descaler”, “Lime is dissolved with
// acid before the alkaline bath is drained”.
func (p *proof) stillFull(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	if s.Question || s.TakenBack || s.Block.Signal != "" || s.Block.Kind == sentence.Cell || !s.Has(bathWords) || s.Has(rinses) || s.Has(samples) || s.Has(ofTest) || s.Has(exceptions) || denied(s) || illOf(s) || toldOfPast(s) || !stillThere.MatchString(strings.ToLower(s.Text())) || !p.bothSides(s) {
		return nil
	}
	f := mixedInText.At(placeIn(a, s.Block, s.From+leading(s)), "The text brings acid and alkali together.", "Drain the one and rinse before the other comes in.")
	return &f
}

// bothSides tells whether a sentence names acid and alkali.
func (p *proof) bothSides(s *sentence.Sentence) bool {
	sides := [3]bool{}
	words := s.Tokens()
	for i := range words {
		sides[p.sideWord(s, words, i)+1] = true
	}
	return sides[0] && sides[2]
}

// unrinsed finds two things that must never meet, and that no rinse is needed between them: “Bleach and descaler are both used on the tank, no need to rinse between”.
func (p *proof) unrinsed(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	if s.Question || s.TakenBack || s.Block.Signal != "" || s.Block.Kind == sentence.Cell || illOf(s) || toldOfPast(s) && !s.Has(needWord) || s.Has(exceptions) || !hasSign(s.Text(), "rins", "Rins") || !hasSign(s.Text(), "no ", "No ", "ithout", "eed", "nnecessary") || !noRinse.MatchString(strings.ToLower(s.Text())) {
		return nil
	}
	now := p.substancesIn(s)
	if !(now["acid"] && (now["hypochlorite"] || now["cyanide"] || now["sulfide"])) && !p.bothSides(s) {
		return nil
	}
	f := mixedInText.At(placeIn(a, s.Block, s.From+leading(s)), "The text has two things follow each other, without a rinse, that must never meet.", "Rinse between the two until nothing of the first is left.")
	return &f
}

// portionForTank finds an amount of acid that does good to an alkaline tank of the shop, or of alkali to an acid one, wherever the tank is named: “A splash of descaler now and then keeps
// the heater of Wash 1 free of lime”.
func (p *proof) portionForTank(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	if !hasTank(s) || s.Question || s.TakenBack || s.Block.Signal != "" || s.Block.Kind == sentence.Cell || denied(s) || illOf(s) || s.Has(exceptions) || s.Has(equated) || s.Has(samples) || s.Has(drains) {
		return nil
	}
	words := s.Tokens()
	for i := 2; i < len(words); i++ {
		k := words[i].Clause
		if words[i-1].Text != "of" || !doses[words[i-2].Text] || s.Clauses[k].Opener != "" || s.Clauses[k].Mood == sentence.Was || valence(s, k) < 0 && !s.ClauseHas(k, freeWord) {
			continue
		}
		side := p.sideWord(s, words, i)
		if side == 0 {
			continue
		}
		for j := range s.Mentions {
			m := &s.Mentions[j]
			if m.Thing == nil || m.Thing.Tank == nil || s.ClauseOf(m) != k || m.From < words[i].From || !s.ClauseHas(k, doesItGood) {
				continue
			}
			if c := p.Named(manual.Chemistry, m.Thing.Tank.Chemistry.Name); c != nil && sideOfPage(c) == -side {
				f := mixedInText.At(placeIn(a, s.Block, words[i].From), fmt.Sprintf("The text puts %s into %s, which holds %s.", words[i].Text, m.Thing.Tank.Name, c.Head.Title), "Nothing goes into a bath but its own chemistry and water: take it out.", m.Thing.Tank.Chemistry.At)
				return &f
			}
		}
	}
	return nil
}

// waterLoosens tells whether water is said to loosen what is caked in a drum of lye, or to get the last of the acid out of its canister.
func waterLoosens(s *sentence.Sentence) bool {
	if s.Quiet() || s.Question || s.TakenBack || s.Block.Signal != "" || s.Block.Kind == sentence.Cell || denied(s) || illOf(s) || toldOfPast(s) || s.Has(rinsedEmpty) || !s.Has(waterWord) || !s.Has(strongStuff) && !s.Has(solidForms) || !s.Has(jugs) && !s.Has(neatThings) {
		return false
	}
	words := s.Tokens()
	water := slices.IndexFunc(words, func(w sentence.Token) bool { return w.Text == "water" })
	return hasAny(words[water:], loosens) && hasAny(words, storedIn) && !s.Has(intoTanks)
}

var (
	crosses    = sentence.Set("across over between")
	hoseWord   = sentence.Set("hose pipe")
	ownWord    = sentence.Set("own each")
	needWord   = sentence.Set("need needed needless")
	freeWord   = sentence.Set("free clean clear")
	doesItGood = sentence.Set("keeps keep helps frees clears cleans does cures wakes revives saves descales stops prevents")
	loosens    = sentence.Set("loosens loosen softens thins frees dissolves melts shifts")
	storedIn   = sentence.Set("drum canister sack bag")
	intoTanks  = sentence.Set("tank bath bucket sink")

	bothTanks  = expression.Of(`\b(?:both|the two) (?:washes|tanks|baths)\b`)
	stillThere = expression.Of(`\bwhile\b[^,;.]*\bstill\b|\bbefore (?:the|it|that|this)\b[^,;.]*\b(?:is|are) (?:drained|emptied|pumped|let)\b`)
	noRinse    = expression.Of(`\bno (?:need (?:to|for a) )?rins(?:e|ing)\b|\bwithout (?:a |any )?rins(?:e|ing)\b|\brins(?:e|ing) (?:between )?(?:is|are) (?:not needed|needless|unnecessary)\b|\bneed(?:n't| not) (?:to )?rinse\b`)
)
