package search

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Limits that keep any question, however long, to bounded work.
const (
	longestQuestion = 1000 // bytes that are read
	mostWords       = 16   // words that are looked for
	mostBeginnings  = 24   // words one beginning may stand for
	mostErrors      = 12   // words one typing error may stand for
	mostSynonyms    = 8    // expressions one expression may stand for
	shortestPrefix  = 3    // letters, from which a beginning is one
)

// How much a variant counts against the word as it was typed.
const (
	weighBeginning   = 0.8 // of a word the manual does not know
	weighCompletion  = 0.4 // of a word that may be finished
	weighError       = 0.8 // for each typing error
	weighBareNumber  = 0.3 // the number without its unit
	weighTemperature = 0.8 // the other scale
	weighTogether    = 0.9 // two words written as one, or one as two
	weighTerm        = 0.8 // the trade's term for an everyday word
	weighEveryday    = 0.5 // the everyday word for the trade's term, or for another one
)

// word is one word of the question.
type word struct {
	token
	known bool // the manual holds it as it stands
}

// A variant stands for the words first to last of the question. All of its
// terms must be found in one section (or in an article's title and everyday
// words); it then counts for every word it stands for.
type variant struct {
	terms       []string
	weight      float64
	first, last int
}

// query is a question made ready: its words and all their variants.
type query struct {
	words    []word
	variants []variant
	wanted   map[string]bool // kinds that the question speaks for
}

// understand makes a question ready.
func (f *Finder) understand(asked string, w *work) (query, error) {
	asked = shorten(asked)
	r := w.reader
	q := query{wanted: r.wanted(asked)}
	for _, t := range r.name(asked, nil) {
		if strings.HasPrefix(t.term, withinMark) {
			continue // a range is asked for by its ends
		}
		if t.extra {
			q.furtherForm(t)
			continue
		}
		if len(q.words) == mostWords {
			break
		}
		if slices.ContainsFunc(q.words, func(w word) bool { return w.term == t.term }) {
			continue
		}
		q.words = append(q.words, word{token: t})
		weight := 1.0
		if isLittle(t.term) {
			weight = weighLittle
		}
		q.add(weight, len(q.words)-1, t.term)
	}
	for i := range q.words {
		known, err := f.known(q.words[i], w)
		if err != nil {
			return q, err
		}
		q.words[i].known = known
	}
	f.joinNeighbours(&q, r)
	typing := len(q.words) > 0 && q.words[len(q.words)-1].end == len(asked)
	for i, one := range q.words {
		if !isWord(one.word) || isLittle(one.term) {
			continue
		}
		if last := typing && i == len(q.words)-1; last || !one.known {
			f.begin(&q, i, r)
		}
		if !one.known {
			f.mistype(&q, i, r)
			f.part(&q, i, r)
		}
	}
	if err := f.expand(&q, w); err != nil {
		return q, err
	}
	q.meant()
	return q, nil
}

// shorten cuts a question at a whole letter.
func shorten(asked string) string {
	if len(asked) <= longestQuestion {
		return asked
	}
	cut := longestQuestion
	for cut > 0 && !utf8.RuneStart(asked[cut]) {
		cut--
	}
	return asked[:cut]
}

// known tells whether the manual holds the word, in this or another form.
func (f *Finder) known(asked word, w *work) (bool, error) {
	if _, found := f.lexicon.find(asked.word); found || !isWord(asked.word) {
		return true, nil
	}
	for _, field := range fieldNames {
		if n, err := w.texts.Find(field, asked.term); err != nil || n > 0 {
			return n > 0, err
		}
	}
	return false, nil
}

// add gives the word number i a variant of one or more terms.
func (q *query) add(weight float64, i int, terms ...string) { q.span(weight, i, i, terms) }

// addWithin gives the word number i the ranges that hold its value.
func (q *query) addWithin(weight float64, i int, term string) {
	if points := around(term); len(points) > 0 {
		q.add(weight, i, points...)
	}
}

func (q *query) span(weight float64, first, last int, terms []string) {
	q.variants = append(q.variants, variant{terms: terms, weight: weight, first: first, last: last})
}

// furtherForm adds what the reader gave beside the word just read: a number
// with its unit, a word with hyphens as one.
func (q *query) furtherForm(t token) {
	i := len(q.words) - 1
	if i < 0 {
		return
	}
	first, _ := utf8.DecodeRuneInString(t.term)
	switch {
	case q.words[i].position != t.position:
		return
	case unicode.IsDigit(first):
		q.meantWithUnit(i)
		q.add(1, i, t.term)
		q.addWithin(weighWithin, i, t.term)
		if other := sameTemperature(t.term); other != "" {
			q.add(weighTemperature, i, other)
			q.addWithin(weighWithin*weighTemperature, i, other)
		}
	default:
		// The whole of a compound counts for its parts.
		first := i
		for first > 0 && q.words[first-1].start >= t.start {
			first--
		}
		q.span(weighTogether, first, i, []string{t.term})
		if len(around(t.term)) > 0 { // "ph9.2"
			q.meantWithUnit(i)
			q.addWithin(weighWithin, i, t.term)
		}
	}
}

// meantWithUnit lets the bare number count less.
func (q *query) meantWithUnit(i int) {
	for v := range q.variants {
		if one := &q.variants[v]; one.first == i && one.terms[0] == q.words[i].term {
			one.weight = weighBareNumber
		}
	}
}

// begin adds the words that word i may be the beginning of.
func (f *Finder) begin(q *query, i int, r *reader) {
	w := q.words[i]
	if utf8.RuneCountInString(w.word) < shortestPrefix {
		return
	}
	weight := weighBeginning
	if w.known {
		weight = weighCompletion
	}
	done := map[string]bool{w.term: true}
	for _, e := range f.lexicon.beginning(w.word, mostBeginnings) {
		if stem := r.stem(e.word); !done[stem] {
			done[stem] = true
			q.add(weight, i, stem)
		}
	}
}

// mistype adds the words that word i may be a typing error of.
func (f *Finder) mistype(q *query, i int, r *reader) {
	w := q.words[i]
	errors := allowed(w.word)
	if errors == 0 {
		return
	}
	done := map[string]bool{w.term: true}
	nearest := f.lexicon.nearest(w.word, errors, mostErrors)
	for _, n := range nearest {
		if n.errors > nearest[0].errors {
			break // there is a likelier one
		}
		if stem := r.stem(n.word); !done[stem] {
			done[stem] = true
			weight := weighError
			if n.errors > 1 {
				weight *= weighError
			}
			q.add(weight, i, stem)
		}
	}
}

// part takes an unknown word for two known ones: "hardwater".
func (f *Finder) part(q *query, i int, r *reader) {
	whole := q.words[i].word
	for at := shortestPrefix; at <= len(whole)-shortestPrefix; at++ {
		if !utf8.RuneStart(whole[at]) {
			continue
		}
		_, front := f.lexicon.find(whole[:at])
		_, back := f.lexicon.find(whole[at:])
		if front && back {
			q.add(weighTogether, i, r.stem(whole[:at]), r.stem(whole[at:]))
		}
	}
}

// joinNeighbours takes two words for one, "ultra sonic". Where the manual does
// not know both of them they are one; where it does they may be.
func (f *Finder) joinNeighbours(q *query, r *reader) {
	for i := 1; i < len(q.words); i++ {
		before, after := q.words[i-1], q.words[i]
		if after.position != before.position+1 {
			continue
		}
		e, found := f.lexicon.find(before.word + after.word)
		if !found {
			continue
		}
		if !before.known || !after.known {
			joined := word{token: before.token, known: true}
			joined.word, joined.term = e.word, r.stem(e.word)
			joined.end, joined.position = after.end, after.position
			q.merge(i-1, joined)
			i--
			continue
		}
		q.span(weighTogether, i-1, i, []string{r.stem(e.word)})
	}
}

// merge puts one word in the place of words i and i+1.
func (q *query) merge(i int, joined word) {
	q.words = slices.Replace(q.words, i, i+2, joined)
	q.variants = slices.DeleteFunc(q.variants, func(v variant) bool { return v.last == i || v.first == i+1 })
	for n := range q.variants {
		if v := &q.variants[n]; v.first > i {
			v.first--
			v.last--
		}
	}
	q.add(1, i, joined.term)
}
