package asked

import (
	"strings"

	"tankside/builder/decide/admit"
	"tankside/builder/quantity"
	"tankside/calculators"
)

// Reading is one way to read a question: a conversion, a sum or a load.
type Reading struct {
	Calculator string // of a sum
	Inputs     []calculators.Written
	Like       string // the tank whose heater is taken, by its title

	Amount quantity.Value // of a conversion
	Unit   quantity.Unit

	Load   admit.Question // of a load
	Titles []string       // what its names are called
}

// Question is what was read: all ways to read it, and what somebody has to say so that one is left.
type Question struct {
	Readings []Reading
	Says     []string // phrases, filled
}

// longest is the most bytes of a question that is read.
const longest = 120

// Read reads a text. Nothing stands for words to look for. A sum and the heating that goes with it are two questions.
func (n *Names) Read(text string) []Question {
	text = strings.TrimRight(strings.TrimSpace(text), " ?=.!")
	if text == "" || len(text) > longest {
		return nil
	}
	if q, ok := n.conversion(text); ok {
		return []Question{q}
	}
	if list := n.sums(text); list != nil {
		return list
	}
	if q, ok := n.load(text); ok {
		return []Question{q}
	}
	return nil
}

// ask adds what has to be said, once.
func (q *Question) ask(text string) {
	for _, said := range q.Says {
		if said == text {
			return
		}
	}
	q.Says = append(q.Says, text)
}
