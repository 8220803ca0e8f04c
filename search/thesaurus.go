package search

import (
	"cmp"
	"context"
	"slices"
	"strings"

	"github.com/blevesearch/bleve/v2/analysis"

	"tankside/search/segment"
)

// The thesauri of bleve's that hold the synonyms. What people say leads to the
// terms in the first, a term to what people say in the second; two expressions
// for one term find each other through it, so that a term with many of them
// takes no room for every pair. Plain English words without a term between
// them lead to each other in the second.
const (
	termsOf = "terms-of"
	saidFor = "said-for"
)

var thesauri = [...]string{termsOf, saidFor}

// expressions is the analyzer of the thesauri: it makes one token of a whole
// expression, its terms with a space between them. With an analyzer that made
// several bleve would drop the expression.
type expressions struct{ *reader }

func (e expressions) Analyze(text []byte) analysis.TokenStream {
	terms := e.terms(string(text))
	if len(terms) == 0 {
		return nil
	}
	return analysis.TokenStream{{Term: []byte(strings.Join(terms, " ")), End: len(text), Position: 1, Type: analysis.Shingle}}
}

// terms gives a text's terms, one for each word.
func (r *reader) terms(text string) (terms []string) {
	for _, t := range r.brief(text) {
		if !t.extra {
			terms = append(terms, t.term)
		}
	}
	return terms
}

// thesaurus builds bleve's segment of the synonyms and notes how long an
// expression can be.
func (t *table) thesaurus(synonyms []Synonym) ([]byte, error) {
	own := expressions{newReader(languageOf(t.tag))}
	var terms, said []segment.Definition
	for _, s := range arrangeSynonyms(synonyms) {
		for _, text := range append(s.Words, s.Term) {
			t.longest = max(t.longest, len(own.terms(text)))
		}
		if len(own.terms(s.Term)) == 0 {
			said = append(said, segment.Definition{Synonyms: s.Words})
			continue
		}
		terms = append(terms, segment.Definition{Input: s.Words, Synonyms: []string{s.Term}})
		said = append(said, segment.Definition{Input: []string{s.Term}, Synonyms: s.Words})
	}
	return segment.BuildThesaurus(
		segment.Thesaurus{Name: termsOf, Analyzer: own, Definitions: terms},
		segment.Thesaurus{Name: saidFor, Analyzer: own, Definitions: said},
	)
}

// arrangeSynonyms tidies the synonyms and puts them and their words in order.
func arrangeSynonyms(synonyms []Synonym) (all []Synonym) {
	for _, s := range synonyms {
		one := Synonym{Term: tidy(s.Term)}
		for _, word := range s.Words {
			if word = tidy(word); word != "" && word != one.Term {
				one.Words = append(one.Words, word)
			}
		}
		slices.Sort(one.Words)
		one.Words = slices.Compact(one.Words)
		if len(one.Words) > 0 {
			all = append(all, one)
		}
	}
	slices.SortFunc(all, func(a, b Synonym) int {
		return cmp.Or(strings.Compare(a.Term, b.Term), slices.Compare(a.Words, b.Words))
	})
	return all
}

// expand adds what the expressions of the question may stand for, for each word
// that an expression begins with.
func (f *Finder) expand(ctx context.Context, q *query) error {
	terms := make([]string, len(q.words))
	for i, w := range q.words {
		terms[i] = w.term
	}
	for i := range terms {
		added := 0
		for last := min(i+f.longest, len(terms)) - 1; last >= i; last-- {
			others, err := f.mayStandFor(ctx, strings.Join(terms[i:last+1], " "))
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
func (f *Finder) mayStandFor(ctx context.Context, own string) (all []synonym, err error) {
	seen := map[string]bool{own: true}
	add := func(list []string, weight float64) {
		for _, expression := range list {
			if !seen[expression] {
				seen[expression] = true
				all = append(all, synonym{expression, weight})
			}
		}
	}
	terms, err := f.thesaurus.Synonyms(ctx, termsOf, own)
	if err != nil {
		return nil, err
	}
	add(terms, weighTerm)
	for _, term := range append([]string{own}, terms...) {
		said, err := f.thesaurus.Synonyms(ctx, saidFor, term)
		if err != nil {
			return nil, err
		}
		add(said, weighEveryday)
	}
	return all, nil
}
