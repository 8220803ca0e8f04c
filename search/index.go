package search

import (
	"cmp"
	"errors"
	"fmt"
	"runtime"
	"slices"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"tankside/search/segment"
)

// The fields of the segment. Title and everyday words are indexed with an
// article's first section and count for all of them.
const (
	fieldTitle = iota
	fieldAlso
	fieldHeading
	fieldQuestion
	fieldText
)

var fieldNames = [...]string{"title", "also", "heading", "question", "text"}

// Index builds the search index: the same documents and synonyms, in whatever
// order, give the same bytes. Two documents with one path, and one without a
// path or a title, are errors that name them.
func Index(docs []Document, synonyms []Synonym) ([]byte, error) {
	docs = slices.SortedFunc(slices.Values(docs), func(a, b Document) int {
		return cmp.Or(strings.Compare(page(a.Path), page(b.Path)), strings.Compare(a.Title, b.Title), strings.Compare(a.Path, b.Path))
	})
	if err := check(docs); err != nil {
		return nil, err
	}
	t := arrange(docs, synonyms)
	analysed := t.analyse()
	built, err := segment.Build(len(t.sections), func(i int) []segment.Field { return analysed[i] })
	if err != nil {
		return nil, err
	}
	return seal(t.pack(), built), nil
}

func page(path string) string {
	before, _, _ := strings.Cut(path, "#")
	return before
}

func check(docs []Document) error {
	var wrong []error
	seen := map[string]string{}
	for _, d := range docs {
		before, twice := seen[d.Path]
		seen[d.Path] = d.Section
		switch {
		case d.Path == "":
			wrong = append(wrong, fmt.Errorf("a section of %q has no path to find it by", d.Title))
		case strings.TrimSpace(d.Title) == "":
			wrong = append(wrong, fmt.Errorf("%s has no title to find it by", d.Path))
		case twice:
			wrong = append(wrong, fmt.Errorf("%s is there twice: section %q and section %q", d.Path, before, d.Section))
		}
	}
	return errors.Join(wrong...)
}

// arrange makes the table of the sorted documents, all but the lexicon.
func arrange(docs []Document, synonyms []Synonym) *table {
	t := &table{}
	for _, d := range docs {
		own, title := page(d.Path), tidy(d.Title)
		if n := len(t.articles); n == 0 || t.articles[n-1].page != own || t.articles[n-1].title != title {
			t.articles = append(t.articles, article{
				page: own, title: title, kind: d.Kind, station: d.Station, first: len(t.sections),
			})
		}
		a := &t.articles[len(t.articles)-1]
		for _, name := range d.AlsoCalled {
			if name = tidy(name); name != "" && !slices.Contains(a.also, name) {
				a.also = append(a.also, name)
			}
		}
		t.sections = append(t.sections, section{
			article: len(t.articles) - 1, anchor: d.Path[len(own):],
			heading: tidy(d.Section), question: d.Question, text: tidy(d.Text),
		})
		a.end = len(t.sections)
	}
	for _, s := range synonyms {
		one := Synonym{Term: tidy(s.Term)}
		for _, word := range s.Words {
			if word = tidy(word); word != "" && word != one.Term {
				one.Words = append(one.Words, word)
			}
		}
		slices.Sort(one.Words)
		one.Words = slices.Compact(one.Words)
		if one.Term != "" && len(one.Words) > 0 {
			t.synonyms = append(t.synonyms, one)
		}
	}
	slices.SortFunc(t.synonyms, func(a, b Synonym) int {
		return cmp.Or(strings.Compare(a.Term, b.Term), slices.Compare(a.Words, b.Words))
	})
	return t
}

// tidy makes one line of plain text of it: white space in a row becomes one
// space, control and direction characters and broken UTF-8 go.
func tidy(s string) string {
	var out strings.Builder
	space := false
	for _, c := range s {
		switch {
		case unicode.IsSpace(c):
			space = out.Len() > 0
		case c == utf8.RuneError, unicode.IsControl(c), unicode.Is(unicode.Bidi_Control, c):
		default:
			if space {
				out.WriteByte(' ')
				space = false
			}
			out.WriteRune(c)
		}
	}
	return out.String()
}

// analyse reads every section into the fields of the segment, several sections
// at once, and sets the lexicon and the mean lengths.
func (t *table) analyse() [][]segment.Field {
	analysed := make([][]segment.Field, len(t.sections))
	workers := min(runtime.GOMAXPROCS(0), len(t.sections))
	words := make([]map[string]int, workers)
	var all sync.WaitGroup
	for w := range workers {
		all.Go(func() {
			a := analyser{reader: newReader(), words: map[string]int{}}
			for i := w; i < len(t.sections); i += workers {
				analysed[i] = a.fields(t, i)
			}
			words[w] = a.words
		})
	}
	all.Wait()
	t.lexicon = join(words)
	t.lengths = means(analysed)
	return analysed
}

// analyser reads sections one after another and counts in how many each word is.
type analyser struct {
	*reader
	tokens []token
	words  map[string]int
}

func (a *analyser) fields(t *table, i int) []segment.Field {
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

	var fields []segment.Field
	seen := map[string]bool{}
	for f, all := range texts {
		a.tokens = a.tokens[:0]
		for _, text := range all {
			a.tokens = a.read(text, a.tokens)
		}
		if len(a.tokens) == 0 {
			continue
		}
		counts := make(map[string]int, len(a.tokens))
		length := 0
		for _, token := range a.tokens {
			counts[token.term]++
			if !token.extra {
				length++
			}
			if isWord(token.word) && !seen[token.word] {
				seen[token.word] = true
				a.words[token.word]++
			}
		}
		field := segment.Field{Name: fieldNames[f], Length: max(length, 1), Terms: make([]segment.Term, 0, len(counts))}
		for term, count := range counts {
			field.Terms = append(field.Terms, segment.Term{Text: term, Count: count})
		}
		fields = append(fields, field)
	}
	return fields
}

// isWord tells words, which belong in the lexicon, from numbers.
func isWord(word string) bool {
	first, _ := utf8.DecodeRuneInString(word)
	return len(word) >= 3 && unicode.IsLetter(first)
}

func join(parts []map[string]int) lexicon {
	all := map[string]int{}
	for _, part := range parts {
		for word, n := range part {
			all[word] += n
		}
	}
	joined := make(lexicon, 0, len(all))
	for word, n := range all {
		joined = append(joined, entry{word, n})
	}
	slices.SortFunc(joined, func(a, b entry) int { return strings.Compare(a.word, b.word) })
	return joined
}

// means works out how long each field is on average where it is there.
func means(analysed [][]segment.Field) (mean [len(fieldNames)]float64) {
	var sum, n [len(fieldNames)]float64
	for _, fields := range analysed {
		for _, field := range fields {
			f := slices.Index(fieldNames[:], field.Name)
			sum[f] += float64(field.Length)
			n[f]++
		}
	}
	for f := range mean {
		if n[f] > 0 {
			mean[f] = sum[f] / n[f]
		}
	}
	return mean
}
