package search

import (
	"context"
	"math"

	"github.com/blevesearch/bleve/v2/search"
	"github.com/blevesearch/bleve/v2/search/scorer"
	index "github.com/blevesearch/bleve_index_api"

	"tankside/search/segment"
)

// fieldWeights say how much a word counts in each field.
var fieldWeights = [...]float64{
	fieldTitle:    1.9,
	fieldAlso:     2.8,
	fieldHeading:  1.5,
	fieldQuestion: 1.1,
	fieldText:     0.75,
}

// ofArticle tells the fields that count for all sections of an article.
func ofArticle(field int) bool {
	return field == fieldTitle || field == fieldAlso
}

// work is the scratch memory of one question, kept for the next.
type work struct {
	*reader
	texts, synonyms    *segment.Reader
	sections, articles board
	match              *search.SearchContext
	met                index.TermFieldDoc
	found              []found
	names              [][][]string           // see namesOf
	kept               map[string][2][]scored // see weighTerm
	keeps              int                    // scores that are kept
}

// board holds what each word of the question scores in each place, a place
// being a section or an article, and the sums for the variant being weighed.
type board struct {
	words   [][]float64
	sum     []float64
	met     []int // terms of the variant met so far
	term    []float64
	touched []int // places where the term was met
	first   []int // places where the first term of the variant was met
}

func (b *board) reset(words, places int) {
	for len(b.words) < words {
		b.words = append(b.words, make([]float64, places))
	}
	for i := range words {
		clear(b.words[i])
	}
	if b.sum == nil {
		b.sum, b.met, b.term = make([]float64, places), make([]int, places), make([]float64, places)
	}
}

func (b *board) score(place int, score float64) {
	if b.term[place] == 0 {
		b.touched = append(b.touched, place)
	}
	b.term[place] += score
}

// endTerm takes the scores of term number n of the variant into the sums.
func (b *board) endTerm(n int) {
	for _, place := range b.touched {
		if b.met[place] == n {
			b.met[place]++
			b.sum[place] += b.term[place]
		}
		b.term[place] = 0
	}
}

// weigh scores every variant of the question in every place.
func (f *Finder) weigh(ctx context.Context, q query, w *work) error {
	w.sections.reset(len(q.words), len(f.sections))
	w.articles.reset(len(q.words), len(f.articles))
	w.match = &search.SearchContext{DocumentMatchPool: search.NewDocumentMatchPool(2, 0)}
	for _, v := range q.variants {
		if err := ctx.Err(); err != nil {
			return err
		}
		if err := f.weighOne(v, w); err != nil {
			return err
		}
	}
	return nil
}

func (f *Finder) weighOne(v variant, w *work) error {
	boards := w.boards()
	for n, term := range v.terms {
		if err := f.weighTerm(term, w); err != nil {
			return err
		}
		for _, b := range boards {
			b.endTerm(n)
			if n == 0 {
				b.first, b.touched = b.touched, b.first
			}
			b.touched = b.touched[:0]
		}
	}
	for _, b := range boards {
		for _, place := range b.first {
			if b.met[place] == len(v.terms) {
				score := v.weight * b.sum[place] / float64(len(v.terms))
				for word := v.first; word <= v.last; word++ {
					if b.words[word][place] < score { // the built-in max is slow in WebAssembly
						b.words[word][place] = score
					}
				}
			}
			b.met[place], b.sum[place] = 0, 0
		}
	}
	return nil
}

// keptScores bounds how many scores of terms are kept for the next questions: while a word is typed, those of the words before it are the same.
const keptScores = 1 << 16

// scored is what a term scores in a place.
type scored struct {
	place int
	score float64
}

func (w *work) boards() [2]*board { return [...]*board{&w.sections, &w.articles} }

// weighTerm puts on the boards what a term scores in all fields.
func (f *Finder) weighTerm(term string, w *work) error {
	if kept, is := w.kept[term]; is {
		for i, b := range w.boards() {
			for _, s := range kept[i] {
				b.score(s.place, s.score)
			}
		}
		return nil
	}
	for field := range fieldNames {
		if err := f.weighField(term, field, w); err != nil {
			return err
		}
	}
	places := len(w.sections.touched) + len(w.articles.touched)
	if w.keeps += places; w.keeps > keptScores {
		clear(w.kept)
		w.keeps = places
	}
	if places > keptScores {
		return nil
	}
	var keep [2][]scored
	for i, b := range w.boards() {
		keep[i] = make([]scored, len(b.touched))
		for n, place := range b.touched {
			keep[i][n] = scored{place, b.term[place]}
		}
	}
	w.kept[term] = keep
	return nil
}

// weighField lets bleve score one term in one field, as a question of its own:
// with the norm of such a question its boost and rarity leave the weight at 1,
// and what remains is BM25. It does what bleve's term searcher does, which
// would want a whole index reader and take the number of distinct terms of a field
// for its length.
func (f *Finder) weighField(term string, field int, w *work) error {
	name := fieldNames[field]
	holding, err := w.texts.Find(name, term)
	if err != nil || holding == 0 {
		return err
	}
	s := scorer.NewTermQueryScorer([]byte(term), name, 1, uint64(len(f.sections)), uint64(holding), f.average[field], search.SearcherOptions{})
	s.SetQueryNorm(1 / math.Sqrt(s.Weight()))
	for {
		met, err := w.texts.Next(w.met.Reset())
		if err != nil || met == nil {
			return err
		}
		match := s.Score(w.match, met)
		place := int(match.IndexInternalID.Value())
		score := fieldWeights[field] * match.Score
		w.match.DocumentMatchPool.Put(match)
		if ofArticle(field) {
			w.articles.score(f.sections[place].article, score)
		} else {
			w.sections.score(place, score)
		}
	}
}
