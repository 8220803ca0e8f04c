// Package segment makes one search segment out of analysed documents, the same
// bytes every time, and opens such a segment from memory.
//
// A segment is what bleve keeps its postings in (zap format 17). bleve's own
// way to a segment numbers the documents and writes parts of each field in the
// order of a Go map, so two builds of the same manual differ in bytes and, in
// the last bit, in scores. [Build] hands the documents over already numbered,
// then puts the one remaining unordered part, the field table, in order.
//
// [Open] and [Reader] read such segments through bleve's segment interface, several of them as one index. A browser reads the very segment that
// was built at publishing time and indexes nothing itself. Of bleve's index itself (scorch) nothing is linked: it keeps its segments in a
// database on disk, which no browser has. It opens the same bytes all the same: a test lets it.
package segment

import (
	"encoding/binary"
	"errors"
	"fmt"
	"iter"

	index "github.com/blevesearch/bleve_index_api"
	zap "github.com/blevesearch/zapx/v17"
)

// Errors of [Open] for bytes that are not a whole segment of this format.
var (
	ErrDamaged = errors.New("the search segment is damaged: its checksum does not match")
	ErrVersion = errors.New("the search segment is of another version")
)

// Field is one analysed field of a document. Length is the number of words in
// it, which need not be what the terms' counts add up to. Terms gives each term
// and how often it stands there, in any order; Distinct is how many terms there
// are, and may be left 0.
type Field struct {
	Name             string
	Length, Distinct int
	Terms            iter.Seq2[string, int]
}

// Build makes the segment of n documents; document number i has the fields that
// at(i) returns. at is called several times for each document and must give the
// same answer. A field name may come once per document.
func Build(n int, at func(i int) []Field) ([]byte, error) {
	documents := make([]index.Document, n)
	for i := range documents {
		documents[i] = &analysed{number: i, at: at}
	}
	out, err := write(documents)
	if err != nil {
		return nil, fmt.Errorf("building the search segment: %w", err)
	}
	return out, canonical(out)
}

// write has zap make the segment.
func write(documents []index.Document) ([]byte, error) {
	made, _, err := new(zap.ZapPlugin).NewUsing(documents, nil)
	if err != nil {
		return nil, err
	}
	base, ok := made.(*zap.SegmentBase)
	if !ok {
		return nil, fmt.Errorf("unexpected kind of segment %T", made)
	}
	out := make(buffer, 0, base.Size())
	_, err = base.WriteTo(&out)
	return out, err
}

type buffer []byte

func (b *buffer) Write(p []byte) (int, error) {
	*b = append(*b, p...)
	return len(p), nil
}

// footer is the fixed tail of a segment, as bleve writes it.
type footer struct {
	documents, stored, sections uint64
	writer                      uint32 // length of the name of a transformation; we use none
	chunkMode, version, crc     uint32
}

func readFooter(b []byte) (f footer, body []byte, err error) {
	if len(b) < zap.FooterSize {
		return f, nil, fmt.Errorf("%w: only %d bytes", ErrDamaged, len(b))
	}
	tail := b[len(b)-zap.FooterSize:]
	f.writer = binary.BigEndian.Uint32(tail)
	f.documents = binary.BigEndian.Uint64(tail[4:])
	f.stored = binary.BigEndian.Uint64(tail[12:])
	f.sections = binary.BigEndian.Uint64(tail[20:])
	f.chunkMode = binary.BigEndian.Uint32(tail[28:])
	f.version = binary.BigEndian.Uint32(tail[32:])
	f.crc = binary.BigEndian.Uint32(tail[36:])
	return f, b[:len(b)-zap.FooterSize], nil
}
