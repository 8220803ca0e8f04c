package edition

import (
	"bytes"
	"io"
	"math/bits"
	"path"
	"regexp"
	"strings"
	"sync"

	"github.com/andybalholm/brotli"
	"github.com/klauspost/compress/gzip"

	"tankside/builder/workers"
)

// Below this size a compressed neighbour saves less than a packet.
const smallest = 860

func compressible(name string, size int) bool {
	switch path.Ext(name) {
	case ".html", ".css", ".js", ".json", ".svg", ".txt", ".webmanifest":
		return size >= smallest
	}
	return false
}

// How a file is compressed; noBrotli leaves that neighbour out.
type levels struct{ gzip, brotli int }

const (
	noBrotli   = -1
	largeAsset = 128 << 10 // bytes
)

// levelsOf weighs the time a file takes against what its readers gain.
func levelsOf(name string, data []byte) levels {
	asset := strings.HasPrefix(name, "assets/")
	switch {
	case !asset: // Pages are many and written anew with every edition. At a quick level brotli is no smaller on them than gzip.
		return levels{5, noBrotli}
	case isParcel(name, data): // Packed already and written in letters. There is nothing to be found in it but the letters.
		return levels{gzip.HuffmanOnly, 1}
	case len(data) >= largeAsset:
		return levels{6, 5}
	}
	return levels{gzip.BestCompression, brotli.BestCompression} // few, and sent to every reader
}

// parcelBegins is how a script begins that does nothing but hand over what is in it, packed by gzip (RFC 1952: 1f 8b 08) and written in base64: see package page.
var parcelBegins = regexp.MustCompile(`^tankside\.parcel\("[^"]{1,80}","H4sI`)

func isParcel(name string, data []byte) bool {
	return path.Ext(name) == ".js" && parcelBegins.Match(data)
}

var pageGzips = sync.Pool{New: func() any { z, _ := gzip.NewWriterLevel(nil, levelsOf("", nil).gzip); return z }}

type neighbours struct {
	gz, br []byte
	err    error
}

// smallAsset packs an asset at its best, and remembers what came of it: scripts and style sheets are the same in every edition of one program, and take a second
// all together.
var smallAsset = workers.Remember(512, func(data string) neighbours { // of at most largeAsset each
	gz, br, err := compress(levels{gzip.BestCompression, brotli.BestCompression}, []byte(data))
	return neighbours{gz, br, err}
})

// compressed gives a file's compressed neighbours; br is nil where it has none.
func compressed(name string, data []byte) (gz, br []byte, err error) {
	l := levelsOf(name, data)
	if l.brotli != brotli.BestCompression {
		return compress(l, data)
	}
	n := smallAsset(string(data))
	return n.gz, n.br, n.err
}

// compress compresses at given levels.
func compress(l levels, data []byte) (gz, br []byte, err error) {
	var g bytes.Buffer
	g.Grow(len(data) / 3) // enough for most
	if l.brotli == noBrotli {
		z := pageGzips.Get().(*gzip.Writer)
		defer pageGzips.Put(z)
		z.Reset(&g)
		err = pack(z, data)
		return g.Bytes(), nil, err
	}
	z, err := gzip.NewWriterLevel(&g, l.gzip)
	if err != nil {
		return nil, nil, err
	}
	if err := pack(z, data); err != nil {
		return nil, nil, err
	}
	var b bytes.Buffer
	err = pack(brotli.NewWriterOptions(&b, brotli.WriterOptions{Quality: l.brotli, LGWin: window(len(data))}), data)
	return g.Bytes(), b.Bytes(), err
}

// window is the logarithm of the window in which brotli looks back, by RFC 7932, section 9.1: as large as the file needs, up to what a browser
// may be asked to keep. The library's own choice is the largest, for which it clears 32 MiB of memory however small the file is.
func window(size int) int { return min(max(bits.Len(uint(size+15)), 10), 22) }

func pack(z io.WriteCloser, data []byte) error {
	if _, err := z.Write(data); err != nil {
		return err
	}
	return z.Close()
}
