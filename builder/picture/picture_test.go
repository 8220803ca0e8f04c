package picture_test

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/color"
	"image/color/palette"
	"image/draw"
	"math/rand/v2"
	"runtime"
	"strings"
	"sync"
	"testing"

	"tankside/builder/picture"
)

// TestSizes: what is kept, and what the page shows, both with the proportions of the original.
func TestSizes(t *testing.T) {
	for _, c := range []struct{ w, h, keptW, keptH, shownW, shownH int }{
		{300, 200, 300, 200, 300, 200}, // smaller than the column: as it is
		{650, 900, 650, 900, 650, 900},
		{900, 600, 900, 600, 650, 433}, // between once and twice the column: kept for sharp screens
		{1300, 1800, 1300, 1800, 650, 900},
		{1301, 10, 1300, 10, 650, 5},
		{2600, 1300, 1300, 650, 650, 325},
		{1500, 4000, 675, 1800, 338, 900},
		{6000, 1, 1300, 1, 650, 1}, // never less than a pixel
		{1, 1, 1, 1, 1, 1},
	} {
		p := prepare(t, "a.jpg", asJPEG(t, scene(c.w, c.h), 95))
		got := decode(t, p.Data).Bounds()
		if got.Dx() != c.keptW || got.Dy() != c.keptH || p.Width != c.shownW || p.Height != c.shownH {
			t.Errorf("%d × %d: kept %v, shown %d × %d; want %d × %d, %d × %d", c.w, c.h, got, p.Width, p.Height, c.keptW, c.keptH, c.shownW, c.shownH)
		}
	}
}

// TestUntouched: a picture that is neither too large nor turned keeps every pixel, whatever its kind.
func TestUntouched(t *testing.T) {
	area := image.Rect(0, 0, 61, 47)
	fill := func(m draw.Image) draw.Image {
		r := rand.New(rand.NewPCG(1, 2))
		for y := range area.Dy() {
			for x := range area.Dx() {
				m.Set(x, y, color.NRGBA64{uint16(r.Uint32()), uint16(x * 900), uint16(y * 1300), uint16(r.Uint32())})
			}
		}
		return m
	}
	opaque := func(m draw.Image) draw.Image {
		for y := range area.Dy() {
			for x := range area.Dx() {
				m.Set(x, y, color.RGBA64{uint16(x * 1000), uint16(y * 1100), uint16(x * y), 65535})
			}
		}
		return m
	}
	clear := append(color.Palette{color.NRGBA{}, color.NRGBA{255, 0, 0, 128}}, palette.WebSafe...)
	for name, m := range map[string]image.Image{
		"grey":            opaque(image.NewGray(area)),
		"grey, 16 bits":   opaque(image.NewGray16(area)),
		"colour":          opaque(image.NewRGBA(area)),
		"colour, 16 bits": opaque(image.NewRGBA64(area)),
		"clear":           fill(image.NewNRGBA(area)),
		"clear, 16 bits":  fill(image.NewNRGBA64(area)),
		"palette":         opaque(image.NewPaletted(area, palette.Plan9)),
		"few colours":     opaque(image.NewPaletted(area, palette.Plan9[:3])),
		"clear palette":   fill(image.NewPaletted(area, clear)),
	} {
		data := asPNG(t, m)
		p := prepare(t, "a.png", data)
		if p.Ext != ".png" || !same(decode(t, p.Data), decode(t, data)) {
			t.Errorf("%s: the pixels have changed", name)
		}
	}
	for name, ext := range map[string]string{
		"interlaced.png": ".png", "progressive.jpg": ".jpg", "lossy.webp": ".webp", "lossless.webp": ".webp",
		"alpha.webp": ".webp", "alpha-lossless.webp": ".webp", "still.gif": ".png",
	} {
		data := photograph(t, name)
		p := prepare(t, name, data)
		if p.Ext != ext || !same(decode(t, p.Data), decode(t, data)) {
			t.Errorf("%s: became %s, or the pixels have changed", name, p.Ext)
		}
	}
	data := asJPEG(t, scene(200, 100), 90)
	if p := prepare(t, "a.JPEG", data); p.Ext != ".jpg" || !bytes.Equal(p.Data, data) {
		t.Error("a JPEG file that holds nothing but the picture has been changed")
	}
}

// TestSmallImageOfGIF: the image of a GIF may be smaller than its screen; the rest is clear (GIF89a, 20).
func TestSmallImageOfGIF(t *testing.T) {
	m := image.NewPaletted(image.Rect(2, 1, 4, 3), color.Palette{color.RGBA{255, 0, 0, 255}, color.RGBA{0, 0, 255, 255}})
	data := asGIF(t, m)
	binary.LittleEndian.PutUint16(data[6:], 5)
	binary.LittleEndian.PutUint16(data[8:], 4)
	p := prepare(t, "a.gif", data)
	got := decode(t, p.Data)
	if got.Bounds() != image.Rect(0, 0, 5, 4) || !near(got.At(2, 1), m.At(2, 1), 0) || !near(got.At(0, 0), color.NRGBA{}, 0) || !near(got.At(4, 3), color.NRGBA{}, 0) {
		t.Errorf("%v: %v %v", got.Bounds(), got.At(2, 1), got.At(0, 0))
	}
}

// TestReduced: what becomes of pictures that are too large.
func TestReduced(t *testing.T) {
	line := image.NewPaletted(image.Rect(0, 0, 2000, 1500), color.Palette{color.White, color.Black})
	for i := range 1500 {
		line.SetColorIndex(i, i, 1)
	}
	big := image.NewPaletted(image.Rect(0, 0, 2700, 1500), line.Palette)
	glass := image.NewNRGBA(image.Rect(0, 0, 2000, 1000)) // hidden red on the left, blue on the right
	for y := range 1000 {
		for x := range 2000 {
			glass.SetNRGBA(x, y, color.NRGBA{255, 0, 0, 0})
			if x >= 1000 {
				glass.SetNRGBA(x, y, color.NRGBA{0, 0, 255, 255})
			}
		}
	}
	deep := image.NewGray16(image.Rect(0, 0, 2600, 20))
	for x := range 2600 {
		for y := range 20 {
			deep.SetGray16(x, y, color.Gray16{uint16(x * 25)})
		}
	}
	for _, c := range []struct {
		what, name, ext string
		data            []byte
		w, h            int
	}{
		{"a photograph saved as PNG becomes JPEG", "a.png", ".jpg", asPNG(t, scene(2000, 1500)), 1300, 975},
		{"a line drawing stays as it is, since a smaller one takes more room", "a.png", ".png", asPNG(t, line), 2000, 1500},
		{"but not when it is more than twice too large", "a.png", ".png", asPNG(t, big), 1300, 722},
		{"transparency stays", "a.png", ".png", asPNG(t, glass), 1300, 650},
		{"16 bits become 8", "a.png", ".png", asPNG(t, deep), 1300, 10},
	} {
		p := prepare(t, c.name, c.data)
		m := decode(t, p.Data)
		if p.Ext != c.ext || m.Bounds().Dx() != c.w || m.Bounds().Dy() != c.h || p.Width > 650 {
			t.Errorf("%s: %s, %v, shown %d", c.what, p.Ext, m.Bounds(), p.Width)
		}
		switch c.data[25] { // colour type
		case 6:
			for x := range 1300 {
				if got := color.NRGBAModel.Convert(m.At(x, 300)).(color.NRGBA); got.A > 0 && got.R > 0 {
					t.Errorf("%s: the hidden red shows at %d: %v", c.what, x, got)
				}
			}
		case 0:
			if got := m.At(650, 5).(color.Gray).Y; got != 127 && got != 128 { // 1300.5 × 25 of 65535
				t.Errorf("%s: grey %d", c.what, got)
			}
		}
	}
}

// TestLinearLight: black and white points in equal number are half the light, which is sRGB 188 and not 128.
// Source: IEC 61966-2-1:1999, 5.2: 1.055 · 0.5^(1/2.4) - 0.055 = 0.7354.
func TestLinearLight(t *testing.T) {
	m := image.NewGray(image.Rect(0, 0, 2700, 2700))
	for y := range 2700 {
		for x := range 2700 {
			m.SetGray(x, y, color.Gray{uint8((x + y) % 2 * 255)})
		}
	}
	p := prepare(t, "a.png", asPNG(t, m))
	if got := decode(t, p.Data).At(600, 600); !near(got, color.Gray{188}, 6) {
		t.Errorf("got %v", got)
	}
}

// TestDeclaredSize: a few bytes that declare a huge picture are refused before anything of that size is made.
func TestDeclaredSize(t *testing.T) {
	png := asPNG(t, image.NewGray(image.Rect(0, 0, 8, 8)))
	header := string(binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(nil, 60000), 60000)) + "\x08\x06\x00\x00\x00"
	huge := append(append(append([]byte(nil), png[:8]...), chunk("IHDR", header)...), png[33:]...)
	widest := append(append(append([]byte(nil), png[:8]...), chunk("IHDR", "\x7f\xff\xff\xff\x7f\xff\xff\xff\x10\x06\x00\x00\x00")...), png[33:]...)
	jpeg := asJPEG(t, image.NewGray(image.Rect(0, 0, 8, 8)), 80)
	frame := bytes.Index(jpeg, []byte("\xff\xc0"))
	copy(jpeg[frame+5:], "\xff\xff\xff\xff")
	progressive := photograph(t, "progressive.jpg") // 36 million pixels, each of which takes five bytes a component
	frame = bytes.Index(progressive, []byte("\xff\xc2"))
	copy(progressive[frame+5:], "\x17\x70\x17\x70")
	copy(progressive[frame+10:], "\x01\x11\x00\x02\x11\x01\x03\x11\x01")
	gif := asGIF(t, image.NewPaletted(image.Rect(0, 0, 8, 8), palette.WebSafe))
	copy(gif[6:], "\xff\xff\xff\xff")
	lossy, lossless := photograph(t, "alpha.webp"), photograph(t, "alpha-lossless.webp")
	copy(lossy[bytes.Index(lossy, []byte("\x9d\x01\x2a"))+3:], "\xff\x3f\xff\x3f")
	at := bytes.Index(lossless, []byte("VP8L"))
	copy(lossless[at+9:], "\xfe\xbf\xff\x1f")
	for _, webp := range [][]byte{lossy, lossless} {
		copy(webp[bytes.Index(webp, []byte("VP8X"))+12:], "\xfe\x3f\x00\xfe\x3f\x00")
	}
	for name, data := range map[string][]byte{"a.png": huge, "b.png": widest, "a.jpg": jpeg, "b.jpg": progressive, "a.gif": gif, "a.webp": lossy, "b.webp": lossless} {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		_, err := picture.Prepare(name, data)
		problems := picture.Check(name, data)
		runtime.ReadMemStats(&after)
		if err == nil || len(problems) != 1 || !strings.Contains(err.Error(), "pixels") || err.Error() != problems[0].Error() || problems[0].Remedy == "" {
			t.Errorf("%s: %v, %v", name, err, problems)
		}
		if used := after.TotalAlloc - before.TotalAlloc; used > 1<<20 {
			t.Errorf("%s: %d bytes were taken", name, used)
		}
	}
}

// TestTruncated: a file that breaks off is found without decoding it, wherever it breaks off.
func TestTruncated(t *testing.T) {
	samples := map[string][]byte{"drawing.svg": []byte(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><title>é</title><path d="M0 0h9"/></svg>`)}
	for _, name := range []string{"progressive.jpg", "turned.jpg", "p3.png", "interlaced.png", "lossy.webp", "alpha.webp", "lossless.webp", "still.gif"} {
		samples[name] = photograph(t, name)
	}
	for name, data := range samples {
		prepare(t, name, data)
		for n := range data {
			if problems := picture.Check(name, data[:n]); len(problems) == 0 || problems[0].Message == "" || problems[0].Remedy == "" {
				t.Errorf("%s passes with %d of %d bytes", name, n, len(data))
			}
			if _, err := picture.Prepare(name, data[:n]); err == nil {
				t.Errorf("%s is prepared with %d of %d bytes", name, n, len(data))
			}
		}
	}
}

// TestDamaged: damage in a complete file.
func TestDamaged(t *testing.T) {
	png := photograph(t, "p3.png")
	png[bytes.Index(png, []byte("IDAT"))+10] ^= 0x40
	if p := picture.Check("a.png", png); len(p) != 1 || !strings.Contains(p[0].Message, "checksum") {
		t.Errorf("PNG: %v", p)
	}
	jpeg := asJPEG(t, scene(200, 200), 90)
	scan := bytes.Index(jpeg, []byte("\xff\xda"))
	cut := append(append([]byte(nil), jpeg[:scan+200]...), "\xff\xd9"...) // an end, but half the picture is missing
	if _, err := picture.Prepare("a.jpg", cut); err == nil || !strings.Contains(err.Error(), "damaged") && !strings.Contains(err.Error(), "breaks off") {
		t.Errorf("JPEG: %v", err)
	}
	twice := append(append([]byte(nil), jpeg[:scan]...), jpeg[2:]...)
	if p := picture.Check("a.jpg", twice); len(p) != 1 || !strings.Contains(p[0].Message, "twice") {
		t.Errorf("JPEG with two sizes: %v", p)
	}
	webp := photograph(t, "alpha.webp")
	webp[bytes.Index(webp, []byte("VP8X"))+12]++
	if p := picture.Check("a.webp", webp); len(p) != 1 || !strings.Contains(p[0].Message, "two different sizes") {
		t.Errorf("WebP: %v", p)
	}
}

// TestMoving: pictures that hold several images are refused.
func TestMoving(t *testing.T) {
	frame := func(c int) *image.Paletted {
		m := image.NewPaletted(image.Rect(0, 0, 4, 4), palette.WebSafe)
		draw.Draw(m, m.Rect, image.NewUniform(palette.WebSafe[c]), image.Point{}, draw.Src)
		return m
	}
	png := asPNG(t, frame(3))
	for name, data := range map[string][]byte{
		"two.gif":     asGIF(t, frame(1), frame(2)),
		"moving.gif":  photograph(t, "moving.gif"),
		"moving.webp": photograph(t, "moving.webp"),
		"moving.png":  afterHeader(png, chunk("acTL", "\x00\x00\x00\x02\x00\x00\x00\x00")),
	} {
		p := picture.Check(name, data)
		if len(p) != 1 || !strings.Contains(p[0].Message, "moves") || !strings.Contains(p[0].Remedy, "PNG") {
			t.Errorf("%s: %v", name, p)
		}
	}
	prepare(t, "one.gif", asGIF(t, frame(1)))
	prepare(t, "one.png", afterHeader(png, chunk("acTL", "\x00\x00\x00\x01\x00\x00\x00\x00")))
}

// TestWrongName: files that are not what their name says.
func TestWrongName(t *testing.T) {
	png, jpeg := asPNG(t, image.NewGray(image.Rect(0, 0, 3, 3))), asJPEG(t, image.NewGray(image.Rect(0, 0, 3, 3)), 80)
	svg := []byte(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"/>`)
	for _, c := range []struct{ name, data, message, remedy string }{
		{"a.png", "<!DOCTYPE html>\n<html><script>alert(1)</script></html>", "a web page", "save it again"},
		{"a.gif", "  <html><body onload=x>", "a web page", "save it again"},
		{"a.svg", "<!doctype html><svg></svg>", "a web page", "save it again"},
		{"a.jpg", string(png), "a PNG picture", "end in .png"},
		{"a.png", string(jpeg), "a JPEG picture", "end in .jpg"},
		{"a.png", string(svg), "an SVG drawing", "end in .svg"},
		{"a.svg", string(png), "a PNG picture", "end in .png"},
		{"a.svg", "\x1f\x8b\x08\x00\x00\x00\x00\x00", "compressed", "save it again"},
		{"a.jpg", "\x00\x00\x00\x18ftypheic\x00\x00\x00\x00", "HEIC", "save it again"},
		{"a.webp", "RIFF\x04\x00\x00\x00WAVE", "something else", "save it again"},
		{"a.gif", "%PDF-1.7", "PDF", "save it again"},
		{"a.jpg", "", "empty", "Copy"},
		{"a.bmp", "BM", ".bmp", "Save it as"},
		{"a", string(png), "no picture", "Save it as"},
		{"a.svg", "just words", "before or after", ""},
		{"a.svg", "<drawing/>", "<drawing>", "plain SVG"},
		{"cmyk.jpg", string(photograph(t, "cmyk.jpg")), "CMYK", "RGB"},
	} {
		p := picture.Check(c.name, []byte(c.data))
		_, err := picture.Prepare(c.name, []byte(c.data))
		if len(p) == 0 || err == nil || err.Error() != p[0].Error() || !strings.Contains(p[0].Message, c.message) || !strings.Contains(p[0].Remedy, c.remedy) {
			t.Errorf("%s %.20q: %+v, %v", c.name, c.data, p, err)
		}
	}
}

// TestDeterministic: the same bytes at every call, also at once and from what has been made ready already.
func TestDeterministic(t *testing.T) {
	for name, data := range map[string][]byte{
		"a.jpg": asJPEG(t, scene(1800, 900), 90), "a.png": asPNG(t, screen(1700, 900)), "b.png": photograph(t, "p3.png"), "c.webp": photograph(t, "p3-lossy.webp"),
		"d.gif": photograph(t, "still.gif"), "e.jpg": photograph(t, "turned.jpg"), "f.webp": photograph(t, "alpha.webp"),
	} {
		want := prepare(t, name, data)
		var wait sync.WaitGroup
		for range 3 {
			wait.Go(func() {
				got, err := picture.Prepare(name, bytes.Clone(data))
				if err != nil || !bytes.Equal(got.Data, want.Data) || got.Ext != want.Ext {
					t.Errorf("%s: another result", name)
				}
			})
		}
		wait.Wait()
		again := prepare(t, "a"+want.Ext, want.Data)
		if !bytes.Equal(again.Data, want.Data) || again.Width != want.Width || again.Height != want.Height {
			t.Errorf("%s: preparing the result changes it", name)
		}
	}
}
