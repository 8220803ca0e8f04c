package picture

// coarse is how many pixels each way may be taken together before the filter makes a picture of w × h of them: the filter still halves what is left, and
// a block of pixels of equal weight is finer than its slopes. Mixing each pixel of a photograph of fifty million with its twenty neighbours took a
// second and a half.
func coarse(s rows, w, h int) int { return max(1, min(s.width/(2*w), s.height/(2*h))) }

// together gives rows in which each pixel is the mean light of k × k; at the right and lower edge, of those that are left.
func (s rows) together(k int) rows {
	fine := s
	s.width, s.height = (fine.width+k-1)/k, (fine.height+k-1)/k
	var line [4][]uint16
	var sums [4][]uint32
	for c := range s.channels {
		line[c], sums[c] = make([]uint16, fine.width), make([]uint32, s.width)
	}
	s.read = func(y int, to *[4][]uint16) {
		for c := range s.channels {
			clear(sums[c])
		}
		high := min(k, fine.height-y*k)
		for i := range high {
			fine.read(y*k+i, &line)
			for c := range s.channels {
				addBlocks(sums[c], line[c], k)
			}
		}
		for c := range s.channels {
			for x, sum := range sums[c] {
				n := uint32(high * min(k, fine.width-x*k))
				to[c][x] = uint16((sum + n/2) / n)
			}
		}
	}
	return s
}

// addBlocks adds k pixels to each sum; to the last, those that are left. Sums of 256 × 256 pixels fit, and no picture of fifty million has more in one.
func addBlocks(sums []uint32, line []uint16, k int) {
	if whole := len(line) / 2; k == 2 { // of nearly every photograph
		for x := range sums[:whole] {
			pair := line[2*x:][:2]
			sums[x] += uint32(pair[0]) + uint32(pair[1])
		}
		if whole < len(sums) {
			sums[whole] += uint32(line[2*whole])
		}
		return
	}
	for x := range sums {
		sum := uint32(0)
		for _, v := range line[x*k : min(x*k+k, len(line))] {
			sum += uint32(v)
		}
		sums[x] += sum
	}
}
