package rules

import (
	"slices"

	"tankside/builder/sentence"
)

// against tells whether a sentence does not say that what its clause k says is to be done, is usual or does good: it asks, forbids, denies,
// tells of another time, or of the harm that follows. A negation in a clause that says only where, when, why or what for is none of the main one:
// “Where the bar does not reach, hold the strip”.
func against(s *sentence.Sentence, k int) bool {
	if s.Question || s.TakenBack {
		return true
	}
	for j := range s.Clauses {
		c := &s.Clauses[j]
		if c.Mood == sentence.Ask || c.Mood == sentence.Example {
			return true
		}
		if j == k || c.Opener == "" || c.Opener == "(" {
			if (c.Mood == sentence.MustNot || denies(s, j)) && !notForLong(s, j) {
				return true
			}
		}
		if c.Opener == "which" && s.ClauseHas(j, noWords) && s.ClauseHas(j, useWords) {
			return true // “…, for which reason it shall not be used”
		}
		if j == k && s.ClauseHas(j, longAgo) {
			return true
		}
	}
	return illOf(s)
}

// denies tells whether a clause has a word of negation, other than that of “no harm”.
func denies(s *sentence.Sentence, k int) bool {
	list := s.Words(k)
	for i, w := range list {
		if w == "no" && i+1 < len(list) && (list[i+1] == "longer" || list[i+1] == "more") && i+2 >= len(list) {
			continue // “for a second, no longer”
		}
		if w == "no" && i+1 < len(list) && noMatter[list[i+1]] {
			continue
		}
		if w == "no" && i > 1 && (list[i-1] == "with" || relatives[list[i-2]]) {
			continue // “Boards that carry no coil may go in”
		}
		if w == "without" && i > 3 && i+2 >= len(list) && manners[list[len(list)-1]] {
			continue // “washed in it without sound”
		}
		if w == "without" && i > 0 && i < 4 && i+2 < len(list) && leaves[list[i+2]] && list[i+1] != "their" {
			continue // “Boards without relays may be washed”
		}
		if noWords[w] && !((w == "no" || w == "without") && i+1 < len(list) && unharming[list[i+1]]) {
			return true
		}
	}
	return false
}

// notForLong tells whether a clause only says that something may not last: “but not for long”.
func notForLong(s *sentence.Sentence, k int) bool {
	words := s.Words(k)
	i := slices.Index(words, "not")
	if i >= 0 && len(words) <= i+6 && (slices.Contains(words[i:], "round") || slices.Contains(words[i:], "around") || slices.Contains(words[i:], "reverse")) {
		return true // “not the other way round”
	}
	return i >= 0 && i+1 < len(words) && len(words) <= i+4 && (words[i+1] == "for" || words[i+1] == "long" || words[i+1] == "more" || words[i+1] == "longer")
}

// illOf tells whether a sentence speaks of harm; what is killed may be slime.
func illOf(s *sentence.Sentence) bool {
	if !s.Has(ills) && !s.Has(killing) {
		return false
	}
	words := s.Tokens()
	for i, w := range words {
		switch {
		case killing[w.Text]:
			if !slices.ContainsFunc(words[i:min(i+5, len(words))], func(t sentence.Token) bool { return germs[t.Text] }) {
				return true
			}
		case w.Text == "splashes" && i+1 < len(words) && (words[i+1].Text == "of" || words[i+1].Text == "on"):
		case w.Text == "instead" && textAt(words, i+1) == "of" && i+2 < len(words) && (words[i+2].Amount || numberOf(words[i+2].Text) > 0): // “three minutes instead of ten”
		case w.Text == "dead" && i+1 < len(words) && deadPlaces[words[i+1].Text]:
		case noIll[w.Text] && i > 1 && words[i-1].Text == "any" && words[i-2].Text == "without", noIll[w.Text] && i > 0 && words[i-1].Text == "without":
		case unharming[w.Text] && i > 0 && (words[i-1].Text == "no" || words[i-1].Text == "without"):
		case ills[w.Text]:
			return true
		}
	}
	return false
}

var (
	manners   = sentence.Set("sound ultrasonics heat pressure brush brushing rubbing scrubbing hurry lid basket stirring")
	relatives = sentence.Set("that which who")
	useWords  = sentence.Set("used use go come put allowed permitted")
	longAgo   = sentence.Set("was were had did used-to yesterday formerly once-upon ago predecessor met told claimed believed thought heard")
	// deadPlaces are where the sound does not reach.
	deadPlaces = sentence.Set("corner corners spot spots zone zones place places transducer transducers")
	killing    = sentence.Set("kill kills killed")
	noIll      = sentence.Set("harm damage danger risk")
	germs      = sentence.Set("slime germs bacteria mould algae smell smells biofilm everything weeds film alkali acid caustic foam")
	ills       = sentence.Set(`harm harms hurt hurts wrong mistake dangerous danger risk risky spits spit erupt erupts boils splashes bursts explode explodes forbidden prohibited bad worse worst unsafe
		ruin ruins scrap dead warning would wouldn't error fatal deadly poisonous gas gases fumes frees releases liberates evolves chlorine-gas blinds maims injures injury injuries rumour rumor myth nonsense illegal jump jumps spurt spurts spatter spatters evolution
		spoils spoil upsets falsifies refused refuse avoid avoids forbids rather instead`)
)
