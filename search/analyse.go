package search

import (
	"runtime"
	"slices"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"tankside/search/segment"
)

// analysed is a section with its words counted. Terms are numbers in the
// vocabulary of the worker that read the section: a large manual has millions
// of them in memory at once.
type analysed struct {
	vocabulary *vocabulary
	length     [len(fieldNames)]int
	terms      [len(fieldNames)][]counted
}

type counted struct{ term, count uint32 }

type vocabulary struct {
	numbers map[string]uint32
	terms   []string
}

func (v *vocabulary) number(term string) uint32 {
	n, known := v.numbers[term]
	if !known {
		n = uint32(len(v.terms))
		v.numbers[term] = n
		v.terms = append(v.terms, term)
	}
	return n
}

// fields shows the section as the segment wants it.
func (a *analysed) fields() []segment.Field {
	fields := make([]segment.Field, 0, len(fieldNames))
	for f, terms := range a.terms {
		if len(terms) == 0 {
			continue
		}
		fields = append(fields, segment.Field{Name: fieldNames[f], Length: a.length[f], Distinct: len(terms), Terms: func(yield func(string, int) bool) {
			for _, c := range terms {
				if !yield(a.vocabulary.terms[c.term], int(c.count)) {
					return
				}
			}
		}})
	}
	return fields
}

// analyse reads every section, several at once, and sets the lexicon and the
// mean lengths.
func (t *table) analyse() []analysed {
	all := make([]analysed, len(t.sections))
	workers := min(runtime.GOMAXPROCS(0), len(t.sections))
	words := make([]map[string]occurrence, workers)
	var busy sync.WaitGroup
	for w := range workers {
		busy.Go(func() {
			a := analyser{reader: newReader(languageOf(t.tag)), words: map[string]occurrence{}, vocabulary: &vocabulary{numbers: map[string]uint32{}}}
			for i := w; i < len(t.sections); i += workers {
				all[i] = a.section(t, i)
			}
			words[w] = a.words
		})
	}
	busy.Wait()
	t.lexicon = join(words)
	t.lengths = means(all)
	return all
}

// analyser reads sections one after another and counts in how many each word is.
type analyser struct {
	*reader
	vocabulary *vocabulary
	words      map[string]occurrence
	terms      []uint32
}

// occurrence says in how many sections a word is, and in which it was last met.
type occurrence struct{ sections, last int }

func (a *analyser) section(t *table, i int) analysed {
	s := t.sections[i]
	var texts [len(fieldNames)][]string
	if parent := t.articles[s.article]; parent.first == i {
		texts[fieldTitle] = []string{parent.title}
		texts[fieldAlso] = parent.also
	}
	if s.question {
		texts[fieldQuestion] = []string{s.heading}
	} else {
		texts[fieldHeading] = []string{s.heading}
	}
	texts[fieldText] = []string{s.text}

	made := analysed{vocabulary: a.vocabulary}
	for f, all := range texts {
		a.terms = a.terms[:0]
		for _, text := range all {
			for _, token := range a.tokens(f, text) {
				a.terms = append(a.terms, a.vocabulary.number(token.term))
				if !token.extra && !isLittle(token.term) {
					made.length[f]++
				}
				if !isWord(token.word) { // nor is a little one
					continue
				}
				if met := a.words[token.word]; met.sections == 0 || met.last != i {
					a.words[token.word] = occurrence{met.sections + 1, i}
				}
			}
		}
		made.terms[f] = count(a.terms)
		made.length[f] = max(made.length[f], 1)
	}
	return made
}

// tokens gives those of a field's text until the next call.
func (a *analyser) tokens(field int, text string) []token {
	if !ofArticle(field) {
		return a.brief(text)
	}
	a.spare = a.name(text, a.spare[:0])
	return a.spare
}

// count counts equal numbers; it sorts them.
func count(terms []uint32) []counted {
	slices.Sort(terms)
	different := 0
	for i := range terms {
		if i == 0 || terms[i] != terms[i-1] {
			different++
		}
	}
	counts := make([]counted, 0, different)
	for i, term := range terms {
		if i > 0 && term == terms[i-1] {
			counts[len(counts)-1].count++
		} else {
			counts = append(counts, counted{term, 1})
		}
	}
	return counts
}

// isWord tells words, which belong in the lexicon, from numbers.
func isWord(word string) bool {
	first, _ := utf8.DecodeRuneInString(word)
	return len(word) >= 3 && unicode.IsLetter(first)
}

func join(parts []map[string]occurrence) lexicon {
	all := map[string]int{}
	for _, part := range parts {
		for word, met := range part {
			all[word] += met.sections
		}
	}
	joined := make(lexicon, 0, len(all))
	for word, n := range all {
		joined = append(joined, entry{word: word, documents: n})
	}
	slices.SortFunc(joined, func(a, b entry) int { return strings.Compare(a.word, b.word) })
	return joined
}

// means works out how long each field is on average where it is there.
func means(all []analysed) (mean [len(fieldNames)]float64) {
	for f := range mean {
		sum, n := 0, 0
		for i := range all {
			if len(all[i].terms[f]) > 0 {
				sum += all[i].length[f]
				n++
			}
		}
		if n > 0 {
			mean[f] = float64(sum) / float64(n)
		}
	}
	return mean
}
