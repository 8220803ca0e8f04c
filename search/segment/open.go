package segment

import (
	"errors"
	"fmt"
	"hash/crc32"

	"github.com/blevesearch/bleve/v2/document"
	"github.com/blevesearch/bleve/v2/index/scorch"
	index "github.com/blevesearch/bleve_index_api"
	bleve "github.com/blevesearch/scorch_segment_api/v2"
	zap "github.com/blevesearch/zapx/v17"
)

// Index is an opened segment, ready for bleve's searchers. It is safe for use
// by several goroutines.
type Index struct {
	index.IndexReader
	scorch index.Index
	queue  *index.AnalysisQueue
}

// Open checks the segments' checksums and versions and opens them as one index, in which the documents of each follow those of the one before.
// The bytes are kept and read from as long as the index is in use; they must not be changed.
func Open(segments ...[]byte) (*Index, error) {
	ready := make([]bleve.Segment, len(segments))
	for i, b := range segments {
		var err error
		if ready[i], err = read(b); err != nil {
			return nil, err
		}
	}
	return adopt(ready)
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

// adopt starts scorch in memory and lets it take each ready segment for the one
// it wants to make of a single empty document.
func adopt(ready []bleve.Segment) (*Index, error) {
	next := &queued{ready}
	queue := index.NewAnalysisQueue(1)
	kept, err := scorch.NewScorch(scorch.Name, map[string]any{
		"path":                "",
		"forceSegmentType":    adoption{}.Type(),
		"forceSegmentVersion": int(adoption{}.Version()),
		"segmentConfig":       map[string]any{readyKey: next},
	}, queue)
	if err != nil {
		queue.Close()
		return nil, fmt.Errorf("opening the search segment: %w", err)
	}
	opened := &Index{scorch: kept, queue: queue}
	if err := opened.start(len(ready)); err != nil {
		return nil, errors.Join(fmt.Errorf("opening the search segment: %w", err), opened.Close())
	}
	return opened, nil
}

func (x *Index) start(segments int) error {
	if err := x.scorch.Open(); err != nil {
		return err
	}
	for range segments {
		batch := index.NewBatch()
		batch.Update(document.NewDocument("adopted"))
		if err := x.scorch.Batch(batch); err != nil {
			return err
		}
	}
	reader, err := x.scorch.Reader()
	if err != nil {
		return err
	}
	x.IndexReader = reader
	return nil
}

// Close ends the index's goroutines. The index must not be used after it.
func (x *Index) Close() error {
	var reader error
	if x.IndexReader != nil {
		reader = x.IndexReader.Close()
	}
	err := errors.Join(reader, x.scorch.Close())
	x.queue.Close()
	return err
}

// queued are the segments that are still to be adopted.
type queued struct{ segments []bleve.Segment }

// adoption is the segment plug-in that answers with the ready segments, one after another. All else
// it leaves to the format itself.
type adoption struct{ zap.ZapPlugin }

const readyKey = "tankside.ready"

func init() { scorch.RegisterSegmentPlugin(&adoption{}, false) }

func (adoption) Type() string    { return "tankside" }
func (adoption) Version() uint32 { return zap.Version }

func (*adoption) NewUsing(_ []index.Document, config map[string]any) (bleve.Segment, uint64, error) {
	next, ok := config[readyKey].(*queued)
	if !ok || len(next.segments) == 0 {
		return nil, 0, errors.New("no ready segment to adopt")
	}
	ready := next.segments[0]
	next.segments = next.segments[1:]
	return ready, 0, nil
}
