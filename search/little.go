package search

import (
	"slices"
	"strings"
)

// Little words, those that a language stops and single letters, carry no meaning
// among others. Where there is hardly another they carry it all: "may it go in",
// "A to Z", "what is it". So names and questions with at most one other word
// are read with them. They are found in names alone.
const (
	littleMark  = "'" // begins their terms, which no other word does
	littleAlone = 1   // other words beside them, at most
	weighLittle = 0.3 // against another word
)

func isLittle(term string) bool { return strings.HasPrefix(term, littleMark) }

// name appends the tokens of a name or a question, little words among them where there is hardly another.
func (r *reader) name(text string, into []token) []token {
	before := len(into)
	into = r.read(text, into)
	others := 0
	for _, t := range into[before:] {
		if !t.extra {
			others++
		}
	}
	if others > littleAlone {
		return into
	}
	return r.withLittle(text, into[:before])
}

// withLittle appends the tokens of a text, all little words among them.
func (r *reader) withLittle(text string, into []token) []token {
	s := scanner{reader: r, text: text, tokens: into, little: true}
	s.scan()
	return s.tokens
}

// meant takes the little words out of a question again where nothing is known of the other one: they would find what has nothing to do with it.
func (q *query) meant() {
	other := slices.IndexFunc(q.words, func(w word) bool { return !isLittle(w.term) })
	if other < 0 || q.words[other].known || !slices.ContainsFunc(q.words, func(w word) bool { return isLittle(w.term) }) {
		return
	}
	one := q.words[other]
	for _, v := range q.variants {
		if v.first <= other && other <= v.last && v.terms[0] != one.term {
			return
		}
	}
	q.words = []word{one}
	q.variants = []variant{{terms: []string{one.term}, weight: 1}}
}
