package picture_test

import (
	"encoding/binary"
	"image"
	"image/color"
	"image/draw"
	"strings"
	"testing"
)

var blocks = map[rune]color.RGBA{
	'A': {220, 30, 30, 255}, 'B': {30, 160, 40, 255}, 'C': {40, 60, 200, 255},
	'D': {230, 220, 60, 255}, 'E': {30, 30, 30, 255}, 'F': {220, 220, 220, 255},
}

// TestOrientation: a picture of six blocks, stored as ABC over DEF, is turned as its Exif block says.
//
// Source: Exif 2.32 (CIPA DC-008 / JEITA CP-3451E), 4.6.4, Orientation, tag 0x0112: the 0th row and the 0th column of the stored
// picture are the visual 1 top, left; 2 top, right; 3 bottom, right; 4 bottom, left; 5 left, top; 6 right, top; 7 right,
// bottom; 8 left, bottom.
func TestOrientation(t *testing.T) {
	seen := []string{"ABC/DEF", "CBA/FED", "FED/CBA", "DEF/ABC", "AD/BE/CF", "DA/EB/FC", "FC/EB/DA", "CF/BE/AD"}
	for _, side := range []int{16, 480} { // kept in its size, and made smaller
		stored := image.NewRGBA(image.Rect(0, 0, 3*side, 2*side))
		for y, row := range []string{"ABC", "DEF"} {
			for x, name := range row {
				draw.Draw(stored, image.Rect(x*side, y*side, (x+1)*side, (y+1)*side), image.NewUniform(blocks[name]), image.Point{}, draw.Src)
			}
		}
		jpeg, png := asJPEG(t, stored, 100), asPNG(t, stored)
		for i, want := range seen {
			for _, order := range []binary.AppendByteOrder{binary.BigEndian, binary.LittleEndian} {
				block := exif(order, uint16(i+1))
				for name, data := range map[string][]byte{
					"a.jpg": afterStart(jpeg, segment(0xe1, "Exif\x00\x00"+block)),
					"a.png": afterHeader(png, chunk("eXIf", block)),
				} {
					p := prepare(t, name, data)
					m := decode(t, p.Data)
					rows := strings.Split(want, "/")
					w, h := m.Bounds().Dx()/len(rows[0]), m.Bounds().Dy()/len(rows)
					if w != h {
						t.Fatalf("%s, orientation %d: %v", name, i+1, m.Bounds())
					}
					for y, row := range rows {
						for x, block := range row {
							if got := m.At(x*w+w/2, y*h+h/2); !near(got, blocks[block], 4) {
								t.Errorf("%s, orientation %d, column %d, row %d: %v, want %c", name, i+1, x, y, got, block)
							}
						}
					}
					if found := leftovers(p.Ext, p.Data); len(found) > 0 {
						t.Errorf("%s, orientation %d: holds %q", name, i+1, found)
					}
				}
			}
		}
	}
}

// TestOrientationOfLibrary: a JPEG and a WebP whose orientation other libraries have written.
func TestOrientationOfLibrary(t *testing.T) {
	webp := riff(photograph(t, "lossless.webp"), "EXIF", exif(binary.LittleEndian, 6)) // the last one counts
	for name, data := range map[string][]byte{"turned.jpg": photograph(t, "turned.jpg"), "a.webp": webp} {
		m := decode(t, prepare(t, name, data).Data)
		// A quarter turn to the right: upper left comes to the upper right.
		if m.Bounds().Dx() != 48 || m.Bounds().Dy() != 64 || !near(m.At(36, 16), color.RGBA{200, 30, 40, 255}, 3) || !near(m.At(12, 16), color.RGBA{30, 60, 190, 255}, 3) {
			t.Errorf("%s: %v, %v, %v", name, m.Bounds(), m.At(36, 16), m.At(12, 16))
		}
	}
}

// TestOrientationDamaged: an Exif block that makes no sense turns nothing.
func TestOrientationDamaged(t *testing.T) {
	jpeg := asJPEG(t, scene(32, 16), 90)
	good := exif(binary.BigEndian, 6)
	bad := []string{"", "MM\x00*\xff\xff\xff\xff", "MM\x00*\x00\x00\x00\x08\xff\xff", exif(binary.BigEndian, 9), exif(binary.BigEndian, 0), "XX" + good[2:], good[:4] + "\xff\xff\xff\xfe" + good[8:]}
	for n := range 20 { // up to within the value of the first entry
		bad = append(bad, good[:n])
	}
	for _, block := range bad {
		p := prepare(t, "a.jpg", afterStart(jpeg, segment(0xe1, "Exif\x00\x00"+block)))
		if p.Width != 32 || p.Height != 16 {
			t.Errorf("%q: %d × %d", block, p.Width, p.Height)
		}
	}
}
