// Package zap stands in for the segment formats 11 to 16 in the browser build.
//
// scorch registers a plug-in for each format bleve has ever written. The
// manual's segment is format 17, so the older ones are 2 MB that nobody
// reads. Format 11 holds the code, the others take their plug-in from it; all
// register under a name of their own and answer with [ErrAbsent].
package zap

import (
	"errors"

	"github.com/RoaringBitmap/roaring/v2"
	index "github.com/blevesearch/bleve_index_api"
	segment "github.com/blevesearch/scorch_segment_api/v2"
)

// ErrAbsent is the answer of every method that would read or write.
var ErrAbsent = errors.New("older segment formats are not in the browser build")

// ZapPlugin satisfies scorch's segment plug-in.
type ZapPlugin struct{}

func (*ZapPlugin) Type() string    { return "absent" }
func (*ZapPlugin) Version() uint32 { return 0 }

func (*ZapPlugin) New([]index.Document) (segment.Segment, uint64, error) {
	return nil, 0, ErrAbsent
}

func (*ZapPlugin) NewUsing([]index.Document, map[string]any) (segment.Segment, uint64, error) {
	return nil, 0, ErrAbsent
}

func (*ZapPlugin) Open(string) (segment.Segment, error) { return nil, ErrAbsent }

func (*ZapPlugin) OpenUsing(string, map[string]any) (segment.Segment, error) {
	return nil, ErrAbsent
}

func (*ZapPlugin) Merge([]segment.Segment, []*roaring.Bitmap, string, chan struct{},
	segment.StatsReporter) ([][]uint64, uint64, error) {
	return nil, 0, ErrAbsent
}

func (*ZapPlugin) MergeUsing([]segment.Segment, []*roaring.Bitmap, string, chan struct{},
	segment.StatsReporter, map[string]any) ([][]uint64, uint64, error) {
	return nil, 0, ErrAbsent
}
