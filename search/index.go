package search

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"
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
	docs = sorted(docs)
	if err := check(docs); err != nil {
		return nil, err
	}
	tags, docsIn, synonymsIn := byLanguage(docs, synonyms)
	return build(tags, func(t *table, tag string) (thesaurus, built []byte, err error) {
		*t = *arrange(docsIn[tag])
		if thesaurus, err = t.thesaurusIn(tag, synonymsIn[tag]); err != nil {
			return nil, nil, err
		}
		built, err = t.segment()
		return thesaurus, built, err
	})
}

// sorted gives the documents in order.
func sorted(docs []Document) []Document {
	return slices.SortedFunc(slices.Values(docs), func(a, b Document) int {
		return cmp.Or(strings.Compare(page(a.Path), page(b.Path)), strings.Compare(a.Title, b.Title), strings.Compare(a.Path, b.Path))
	})
}

// build makes the blob of what is made for each language.
func build(tags []string, of func(t *table, tag string) (thesaurus, built []byte, err error)) ([]byte, error) {
	var parts []part
	for _, tag := range tags {
		t := &table{}
		thesaurus, built, err := of(t, tag)
		if err != nil {
			return nil, err
		}
		parts = append(parts, part{tag, seal(t, thesaurus, built)})
	}
	return bind(parts), nil
}

// thesaurusIn builds the thesaurus of a language.
func (t *table) thesaurusIn(tag string, synonyms []Synonym) ([]byte, error) {
	t.tag = tag
	return t.thesaurus(append(everydayOf(tag), synonyms...))
}

// segment reads all sections, which sets the lexicon and the mean lengths, and
// builds bleve's segment of them.
func (t *table) segment() ([]byte, error) {
	analysed := t.analyse()
	for _, s := range analysed {
		for f, terms := range s.terms {
			if len(terms) > 0 {
				t.having[f]++
			}
		}
	}
	return segment.Build(len(t.sections), func(i int) []segment.Field { return analysed[i].fields() })
}

func page(path string) string {
	before, _, _ := strings.Cut(path, "#")
	return before
}

func check(docs []Document) error {
	var wrong []error
	seen := map[string]string{}
	for _, d := range docs {
		key := d.Path + "\n" + cmp.Or(d.Language, englishTag) // a page that is there in one language alone is found in each
		before, twice := seen[key]
		seen[key] = d.Section
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
func arrange(docs []Document) *table {
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
	return t
}

// tidy makes one line of plain text of it: white space in a row becomes one
// space, control and direction characters and broken UTF-8 go.
func tidy(s string) string {
	if isTidy(s) {
		return s
	}
	var out strings.Builder
	out.Grow(len(s))
	space := false
	for _, c := range s {
		switch {
		case unicode.IsSpace(c):
			space = out.Len() > 0
		case dropped(c):
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

// isTidy saves a copy of what is most of the manual's text.
func isTidy(s string) bool {
	space := true
	for _, c := range s {
		if dropped(c) || unicode.IsSpace(c) && (space || c != ' ') {
			return false
		}
		space = c == ' '
	}
	return s == "" || !space
}

func dropped(c rune) bool {
	return c == utf8.RuneError || unicode.IsControl(c) && !unicode.IsSpace(c) || unicode.Is(unicode.Bidi_Control, c)
}
