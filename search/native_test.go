package search

import (
	"bytes"
	"context"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/blevesearch/bleve/v2"
	"github.com/blevesearch/bleve/v2/analysis"
	"github.com/blevesearch/bleve/v2/registry"
	index "github.com/blevesearch/bleve_index_api"
)

// bleves is our reading of English as an analyzer of bleve's.
type bleves struct{}

func (bleves) Analyze(text []byte) (stream analysis.TokenStream) {
	for _, t := range newReader(languageOf(englishTag)).read(string(text), nil) {
		stream = append(stream, &analysis.Token{Term: []byte(t.term), Start: t.start, End: t.end, Position: t.position})
	}
	return stream
}

func init() {
	err := registry.RegisterAnalyzer("bleves", func(map[string]any, *registry.Cache) (analysis.Analyzer, error) { return bleves{}, nil })
	if err != nil {
		panic(err) // the name is taken
	}
}

// openWithBleve puts a segment of ours in the place of the one in an index that bleve has made, and has bleve open that.
func openWithBleve(t *testing.T, segment []byte) bleve.Index {
	t.Helper()
	folder := filepath.Join(t.TempDir(), "index")
	mapping := bleve.NewIndexMapping()
	mapping.DefaultAnalyzer = "bleves"
	made, err := bleve.New(folder, mapping)
	if err != nil {
		t.Fatal(err)
	}
	if err := made.Index("any", map[string]string{"text": "words"}); err != nil {
		t.Fatal(err)
	}
	if err := made.Close(); err != nil {
		t.Fatal(err)
	}
	files, err := filepath.Glob(filepath.Join(folder, "store", "*.zap"))
	if err != nil || len(files) != 1 {
		t.Fatalf("bleve's segments: %v, %v", files, err)
	}
	if err := os.WriteFile(files[0], segment, 0o600); err != nil {
		t.Fatal(err)
	}
	opened, err := bleve.Open(folder)
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

// bleve opens what Index has made, with nothing of ours but the reading of words, and its match query finds the documents that are found here.
func TestBleveOpensTheIndex(t *testing.T) {
	docs, synonyms := manyDocuments(40)
	docs = slices.DeleteFunc(docs, func(d Document) bool { return d.Language != "" && d.Language != englishTag })
	blob, err := Index(docs, synonyms)
	if err != nil {
		t.Fatal(err)
	}
	_, _, segment, err := unseal(blob)
	if err != nil {
		t.Fatal(err)
	}
	f, err := Open(blob)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	theirs := openWithBleve(t, segment)
	if n, err := theirs.DocCount(); err != nil || n != uint64(f.Sections()) {
		t.Fatalf("bleve counts %d documents, %v; want %d", n, err, f.Sections())
	}
	asked := 0
	for i := range len(f.lexicon) - 1 {
		question := f.lexicon[i].word + " " + f.lexicon[i+1].word + " "
		ours, found := f.holding(t, question), bleveFinds(t, theirs, question)
		if !slices.Equal(ours, found) {
			t.Errorf("%q: bleve finds %v, the reader here %v", question, found, ours)
		}
		if len(ours) > 0 {
			asked++
		}
		if a, err := f.Ask(context.Background(), Question{Words: question}); err != nil || len(a.Hits) == 0 {
			t.Errorf("%q: %v, %v", question, a.Hits, err)
		} else if best := a.Hits[0].Path; !slices.ContainsFunc(found, func(n int) bool { return f.articles[f.sections[n].article].page == page(best) }) {
			t.Errorf("%q: the best hit is %s, which bleve does not find", question, best)
		}
	}
	if asked < 20 {
		t.Errorf("only %d questions with an answer", asked)
	}
}

// bleveFinds gives the numbers of the documents that a match query in any of the fields finds.
func bleveFinds(t *testing.T, x bleve.Index, question string) (numbers []int) {
	t.Helper()
	any := bleve.NewDisjunctionQuery()
	for _, field := range fieldNames {
		q := bleve.NewMatchQuery(question)
		q.SetField(field)
		any.AddQuery(q)
	}
	found, err := x.Search(bleve.NewSearchRequestOptions(any, 10000, 0, false))
	if err != nil {
		t.Fatal(err)
	}
	for _, hit := range found.Hits {
		n, err := strconv.Atoi(hit.ID)
		if err != nil {
			t.Fatal(err)
		}
		numbers = append(numbers, n)
	}
	slices.Sort(numbers)
	return numbers
}

// holding gives the numbers of the sections that hold a word of the question in any field.
func (f *Finder) holding(t *testing.T, question string) []int {
	t.Helper()
	w := f.spare.Get().(*work)
	defer f.spare.Put(w)
	all := map[int]bool{}
	for _, token := range w.read(question, nil) {
		for _, field := range fieldNames {
			if _, err := w.texts.Find(field, token.term); err != nil {
				t.Fatal(err)
			}
			for {
				met, err := w.texts.Next(&index.TermFieldDoc{})
				if err != nil {
					t.Fatal(err)
				}
				if met == nil {
					break
				}
				all[int(met.ID.Value())] = true
			}
		}
	}
	return slices.Sorted(maps.Keys(all))
}

// manySayings are n terms with three expressions each; every tenth has one in common.
func manySayings(n int) (all []Synonym) {
	for i := range n {
		number := strconv.Itoa(i)
		all = append(all, Synonym{Term: "term " + number, Words: []string{"word " + number, "two words " + number, "in common " + strconv.Itoa(i%10)}})
	}
	return append(all, Synonym{Words: []string{"froth", "Fluff", "", "soap suds"}})
}

func TestThesaurusIsTheSameToTheByte(t *testing.T) {
	first := &table{tag: englishTag}
	want, err := first.thesaurus(manySayings(300))
	if err != nil {
		t.Fatal(err)
	}
	for range 10 {
		again := &table{tag: englishTag}
		got, err := again.thesaurus(manySayings(300))
		if err != nil || !bytes.Equal(want, got) || !slices.Equal(first.expressions, again.expressions) || first.longest != again.longest {
			t.Fatalf("two builds of the same synonyms differ, or %v", err)
		}
	}
}

func TestThesaurusGivesExpressionsBack(t *testing.T) {
	blob, err := Index(nil, manySayings(20))
	if err != nil {
		t.Fatal(err)
	}
	f, err := Open(blob)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	w := f.spare.Get().(*work)
	own := func(text string) string { return w.expression(text) }
	for _, c := range []struct {
		thesaurus  int
		expression string
		want       string
	}{
		{termsOf, "word 7", "term 7"}, {termsOf, "two words 7", "term 7"}, {termsOf, "common 7", "term 17|term 7"},
		{termsOf, "term 7", ""}, {termsOf, "two words", ""},
		{saidFor, "term 7", "common 7|two words 7|word 7"}, {saidFor, "fluff", "froth|soap suds"}, {saidFor, "soap suds", "fluff|froth"},
		{saidFor, "", ""}, {termsOf, "nothing of it", ""},
	} {
		for range 3 {
			got, err := f.ledTo(c.thesaurus, own(c.expression), w)
			var want []string
			for text := range strings.SplitSeq(c.want, "|") {
				if text != "" {
					want = append(want, own(text))
				}
			}
			if err != nil || !slices.Equal(got, want) {
				t.Errorf("%s of %q: %q, %v; want %q", thesauri[c.thesaurus], c.expression, got, err, want)
			}
		}
	}
}
