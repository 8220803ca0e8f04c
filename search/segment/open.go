package segment

import (
	"errors"
	"fmt"
	"hash/crc32"

	bleve "github.com/blevesearch/scorch_segment_api/v2"
	zap "github.com/blevesearch/zapx/v17"
)

// Index is opened segments, the documents of each numbered on from those of the one before. It is safe for use by several goroutines, each
// with a [Reader] of its own.
type Index struct {
	segments []bleve.Segment
	first    []int // number of each segment's first document, and at the end how many there are
}

// Open checks the segments' checksums and versions and opens them as one index.
// The bytes are kept and read from as long as the index is in use; they must not be changed.
func Open(segments ...[]byte) (*Index, error) {
	x := &Index{first: []int{0}}
	for i, b := range segments {
		ready, err := read(b)
		if err != nil {
			return nil, errors.Join(err, x.Close())
		}
		x.segments = append(x.segments, ready)
		x.first = append(x.first, x.first[i]+int(ready.Count()))
	}
	return x, nil
}

// read makes a segment of its bytes.
func read(b []byte) (bleve.Segment, error) {
	foot, body, err := readFooter(b)
	if err != nil {
		return nil, err
	}
	if foot.crc != crc32.ChecksumIEEE(b[:len(b)-4]) {
		return nil, ErrDamaged
	}
	if foot.version != zap.Version || foot.writer != 0 {
		return nil, fmt.Errorf("%w: format %d, wanted %d", ErrVersion, foot.version, zap.Version)
	}
	ready, err := zap.InitSegmentBase(body, foot.crc, foot.chunkMode, foot.documents,
		foot.stored, foot.sections, nil, &bleve.Stats{})
	if err != nil {
		return nil, fmt.Errorf("opening the search segment: %w", err)
	}
	return ready, nil
}

// Documents is how many documents the index holds.
func (x *Index) Documents() int { return x.first[len(x.segments)] }

// Close frees what the index holds. Neither it nor its readers may be used after it.
func (x *Index) Close() error {
	var wrong []error
	for _, s := range x.segments {
		wrong = append(wrong, s.Close())
	}
	return errors.Join(wrong...)
}
