package search

import (
	"context"
	"errors"
	"fmt"
	"math"
	"sync"

	"github.com/blevesearch/bleve/v2/search"
	index "github.com/blevesearch/bleve_index_api"

	"tankside/search/segment"
)

// Finder answers questions from an opened index. It is safe for use by several
// goroutines at once.
type Finder struct {
	*table
	index    *segment.Index
	synonyms synonyms
	scoring  scoring
	spare    sync.Pool // of *work
}

// Open checks and opens what [Index] built. The bytes are read from as long as
// the Finder is in use and must not be changed. The error wraps [ErrDamaged] or
// [ErrVersion].
func Open(blob []byte) (*Finder, error) {
	packed, built, err := unseal(blob)
	if err != nil {
		return nil, err
	}
	t, err := unpack(packed)
	if err != nil {
		return nil, err
	}
	opened, err := segment.Open(built)
	switch {
	case errors.Is(err, segment.ErrDamaged):
		return nil, fmt.Errorf("%w: %w", ErrDamaged, err)
	case errors.Is(err, segment.ErrVersion):
		return nil, fmt.Errorf("%w: %w", ErrVersion, err)
	case err != nil:
		return nil, err
	}
	if n, err := opened.DocCount(); err != nil || n != uint64(len(t.sections)) {
		return nil, errors.Join(fmt.Errorf("%w: %d sections, but %d in the segment", ErrDamaged, len(t.sections), n),
			err, opened.Close())
	}
	f := &Finder{table: t, index: opened}
	r := newReader()
	f.synonyms = readSynonyms(append(everyday(), t.synonyms...), r)
	f.scoring = newScoring(t)
	f.spare.New = func() any { return &work{reader: newReader()} }
	f.spare.Put(&work{reader: r})
	return f, nil
}

// Close frees what the Finder holds. It must not be used after it.
func (f *Finder) Close() error { return f.index.Close() }

// Sections and Articles say how much the index holds.
func (f *Finder) Sections() int { return len(f.sections) }
func (f *Finder) Articles() int { return len(f.articles) }

// scoring is what bleve's BM25 wants to know about the whole index. It is given
// here rather than left to bleve, which takes the number of distinct terms of a
// field for its total length.
type scoring struct{ stats search.BM25Stats }

func newScoring(t *table) scoring {
	s := scoring{search.BM25Stats{
		DocCount:         float64(len(t.sections)),
		FieldCardinality: map[string]int{},
	}}
	for i, name := range fieldNames {
		s.stats.FieldCardinality[name] = int(math.Round(t.lengths[i] * float64(len(t.sections))))
	}
	return s
}

func (s *scoring) context(ctx context.Context) context.Context {
	model := search.GetScoringModelCallbackFn(func() string { return index.BM25Scoring })
	ctx = context.WithValue(ctx, search.GetScoringModelCallbackKey, model)
	return context.WithValue(ctx, search.BM25StatsKey, &s.stats)
}
