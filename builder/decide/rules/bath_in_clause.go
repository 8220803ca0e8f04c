package rules

import (
	"slices"
	"strings"

	"tankside/builder/sentence"
)

// What a bath does in its clause: whether it is what is used, or only says which thing is meant, where a fault comes from, or what a smell is of.

// tokenOf is the place of a mention among the tokens of its sentence.
func tokenOf(s *sentence.Sentence, m *sentence.Mention) int {
	return slices.IndexFunc(s.Tokens(), func(w sentence.Token) bool { return w.From >= m.From })
}

// plurals stand for several things, and so for no one bath.
var plurals = sentence.Set("them they their theirs")

// inRelative tells whether a bath only says which thing is spoken of: “brass that fell into Wash 1”.
func inRelative(s *sentence.Sentence, m *sentence.Mention) bool {
	words, at := s.Tokens(), tokenOf(s, m)
	return into(s, m) && slices.ContainsFunc(words[max(0, at-4):max(0, at)], func(w sentence.Token) bool { return relatives[w.Text] })
}

// aspectOf tells whether not a bath but something about it is spoken of: “the smell of citric acid is harmless”.
func aspectOf(s *sentence.Sentence, m *sentence.Mention) bool {
	words, at := s.Tokens(), tokenOf(s, m)
	return s.Before(m) == "of" && slices.ContainsFunc(words[max(0, at-3):max(0, at)], func(w sentence.Token) bool { return aspects[w.Text] })
}

var aspects = sentence.Set("smell odour colour color look price cost label drum bottle lid page sheet vapour fume fumes foam mist surface taste waste spill splash level temperature pump heater name note word use-by smells fan drain hose")

// comesOff tells whether a verb with “off” stands right before “in” and a bath: “melts off in Wash 2”, “floats off in it”.
func comesOff(s *sentence.Sentence, m *sentence.Mention) bool {
	words, at := s.Tokens(), tokenOf(s, m)
	return at > 3 && textAt(words, at-1) == "in" && textAt(words, at-2) == "off" && strings.HasSuffix(textAt(words, at-3), "s")
}

var getsOff, offWord = sentence.Set("gets takes brings pulls floats washes"), sentence.Set("off")

// stemsFrom tells whether a clause says what something comes from: “The haze comes from a minute in it”.
func stemsFrom(s *sentence.Sentence, k int) bool {
	list := s.Words(k)
	for i := 1; i < len(list); i++ {
		if list[i] == "from" && (list[i-1] == "comes" || list[i-1] == "come" || list[i-1] == "stems") {
			return true
		}
	}
	return false
}

// spellIn tells whether words without a verb give something a while in a bath: “a minute in Wash 1”, “a quick swim in caustic”.
func spellIn(s *sentence.Sentence, m *sentence.Mention, k int) bool {
	if s.Clauses[k].Mood != sentence.Fragment || valence(s, k) < 0 {
		return false
	}
	words := s.Tokens()
	for i, w := range words {
		if w.Clause == k && w.From < m.From && m.From-w.From < 16 && spells[w.Text] && (textAt(words, i-1) == "a" || short[textAt(words, i-1)]) {
			return true
		}
	}
	return false
}

var (
	spells = sentence.Set("night hour day while seconds minute minutes moment swim dip soak bath dunk spell round turn wash")
	short  = sentence.Set("quick short long brief good little few couple")
)
