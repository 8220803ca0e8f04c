package picture

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"image"
	imagepng "image/png"
	"io"
)

const signaturePNG = "\x89PNG\r\n\x1a\n"

// keptChunks are the chunks of a PNG file that decoding needs, with the length that those of a fixed length have. All others go: text,
// time, Exif, profile, suggested palettes, sizes on paper, private chunks.
//
// Source: Portable Network Graphics (W3C Recommendation, third edition, 2025), 11.2 and 11.3; the second edition (2003) has all but cICP.
var keptChunks = map[string]int{"IHDR": 13, "PLTE": -1, "tRNS": -1, "IDAT": -1, "IEND": 0, "cICP": 4, "gAMA": 4, "cHRM": 32, "sRGB": 1}

// colourChunks say which colours the values of a PNG mean: numbers only, passed on even with a picture that is encoded again.
var colourChunks = []string{"cICP", "gAMA", "cHRM", "sRGB"}

// maxProfile is the largest colour profile that is looked at; those of cameras and screens have up to some 100 kB.
const maxProfile = 1 << 20

// pngReader takes a PNG file apart into what decoding needs and the rest.
type pngReader struct {
	r      *raster
	header []byte
	chunks map[string][]byte // of the others that are kept, the first of each
	pixels bytes.Buffer      // the content of all IDAT chunks
	closed bool              // another chunk has followed the IDAT chunks
}

func scanPNG(data []byte) (*raster, *Problem) {
	p, problem := readPNG(data)
	if problem != nil {
		return nil, problem
	}
	return p.r, nil
}

func readPNG(data []byte) (*pngReader, *Problem) {
	p := &pngReader{r: &raster{turn: 1, ext: ".png"}, chunks: make(map[string][]byte)}
	rest := data[len(signaturePNG):]
	for {
		if len(rest) < 12 {
			return nil, brokenOff("the chunk of its end is missing")
		}
		n, name := binary.BigEndian.Uint32(rest), string(rest[4:8])
		if uint64(n)+12 > uint64(len(rest)) {
			return nil, brokenOff("a chunk is longer than the rest of the file")
		}
		body, sum := rest[8:8+n], binary.BigEndian.Uint32(rest[8+n:])
		length, kept := keptChunks[name]
		if kept && sum != crc32.ChecksumIEEE(rest[4:8+n]) {
			return nil, damaged("the checksum of a chunk is wrong")
		}
		if kept && length >= 0 && length != len(body) {
			return nil, damaged("the chunk " + name + " has a wrong length")
		}
		if (p.header == nil) != (name == "IHDR") {
			return nil, damaged("its header is missing or comes twice")
		}
		if problem := p.chunk(name, body, kept); problem != nil {
			return nil, problem
		}
		if name == "IEND" {
			break
		}
		rest = rest[12+n:]
	}
	if p.pixels.Len() == 0 {
		return nil, damaged("it has no picture data")
	}
	if _, overruled := p.chunks["cICP"]; overruled { // PNG third edition, 4.3: cICP before iCCP before the others
		p.r.profile = nil
	} else if p.r.profile != nil {
		for _, name := range colourChunks {
			delete(p.chunks, name)
		}
	}
	for _, name := range colourChunks {
		if body, has := p.chunks[name]; has {
			p.r.colours = appendChunk(p.r.colours, name, body)
		}
	}
	p.r.load = p.load
	return p, nil
}

// chunk takes one chunk.
func (p *pngReader) chunk(name string, body []byte, kept bool) *Problem {
	switch name {
	case "IHDR":
		p.header = body
		return p.readHeader()
	case "IDAT":
		if p.closed {
			return damaged("its picture data is in several places")
		}
		p.pixels.Write(body)
		return nil
	case "acTL":
		p.r.moving = p.r.moving || len(body) == 8 && binary.BigEndian.Uint32(body) > 1
	case "eXIf":
		p.r.turn = orientation(body)
	case "iCCP":
		p.r.profile = inflateProfile(body)
	case "IEND":
		return nil
	}
	p.closed = p.pixels.Len() > 0
	if _, twice := p.chunks[name]; kept && !twice {
		p.chunks[name] = body
	}
	return nil
}

// readHeader reads the size of the picture. Source: PNG third edition, 11.2.1.
func (p *pngReader) readHeader() *Problem {
	w, h := binary.BigEndian.Uint32(p.header), binary.BigEndian.Uint32(p.header[4:])
	if w == 0 || h == 0 || w > 1<<31-1 || h > 1<<31-1 {
		return damaged(fmt.Sprintf("it says that it has %d × %d pixels", w, h))
	}
	depth, colour := p.header[8], p.header[9]
	if p.r.bytesEach = 4; depth == 16 {
		p.r.bytesEach = 8
	}
	p.r.width, p.r.height = int(w), int(h)
	p.r.grey = colour == 0 || colour == 4
	return nil
}

// inflateProfile gives the colour profile of an iCCP chunk, nil for one that cannot be read, which browsers leave aside as well.
// Source: PNG third edition, 11.3.2.3: name, zero byte, compression method 0, zlib stream.
func inflateProfile(body []byte) []byte {
	i := bytes.IndexByte(body, 0)
	if i < 0 || i+2 > len(body) || body[i+1] != 0 {
		return nil
	}
	z, err := zlib.NewReader(bytes.NewReader(body[i+2:]))
	if err != nil {
		return nil
	}
	icc, err := io.ReadAll(io.LimitReader(z, maxProfile))
	if err != nil {
		return nil
	}
	return icc
}

// load decodes the picture, which finds whether its pixels are complete. The plain file is cut off behind them in the IDAT chunks.
func (p *pngReader) load() (image.Image, func() ([]byte, error), error) {
	img, err := imagepng.Decode(bytes.NewReader(p.file(p.pixels.Bytes())))
	return img, p.plain, err
}

// plain is the file with its pixels and nothing that follows them.
func (p *pngReader) plain() ([]byte, error) {
	used, err := streamLength(p.pixels.Bytes())
	if err != nil {
		return nil, err
	}
	return p.file(p.pixels.Bytes()[:used]), nil
}

// file writes the file anew from the chunks that are kept.
func (p *pngReader) file(pixels []byte) []byte {
	to := make([]byte, 0, len(pixels)+2048)
	to = appendChunk(append(to, signaturePNG...), "IHDR", p.header)
	to = append(to, p.r.colours...)
	palette := p.header[9] == 3 // a palette of another sort of picture is a suggestion only
	for _, name := range []string{"PLTE", "tRNS"} {
		if body, has := p.chunks[name]; has && (palette || name == "tRNS") {
			to = appendChunk(to, name, body)
		}
	}
	return appendChunk(appendChunk(to, "IDAT", pixels), "IEND", nil)
}

// streamLength is how many bytes the zlib stream at the start of data takes.
func streamLength(data []byte) (int, error) {
	r := bytes.NewReader(data) // a ByteReader, of which zlib reads no byte too many
	z, err := zlib.NewReader(r)
	if err != nil {
		return 0, err
	}
	if _, err := io.Copy(io.Discard, z); err != nil {
		return 0, err
	}
	return len(data) - r.Len(), nil
}

// appendChunk adds a chunk with its length and checksum.
func appendChunk(to []byte, name string, body []byte) []byte {
	to = binary.BigEndian.AppendUint32(to, uint32(len(body)))
	start := len(to)
	to = append(append(to, name...), body...)
	return binary.BigEndian.AppendUint32(to, crc32.ChecksumIEEE(to[start:]))
}
