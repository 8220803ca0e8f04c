package picture_test

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/gif"
	_ "image/jpeg" // decoded in the tests
	"os"
	"path/filepath"
	"testing"

	_ "golang.org/x/image/webp"

	"tankside/builder/picture"
)

func photograph(tb testing.TB, name string) []byte {
	tb.Helper()
	data, err := os.ReadFile(filepath.Join("testdata", "photographs", name))
	if err != nil {
		tb.Fatal(err)
	}
	return data
}

func prepare(tb testing.TB, name string, data []byte) picture.Picture {
	tb.Helper()
	p, err := picture.Prepare(name, data)
	if err != nil {
		tb.Fatalf("%s: %v", name, err)
	}
	if problems := picture.Check(name, data); len(problems) > 0 {
		tb.Fatalf("%s: prepared, but checked as %v", name, problems[0])
	}
	return p
}

func decode(tb testing.TB, data []byte) image.Image {
	tb.Helper()
	m, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		tb.Fatal(err)
	}
	return m
}

func asGIF(tb testing.TB, frames ...*image.Paletted) []byte {
	tb.Helper()
	var b bytes.Buffer
	if err := gif.EncodeAll(&b, &gif.GIF{Image: frames, Delay: make([]int, len(frames))}); err != nil {
		tb.Fatal(err)
	}
	return b.Bytes()
}

// segment is a JPEG segment. Source: ITU-T T.81, B.1.1.4.
func segment(mark byte, body string) []byte {
	return append([]byte{0xFF, mark, byte((len(body) + 2) >> 8), byte(len(body) + 2)}, body...)
}

// afterStart puts segments behind the start of a JPEG file.
func afterStart(jpeg []byte, segments ...[]byte) []byte {
	all := append([]byte(nil), jpeg[:2]...)
	for _, s := range segments {
		all = append(all, s...)
	}
	return append(all, jpeg[2:]...)
}

// chunk is a PNG chunk. Source: PNG third edition, 5.3.
func chunk(name, body string) []byte {
	c := binary.BigEndian.AppendUint32(nil, uint32(len(body)))
	c = append(c, name+body...)
	return binary.BigEndian.AppendUint32(c, crc32.ChecksumIEEE(c[4:]))
}

// afterHeader puts chunks behind the header of a PNG file, which takes 33 bytes.
func afterHeader(png []byte, chunks ...[]byte) []byte {
	all := append([]byte(nil), png[:33]...)
	for _, c := range chunks {
		all = append(all, c...)
	}
	return append(all, png[33:]...)
}

// riff adds chunks to a WebP file. Source: RFC 9649, 2.3.
func riff(webp []byte, name, body string) []byte {
	all := append([]byte(nil), webp...)
	all = binary.LittleEndian.AppendUint32(append(all, name...), uint32(len(body)))
	all = append(all, body...)
	if len(body)%2 == 1 {
		all = append(all, 0)
	}
	binary.LittleEndian.PutUint32(all[4:], uint32(len(all)-8))
	return all
}

// exif is an Exif block with an orientation, a place and a name. Source: TIFF 6.0, section 2; Exif 2.32, 4.6.4 and 4.6.6.
func exif(order binary.AppendByteOrder, orientation uint16) string {
	mark := "II"
	if order.AppendUint16(nil, 1)[0] == 0 {
		mark = "MM"
	}
	const ascii, short, long, rational = 2, 3, 4, 5
	b := order.AppendUint32(order.AppendUint16([]byte(mark), 42), 8)
	entry := func(tag, kind uint16, count, value uint32) {
		b = order.AppendUint32(order.AppendUint16(order.AppendUint16(b, tag), kind), count)
		if kind == short {
			b = order.AppendUint16(order.AppendUint16(b, uint16(value)), 0)
			return
		}
		b = order.AppendUint32(b, value)
	}
	const ifd0, gps = 8 + 2 + 3*12 + 4, 2 + 2*12 + 4
	b = order.AppendUint16(b, 3)
	entry(0x0112, short, 1, uint32(orientation))
	entry(0x013B, ascii, 14, ifd0+gps+24) // Artist
	entry(0x8825, long, 1, ifd0)          // GPS IFD
	b = order.AppendUint32(b, 0)
	b = order.AppendUint16(b, 2)
	entry(0x0001, ascii, 2, uint32(order.AppendUint32(nil, 'N')[0])) // GPSLatitudeRef
	entry(0x0002, rational, 3, ifd0+gps)                             // GPSLatitude
	b = order.AppendUint32(b, 0)
	for _, v := range []uint32{51, 1, 30, 1, 3230, 100} {
		b = order.AppendUint32(b, v)
	}
	return string(append(b, "SECRET-PERSON\x00"...))
}

// near tells whether two colours differ by no more than that in each of 255 steps, transparency included.
func near(a, b color.Color, most int) bool {
	p, q := color.NRGBAModel.Convert(a).(color.NRGBA), color.NRGBAModel.Convert(b).(color.NRGBA)
	far := func(v, w uint8) bool { return max(int(v)-int(w), int(w)-int(v)) > most }
	return !far(p.R, q.R) && !far(p.G, q.G) && !far(p.B, q.B) && !far(p.A, q.A)
}

// same tells whether two pictures have the same pixels.
func same(a, b image.Image) bool {
	if a.Bounds().Size() != b.Bounds().Size() {
		return false
	}
	for y := range a.Bounds().Dy() {
		for x := range a.Bounds().Dx() {
			r1, g1, b1, a1 := a.At(a.Bounds().Min.X+x, a.Bounds().Min.Y+y).RGBA()
			r2, g2, b2, a2 := b.At(b.Bounds().Min.X+x, b.Bounds().Min.Y+y).RGBA()
			if r1 != r2 || g1 != g2 || b1 != b2 || a1 != a2 {
				return false
			}
		}
	}
	return true
}
