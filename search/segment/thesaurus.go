package segment

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"slices"

	"github.com/blevesearch/bleve/v2/analysis"
	"github.com/blevesearch/bleve/v2/document"
	index "github.com/blevesearch/bleve_index_api"
	zap "github.com/blevesearch/zapx/v17"
)

// Definition is one of bleve's synonym definitions: each expression of Input may
// stand for every one of Synonyms; without Input the Synonyms stand for each
// other. An expression that the thesaurus's analyzer makes more or less than
// one token of is left out by bleve.
type Definition struct{ Input, Synonyms []string }

// Thesaurus is what bleve calls a synonym source: a name under which its
// definitions are looked up, and the analyzer of their expressions.
type Thesaurus struct {
	Name        string
	Analyzer    analysis.Analyzer
	Definitions []Definition
}

// BuildThesaurus makes the segment of one or more thesauri, the same bytes for
// the same definitions in the same order. One of which nothing is left after
// analysis is not in it, and looking things up there finds nothing.
//
// Of the sections of a segment zap writes either of texts and synonyms first,
// as a Go map has it, and addresses within them are of no fixed length, so they
// cannot change places afterwards. So synonyms have a segment of their own,
// which is small, and zap is asked again where it has begun with the synonyms.
func BuildThesaurus(all ...Thesaurus) ([]byte, error) {
	documents := make([]index.Document, len(all))
	for i, t := range all {
		documents[i] = t.document(i)
	}
	const enough = 100 // what is wrong then is not chance
	for range enough {
		out, err := write(documents)
		if err != nil {
			return nil, fmt.Errorf("building the thesaurus: %w", err)
		}
		if inOrder, err := textsFirst(out); err != nil {
			return nil, err
		} else if inOrder {
			return out, canonical(out)
		}
	}
	return nil, errors.New("building the thesaurus: its sections never come in order")
}

func (t Thesaurus) document(number int) *document.Document {
	d := document.NewSynonymDocument(id(number))
	d.AddIDField()
	for _, one := range t.Definitions {
		f := ordered{document.NewSynonymField(t.Name, t.Analyzer, one.Input, one.Synonyms), map[string][]string{}}
		f.Analyze()
		f.SynonymField.IterateSynonyms(func(expression string, synonyms []string) {
			if len(synonyms) > 0 {
				f.kept[expression] = synonyms
			}
		})
		if len(f.kept) > 0 {
			d.AddField(f)
		}
	}
	d.Fields[0].Analyze() // the id
	return d
}

// ordered is bleve's synonym field, with its expressions shown in order; zap
// numbers them as they come.
type ordered struct {
	*document.SynonymField
	kept map[string][]string
}

func (f ordered) IterateSynonyms(visit func(expression string, synonyms []string)) {
	for _, expression := range slices.Sorted(maps.Keys(f.kept)) {
		visit(expression, f.kept[expression])
	}
}

// textsFirst says whether a segment has all its texts before all its synonyms.
func textsFirst(b []byte) (bool, error) {
	foot, body, err := readFooter(b)
	if err != nil {
		return false, err
	}
	last, first := 0, len(body)
	for _, f := range fieldTable(body, foot) {
		last = max(last, f.pairs.address(zap.SectionInvertedTextIndex))
		if at := f.pairs.address(zap.SectionSynonymIndex); at != 0 {
			first = min(first, at)
		}
	}
	return last < first, nil
}

// Synonyms looks up in a thesaurus what an expression, as its analyzer has it,
// may stand for: in order, each once.
func (x *Index) Synonyms(ctx context.Context, thesaurus, expression string) (all []string, err error) {
	reader, ok := x.IndexReader.(index.ThesaurusReader)
	if !ok {
		return nil, fmt.Errorf("%T has no thesauri", x.IndexReader)
	}
	found, err := reader.ThesaurusTermReader(ctx, thesaurus, []byte(expression))
	if err != nil {
		return nil, fmt.Errorf("looking up %q: %w", expression, err)
	}
	defer func() { err = errors.Join(err, found.Close()) }()
	for {
		synonym, err := found.Next()
		if err != nil {
			return nil, fmt.Errorf("looking up %q: %w", expression, err)
		}
		if synonym == "" {
			slices.Sort(all)
			return slices.Compact(all), nil
		}
		all = append(all, synonym)
	}
}
