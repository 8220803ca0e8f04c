package rules

import (
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// praised looks for a bath of which a sentence thinks well, for a material that the decision keeps out of it: “Nothing speaks against Wash 1”, “The
// saponifier sorts them out”, “We swear by it”, “has never hurt zinc”. Whether it does is told by the words of praise and blame of its clause and by
// what denies them, whatever stands between; so it does not matter how the advice is put. Where two baths are named it may be a comparison.
func (p *proof) praised(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	if s.Has(notOfWork) || elsewhere(s) || comparesBaths(s) {
		return nil
	}
	for i := range s.Mentions {
		m := &s.Mentions[i]
		if m.Thing == nil || !m.Thing.Bath() || m.Stands {
			continue
		}
		k := saidOf(s, s.ClauseOf(m))
		if aspectOf(s, m) || inRelative(s, m) || !thinksWell(s, k) {
			continue
		}
		bath, work := p.ofMention(a, m), p.workOf(a, s, m)
		if len(work.materials) == 0 || len(bath.tanks) == 0 && len(bath.chemistries) != 1 || takesItself(a, s, m, k) {
			continue
		}
		if f := p.putInto(a, s, m, &bath, &work); f != nil {
			return f
		}
	}
	return nil
}

// thinksWell tells whether a clause praises what it speaks of, and nothing in the sentence takes that back.
func thinksWell(s *sentence.Sentence, k int) bool {
	return !s.TakenBack && !s.Question && !s.Has(ifs) && !s.Has(exceptions) && tellsNow(s, k) && !blamed(s, k) && valence(s, k) > 0
}

// tellsNow tells whether a clause stands for itself and tells of what is so, not of what was or would be; “has never hurt” and “was made for” are so.
func tellsNow(s *sentence.Sentence, k int) bool {
	c := &s.Clauses[k]
	if c.Opener != "" && c.Opener != "(" {
		return false
	}
	if s.ClauseHas(k, madeWord) {
		return true
	}
	return c.Mood != sentence.Ask && c.Mood != sentence.Example && (c.Mood != sentence.Was || s.ClauseHas(k, perfect)) && !s.ClauseHas(k, longAgo)
}

// blamed tells whether another clause of a sentence than the one at hand blames something: “It cleans well, but it cracks brass”.
func blamed(s *sentence.Sentence, k int) bool {
	for j := range s.Clauses {
		label := s.Clauses[j].Mood == sentence.Fragment && j+1 < len(s.Clauses) && labels(s, j+1) // “Stains on brass:” are what is to be cleaned
		if j != k && !label && s.Clauses[j].Opener != "if" && valence(s, j) < 0 && !ofOtherThan(s, j, k) {
			return true
		}
	}
	return false
}

// ofOtherThan tells whether a clause is about another bath than the one at hand: “Wash 1 fits, Wash 2 is too weak”.
func ofOtherThan(s *sentence.Sentence, j, k int) bool {
	bath := func(clause int) *sentence.Thing {
		for i := range s.Mentions {
			if m := &s.Mentions[i]; m.Thing.Bath() && !m.Stands && s.ClauseOf(m) == clause {
				return m.Thing
			}
		}
		return nil
	}
	return bath(j) != nil && bath(k) != nil && bath(j) != bath(k)
}

// comparesBaths tells whether a sentence names more than one bath.
func comparesBaths(s *sentence.Sentence) bool {
	var first *sentence.Thing
	for i := range s.Mentions {
		m := &s.Mentions[i]
		if !m.Thing.Bath() || m.Stands {
			continue
		}
		if first != nil && first != m.Thing {
			return true
		}
		first = m.Thing
	}
	return false
}

var (
	perfect  = sentence.Set("has have always")
	madeWord = sentence.Set("made born built")
	// notOfWork are words of what is not the work, for which a bath may well be good.
	notOfWork = sentence.Set("hands hand skin operator people drain floor lungs nose price cheap cheaper purse budget lid pump heater tank's trays basket baskets rack stove stoves oven ovens grill kitchen drains floors car cars kettle boots")
)
