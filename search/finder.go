package search

import (
	"errors"
	"fmt"
	"math"
	"sync"

	"tankside/search/segment"
)

// Finder answers questions from an opened index. It is safe for use by several
// goroutines at once.
type Finder struct {
	*table
	others    []*Finder // of the manual's other languages
	index     *segment.Index
	thesaurus *segment.Index
	average   [len(fieldNames)]float64
	spare     sync.Pool // of *work
}

// Open checks and opens what [Index] built, or all the pieces that [Words] and
// [Part] built. The bytes are read from as long as the Finder is in use and must
// not be changed. The error wraps [ErrDamaged] or [ErrVersion].
func Open(blobs ...[]byte) (*Finder, error) { return openAll(blobs) }

// openOne opens the index of one language.
func openOne(t *table, of pieces) (*Finder, error) {
	var err error
	f := &Finder{table: t, average: t.averages()}
	own := languageOf(t.tag)
	for i := range t.lexicon {
		t.lexicon[i].letters = lettersOf(t.lexicon[i].word)
	}
	if f.thesaurus, err = openSegment(len(t.expressions), of.thesaurus); err != nil {
		return nil, err
	}
	if f.index, err = openSegment(len(t.sections), of.segments...); err != nil {
		return nil, errors.Join(err, f.thesaurus.Close())
	}
	f.spare.New = func() any {
		return &work{reader: newReader(own), texts: f.index.Reader(), synonyms: f.thesaurus.Reader(), names: make([][][]string, len(t.articles)), kept: map[string][2][]scored{}}
	}
	return f, nil
}

// openSegment opens segments that are to hold n documents.
func openSegment(n int, segments ...[]byte) (*segment.Index, error) {
	opened, err := segment.Open(segments...)
	switch {
	case errors.Is(err, segment.ErrDamaged):
		return nil, fmt.Errorf("%w: %w", ErrDamaged, err)
	case errors.Is(err, segment.ErrVersion):
		return nil, fmt.Errorf("%w: %w", ErrVersion, err)
	case err != nil:
		return nil, err
	}
	if holds := opened.Documents(); holds != n {
		return nil, errors.Join(fmt.Errorf("%w: %d documents, but %d in the segment", ErrDamaged, n, holds), opened.Close())
	}
	return opened, nil
}

// Close frees what the Finder holds. It must not be used after it.
func (f *Finder) Close() error {
	err := errors.Join(f.index.Close(), f.thesaurus.Close())
	for _, other := range f.others {
		err = errors.Join(err, other.Close())
	}
	return err
}

// averages are the mean lengths of the fields as bleve's BM25 wants them, over
// all sections and in whole words. They are given to it rather than left to
// bleve, which takes the number of distinct terms of a field for its length.
func (t *table) averages() (average [len(fieldNames)]float64) {
	n := float64(len(t.sections))
	for i, mean := range t.lengths {
		if n > 0 {
			average[i] = math.Ceil(math.Round(mean*n) / n)
		}
	}
	return average
}
