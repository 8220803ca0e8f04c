package content

import (
	"encoding/binary"
	"errors"
	"fmt"
	"io"

	"github.com/klauspost/compress/zstd"
)

// Files of an edition that hold its content, so that an edition can be compared with another without the manual: see [Pack]. They are read by this
// program alone. Each is some files of the manual, packed with Zstandard (RFC 8878).

// Extension is that of the files.
const Extension = ".zst"

// What one file may unpack to. An edition may be anybody's: a few hundred bytes can stand for a million files without a name.
const (
	largestPack = 256 << 20 // bytes
	mostDocs    = 100_000   // as many as a manual may have files
	mostParts   = 4_000_000 // of all files
)

// Pack writes files with their parts.
func Pack(docs []Doc) ([]byte, error) {
	var b []byte
	put := func(text string) {
		b = binary.AppendUvarint(b, uint64(len(text)))
		b = append(b, text...)
	}
	for _, d := range docs {
		put(d.Path)
		parts := d.Parts()
		n := uint64(len(parts)) << 1
		if d.Ordered {
			n |= 1
		}
		b = binary.AppendUvarint(b, n)
		for _, p := range parts {
			put(p.Name)
			put(p.Text)
		}
	}
	// One goroutine, so that the same texts give the same bytes.
	z, err := zstd.NewWriter(nil, zstd.WithEncoderConcurrency(1), zstd.WithEncoderLevel(zstd.SpeedBetterCompression))
	if err != nil {
		return nil, err
	}
	packed := z.EncodeAll(b, nil)
	return packed, z.Close()
}

// errDamaged says that a file is not one that Pack has written.
var errDamaged = errors.New("the content of the edition cannot be read: the file is damaged")

// Unpack reads what Pack has written.
func Unpack(packed []byte) ([]Doc, error) {
	z, err := zstd.NewReader(nil, zstd.WithDecoderConcurrency(1), zstd.WithDecoderMaxMemory(largestPack))
	if err != nil {
		return nil, err
	}
	defer z.Close()
	b, err := z.DecodeAll(packed, nil)
	if err != nil {
		return nil, fmt.Errorf("%w: %w", errDamaged, err)
	}
	r := reader{rest: string(b)}
	var docs []Doc
	left := uint64(mostParts)
	for len(r.rest) > 0 && r.err == nil {
		path := r.text()
		n := r.number()
		if path == "" || n>>1 > min(left, uint64(len(r.rest))) || len(docs) == mostDocs {
			return nil, errDamaged
		}
		left -= n >> 1
		parts := make([]Part, n>>1)
		for i := range parts {
			parts[i].Name = r.text()
			parts[i].Text = r.text()
		}
		docs = append(docs, DocOf(path, n&1 == 1, parts))
	}
	return docs, r.err
}

type reader struct {
	rest string
	err  error
}

func (r *reader) number() uint64 {
	var n uint64
	for shift := 0; ; shift += 7 {
		if len(r.rest) == 0 || shift > 63 {
			r.rest, r.err = "", fmt.Errorf("%w: %w", errDamaged, io.ErrUnexpectedEOF)
			return 0
		}
		c := r.rest[0]
		r.rest = r.rest[1:]
		n |= uint64(c&0x7f) << shift
		if c < 0x80 {
			return n
		}
	}
}

func (r *reader) text() string {
	n := r.number()
	if n > uint64(len(r.rest)) {
		r.rest, r.err = "", fmt.Errorf("%w: %w", errDamaged, io.ErrUnexpectedEOF)
		return ""
	}
	text := r.rest[:n]
	r.rest = r.rest[n:]
	return text
}

// Delta is what has to be kept of an older content where a newer one is at hand: the files that it has otherwise, and the paths of the newer that it
// has not, each as a file without parts.
func Delta(older, newer *Content) []Doc {
	var list []Doc
	for _, d := range older.docs {
		if n, is := newer.At(d.Path); !is || n.Sum != d.Sum {
			list = append(list, d)
		}
	}
	for _, n := range newer.docs {
		if _, is := older.At(n.Path); !is {
			list = append(list, DocOf(n.Path, false, nil))
		}
	}
	return list
}

// Undo gives the older content of a Delta and the newer one.
func Undo(delta []Doc, newer *Content) *Content {
	changed := make(map[string]Doc, len(delta))
	for _, d := range delta {
		changed[d.Path] = d
	}
	var docs []Doc
	for _, d := range newer.docs {
		if _, otherwise := changed[d.Path]; !otherwise {
			docs = append(docs, d)
		}
	}
	for _, d := range delta {
		if d.Ordered || len(d.Parts()) > 0 {
			docs = append(docs, d)
		}
	}
	return New(docs)
}
