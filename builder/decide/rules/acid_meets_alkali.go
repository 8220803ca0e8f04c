package rules

import (
	"slices"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/sentence"
	"tankside/calculators/safety"
)

// acidMeetsAlkali finds a sentence that brings a bath of acid into one of alkali, or the reverse: “Pour the spent acid into the alkaline bath”, “From the
// acid the basket goes straight into the caustic tank”, “Samples of both go into the same bottle”, “Use the spent caustic to neutralise the spent acid”.
func (p *proof) acidMeetsAlkali(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	if s.Has(samples) && !s.Has(sameWord) && !s.Has(leftOver) || s.Has(apart) || s.Has(ownVessels) || s.Has(anotherOne) || s.TakenBack || illOf(s) {
		return nil
	}
	if !s.Has(poursOver) && !s.Has(straight) && !(s.Has(drums) && (s.Has(sameWord) && s.Has(goWords) || s.Has(neutralise) && s.Has(spentWord))) {
		return nil
	}
	words := s.Tokens()
	side := make([]int, len(words))
	for i, w := range words {
		side[i] = p.sideOf(s, w)
	}
	for k := range s.Clauses {
		c := &s.Clauses[k]
		if c.Opener != "" || c.Mood == sentence.MustNot || c.Mood == sentence.Was || c.Mood == sentence.Ask || c.Mood == sentence.Example || denies(s, k) || s.ClauseHas(k, longAgo) {
			continue
		}
		at := slices.IndexFunc(words, func(w sentence.Token) bool { return w.Clause == k })
		first, crossing, second := 0, false, 0
		for i := max(at, 0); i < len(words) && words[i].Clause == k; i++ {
			switch {
			case side[i] != 0 && first == 0 && !crossing:
				first = side[i]
			case first != 0 && words[i].Text == "into":
				crossing = true
			case side[i] != 0 && side[i] == -first:
				second = side[i]
			}
		}
		if second == 0 {
			continue
		}
		pours := crossing && (s.ClauseHas(k, poursOver) || s.ClauseHas(k, straight))
		same := s.ClauseHas(k, sameWord) && s.ClauseHas(k, drums) && s.ClauseHas(k, goWords)
		kills := s.ClauseHas(k, neutralise) && s.ClauseHas(k, spentWord) && s.ClauseHas(k, drums)
		if pours || same || kills {
			f := mixedInText.At(placeIn(a, s.Block, s.From+leading(s)), "The text brings acid and alkali together.", "Keep them apart, each in its own vessel, with a rinse between the baths.")
			return &f
		}
	}
	return nil
}

// sideOf gives −1 for a word of acid, 1 for one of alkali or the name of an alkaline tank, 0 otherwise.
func (p *proof) sideOf(s *sentence.Sentence, w sentence.Token) int {
	for i := range s.Mentions {
		if m := &s.Mentions[i]; m.From == w.From && m.Thing != nil {
			of := p.ofThing(m.Thing)
			switch {
			case len(of.chemistries) != 1:
			case isAcid(of.chemistries[0]):
				return -1
			case of.chemistries[0].Chemistry.PH.Set && of.chemistries[0].Chemistry.PH.Low > safety.AlkalineAbove:
				return 1
			}
		}
	}
	switch {
	case acids[w.Text], w.Text == "pickle" && pickleBefore(s, w):
		return -1
	case alkalis[w.Text]:
		return 1
	}
	return 0
}

// pickleBefore tells whether “pickle” is the acid and not what is done with it: “the old pickle”.
func pickleBefore(s *sentence.Sentence, w sentence.Token) bool {
	words := s.Tokens()
	i := slices.IndexFunc(words, func(t sentence.Token) bool { return t.From == w.From })
	return i > 0 && (words[i-1].Text == "the" || words[i-1].Text == "this" || oldOnes[words[i-1].Text])
}

var (
	leftOver   = sentence.Set("left leftover rest remainder")
	sameWord   = sentence.Set("same one")
	anotherOne = sentence.Set("another others")
	straight   = sentence.Set("straight directly")
	poursOver  = sentence.Set("pour poured tip tipped empty emptied dump dumped pump pumped")
	goWords    = sentence.Set("go goes put poured come collected empty pour tip")
	neutralise = sentence.Set("neutralise neutralize neutralises neutralizes")
	spentWord  = sentence.Set("spent old used")
)
