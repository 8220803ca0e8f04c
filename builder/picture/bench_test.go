package picture_test

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"testing"
	"time"

	"tankside/builder/picture"
)

// scene is a picture with slopes, edges and grain, as a photograph has them.
func scene(w, h int) *image.RGBA {
	m := image.NewRGBA(image.Rect(0, 0, w, h))
	grain := uint32(1)
	for y := range h {
		for x := range w {
			grain = grain*1664525 + 1013904223
			v := uint8((x*160/w + y*60/h + int(grain>>29)) % 256)
			if (x/97+y/61)%2 == 0 {
				v = 230 - v/2
			}
			m.SetRGBA(x, y, color.RGBA{v, v/2 + 60, 200 - v/2, 255})
		}
	}
	return m
}

// screen is a picture of even areas and thin lines, as a screenshot has them.
func screen(w, h int) *image.RGBA {
	m := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			c := color.RGBA{246, 246, 244, 255}
			switch {
			case y%36 < 18 && (x*7/5+y*x/19)%11 < 3 && x%300 < 240: // lines of writing
				c = color.RGBA{40, 44, 52, 255}
			case x%300 == 0 || y%180 == 0:
				c = color.RGBA{30, 100, 170, 255}
			}
			m.SetRGBA(x, y, c)
		}
	}
	return m
}

func asJPEG(tb testing.TB, m image.Image, quality int) []byte {
	tb.Helper()
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, &jpeg.Options{Quality: quality}); err != nil {
		tb.Fatal(err)
	}
	return b.Bytes()
}

func asPNG(tb testing.TB, m image.Image) []byte {
	tb.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		tb.Fatal(err)
	}
	return b.Bytes()
}

// BenchmarkPhotograph makes a photograph of 12 megapixels ready. The floor is what nothing can do without: the bare library decodes it
// and encodes a picture of the size that is kept.
func BenchmarkPhotograph(b *testing.B) {
	data := asJPEG(b, scene(4032, 3024), 90)
	small := scene(1300, 975)
	var floor, ours time.Duration
	for b.Loop() {
		start := time.Now()
		if _, err := jpeg.Decode(bytes.NewReader(data)); err != nil {
			b.Fatal(err)
		}
		asJPEG(b, small, 85)
		floor += time.Since(start)
		start = time.Now()
		if _, err := picture.Prepare("photograph.jpg", data); err != nil {
			b.Fatal(err)
		}
		ours += time.Since(start)
	}
	b.ReportMetric(float64(ours)/float64(floor), "of-floor")
	b.ReportMetric(float64(ours.Milliseconds())/float64(b.N), "ms/picture")
}

// BenchmarkScreenshot makes a screenshot ready that is no larger than a page shows it. The floor is decoding it, which finds damage.
func BenchmarkScreenshot(b *testing.B) {
	data := asPNG(b, scene(1280, 800))
	var floor, ours time.Duration
	for b.Loop() {
		start := time.Now()
		if _, err := png.Decode(bytes.NewReader(data)); err != nil {
			b.Fatal(err)
		}
		floor += time.Since(start)
		start = time.Now()
		if _, err := picture.Prepare("screenshot.png", data); err != nil {
			b.Fatal(err)
		}
		ours += time.Since(start)
	}
	b.ReportMetric(float64(ours)/float64(floor), "of-floor")
}

// BenchmarkLargeScreenshot makes a screenshot of a sharp screen smaller. The floor is decoding it and encoding the size that is kept.
func BenchmarkLargeScreenshot(b *testing.B) {
	data := asPNG(b, screen(2880, 1800))
	small := screen(1300, 813)
	var floor, ours time.Duration
	for b.Loop() {
		start := time.Now()
		if _, err := png.Decode(bytes.NewReader(data)); err != nil {
			b.Fatal(err)
		}
		asPNG(b, small)
		floor += time.Since(start)
		start = time.Now()
		if _, err := picture.Prepare("screenshot.png", data); err != nil {
			b.Fatal(err)
		}
		ours += time.Since(start)
	}
	b.ReportMetric(float64(ours)/float64(floor), "of-floor")
	b.ReportMetric(float64(ours.Milliseconds())/float64(b.N), "ms/picture")
}

// BenchmarkCheck looks at the same photograph as the proof-reader does. The floor is decoding it.
func BenchmarkCheck(b *testing.B) {
	data := asJPEG(b, scene(4032, 3024), 90)
	var floor, ours time.Duration
	for b.Loop() {
		start := time.Now()
		if _, err := jpeg.Decode(bytes.NewReader(data)); err != nil {
			b.Fatal(err)
		}
		floor += time.Since(start)
		start = time.Now()
		if p := picture.Check("photograph.jpg", data); p != nil {
			b.Fatal(p[0])
		}
		ours += time.Since(start)
	}
	b.ReportMetric(float64(ours)/float64(floor), "of-floor")
}
