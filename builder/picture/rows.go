package picture

import (
	"image"
	"image/color"
)

// rows gives a decoded picture row by row, as light.
type rows struct {
	width, height int
	channels      int // 1 grey, 3 colours, 4 colours multiplied with their transparency, and the transparency
	read          func(y int, to *[4][]uint16)
}

// openRows reads the kinds of picture that the decoders give.
func openRows(img image.Image, r *raster) rows {
	b := img.Bounds()
	s := rows{width: b.Dx(), height: b.Dy(), channels: 3}
	curves := [3]*curve{curveSRGB(), curveSRGB(), curveSRGB()}
	if r.convert != nil {
		curves = r.convert.curves
	}
	set := func(to *[4][]uint16, x int, r, g, b uint8) {
		to[0][x], to[1][x], to[2][x] = curves[0].of8[r], curves[1].of8[g], curves[2].of8[b]
	}
	switch m := img.(type) {
	case *image.Gray:
		s.channels = 1
		s.read = func(y int, to *[4][]uint16) {
			for x, v := range m.Pix[m.PixOffset(b.Min.X, b.Min.Y+y):][:s.width] {
				to[0][x] = curves[0].of8[v]
			}
		}
	case *image.YCbCr:
		toRGB, half := rgbOf(r), halves(m)
		s.read = func(y int, to *[4][]uint16) {
			l, c := m.YOffset(b.Min.X, b.Min.Y+y), m.COffset(b.Min.X, b.Min.Y+y)
			ys, cbs, crs := m.Y[l:][:s.width], m.Cb[c:], m.Cr[c:]
			for x, v := range ys {
				red, green, blue := toRGB(v, cbs[x>>half], crs[x>>half])
				set(to, x, red, green, blue)
			}
		}
	case *image.NYCbCrA:
		colours := openRows(&m.YCbCr, r)
		s.channels = 4
		s.read = func(y int, to *[4][]uint16) {
			colours.read(y, to)
			for x, a := range m.A[m.AOffset(b.Min.X, b.Min.Y+y):][:s.width] {
				cover(to, x, uint16(a)*257)
			}
		}
	case *image.RGBA: // decoders give it for pictures without transparency only
		s.read = func(y int, to *[4][]uint16) {
			p := m.Pix[m.PixOffset(b.Min.X, b.Min.Y+y):]
			for x := range s.width {
				set(to, x, p[4*x], p[4*x+1], p[4*x+2])
			}
		}
	case *image.NRGBA:
		if !m.Opaque() {
			s.channels = 4
		}
		s.read = func(y int, to *[4][]uint16) {
			p := m.Pix[m.PixOffset(b.Min.X, b.Min.Y+y):][:4*s.width]
			if s.channels == 4 {
				seeThrough(to, p, curves)
				return
			}
			for x := range s.width {
				set(to, x, p[4*x], p[4*x+1], p[4*x+2])
			}
		}
	case *image.Paletted:
		var palette [256]color.NRGBA
		s.channels = 1
		for i, c := range m.Palette {
			palette[i] = color.NRGBAModel.Convert(c).(color.NRGBA)
			switch p := palette[i]; {
			case p.A < 255:
				s.channels = 4
			case (p.R != p.G || p.G != p.B) && s.channels == 1:
				s.channels = 3
			}
		}
		s.read = func(y int, to *[4][]uint16) {
			for x, i := range m.Pix[m.PixOffset(b.Min.X, b.Min.Y+y):][:s.width] {
				p := palette[i]
				if s.channels == 1 {
					to[0][x] = curves[0].of8[p.R]
					continue
				}
				set(to, x, p.R, p.G, p.B)
				if s.channels == 4 {
					cover(to, x, uint16(p.A)*257)
				}
			}
		}
	default:
		s.deep(img, curves)
	}
	return s
}

// halves is how often the width of the colour differences is halved. Decoders give pictures that begin at the left edge.
func halves(m *image.YCbCr) int {
	switch m.SubsampleRatio {
	case image.YCbCrSubsampleRatio422, image.YCbCrSubsampleRatio420:
		return 1
	case image.YCbCrSubsampleRatio411, image.YCbCrSubsampleRatio410:
		return 2
	}
	return 0
}

// deep reads pictures with 16 bits, and whatever decoders may give in the future.
func (s *rows) deep(img image.Image, curves [3]*curve) {
	b := img.Bounds()
	tables := [3][]uint16{curves[0].of16(), curves[1].of16(), curves[2].of16()}
	at := func(x, y int) color.RGBA64 {
		if m, can := img.(image.RGBA64Image); can {
			return m.RGBA64At(x, y)
		}
		return color.RGBA64Model.Convert(img.At(x, y)).(color.RGBA64)
	}
	switch {
	case img.ColorModel() == color.Gray16Model:
		s.channels = 1
	case !opaque(img):
		s.channels = 4
	}
	s.read = func(y int, to *[4][]uint16) {
		for x := range s.width {
			p := at(b.Min.X+x, b.Min.Y+y)
			if p.A > 0 && p.A < full {
				a := uint32(p.A)
				p.R, p.G, p.B = uint16(uint32(p.R)*full/a), uint16(uint32(p.G)*full/a), uint16(uint32(p.B)*full/a)
			}
			to[0][x] = tables[0][p.R]
			if s.channels > 1 {
				to[1][x], to[2][x] = tables[1][p.G], tables[2][p.B]
			}
			if s.channels == 4 {
				cover(to, x, p.A)
			}
		}
	}
}

// seeThrough reads a row of colours with their transparency, four bytes each.
func seeThrough(to *[4][]uint16, p []uint8, curves [3]*curve) {
	red, green, blue := &curves[0].of8, &curves[1].of8, &curves[2].of8
	for x := range len(p) / 4 {
		p := p[4*x:][:4]
		if p[3] == 0 {
			to[0][x], to[1][x], to[2][x], to[3][x] = 0, 0, 0, 0
			continue
		}
		to[0][x], to[1][x], to[2][x] = red[p[0]], green[p[1]], blue[p[2]]
		cover(to, x, uint16(p[3])*257)
	}
}

// cover sets the transparency of a pixel and multiplies its colours with it, so that what cannot be seen does not mix in.
func cover(to *[4][]uint16, x int, alpha uint16) {
	to[3][x] = alpha
	if alpha == full {
		return
	}
	for c := range 3 {
		to[c][x] = uint16(uint32(to[c][x]) * uint32(alpha) / full)
	}
}

// rgbOf gives how luminance and colour differences become red, green and blue.
func rgbOf(r *raster) func(y, cb, cr uint8) (uint8, uint8, uint8) {
	if r.studio {
		return studioRGB
	}
	return color.YCbCrToRGB
}

// studioRGB is for luminance of 16 to 235 and colour differences of 16 to 240.
//
// Source: ITU-R BT.601-7, 2.5.1 and 2.5.3, which RFC 6386 (VP8), 9.2, refers to: R = 1.164 (Y - 16) + 1.596 (Cr - 128),
// G = 1.164 (Y - 16) - 0.813 (Cr - 128) - 0.391 (Cb - 128), B = 1.164 (Y - 16) + 2.018 (Cb - 128); in units of 1/65536.
func studioRGB(y, cb, cr uint8) (uint8, uint8, uint8) {
	l, b, r := 76309*(int32(y)-16), int32(cb)-128, int32(cr)-128
	value := func(v int32) uint8 { return uint8(min(max((v+1<<15)>>16, 0), 255)) }
	return value(l + 104597*r), value(l - 53279*r - 25675*b), value(l + 132201*b)
}
