package rules

import (
	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// fewerRinses tells whether a clause of a part's page says that one rinse is enough, or leaves one out: a word for one alone beside “rinse”, or a verb of
// leaving out with the rinse as what is left out. “No last rinse” and “without a rinse” leave it out as well.
func fewerRinses(a *manual.Article, s *sentence.Sentence, k int) bool {
	list := s.Words(k)
	c := &s.Clauses[k]
	leave := c.Mood == sentence.Do || c.Mood == sentence.Is || c.Mood == sentence.Able || c.Mood == sentence.Fragment
	for i, w := range list {
		if len(a.Part.Rinse) == 2 && leave && (w == "rinsed" && i+1 < len(list) && list[i+1] == "once" || (w == "rinsed" || w == "rinse") && s.ClauseHas(k, mainsWord) && s.ClauseHas(k, aloneWords)) && !s.ClauseHas(k, noWords) {
			return true
		}
		if len(a.Part.Rinse) == 2 && leave && w == "deionised" && i+1 < len(list) && list[i+1] == "water" && i > 0 && (leftOut[list[i-1]] || i > 1 && leftOut[list[i-2]]) && !s.ClauseHas(k, noWords) {
			return true
		}
		if w != "rinse" && w != "rinses" && w != "rinsing" {
			continue
		}
		before := list[max(0, i-4):i]
		has := func(words map[string]bool) bool {
			for _, b := range before {
				if words[b] {
					return true
				}
			}
			return false
		}
		one := has(oneAlone) && w == "rinse" && !has(eitherOnes)
		skipped := leave && (s.ClauseHas(k, leftOut) || s.ClauseHas(k, leavesWord) && s.ClauseHas(k, outWord)) && !s.ClauseHas(k, noWords)
		without := has(withoutWords) && i > 0 && (c.Mood == sentence.MustNot || c.Mood == sentence.Fragment || leave) && !s.ClauseHas(k, furtherWords)
		if (has(lastRinse) || i+1 < len(list) && lastRinse[list[max(0, i-1)]]) && len(a.Part.Rinse) < 2 {
			continue // its process has none
		}
		switch {
		case one && len(a.Part.Rinse) == 2 && leave && !s.ClauseHas(k, noWords) && (s.ClauseHas(k, enoughWords) || s.ClauseHas(k, getsTime) || c.Verb == "give" || has(onlyWord)):
			return true
		case skipped, without && !s.ClauseHas(k, mustWords):
			return true
		}
	}
	return false
}

var (
	oneAlone     = sentence.Set("one single only just")
	lastRinse    = sentence.Set("deionised last second final pure")
	mainsWord    = sentence.Set("mains")
	aloneWords   = sentence.Set("only alone just")
	leavesWord   = sentence.Set("left leave leaving")
	outWord      = sentence.Set("out")
	eitherOnes   = sentence.Set("either after before each per")
	leftOut      = sentence.Set("luxury needless optional pointless dispensable skip skips skipped skipping omit omits omitted spare spared drop dropped forgo saved save saves superfluous unnecessary")
	withoutWords = sentence.Set("without no")
	furtherWords = sentence.Set("longer more detergent trace leaves goes nothing part leave drop")
	enoughWords  = sentence.Set("enough do suffices suffice sufficient only all alone plenty ok fine")
	mustWords    = sentence.Set("never not nobody")
)

// startsNo tells whether a clause begins with “no”, as “No last rinse for this part” does.
func startsNo(s *sentence.Sentence, k int) bool {
	list := s.Words(k)
	return len(list) > 1 && list[0] == "no"
}
