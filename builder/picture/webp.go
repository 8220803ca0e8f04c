package picture

import (
	"bytes"
	"encoding/binary"
	"image"

	imagewebp "golang.org/x/image/webp"
)

// webpReader takes a WebP file apart into what decoding needs and the rest.
type webpReader struct {
	r      *raster
	canvas [2]int // of the extended header
	alpha  []byte // the chunk ALPH
	name   string // of the chunk with the picture: "VP8 " or "VP8L"
	pixels []byte
}

// scanWebP goes through the chunks of a WebP file. Source: WebP Image Format, RFC 9649 (2024), 2.3 to 2.7.
func scanWebP(data []byte) (*raster, *Problem) {
	if uint64(binary.LittleEndian.Uint32(data[4:]))+8 > uint64(len(data)) || !bytes.HasPrefix(data, []byte("RIFF")) {
		return nil, brokenOff("it is shorter than it says")
	}
	w := webpReader{r: &raster{turn: 1, ext: ".webp"}}
	rest := data[12 : 8+max(4, binary.LittleEndian.Uint32(data[4:]))]
	for len(rest) > 0 {
		if len(rest) < 8 {
			return nil, brokenOff("a chunk has no length")
		}
		name, n := string(rest[:4]), uint64(binary.LittleEndian.Uint32(rest[4:]))
		if n > uint64(len(rest)-8) {
			return nil, brokenOff("a chunk is longer than the rest of the file")
		}
		if problem := w.chunk(name, rest[8:8+n]); problem != nil {
			return nil, problem
		}
		rest = rest[min(8+n+n&1, uint64(len(rest))):]
	}
	switch {
	case w.r.moving:
		w.r.width, w.r.height = w.canvas[0], w.canvas[1]
		return w.r, nil
	case w.pixels == nil:
		return nil, damaged("it has no picture data")
	case w.canvas != [2]int{} && w.canvas != [2]int{w.r.width, w.r.height}:
		return nil, damaged("it says two different sizes")
	case w.name == "VP8L":
		w.alpha = nil // its own pixels have transparency
	}
	w.r.photo = w.name == "VP8 " && w.alpha == nil
	w.r.studio = w.name == "VP8 "
	w.r.load = w.load
	return w.r, nil
}

// chunk takes one chunk.
func (w *webpReader) chunk(name string, body []byte) *Problem {
	const animated = 1 << 1
	switch name {
	case "VP8X":
		if len(body) != 10 {
			return damaged("its header has a wrong length")
		}
		w.r.moving = w.r.moving || body[0]&animated != 0
		w.canvas = [2]int{1 + uint24(body[4:]), 1 + uint24(body[7:])}
	case "ANIM", "ANMF":
		w.r.moving = true
	case "ALPH":
		if w.alpha == nil {
			w.alpha = body
		}
	case "ICCP":
		w.r.profile = body
	case "EXIF":
		// Some programs write the JPEG prefix as well.
		w.r.turn = orientation(bytes.TrimPrefix(body, []byte("Exif\x00\x00")))
	case "VP8 ", "VP8L":
		if w.pixels == nil {
			w.name, w.pixels = name, body
			return w.readSize()
		}
	}
	return nil
}

// readSize reads the size of the picture.
//
// Sources: RFC 6386 (VP8), 9.1: three bytes of frame tag, start code 9D 01 2A, 14 bits each, little-endian; RFC 9649, 3.4: signature
// byte 2F, 14 bits each, one less than the size.
func (w *webpReader) readSize() *Problem {
	b := w.pixels
	switch {
	case w.name == "VP8 " && len(b) >= 10 && b[0]&1 == 0 && string(b[3:6]) == "\x9d\x01\x2a":
		w.r.width, w.r.height = int(binary.LittleEndian.Uint16(b[6:])&0x3FFF), int(binary.LittleEndian.Uint16(b[8:])&0x3FFF)
		w.r.bytesEach = 2
		if w.alpha != nil {
			w.r.bytesEach += 8
		}
	case w.name == "VP8L" && len(b) >= 5 && b[0] == 0x2F:
		bits := binary.LittleEndian.Uint32(b[1:])
		w.r.width, w.r.height = 1+int(bits&0x3FFF), 1+int(bits>>14&0x3FFF)
		w.r.bytesEach = 8
	}
	if w.r.width == 0 || w.r.height == 0 {
		return damaged("the header of its picture data cannot be read")
	}
	return nil
}

func (w *webpReader) load() (image.Image, func() ([]byte, error), error) {
	plain := []byte("RIFF\x00\x00\x00\x00WEBP")
	if w.alpha != nil {
		const hasAlpha = 1 << 4
		x := make([]byte, 10)
		x[0] = hasAlpha
		putUint24(x[4:], w.r.width-1)
		putUint24(x[7:], w.r.height-1)
		plain = appendRIFF(appendRIFF(plain, "VP8X", x), "ALPH", w.alpha)
	}
	plain = appendRIFF(plain, w.name, w.pixels)
	binary.LittleEndian.PutUint32(plain[4:], uint32(len(plain)-8))
	img, err := imagewebp.Decode(bytes.NewReader(plain))
	return img, asItIs(plain), err
}

// appendRIFF adds a chunk with its length, padded to an even one.
func appendRIFF(to []byte, name string, body []byte) []byte {
	to = binary.LittleEndian.AppendUint32(append(to, name...), uint32(len(body)))
	to = append(to, body...)
	if len(body)%2 == 1 {
		to = append(to, 0)
	}
	return to
}

func uint24(b []byte) int { return int(b[0]) | int(b[1])<<8 | int(b[2])<<16 }

func putUint24(b []byte, v int) { b[0], b[1], b[2] = byte(v), byte(v>>8), byte(v>>16) }
