package picture_test

import (
	"bytes"
	"encoding/binary"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// telling is what no edition may hold: names of metadata blocks, and the secrets of the test pictures, among them the place as the
// numbers of Exif 2.32, 4.6.6 (51° 30′ 32.30″) in both byte orders.
var telling = []string{
	"Exif", "EXIF", "eXIf", "http:", "xmpmeta", "XMP", "Photoshop", "8BIM", "ICC_PROFILE", "iCCP", "ICCP", "acsp", "MPF\x00", "JFXX", "tEXt", "zTXt", "iTXt", "tIME",
	"pHYs", "sPLT", "SECRET", "GPS",
	"\x33\x00\x00\x00\x01\x00\x00\x00\x1e\x00\x00\x00\x01\x00\x00\x00", "\x00\x00\x00\x33\x00\x00\x00\x01\x00\x00\x00\x1e\x00\x00\x00\x01",
}

var (
	partsOfPNG  = regexp.MustCompile(`^(IHDR )((cICP|gAMA|cHRM|sRGB) )*(PLTE )?(tRNS )?IDAT IEND $`)
	partsOfWebP = regexp.MustCompile(`^(VP8  |VP8L |VP8X ALPH VP8  )$`)
	partsOfJPEG = regexp.MustCompile(`^(e0 )?(ee )?((db|c4|dd|c0|c1|c2|da) )+$`)
)

// told gives what a file tells. Three letters can come up in picture data by chance, and are looked for in small files only.
func told(data []byte) (list []string) {
	for _, t := range telling {
		if (len(t) > 3 || len(data) < 5000) && bytes.Contains(data, []byte(t)) {
			list = append(list, t)
		}
	}
	return list
}

// leftovers scans a file that has been made ready, independently of the package, for anything but the picture.
func leftovers(ext string, data []byte) []string { return append(told(data), parts(ext, data)...) }

// parts goes through the parts of a file that has been made ready, and gives what does not belong.
func parts(ext string, data []byte) (list []string) {
	var names strings.Builder
	allowed := partsOfPNG
	switch ext {
	case ".png":
		at := 8
		for at+12 <= len(data) {
			n := int(binary.BigEndian.Uint32(data[at:]))
			names.Write(data[at+4 : at+8])
			names.WriteByte(' ')
			at += 12 + n
		}
		if at != len(data) {
			list = append(list, "bytes after the end")
		}
	case ".webp":
		allowed = partsOfWebP
		at := 12
		for at+8 <= len(data) {
			n := int(binary.LittleEndian.Uint32(data[at+4:]))
			names.Write(data[at : at+4])
			names.WriteByte(' ')
			at += 8 + n + n&1
		}
		if at != len(data) || int(binary.LittleEndian.Uint32(data[4:]))+8 != at {
			list = append(list, "bytes after the end")
		}
	case ".jpg":
		allowed = partsOfJPEG
		at := 2
		for data[at+1] != 0xd9 {
			mark, n := data[at+1], int(data[at+2])<<8|int(data[at+3])
			names.WriteString(string("0123456789abcdef"[mark>>4]) + string("0123456789abcdef"[mark&15]) + " ")
			switch {
			case mark == 0xe0 && string(data[at+4:at+2+n]) != "JFIF\x00\x01\x01\x00\x00\x01\x00\x01\x00\x00":
				list = append(list, "a JFIF segment with more than it needs")
			case mark == 0xee && n != 14:
				list = append(list, "an Adobe segment with more than it needs")
			}
			at += 2 + n
			if mark == 0xda {
				for data[at] != 0xff || data[at+1] == 0 || data[at+1]&0xf8 == 0xd0 {
					at++
				}
			}
		}
		if at+2 != len(data) {
			list = append(list, "bytes after the end")
		}
	}
	if !allowed.MatchString(names.String()) {
		list = append(list, "parts "+names.String())
	}
	return list
}

// TestNothingTold: no place, name, comment or profile comes through, wherever it was hidden, with and without encoding again.
func TestNothingTold(t *testing.T) {
	big, small := binary.BigEndian, binary.LittleEndian
	// JPEG segments: Exif 2.32, 4.7.2; XMP specification part 3 (2020), 1.1.3; IPTC in 8BIM blocks; CIPA DC-007 (MPF); JFIF 1.02.
	segments := [][]byte{
		segment(0xe0, "JFIF\x00\x01\x02\x01\x00\x48\x00\x48\x01\x01\xff\xfe\xfd"), // with a thumbnail of one pixel
		segment(0xe0, "JFXX\x00\x13\x01\x01SECRET"),
		segment(0xe1, "Exif\x00\x00"+exif(big, 1)),
		segment(0xe1, "Exif\x00\x00"+exif(small, 1)),
		segment(0xe1, "http://ns.adobe.com/xap/1.0/\x00<x:xmpmeta>SECRET</x:xmpmeta>"),
		segment(0xe2, "MPF\x00SECRET"),
		segment(0xe2, "ICC_PROFILE\x00\x01\x01SECRET"),
		segment(0xed, "Photoshop 3.0\x008BIMSECRET"),
		segment(0xee, "Adobe\x00\x64\x00\x00\x00\x00\x01SECRET"),
		segment(0xef, "SECRET"),
		segment(0xf7, "SECRET"),
		segment(0xfe, "SECRET"),
		{0xff, 0xff, 0xff, 0xff}, // fill bytes
	}
	// PNG chunks: third edition, 11.3; a private one; and one that is no more than a hint.
	chunks := [][]byte{
		chunk("tEXt", "Comment\x00SECRET"), chunk("zTXt", "Comment\x00\x00SECRET"), chunk("iTXt", "XML:com.adobe.xmp\x00\x00\x00\x00\x00<x:xmpmeta/>SECRET"),
		chunk("tIME", "\x07\xea\x0b\x19\x0a\x00\x00"), chunk("eXIf", exif(big, 1)), chunk("iCCP", "SECRET\x00\x00x"), chunk("sPLT", "SECRET\x00\x08"),
		chunk("pHYs", "\x00\x00\x0b\x13\x00\x00\x0b\x13\x01"), chunk("prVt", "SECRET"), chunk("gAMA", "\x00\x00\xb1\x8f"), chunk("sRGB", "\x00"),
	}
	bare := asJPEG(t, scene(300, 200), 90)
	photo, shot := afterStart(bare, segments...), asPNG(t, screen(300, 200))
	largePhoto, largeShot := afterStart(asJPEG(t, scene(1500, 200), 90), segments...), asPNG(t, screen(1500, 200))
	still := photograph(t, "still.gif")
	webp := func(name string) []byte {
		data := photograph(t, name)
		data[bytes.Index(data, []byte("VP8X"))+8] |= 0x2c // profile, Exif and XMP are there
		return append(riff(riff(riff(data, "EXIF", exif(small, 1)), "XMP ", "SECRET"), "SECR", "SECRET"), "SECRET"...)
	}
	pixels := bytes.Index(shot, []byte("IDAT"))
	n := int(big.Uint32(shot[pixels-4:]))
	padded := slices.Concat(shot[:pixels-4], chunk("IDAT", string(shot[pixels+4:pixels+4+n])+"SECRET"), shot[pixels+8+n:])
	for name, data := range map[string][]byte{
		"small.jpg":        append(photo, "SECRET"...),
		"large.jpg":        append(largePhoto, photo...), // a second picture behind the first
		"small.png":        append(afterHeader(shot, chunks...), "SECRET"...),
		"large.png":        append(afterHeader(largeShot, chunks...), "SECRET"...),
		"padded.png":       padded,
		"a.gif":            slices.Concat(still[:len(still)-1], []byte("\x21\xfe\x06SECRET\x00\x21\xff\x0bXMP DataXMP\x06SECRET\x00\x3bSECRET")),
		"a.webp":           webp("lossy.webp"),
		"b.webp":           webp("alpha.webp"),
		"c.webp":           webp("lossless.webp"),
		"p3.webp":          photograph(t, "p3-lossy.webp"),
		"p3.jpg":           photograph(t, "p3.jpg"),
		"p3.png":           photograph(t, "p3.png"),
		"progressive.jpg":  photograph(t, "progressive.jpg"),
		"turned.jpg":       photograph(t, "turned.jpg"),
		"interlaced.png":   photograph(t, "interlaced.png"),
		"transparency.png": afterHeader(photograph(t, "interlaced.png"), chunks...),
	} {
		if name != "interlaced.png" && len(told(data)) == 0 {
			t.Errorf("%s: the scan finds nothing even before", name)
		}
		p := prepare(t, name, data)
		if found := leftovers(p.Ext, p.Data); len(found) > 0 {
			t.Errorf("%s: holds %q", name, found)
		}
		if name == "small.jpg" && !same(decode(t, p.Data), decode(t, bare)) || name == "small.png" && !same(decode(t, p.Data), decode(t, shot)) {
			t.Errorf("%s: the pixels have changed", name)
		}
	}
}

// TestColourChunks: what a PNG says about its colours stays with it when it is made smaller; the chunk that counts most wins.
// Source: PNG third edition, 4.3: cICP before iCCP before sRGB before gAMA and cHRM.
func TestColourChunks(t *testing.T) {
	cicp, gama := chunk("cICP", "\x09\x10\x00\x01"), chunk("gAMA", "\x00\x01\x86\xa0")
	for _, width := range []int{300, 1500} {
		p := prepare(t, "a.png", afterHeader(asPNG(t, scene(width, 200)), gama, cicp))
		if p.Ext != ".png" || !bytes.Contains(p.Data, cicp) || !bytes.Contains(p.Data, gama) {
			t.Errorf("%d: the chunks are gone", width)
		}
	}
	p := prepare(t, "a.png", afterHeader(photograph(t, "p3.png"), cicp))
	if !bytes.Contains(p.Data, cicp) || !same(decode(t, p.Data), decode(t, photograph(t, "p3.png"))) {
		t.Error("the profile was used in spite of cICP")
	}
}
