package segment_test

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/blevesearch/bleve/v2/analysis"

	"tankside/search/segment"
)

// whole makes one small-lettered token of an expression, none of an empty one.
type whole struct{}

func (whole) Analyze(text []byte) analysis.TokenStream {
	if len(text) == 0 {
		return nil
	}
	return analysis.TokenStream{{Term: bytes.ToLower(text), End: len(text), Position: 1}}
}

// sayings are n terms with three expressions each; every tenth has one in common.
func sayings(n int) []segment.Thesaurus {
	terms := segment.Thesaurus{Name: "terms", Analyzer: whole{}}
	said := segment.Thesaurus{Name: "said", Analyzer: whole{}}
	for i := range n {
		term := fmt.Sprintf("term %d", i)
		words := []string{fmt.Sprintf("Word %d", i), fmt.Sprintf("two words %d", i), fmt.Sprintf("in common %d", i%10)}
		terms.Definitions = append(terms.Definitions, segment.Definition{Input: words, Synonyms: []string{term}})
		said.Definitions = append(said.Definitions, segment.Definition{Input: []string{term}, Synonyms: words})
	}
	said.Definitions = append(said.Definitions, segment.Definition{Synonyms: []string{"froth", "Lather", "", "soap suds"}})
	return []segment.Thesaurus{terms, said}
}

func openThesaurus(t *testing.T, b []byte) *segment.Index {
	t.Helper()
	opened, err := segment.Open(b)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := opened.Close(); err != nil {
			t.Error(err)
		}
	})
	return opened
}

func TestThesaurusIsTheSameToTheByte(t *testing.T) {
	first, err := segment.BuildThesaurus(sayings(300)...)
	if err != nil {
		t.Fatal(err)
	}
	var all sync.WaitGroup
	for range 40 {
		all.Go(func() {
			again, err := segment.BuildThesaurus(sayings(300)...)
			if err != nil {
				t.Error(err)
			} else if !bytes.Equal(first, again) {
				t.Error("two builds of the same definitions differ")
			}
			// Others in between, so that bleve's shared buffers come back in all states.
			if _, err := segment.BuildThesaurus(sayings(3)...); err != nil {
				t.Error(err)
			}
			if _, err := segment.Build(5, words(5)); err != nil {
				t.Error(err)
			}
		})
	}
	all.Wait()
}

func TestThesaurusGivesExpressionsBack(t *testing.T) {
	built, err := segment.BuildThesaurus(sayings(20)...)
	if err != nil {
		t.Fatal(err)
	}
	opened := openThesaurus(t, built)
	for _, c := range []struct {
		thesaurus, expression string
		want                  []string
	}{
		{"terms", "word 7", []string{"term 7"}},
		{"terms", "two words 7", []string{"term 7"}},
		{"terms", "in common 7", []string{"term 17", "term 7"}},
		{"terms", "term 7", nil},
		{"terms", "two words", nil},
		{"said", "term 7", []string{"in common 7", "two words 7", "word 7"}},
		{"said", "lather", []string{"froth", "soap suds"}},
		{"said", "soap suds", []string{"froth", "lather"}},
		{"said", "", nil},
		{"neither", "lather", nil},
	} {
		for range 3 {
			got, err := opened.Synonyms(context.Background(), c.thesaurus, c.expression)
			if err != nil || !slices.Equal(got, c.want) {
				t.Errorf("%s of %q: %q, %v; want %q", c.thesaurus, c.expression, got, err, c.want)
			}
		}
	}
}

// One without anything left to look up finds nothing; it does not fail.
func TestEmptyThesaurus(t *testing.T) {
	for _, definitions := range [][]segment.Definition{nil, {{}}, {{Synonyms: []string{"", ""}}}, {{Synonyms: []string{"alone"}}}} {
		built, err := segment.BuildThesaurus(segment.Thesaurus{Name: "terms", Analyzer: whole{}, Definitions: definitions})
		if err != nil {
			t.Fatal(err)
		}
		if got, err := openThesaurus(t, built).Synonyms(context.Background(), "terms", "alone"); len(got) > 0 || err != nil {
			t.Errorf("%v: %q, %v", definitions, got, err)
		}
	}
}

func TestDamagedThesaurusIsRefused(t *testing.T) {
	built, err := segment.BuildThesaurus(sayings(3)...)
	if err != nil {
		t.Fatal(err)
	}
	for at := range built {
		damaged := bytes.Clone(built)
		damaged[at] ^= 4
		if _, err := segment.Open(damaged); !errors.Is(err, segment.ErrDamaged) && !errors.Is(err, segment.ErrVersion) {
			t.Errorf("byte %d flipped: %v", at, err)
		}
	}
}

// Many may look things up at once.
func TestSynonymsAtOnce(t *testing.T) {
	built, err := segment.BuildThesaurus(sayings(200)...)
	if err != nil {
		t.Fatal(err)
	}
	opened := openThesaurus(t, built)
	var all sync.WaitGroup
	for n := range 8 {
		all.Go(func() {
			for i := range 200 {
				got, err := opened.Synonyms(context.Background(), "terms", fmt.Sprintf("word %d", (i+n)%200))
				if want := fmt.Sprintf("term %d", (i+n)%200); err != nil || strings.Join(got, "|") != want {
					t.Errorf("%q, %v; want %s", got, err, want)
				}
			}
		})
	}
	all.Wait()
}
