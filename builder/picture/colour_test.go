package picture

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"image"
	"image/color"
	imagepng "image/png"
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"golang.org/x/image/draw"
)

type vector [3]float64
type matrix [3]vector

func (m matrix) times(v vector) (r vector) {
	for i := range 3 {
		r[i] = m[i][0]*v[0] + m[i][1]*v[1] + m[i][2]*v[2]
	}
	return r
}

func (m matrix) by(n matrix) (r matrix) {
	for i := range 3 {
		for j := range 3 {
			r[i][j] = m[i][0]*n[0][j] + m[i][1]*n[1][j] + m[i][2]*n[2][j]
		}
	}
	return r
}

func (m matrix) inverse() (r matrix) {
	det := 0.0
	for i := range 3 {
		det += m[0][i] * (m[1][(i+1)%3]*m[2][(i+2)%3] - m[1][(i+2)%3]*m[2][(i+1)%3])
	}
	for i := range 3 {
		for j := range 3 {
			r[i][j] = (m[(j+1)%3][(i+1)%3]*m[(j+2)%3][(i+2)%3] - m[(j+1)%3][(i+2)%3]*m[(j+2)%3][(i+1)%3]) / det
		}
	}
	return r
}

// toD50 is the matrix from light of these primaries (x, y) with the white point D65 to XYZ under D50.
//
// Sources: SMPTE RP 177 (1993) for the matrix of primaries; D65 is (0.3127, 0.3290) by IEC 61966-2-1:1999, table 1; D50 and the
// Bradford transform are those of ICC.1:2022, 7.2.16 and annex E.
func toD50(primaries [3][2]float64) matrix {
	xyz := func(x, y float64) vector { return vector{x / y, 1, (1 - x - y) / y} }
	var m matrix
	for i, p := range primaries {
		for row, v := range xyz(p[0], p[1]) {
			m[row][i] = v
		}
	}
	d65, d50 := xyz(0.3127, 0.3290), vector{0.9642, 1, 0.8249}
	for i, s := range m.inverse().times(d65) {
		for row := range 3 {
			m[row][i] *= s
		}
	}
	bradford := matrix{{0.8951, 0.2664, -0.1614}, {-0.7502, 1.7135, 0.0367}, {0.0389, -0.0685, 1.0296}}
	from, to := bradford.times(d65), bradford.times(d50)
	adapt := bradford.inverse().by(matrix{{to[0] / from[0]}, {0, to[1] / from[1]}, {0, 0, to[2] / from[2]}}).by(bradford)
	return adapt.by(m)
}

var (
	primariesSRGB = [3][2]float64{{0.64, 0.33}, {0.30, 0.60}, {0.15, 0.06}}       // IEC 61966-2-1:1999, table 1
	primariesP3   = [3][2]float64{{0.680, 0.320}, {0.265, 0.690}, {0.150, 0.060}} // SMPTE RP 431-2:2011, used with D65 in CSS Color 4, 10.4
)

// TestFromD50: the matrix is that of the published primaries.
func TestFromD50(t *testing.T) {
	want := toD50(primariesSRGB).inverse()
	for i := range 3 {
		for j := range 3 {
			if math.Abs(want[i][j]-fromD50[i][j]) > 1e-6 {
				t.Errorf("row %d, column %d: %.7f, computed %.7f", i, j, fromD50[i][j], want[i][j])
			}
		}
	}
}

// TestCurveSRGB: published points of the curve, and every value comes back as itself.
// Source: IEC 61966-2-1:1999, 5.2; 18 % grey is 118 and half the light 188 by its formula.
func TestCurveSRGB(t *testing.T) {
	for value, light := range map[int]float64{0: 0, 255: 1, 10: 10 / 255.0 / 12.92, 118: 0.1812, 188: 0.5029} {
		if got := float64(curveSRGB().of8[value]) / full; math.Abs(got-light) > 1e-4 {
			t.Errorf("value %d: light %.4f, want %.4f", value, got, light)
		}
	}
	for v, light := range curveSRGB().of8 {
		if got := toSRGB()[light]; int(got) != v {
			t.Errorf("value %d comes back as %d", v, got)
		}
	}
}

// icc is a profile. Source: ICC.1:2022, 7.2, 7.3, 10.6, 10.18, 10.31.
func icc(space string, tags map[string]string) []byte {
	b := make([]byte, 128)
	copy(b[8:], "\x04\x00\x00\x00mntr"+space+"XYZ ")
	copy(b[36:], "acsp")
	b = binary.BigEndian.AppendUint32(b, uint32(len(tags)))
	at, body := 132+12*len(tags), ""
	for name, tag := range tags {
		b = binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(append(b, name...), uint32(at+len(body))), uint32(len(tag)))
		body += tag
	}
	return append(b, body...)
}

func fixed(values ...float64) string {
	var b []byte
	for _, v := range values {
		b = binary.BigEndian.AppendUint32(b, uint32(int32(math.Round(v*65536))))
	}
	return string(b)
}

func profileOf(primaries [3][2]float64, trc string) []byte {
	m := toD50(primaries)
	tags := make(map[string]string)
	for i, c := range []string{"r", "g", "b"} {
		tags[c+"XYZ"] = "XYZ \x00\x00\x00\x00" + fixed(m[0][i], m[1][i], m[2][i])
		tags[c+"TRC"] = trc
	}
	return icc("RGB ", tags)
}

// Curves. paraSRGB is IEC 61966-2-1 as type 3 of ICC.1:2022, table 68.
var (
	paraSRGB = "para\x00\x00\x00\x00\x00\x03\x00\x00" + fixed(2.4, 1/1.055, 0.055/1.055, 1/12.92, 0.04045)
	straight = "curv\x00\x00\x00\x00\x00\x00\x00\x00"
	gamma22  = "curv\x00\x00\x00\x00\x00\x00\x00\x01\x02\x33" // 2.2 as u8Fixed8Number
)

// withProfile is a PNG of one colour with that profile.
func withProfile(t *testing.T, m image.Image, profile []byte) []byte {
	t.Helper()
	var b, z bytes.Buffer
	if err := imagepng.Encode(&b, m); err != nil {
		t.Fatal(err)
	}
	w := zlib.NewWriter(&z)
	if _, err := w.Write(profile); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	data := b.Bytes()
	body := append([]byte("name\x00\x00"), z.Bytes()...)
	return append(appendChunk(append([]byte(nil), data[:33]...), "iCCP", body), data[33:]...)
}

func plainColour(t *testing.T, data []byte) color.NRGBA {
	t.Helper()
	p, err := Prepare("a.png", data)
	if err != nil {
		t.Fatal(err)
	}
	m, _, err := image.Decode(bytes.NewReader(p.Data))
	if err != nil {
		t.Fatal(err)
	}
	return color.NRGBAModel.Convert(m.At(0, 0)).(color.NRGBA)
}

// TestDisplayP3: CSS colours written in Display P3 become the same colours in sRGB.
//
// Sources: W3C web-platform-tests, css/css-color, color(display-p3 0.21604 0.49418 0.13151) is #008000 and
// (0.26374 0.59085 0.16434) is #009900; the others are the named colours of CSS Color 4, 6.1, in Display P3 as published by several
// colour libraries.
func TestDisplayP3(t *testing.T) {
	for want, p3 := range map[color.NRGBA][3]float64{
		{0, 128, 0, 255}:     {0.21604, 0.49418, 0.13151},
		{0, 153, 0, 255}:     {0.26374, 0.59085, 0.16434},
		{255, 0, 0, 255}:     {0.91749, 0.20029, 0.13856},
		{255, 165, 0, 255}:   {0.94965, 0.6629, 0.23297},
		{255, 255, 0, 255}:   {1, 1, 0.3309},
		{0, 0, 255, 255}:     {0, 0, 0.95959},
		{75, 0, 130, 255}:    {0.26681, 0.03018, 0.48951},
		{238, 130, 238, 255}: {0.87709, 0.53133, 0.91095},
		{255, 255, 255, 255}: {1, 1, 1},
		{0, 255, 0, 255}:     {0, 1, 0}, // beyond sRGB: the nearest in each channel
	} {
		m := image.NewRGBA64(image.Rect(0, 0, 2, 2))
		c := color.RGBA64{uint16(math.Round(p3[0] * 65535)), uint16(math.Round(p3[1] * 65535)), uint16(math.Round(p3[2] * 65535)), 65535}
		draw.Draw(m, m.Rect, image.NewUniform(c), image.Point{}, draw.Src)
		got := plainColour(t, withProfile(t, m, profileOf(primariesP3, paraSRGB)))
		far := func(a, b uint8) bool { return max(int(a)-int(b), int(b)-int(a)) > 1 }
		if far(got.R, want.R) || far(got.G, want.G) || far(got.B, want.B) {
			t.Errorf("%v: %v, want %v", p3, got, want)
		}
	}
}

// TestColourOfLibraries: photographs in Display P3, and lossy WebP with its luminance of 16 to 235, as Little CMS and libwebp read them.
func TestColourOfLibraries(t *testing.T) {
	for _, c := range []struct {
		name string
		want [4][3]uint8
		most int // JPEG is encoded again
	}{
		{"p3.jpg", [4][3]uint8{{200, 30, 39}, {40, 160, 72}, {32, 60, 191}, {128, 128, 128}}, 3},
		{"p3.png", [4][3]uint8{{200, 30, 40}, {40, 160, 70}, {30, 60, 190}, {128, 128, 128}}, 1},
		{"p3-lossy.webp", [4][3]uint8{{200, 30, 39}, {37, 160, 70}, {29, 60, 190}, {128, 128, 128}}, 3},
		{"lossy.webp", [4][3]uint8{{200, 30, 39}, {39, 161, 70}, {30, 61, 189}, {128, 128, 128}}, 1},
	} {
		data, err := os.ReadFile("testdata/photographs/" + c.name)
		if err != nil {
			t.Fatal(err)
		}
		s, problem := sortOf(c.name, data)
		if problem != nil {
			t.Fatal(problem)
		}
		r, problem := scan(s, data)
		if problem != nil {
			t.Fatal(problem)
		}
		img, _, err := r.load()
		if err != nil {
			t.Fatal(err)
		}
		m := develop(r, img, 64, 48)
		for i, want := range c.want {
			got := m.At(16+i%2*32, 12+i/2*24).(color.RGBA)
			for k, v := range []uint8{got.R, got.G, got.B} {
				if max(int(v)-int(want[k]), int(want[k])-int(v)) > c.most {
					t.Errorf("%s, quarter %d: %v, want %v", c.name, i, got, want)
				}
			}
		}
	}
}

// TestProfiles: which profiles change something.
func TestProfiles(t *testing.T) {
	grey, colours := image.NewGray(image.Rect(0, 0, 2, 2)), image.NewNRGBA(image.Rect(0, 0, 2, 2))
	draw.Draw(grey, grey.Rect, image.NewUniform(color.Gray{128}), image.Point{}, draw.Src)
	draw.Draw(colours, colours.Rect, image.NewUniform(color.NRGBA{60, 120, 200, 128}), image.Point{}, draw.Src)
	table := "curv\x00\x00\x00\x00\x00\x00\x01\x00" // sRGB as 256 points
	for i := range 256 {
		table += string(binary.BigEndian.AppendUint16(nil, uint16(math.Round(65535*linearOfSRGB(float64(i)/255)))))
	}
	greyProfile := func(trc string) []byte { return icc("GRAY", map[string]string{"kTRC": trc}) }
	tables := icc("RGB ", map[string]string{"A2B0": "mft2"})
	for _, c := range []struct {
		what    string
		m       image.Image
		profile []byte
		want    color.NRGBA
	}{
		{"sRGB by formula", colours, profileOf(primariesSRGB, paraSRGB), color.NRGBA{60, 120, 200, 128}},
		{"sRGB by points", colours, profileOf(primariesSRGB, table), color.NRGBA{60, 120, 200, 128}},
		{"straight line: 1.055 · (60/255)^(1/2.4) - 0.055 and so on", colours, profileOf(primariesSRGB, straight), color.NRGBA{133, 182, 229, 128}},
		{"grey, straight line: 188.3 for 128", grey, greyProfile(straight), color.NRGBA{188, 188, 188, 255}},
		{"grey, exponent 2.2: 0.502^2.2 = 0.2195, which is 129.0", grey, greyProfile(gamma22), color.NRGBA{129, 129, 129, 255}},
		{"a profile of grey for colours counts for nothing", colours, greyProfile(straight), color.NRGBA{60, 120, 200, 128}},
		{"a profile of colours for grey counts for nothing", grey, profileOf(primariesSRGB, straight), color.NRGBA{128, 128, 128, 255}},
		{"a profile for printing counts for nothing", colours, icc("CMYK", nil), color.NRGBA{60, 120, 200, 128}},
		{"a damaged profile counts for nothing", colours, []byte("profile"), color.NRGBA{60, 120, 200, 128}},
		{"a profile cut off counts for nothing", colours, profileOf(primariesP3, paraSRGB)[:300], color.NRGBA{60, 120, 200, 128}},
	} {
		if got := plainColour(t, withProfile(t, c.m, c.profile)); got != c.want {
			t.Errorf("%s: %v, want %v", c.what, got, c.want)
		}
	}
	p := Check("a.png", withProfile(t, colours, tables))
	if len(p) != 1 || p[0].Remedy != saveAsSRGB {
		t.Errorf("tables: %v", p)
	}
}

// TestParameters: all five kinds of parametric curve, at points computed by hand from ICC.1:2022, table 68.
func TestParameters(t *testing.T) {
	for _, c := range []struct {
		kind   uint16
		values []float64
		points map[float64]float64
	}{
		{0, []float64{2}, map[float64]float64{0.5: 0.25}},
		{1, []float64{2, 1, -0.25}, map[float64]float64{0.75: 0.25, 0.25: 0, 0.1: 0}},
		{2, []float64{2, 1, -0.25, 0.125}, map[float64]float64{0.75: 0.375, 0.1: 0.125}},
		{3, []float64{2, 1, 0, 0.5, 0.25}, map[float64]float64{0.5: 0.25, 0.25: 0.0625, 0.125: 0.0625}},
		{4, []float64{2, 1, 0, 0.5, 0.25, 0.125, 0.0625}, map[float64]float64{0.5: 0.375, 0.125: 0.125}},
	} {
		f, ok := readParameters(c.kind, []byte(fixed(c.values...)))
		if !ok {
			t.Errorf("kind %d is not read", c.kind)
			continue
		}
		for x, want := range c.points {
			if got := f(x); math.Abs(got-want) > 1e-9 {
				t.Errorf("kind %d at %v: %v, want %v", c.kind, x, got, want)
			}
		}
	}
	if _, ok := readParameters(5, make([]byte, 40)); ok {
		t.Error("a sixth kind is read")
	}
}

// TestScale: the filter in whole numbers gives what golang.org/x/image/draw gives in floating point.
func TestScale(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for _, size := range [][4]int{{97, 61, 40, 23}, {97, 61, 96, 61}, {30, 30, 1, 1}, {13, 11, 40, 23}, {200, 3, 17, 3}} {
		from, to := image.NewRGBA64(image.Rect(0, 0, size[0], size[1])), image.NewRGBA64(image.Rect(0, 0, size[2], size[3]))
		rings := make([][]uint16, size[1])
		wide, high := kernel(size[0], size[2], 1), kernel(size[1], size[3], 1)
		for y := range size[1] {
			row := make([]uint16, size[0])
			for x := range row {
				row[x] = uint16(20000 + r.IntN(20000)) // far from the ends, where either of them cuts off
				from.SetRGBA64(x, y, color.RGBA64{row[x], 0, 0, 65535})
			}
			rings[y] = make([]uint16, size[2])
			across(rings[y], row, wide)
		}
		draw.CatmullRom.Scale(to, to.Rect, from, from.Rect, draw.Src, nil)
		row := make([]uint16, size[2])
		for y := range size[3] {
			down(row, rings, high[y], make([]int64, size[2]))
			for x, got := range row {
				if want := to.RGBA64At(x, y).R; math.Abs(float64(got)-float64(want)) > 30 {
					t.Fatalf("%v at %d, %d: %d, want %d", size, x, y, got, want)
				}
			}
		}
	}
}

// TestEvenStaysEven: weights add up, so an area of one colour stays that colour at every size.
func TestEvenStaysEven(t *testing.T) {
	for from := 1; from < 400; from += 7 {
		for _, to := range []int{1, 2, 3, from, 17, 130} {
			for i, tap := range kernel(from, to, 1) {
				sum := int32(0)
				for _, w := range tap.weights {
					sum += w
				}
				if sum != weightUnit || tap.first < 0 || tap.first+len(tap.weights) > from {
					t.Fatalf("%d to %d, pixel %d: weights of %d to %d add up to %d", from, to, i, tap.first, tap.first+len(tap.weights), sum)
				}
			}
		}
	}
}
