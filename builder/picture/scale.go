package picture

// tap is where the pixels begin from which one pixel of the new row is mixed, and their weights in units of 1/weightUnit.
type tap struct {
	first   int
	weights []int32
}

const weightUnit = 1 << 14

// kernel gives the taps that turn a row of `from` pixels, of which k each were taken together, into one of `to`. All of it is whole numbers, which every
// computer adds alike.
//
// The middle of old pixel j lies at (2j+1)/2 old pixels from the edge, that of new pixel i at (2i+1)·from/(2·to), and that of a block of old pixels between its ends. The
// filter is stretched when the row becomes shorter, so that every old pixel counts.
func kernel(from, to, k int) []tap {
	wide := max(from, to)
	taps := make([]tap, to)
	for i := range taps {
		middle := (2*i + 1) * from // in units of 1/(2·to) old pixels
		first := max((middle-4*wide)/(2*to*k), 0)
		last := min((middle+4*wide)/(2*to*k)+1, (from+k-1)/k)
		raw := make([]int64, last-first)
		for n := range raw {
			begin := (first + n) * k
			end := min(begin+k, from)
			distance := (begin+end)*to - middle
			raw[n] = catmullRom(int64(max(distance, -distance))<<16/int64(2*wide)) * int64(end-begin)
		}
		taps[i] = normal(first, raw)
	}
	return taps
}

// catmullRom is the filter at distance x, both in units of 1/65536.
//
// Source: D. Mitchell, A. Netravali: Reconstruction Filters in Computer Graphics, SIGGRAPH 1988, equation 8 with B = 0 and C = 1/2:
// (3x³ - 5x² + 2)/2 below 1, (-x³ + 5x² - 8x + 4)/2 from 1 to 2.
func catmullRom(x int64) int64 {
	const one = 1 << 16
	x2 := x * x >> 16
	x3 := x2 * x >> 16
	switch {
	case x < one:
		return (3*x3 - 5*x2 + 2*one) / 2
	case x < 2*one:
		return (-x3 + 5*x2 - 8*x + 4*one) / 2
	}
	return 0
}

// normal makes weights that add up to weightUnit, so that an even area stays exactly as it is.
func normal(first int, raw []int64) tap {
	for len(raw) > 1 && raw[0] == 0 {
		first, raw = first+1, raw[1:]
	}
	for len(raw) > 1 && raw[len(raw)-1] == 0 {
		raw = raw[:len(raw)-1]
	}
	sum := int64(0)
	for _, w := range raw {
		sum += w
	}
	t := tap{first: first, weights: make([]int32, len(raw))}
	left, heaviest := int32(weightUnit), 0
	for k, w := range raw {
		t.weights[k] = int32(w * weightUnit / sum)
		left -= t.weights[k]
		if raw[k] > raw[heaviest] {
			heaviest = k
		}
	}
	t.weights[heaviest] += left
	return t
}

// across mixes one row of light into another.
func across(to, from []uint16, taps []tap) {
	for i, t := range taps {
		sum := int64(weightUnit / 2)
		pixels := from[t.first : t.first+len(t.weights)]
		for k, w := range t.weights {
			sum += int64(w) * int64(pixels[k])
		}
		to[i] = uint16(min(max(sum/weightUnit, 0), full))
	}
}

// down mixes several rows of light, which lie in a ring, into one. The sums are scratch of the same length.
func down(to []uint16, ring [][]uint16, t tap, sums []int64) {
	for i := range sums {
		sums[i] = weightUnit / 2
	}
	for k, w := range t.weights {
		row := ring[(t.first+k)%len(ring)]
		for i, v := range row {
			sums[i] += int64(w) * int64(v)
		}
	}
	for i, sum := range sums {
		to[i] = uint16(min(max(sum/weightUnit, 0), full))
	}
}
