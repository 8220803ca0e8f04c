package rules

import "tankside/builder/sentence"

// pouredOn tells whether a sentence pours “it” into a bath of the other side than what it, or the sentence before, has named: “The descaler has some life
// left. Tip it into the new alkaline bath”, “Last week's descaler still has strength; add it to Wash 1”. The sentence before may be nil. Own is the side of
// the page's bath, 0 where it has none.
func (p *proof) pouredOn(one, s *sentence.Sentence, own int) bool {
	if s.Question || s.TakenBack || denied(s) || illOf(s) || s.Has(keptApart) || s.Has(ofTest) || s.Has(exceptions) {
		return false
	}
	words := s.Tokens()
	pours := false
	for i := range words {
		pours = pours || poursItTo(s, words, i)
	}
	if !pours {
		return false
	}
	before := 0
	if one != nil && one.Block == s.Block && !one.TakenBack {
		before = p.sideFrom(one, 0, len(one.Tokens()))
	}
	for i := range words {
		switch {
		case before == 0:
			if !tankWords[wordAt(words, i+1)] { // “acid tank” is where something goes
				before = p.sideWord(s, words, i)
			}
		case poursItTo(s, words, i):
			now := p.sideFrom(s, i+3, min(i+7, len(words)))
			if now == -before || now == 0 && own == -before && (wordAt(words, i+3) == "here" || nextOf(words[:min(len(words), i+6)], i+2, tankWords)) {
				return true
			}
		}
	}
	return false
}

// sideFrom gives the first side, −1 of acid and 1 of alkali, that is named between two places of a sentence; 0 where none is.
func (p *proof) sideFrom(s *sentence.Sentence, from, to int) int {
	words := s.Tokens()
	for i := from; i < to; i++ {
		if side := p.sideWord(s, words, i); side != 0 {
			return side
		}
	}
	return 0
}

// poursItTo tells whether a command to pour it into or to something begins at a place.
func poursItTo(s *sentence.Sentence, words []sentence.Token, i int) bool {
	if !poursIt[words[i].Text] || s.Clauses[words[i].Clause].Mood != sentence.Do {
		return false
	}
	it, to := wordAt(words, i+1), wordAt(words, i+2)
	return (it == "it" || it == "them") && (to == "into" || to == "to" || to == "in")
}

var poursIt = sentence.Set("pour tip put empty add stir use pump")
