package picture

import (
	"fmt"
	"math"
)

const (
	shownWidth  = 650 // CSS pixels: the text column, 34 em at 19 px
	shownHeight = 900 // CSS pixels: what is left of a printed page, 267 mm of A4 at 96 px to the inch, below head and caption

	density    = 2 // device pixels per CSS pixel that a sharp screen makes use of
	keptWidth  = shownWidth * density
	keptHeight = shownHeight * density

	// untouched is how many times larger than kept a picture may stay if making it smaller does not make its file smaller.
	untouched = 2

	// A file of a few kilobytes can declare any size, so the declared size is looked at before anything is decoded.
	maxPixels = 50e6      // a photograph of today's best cameras
	maxMemory = 400 << 20 // bytes that decoding takes; the whole publication stays below 1 GiB
)

// fit gives the largest size of the same proportions within the given one, in whole pixels. A picture that fits keeps its size.
func fit(w, h, maxW, maxH int) (int, int) {
	switch {
	case w <= maxW && h <= maxH:
		return w, h
	case w*maxH > h*maxW:
		return maxW, max(1, (2*h*maxW+w)/(2*w))
	default:
		return max(1, (2*w*maxH+h)/(2*h)), maxH
	}
}

// tooLarge is the problem of a picture with more pixels than can be read, or nil. Decoding takes that many bytes for each pixel.
func tooLarge(w, h int, bytesEach float64) *Problem {
	pixels, most := float64(w)*float64(h), min(maxPixels, maxMemory/bytesEach)
	if pixels <= most {
		return nil
	}
	return &Problem{
		Message: fmt.Sprintf("The picture says that it has %d × %d pixels, %.0f million; of its kind up to %.0f million can be read.", w, h, math.Ceil(pixels/1e6), math.Floor(most/1e6)),
		Remedy:  fmt.Sprintf("Make it smaller in a picture program: a page shows at most %d × %d pixels of it.", keptWidth, keptHeight),
	}
}
