package picture

import "image"

// develop gives a decoded picture upright, in sRGB and in that size. It goes through the picture row by row and keeps no more rows
// in memory than the filter reaches over.
func develop(r *raster, img image.Image, w, h int) image.Image {
	s := openRows(img, r)
	if lies(r.turn) {
		w, h = h, w // as stored
	}
	k := coarse(s, w, h)
	acrossTaps, downTaps := kernel(s.width, w, k), kernel(s.height, h, k)
	if k > 1 {
		s = s.together(k)
	}
	reach := 0
	for _, t := range downTaps {
		reach = max(reach, len(t.weights))
	}
	var line, mixed [4][]uint16
	var rings [4][][]uint16
	for c := range s.channels {
		line[c], mixed[c] = make([]uint16, s.width), make([]uint16, w)
		rings[c] = make([][]uint16, reach)
		for i := range rings[c] {
			rings[c][i] = make([]uint16, w)
		}
	}
	sums := make([]int64, w)
	sheet := newSheet(r, s.channels, w, h)
	next := 0
	for y, t := range downTaps {
		for ; next < t.first+len(t.weights); next++ {
			s.read(next, &line)
			for c := range s.channels {
				across(rings[c][next%reach], line[c], acrossTaps)
			}
		}
		for c := range s.channels {
			down(mixed[c], rings[c], t, sums)
		}
		sheet.row(y, &mixed)
	}
	return sheet.image
}

// sheet is the picture that is being developed.
type sheet struct {
	image    image.Image
	pixels   []uint8
	stride   int
	channels int // 1 grey, 3 colours, 4 colours multiplied with their transparency, and the transparency
	w, h     int // as stored
	turn     int
	convert  *conversion
}

func newSheet(r *raster, channels, w, h int) *sheet {
	s := &sheet{channels: channels, w: w, h: h, turn: r.turn, convert: r.convert}
	area := image.Rect(0, 0, w, h)
	if lies(r.turn) {
		area = image.Rect(0, 0, h, w)
	}
	switch channels {
	case 1:
		m := image.NewGray(area)
		s.image, s.pixels, s.stride = m, m.Pix, m.Stride
	case 3:
		m := image.NewRGBA(area)
		s.image, s.pixels, s.stride = m, m.Pix, m.Stride
	default:
		m := image.NewNRGBA(area)
		s.image, s.pixels, s.stride = m, m.Pix, m.Stride
	}
	return s
}

// row sets down row y, as stored, from its light.
func (s *sheet) row(y int, light *[4][]uint16) {
	encode := toSRGB()
	for x := range s.w {
		px, py := turned(s.turn, x, y, s.w, s.h)
		if s.channels == 1 {
			s.pixels[py*s.stride+px] = encode[light[0][x]]
			continue
		}
		r, g, b, a := int64(light[0][x]), int64(light[1][x]), int64(light[2][x]), int64(full)
		if s.channels == 4 {
			if a = int64(light[3][x]); a < full && a > 0 {
				r, g, b = min(r*full/a, full), min(g*full/a, full), min(b*full/a, full)
			}
		}
		if s.convert != nil && !s.convert.single {
			r, g, b = s.convert.apply(r, g, b)
		}
		p := s.pixels[py*s.stride+4*px:]
		p[0], p[1], p[2], p[3] = encode[r], encode[g], encode[b], uint8((a*255+full/2)/full)
	}
}
