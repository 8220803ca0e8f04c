package rules

import (
	"slices"
	"strings"

	"tankside/builder/sentence"
)

// saidOnce gives a sentence in which each amount stands once: where one is repeated in another unit, as in “0.56 L (19 US fl oz)” or “560 mL, i.e.
// 0.56 L”, the second is taken out and its text is blanks. A sum reckons with amounts; told twice, one would be taken for a second of its kind.
// Whether the two are the same is asked by unequal-units: those that are not stay as they are.
func saidOnce(s *sentence.Sentence) *sentence.Sentence {
	var kept []sentence.Quantity
	text := []byte(s.Block.Text)
	one := -1
	for i := range s.Quantities {
		q := &s.Quantities[i]
		if one >= 0 && i > 0 && repeats(s, &s.Quantities[i-1], q) {
			blankOut(text, s.Quantities[i-1].To, q.To)
			kept[one].Near = firstWord(string(text[q.To:]))
			continue
		}
		kept = append(kept, *q)
		one = len(kept) - 1
	}
	if len(kept) == len(s.Quantities) {
		return s
	}
	once, block := *s, *s.Block
	block.Text = string(text)
	once.Block, once.Quantities = &block, kept
	return &once
}

// repeats tells whether an amount is the one before it in another unit.
func repeats(s *sentence.Sentence, one, two *sentence.Quantity) bool {
	if one.Unit == two.Unit || one.To > two.From || !alike(one.Kind, two.Kind) || one.Span != two.Span || !equal(one, two) {
		return false
	}
	return sameAmount(s, one, two) || !slices.ContainsFunc(words(s, one.To, two.From), func(w string) bool {
		w = strings.Trim(w, "(,:;[")
		return w != "" && !repeatWords[w]
	})
}

// repeatWords stand between an amount and the same in another unit.
var repeatWords = sentence.Set("or about i.e. that is are = ≈ / makes which equals roughly")

// blankOut puts blanks in the place of what stands from one place to another, and of a bracket that ends there.
func blankOut(text []byte, from, to int) {
	for i := from; i < to; i++ {
		text[i] = ' '
	}
	if to < len(text) && (text[to] == ')' || text[to] == ']') {
		text[to] = ' '
	}
}
