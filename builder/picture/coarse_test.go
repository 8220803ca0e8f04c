package picture

import (
	"image"
	"image/color"
	"math"
	"testing"

	"golang.org/x/image/draw"
)

// rowsOf gives a made-up grey picture of w × h as rows of light.
func rowsOf(w, h int, light func(x, y int) uint16) rows {
	return rows{width: w, height: h, channels: 1, read: func(y int, to *[4][]uint16) {
		for x := range w {
			to[0][x] = light(x, y)
		}
	}}
}

func readAll(s rows) [][]uint16 {
	all := make([][]uint16, s.height)
	for y := range all {
		line := [4][]uint16{make([]uint16, s.width)}
		s.read(y, &line)
		all[y] = line[0]
	}
	return all
}

// TestTogether: blocks are the mean of what lies in them, also at edges where less is left, and an even area stays exactly as it is.
func TestTogether(t *testing.T) {
	for _, k := range []int{2, 3, 5} {
		s := rowsOf(11, 7, func(x, y int) uint16 { return uint16(1000*x + 17*y) })
		got := readAll(s.together(k))
		for y, row := range got {
			for x, v := range row {
				sum, n := 0, 0
				for j := y * k; j < min(y*k+k, 7); j++ {
					for i := x * k; i < min(x*k+k, 11); i++ {
						sum, n = sum+1000*i+17*j, n+1
					}
				}
				if want := math.Round(float64(sum) / float64(n)); math.Abs(float64(v)-want) > 1 {
					t.Errorf("%d together, block %d, %d: %d, want %v", k, x, y, v, want)
				}
			}
		}
		if len(got) != (7+k-1)/k || len(got[0]) != (11+k-1)/k {
			t.Errorf("%d together are %d × %d", k, len(got[0]), len(got))
		}
		for _, row := range readAll(rowsOf(11, 7, func(int, int) uint16 { return 54_321 }).together(k)) {
			for _, v := range row {
				if v != 54_321 {
					t.Errorf("%d together of an even area: %d", k, v)
				}
			}
		}
	}
}

// TestCoarse: a picture made much smaller by blocks first is the one that golang.org/x/image/draw makes of it at once, to a sixty-fourth of full light; and where it is
// to be less than four times smaller, nothing is taken together.
func TestCoarse(t *testing.T) {
	light := func(x, y int) uint16 {
		return uint16(32768 + 12000*math.Sin(float64(x)/9) + 9000*math.Cos(float64(y)/7) + 4000*math.Sin(float64(x*y)/500))
	}
	for _, size := range [][4]int{{520, 420, 130, 105}, {723, 402, 130, 72}, {1301, 650, 130, 65}} {
		w, h, toW, toH := size[0], size[1], size[2], size[3]
		from, to := image.NewGray16(image.Rect(0, 0, w, h)), image.NewRGBA64(image.Rect(0, 0, toW, toH))
		for y := range h {
			for x := range w {
				from.SetGray16(x, y, color.Gray16{Y: light(x, y)})
			}
		}
		draw.CatmullRom.Scale(to, to.Rect, from, from.Rect, draw.Src, nil)
		s := rowsOf(w, h, light)
		k := coarse(s, toW, toH)
		if k < 2 {
			t.Fatalf("%v: %d are taken together", size, k)
		}
		small := s.together(k)
		rings, row := make([][]uint16, small.height), make([]uint16, toW)
		for y, line := range readAll(small) {
			rings[y] = make([]uint16, toW)
			across(rings[y], line, kernel(w, toW, k))
		}
		for y, tap := range kernel(h, toH, k) {
			down(row, rings, tap, make([]int64, toW))
			for x, got := range row {
				if want := to.RGBA64At(x, y).R; math.Abs(float64(got)-float64(want)) > full/64 {
					t.Fatalf("%v at %d, %d: %d, want %d", size, x, y, got, want)
				}
			}
		}
	}
	if k := coarse(rowsOf(4032, 3024, nil), 1300, 975); k != 1 {
		t.Errorf("of a photograph of twelve million pixels %d are taken together", k)
	}
}
