package rules

import (
	"fmt"
	"slices"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// mixedInReplies reads each question with its answer as one sentence: what is asked after, a tank or its pH, is what the answer pours something into. “Level low
// in Wash 2? Bale some over from Wash 1”, “pH up to 12? Pull it back with a cup of citric”. Lines that have a finding already are left out.
func (p *proof) mixedInReplies(a *manual.Article, replies []sentence.Sentence, known []finding.Finding) []finding.Finding {
	var list []finding.Finding
	for i := range replies {
		s := &replies[i]
		if s.Quiet() || s.Question || s.TakenBack || s.Block.Signal != "" || gasComes(s) || hasWord(plainWords(s), noneWords) || denied(s) || illOf(s) || s.Has(exceptions) || s.Has(sameAgain) {
			continue
		}
		f := p.oneOf(a, s, p.portionOfOther, p.neutralisedByPortion, p.acidAdded, p.foreignInBath, p.acidWithAlkali, p.turned, p.calledInto, unnamedInBath)
		if f == nil || slices.ContainsFunc(known, func(o finding.Finding) bool { return o.Line == f.Line }) {
			continue
		}
		list = append(list, *f)
	}
	return list
}

// calledInto finds a chemistry, called by one of the names in its header, that is said to serve in a tank which holds another: “The blue drum will do for Wash 2”.
func (p *proof) calledInto(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	if !hasTank(s) || s.Block.Kind == sentence.Cell || s.Question || s.TakenBack || denied(s) || illOf(s) || s.Has(exceptions) || s.Has(ownCleaner) || s.Has(notPoured) || s.Has(equated) {
		return nil
	}
	words := s.Tokens()
	for i := range s.Mentions {
		m := &s.Mentions[i]
		k := s.ClauseOf(m)
		if m.Thing == nil || m.Thing.Tank == nil || m.Where || s.Clauses[k].Opener != "" || s.Clauses[k].Mood == sentence.Was {
			continue
		}
		serves := (s.Before(m) == "for" || into(s, m)) && (s.ClauseHas(k, doesFor) || s.ClauseHas(k, pouredWords))
		filled := s.ClauseHas(k, filledWords)
		if !serves && !filled {
			continue
		}
		for j, w := range words {
			if w.Clause != k || w.From > m.From && !(filled && hasAny(words[max(0, j-2):j], sourceWords)) {
				continue
			}
			c := p.chemistryCalled(words, j)
			if c == nil {
				c = p.drumOf(words, j)
			}
			if c == nil || c.Name == m.Thing.Tank.Chemistry.Name {
				continue
			}
			f := mixedInText.At(placeIn(a, s.Block, w.From), fmt.Sprintf("The text puts %s into %s, which holds %s.", c.Head.Title, m.Thing.Tank.Name, m.Thing.Tank.Chemistry.Name), "Nothing goes into a bath but its own chemistry and water: take it out.", m.Thing.Tank.Chemistry.At)
			return &f
		}
	}
	return nil
}

// chemistryCalled gives the one chemistry that two to four words at a place call by a name of its header, such as “the blue drum”; nil where none, or several, are called so.
func (p *proof) chemistryCalled(words []sentence.Token, i int) *manual.Article {
	for n := 4; n > 1; n-- {
		if i+n > len(words) {
			continue
		}
		var name []string
		for _, w := range words[i : i+n] {
			name = append(name, w.Text)
		}
		if c := p.called(plainName(strings.Join(name, " "))); c != nil && c.Chemistry != nil && !c.Partial {
			return c
		}
	}
	return nil
}

// drumOf gives the one chemistry of whose title the word before a drum is: “the silicated drum”; nil where none, or several, have it.
func (p *proof) drumOf(words []sentence.Token, i int) *manual.Article {
	if !jugs[wordAt(words, i+1)] && !storage[wordAt(words, i+1)] || generalWords[words[i].Text] {
		return nil
	}
	list := slices.DeleteFunc(slices.Clone(p.By(titleWords, words[i].Text)), func(a *manual.Article) bool { return a.Chemistry == nil || a.Partial || a.Language != "" })
	if len(list) != 1 {
		return nil
	}
	return list[0]
}

// fromOtherTank gives the place at which a sentence gives to one tank what was measured or is kept for another that holds something else, or -1: “What is left in the jug after
// dosing Wash 1 … give it to Wash 2”, “Top up Wash 2 from the drum for Wash 1”.
func fromOtherTank(s *sentence.Sentence, words []sentence.Token) int {
	var from, to *sentence.Mention
	for i := range s.Mentions {
		m := &s.Mentions[i]
		if m.Thing == nil || m.Thing.Tank == nil {
			continue
		}
		switch before := s.Before(m); {
		case meantFor[before] && (before != "for" || hasAny(words[max(0, tokenOf(s, m)-3):max(0, tokenOf(s, m)-1)], drums)):
			from = m
		case before == "to" || before == "into" || before == "up" || before == "fill":
			to = m
		}
	}
	if from == nil || to == nil || from.Thing.Tank.Chemistry.Name == to.Thing.Tank.Chemistry.Name || s.Has(pieces) || s.Has(samples) || denied(s) && !s.Has(wastedWord) || illOf(s) {
		return -1
	}
	k := s.ClauseOf(to)
	if s.Clauses[k].Mood == sentence.Was || s.Clauses[k].Mood == sentence.MustNot || s.Clauses[k].Opener != "" || !s.ClauseHas(k, pouredWords) && !s.ClauseHas(k, filledWords) {
		return -1
	}
	return tokenOf(s, to)
}

// oneIntoOther gives the place at which drums, or what is in them, are poured one into the other without a word of what they hold, or -1: “When the two drums are nearly empty,
// pour the one into the other”.
func oneIntoOther(s *sentence.Sentence, words []sentence.Token) int {
	if !s.Has(drums) || s.Has(wetWords) || s.Has(samples) || denied(s) || illOf(s) || s.Question || s.TakenBack {
		return -1
	}
	for i := 1; i+2 < len(words); i++ {
		k := words[i].Clause
		if words[i].Text != "one" || s.Clauses[k].Mood != sentence.Do || s.Clauses[k].Opener != "" || !s.ClauseHas(k, poursOver) && !s.ClauseHas(k, addsTo) {
			continue
		}
		if next := wordAt(words, i+1); (next == "into" || next == "to") && (wordAt(words, i+2) == "other" || wordAt(words, i+3) == "other") {
			return i
		}
	}
	return -1
}

// makeOneOf finds two vessels, one of acid and one of alkali, that make one: “Two half-full drums, one of descaler and one of lye, make a full one”.
func (p *proof) makeOneOf(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	if !s.Has(drums) || s.Question || s.TakenBack || s.Block.Signal != "" || denied(s) || illOf(s) || s.Has(exceptions) {
		return nil
	}
	words := s.Tokens()
	sides := [3]bool{}
	for i := range words {
		sides[p.sideWord(s, words, i)+1] = true
		if sides[0] && sides[2] && makesOne[words[i].Text] && hasAny(words[i+1:min(len(words), i+6)], oneOrSame) && s.Clauses[words[i].Clause].Mood != sentence.Was {
			f := mixedInText.At(placeIn(a, s.Block, s.From+leading(s)), "The text brings acid and alkali together in one vessel.", "Keep them in two vessels, each with its label.")
			return &f
		}
	}
	return nil
}

// oneByOneInTank tells whether a sentence uses one thing for this and another for that, one after the other in one vessel.
func oneByOneInTank(s *sentence.Sentence) bool {
	text := strings.ToLower(s.Text())
	return strings.Contains(text, "one after the other in the same") || strings.Contains(text, "in the same tank one after the other")
}

// answersWith tells whether a sentence without a verb answers the question before it in its block with what it names: “White marks on the rim? Javel water on a sponge”.
func answersWith(one, s *sentence.Sentence) bool {
	if one == nil || !asks(one) || one.Block != s.Block {
		return false
	}
	asked := plainWords(one)
	return len(asked) > 0 && !askWords[asked[0]] && !hasWord(asked, noWords) && !s.Question && s.Clauses[0].Mood == sentence.Fragment && s.Clauses[0].Opener == "" && !s.Has(noWords) && !s.Has(stays)
}

var (
	sourceWords = sentence.Set("from with")
	meantFor    = sentence.Set("dosing filling topping for from of")
	wastedWord  = sentence.Set("wasted waste lost")
	makesOne    = sentence.Set("make makes fill fills")
	noneWords   = sentence.Set("none nothing neither nowhere")
	stays       = sentence.Set("stays stay kept keep left")
)
