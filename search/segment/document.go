package segment

import (
	"fmt"

	index "github.com/blevesearch/bleve_index_api"
)

// analysed shows one numbered document to bleve. Its term maps are made when
// bleve asks and dropped after, so a large manual is never held as maps.
type analysed struct {
	number int
	at     func(int) []Field
}

// ID is the number in fixed width, so that the order of ids is the order of
// documents.
func (d *analysed) ID() string { return id(d.number) }

func id(number int) string { return fmt.Sprintf("%07d", number) }

func (d *analysed) VisitFields(visit index.FieldVisitor) {
	visit(idField(d.ID()))
	for _, f := range d.at(d.number) {
		visit(field{f})
	}
}

func (d *analysed) VisitComposite(index.CompositeFieldVisitor) {}
func (d *analysed) HasComposite() bool                         { return false }
func (d *analysed) AddIDField()                                {}
func (d *analysed) Indexed() bool                              { return false }
func (d *analysed) Size() int                                  { return 0 }
func (d *analysed) NumPlainTextBytes() uint64                  { return 0 }
func (d *analysed) StoredFieldsBytes() uint64                  { return 0 }

// field shows an analysed field: indexed with frequencies, nothing else.
type field struct{ Field }

func (f field) Name() string                        { return f.Field.Name }
func (f field) Value() []byte                       { return nil }
func (f field) ArrayPositions() []uint64            { return nil }
func (f field) EncodedFieldType() byte              { return 't' }
func (f field) Analyze()                            {}
func (f field) Options() index.FieldIndexingOptions { return index.IndexField }
func (f field) AnalyzedLength() int                 { return f.Length }
func (f field) NumPlainTextBytes() uint64           { return 0 }

func (f field) AnalyzedTokenFrequencies() index.TokenFrequencies {
	frequencies := make(index.TokenFrequencies, f.Distinct)
	for term, count := range f.Terms {
		frequencies[term] = often(count)
	}
	return frequencies
}

// often gives a term's frequency. Without locations all terms of one frequency
// look alike to bleve, which only reads them, so most share one.
func often(count int) *index.TokenFreq {
	if count < len(shared) {
		return &shared[count]
	}
	one := &index.TokenFreq{}
	one.SetFrequency(count)
	return one
}

var shared = func() (all [16]index.TokenFreq) {
	for count := range all {
		all[count].SetFrequency(count)
	}
	return all
}()

// idField is the document's id, which bleve wants indexed and stored.
type idField string

func (f idField) Name() string             { return "_id" }
func (f idField) Value() []byte            { return []byte(f) }
func (f idField) ArrayPositions() []uint64 { return nil }
func (f idField) EncodedFieldType() byte   { return 't' }
func (f idField) Analyze()                 {}
func (f idField) Options() index.FieldIndexingOptions {
	return index.IndexField | index.StoreField
}
func (f idField) AnalyzedLength() int       { return 1 }
func (f idField) NumPlainTextBytes() uint64 { return 0 }

func (f idField) AnalyzedTokenFrequencies() index.TokenFrequencies {
	return index.TokenFrequencies{string(f): often(1)}
}
