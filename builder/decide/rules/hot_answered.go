package rules

import (
	"fmt"
	"strings"

	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sentence"
)

// hotAnswered looks for a number without a unit with which the next sentence answers how hot a bath is run, and gives its place: “How hot do you run Wash 1?
// Seventy-nine.” Temperatures of baths are said in °C here (the shop file's units).
func (p *proof) hotAnswered(a *manual.Article, one, two *sentence.Sentence) (*excess, int) {
	if !one.Question || one.Block != two.Block || two.Question || two.TakenBack || !asksHowHot(one) || one.Has(longAgo) || one.Has(couldWords) || two.Has(noWords) || two.Has(contrasts) || illOf(two) || len(two.AllWords()) > 9 || p.Shop.System() != quantity.SI {
		return nil, 0
	}
	of := p.bathTold(a, one)
	if len(of.chemistries) != 1 || onlyTank(one) == nil && !one.Has(soakedIn) && !one.Has(theySets) {
		return nil, 0
	}
	words := two.Tokens()
	i := 0
	for i < len(words) && (words[i].Text == "a" || words[i].Text == ":" || words[i].Text == "*" || words[i].Text == "at" || words[i].Text == "to" || words[i].Text == "about") {
		i++
	}
	if i >= len(words) || words[i].Amount || unitBehind[textAt(words, i+1)] {
		return nil, 0
	}
	n := tensAndOnes(words[i].Text)
	if n < 30 || n > 110 {
		return nil, 0
	}
	return p.beyondBath(&sentence.Quantity{Text: fmt.Sprintf("%g °C", n)}, &of, n), words[i].From
}

// asksHowHot tells whether a question asks for a temperature.
func asksHowHot(s *sentence.Sentence) bool {
	words := s.Tokens()
	for i, w := range words {
		switch next := textAt(words, i+1); w.Text {
		case "how":
			if next == "hot" || next == "warm" {
				return true
			}
		case "what", "which":
			if next == "temperature" || next == "heat" {
				return true
			}
		}
	}
	return false
}

// tensAndOnes is a whole number in figures or in words such as “eighty” and “seventy-nine”, or 0.
func tensAndOnes(w string) float64 {
	tens, ones, two := strings.Cut(w, "-")
	if !two {
		return numberOf(w)
	}
	t, o := counts[tens], counts[ones]
	if t < 20 || o == 0 || o > 9 {
		return 0
	}
	return t + o
}
