package search

import (
	"maps"
	"slices"
	"strings"

	"tankside/search/segment"
)

// The synonyms are documents of a segment of their own: each expression that another may stand for is one, and its fields hold the others as if
// they were words of it. What people say leads to the terms in the first field, a term to what people say in the second; two expressions for one
// term find each other through it, so that a term with many of them takes no room for every pair. Plain English words without a term between
// them lead to each other in the second.
const (
	termsOf = iota
	saidFor
)

var thesauri = [...]string{"terms-of", "said-for"}

// expression makes one term of an expression of several words: those of the words, with a space between them.
func (r *reader) expression(text string) string { return strings.Join(r.terms(text), " ") }

// terms gives a text's terms, one for each word.
func (r *reader) terms(text string) (terms []string) {
	for _, t := range r.brief(text) {
		if !t.extra {
			terms = append(terms, t.term)
		}
	}
	return terms
}

// leading are the expressions that lead to one, in each thesaurus.
type leading [len(thesauri)]map[string]bool

// thesaurus builds the segment of the synonyms and notes the expressions in it, in order, and how long one can be.
func (t *table) thesaurus(synonyms []Synonym) ([]byte, error) {
	own := newReader(languageOf(t.tag))
	to := map[string]*leading{}
	lead := func(thesaurus int, from, target string) {
		if from == "" || target == "" || from == target {
			return
		}
		if to[target] == nil {
			to[target] = &leading{termsOf: {}, saidFor: {}}
		}
		to[target][thesaurus][from] = true
		t.longest = max(t.longest, 1+strings.Count(from, " "))
	}
	for _, s := range synonyms {
		term := own.expression(s.Term)
		for i, text := range s.Words {
			word := own.expression(text)
			lead(termsOf, word, term)
			lead(saidFor, term, word)
			if term != "" {
				continue
			}
			for _, other := range s.Words[:i] {
				lead(saidFor, word, own.expression(other))
				lead(saidFor, own.expression(other), word)
			}
		}
	}
	t.expressions = slices.Sorted(maps.Keys(to))
	return segment.Build(len(t.expressions), func(i int) (fields []segment.Field) {
		for n, from := range to[t.expressions[i]] {
			if len(from) > 0 {
				fields = append(fields, segment.Field{Name: thesauri[n], Length: len(from), Distinct: len(from), Terms: once(from)})
			}
		}
		return fields
	})
}

// once gives each expression as a term that stands there once.
func once(all map[string]bool) func(yield func(string, int) bool) {
	return func(yield func(string, int) bool) {
		for expression := range all {
			if !yield(expression, 1) {
				return
			}
		}
	}
}

// expand adds what the expressions of the question may stand for, for each word
// that an expression begins with.
func (f *Finder) expand(q *query, w *work) error {
	terms := make([]string, len(q.words))
	for i, w := range q.words {
		terms[i] = w.term
	}
	for i := range terms {
		added := 0
		for last := min(i+f.longest, len(terms)) - 1; last >= i; last-- {
			others, err := f.mayStandFor(strings.Join(terms[i:last+1], " "), w)
			if err != nil {
				return err
			}
			for _, other := range others[:min(len(others), mostSynonyms-added)] {
				q.span(other.weight, i, last, strings.Split(other.expression, " "))
				added++
			}
		}
	}
	return nil
}

// synonym is what an expression may stand for, and with which weight.
type synonym struct {
	expression string
	weight     float64
}

// mayStandFor looks an expression up in the thesauri: first its terms, then what
// else people say for it or for these, each in order.
func (f *Finder) mayStandFor(own string, w *work) (all []synonym, err error) {
	seen := map[string]bool{own: true}
	add := func(list []string, weight float64) {
		for _, expression := range list {
			if !seen[expression] {
				seen[expression] = true
				all = append(all, synonym{expression, weight})
			}
		}
	}
	terms, err := f.ledTo(termsOf, own, w)
	if err != nil {
		return nil, err
	}
	add(terms, weighTerm)
	for _, term := range append([]string{own}, terms...) {
		said, err := f.ledTo(saidFor, term, w)
		if err != nil {
			return nil, err
		}
		add(said, weighEveryday)
	}
	return all, nil
}

// ledTo gives the expressions that one leads to, in order.
func (f *Finder) ledTo(thesaurus int, from string, w *work) (all []string, err error) {
	if _, err := w.synonyms.Find(thesauri[thesaurus], from); err != nil {
		return nil, err
	}
	for {
		met, err := w.synonyms.Next(w.met.Reset())
		if err != nil || met == nil {
			return all, err
		}
		all = append(all, f.expressions[met.ID.Value()])
	}
}
