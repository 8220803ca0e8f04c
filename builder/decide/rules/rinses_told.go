package rules

import (
	"slices"

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
		if len(a.Part.Rinse) == 2 && leave && (w == "rinsed" && i+1 < len(list) && list[i+1] == "once" || w == "rinse" && len(list) == 1 && k+1 < len(s.Clauses) && s.Clauses[k+1].Opener == "once" && len(s.Words(k+1)) < 3 || passesOn(list, i) || (w == "rinsed" || w == "rinse") && s.ClauseHas(k, mainsWord) && s.ClauseHas(k, aloneWords)) && !s.ClauseHas(k, noWords) {
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
		if (needsNone(list, i) && !(k+1 < len(s.Clauses) && onlyHow[s.Clauses[k+1].Opener]) || answeredNone(s, k)) && !has(thirdOnes) {
			return true
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

// needsNone tells whether the rinse at a place is said not to be needed or had: “They don't need the deionised rinse”, “Last rinse: none”.
func needsNone(list []string, i int) bool {
	for j := 0; j < i; j++ {
		if denyingNeed[list[j]] {
			return slices.ContainsFunc(list[j:i], func(w string) bool { return needsRinse[w] }) && !slices.Contains(list[j:i], "without") && !slices.ContainsFunc(list[i+1:], func(w string) bool { return onlyHow[w] })
		}
	}
	return false
}

// passesOn tells whether something goes to the dryer from a rinse that is not the last: “go from the first rinse to the dryer”.
func passesOn(list []string, i int) bool {
	if list[i] != "rinse" || i < 2 || i+3 >= len(list) || lastRinse[list[i-1]] {
		return false
	}
	from := list[i-2] == "from" || i > 2 && list[i-3] == "from"
	return from && (list[i+1] == "to" || list[i+1] == "into") && list[i+3] == "dryer"
}

// answeredNone tells whether a clause is a label that is answered with none: “Last rinse: none”.
func answeredNone(s *sentence.Sentence, k int) bool {
	if k+1 >= len(s.Clauses) || !labels(s, k+1) || len(s.Words(k)) > 3 {
		return false
	}
	answer := s.Words(k + 1)
	return len(answer) > 0 && len(answer) < 4 && (answer[0] == "none" || answer[0] == "no" || answer[0] == "nil" || answer[0] == "not")
}

// needsNoRinse tells whether a clause says that of a rinse.
func needsNoRinse(s *sentence.Sentence, k int) bool {
	list := s.Words(k)
	i := slices.IndexFunc(list, func(w string) bool { return w == "rinse" || w == "rinses" })
	return i >= 0 && needsNone(list, i)
}

var (
	denyingNeed  = sentence.Set("not don't doesn't needn't never cannot")
	needsRinse   = sentence.Set("need needs want wants require requires get gets see sees go goes")
	onlyHow      = sentence.Set("to before until till unless when if at for longer again twice") // behind a rinse that is not gone without
	thirdOnes    = sentence.Set("third another extra more longer hot long second-time")
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
