package changes

import (
	"slices"
	"unicode"
)

// Run is a piece of a text: what both sides have, or what one side alone has.
type Run struct {
	Text   string
	Marked bool // the other side has it not
}

// Words compares two texts word by word and gives both with what is different in them marked. Each side's runs joined are its text.
//
// It is Myers' algorithm (E. W. Myers, An O(ND) Difference Algorithm and Its Variations, Algorithmica 1, 1986, figure 2), over words: the libraries at hand
// compare letters or lines, and turning words into letters for them takes as many lines as the algorithm.
func Words(before, after string) (was, is []Run) {
	a, b := tokens(before), tokens(after)
	start := 0
	for start < len(a) && start < len(b) && a[start] == b[start] {
		start++
	}
	end := 0
	for end < len(a)-start && end < len(b)-start && a[len(a)-1-end] == b[len(b)-1-end] {
		end++
	}
	keptA, keptB := common(a[start:len(a)-end], b[start:len(b)-end])
	mark := func(all []string, kept []bool) []Run {
		var runs []Run
		for i, t := range all {
			marked := i >= start && i < len(all)-end && !kept[i-start]
			if n := len(runs); n > 0 && runs[n-1].Marked == marked {
				runs[n-1].Text += t
				continue
			}
			runs = append(runs, Run{t, marked})
		}
		return bridged(runs)
	}
	return mark(a, keptA), mark(b, keptB)
}

// bridged marks a blank that stands alone between two marked runs, so that a row of changed words is one mark.
func bridged(runs []Run) []Run {
	var joined []Run
	for i, r := range runs {
		if !r.Marked && i > 0 && i+1 < len(runs) && r.Text == " " {
			r.Marked = true
		}
		if n := len(joined); n > 0 && joined[n-1].Marked == r.Marked {
			joined[n-1].Text += r.Text
			continue
		}
		joined = append(joined, r)
	}
	return joined
}

// tokens parts a text into words, blanks and single other characters.
func tokens(text string) []string {
	var list []string
	sort := func(r rune) int {
		switch {
		case unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.Is(unicode.Mn, r):
			return 0
		case r == ' ':
			return 1
		}
		return -1
	}
	from, last := 0, -1
	for i, r := range text {
		now := sort(r)
		if i > from && (now != last || now < 0) {
			list = append(list, text[from:i])
			from = i
		}
		last = now
	}
	if from < len(text) {
		list = append(list, text[from:])
	}
	return list
}

// mostSteps bounds how many words may differ before two texts are two, and marked whole.
const mostSteps = 1500

// common marks on both sides a longest sequence of words that both have.
func common(a, b []string) (inA, inB []bool) {
	inA, inB = make([]bool, len(a)), make([]bool, len(b))
	most := min(len(a)+len(b), mostSteps)
	furthest := make([]int, 2*most+3)
	var trace [][]int
	for d := 0; d <= most; d++ {
		trace = append(trace, slices.Clone(furthest[most-d+1:most+d+2]))
		for k := -d; k <= d; k += 2 {
			at := most + 1 + k
			x := furthest[at-1] + 1
			if k == -d || k != d && furthest[at-1] < furthest[at+1] {
				x = furthest[at+1]
			}
			y := x - k
			for x < len(a) && y < len(b) && a[x] == b[y] {
				x, y = x+1, y+1
			}
			furthest[at] = x
			if x >= len(a) && y >= len(b) {
				back(trace, len(a), len(b), inA, inB)
				return inA, inB
			}
		}
	}
	return inA, inB
}

// back goes the way back from the end and marks what both sides have.
func back(trace [][]int, x, y int, inA, inB []bool) {
	for d := len(trace) - 1; d >= 0; d-- {
		row := trace[d] // what was furthest on the diagonals −d … d before this step
		k := x - y
		before := k - 1
		if k == -d || k != d && row[d+k-1] < row[d+k+1] {
			before = k + 1
		}
		px := 0
		if d > 0 {
			px = row[d+before]
		}
		py := px - before
		for x > max(px, 0) && y > max(py, 0) && (d == 0 || x > px && y > py) {
			x, y = x-1, y-1
			inA[x], inB[y] = true, true
		}
		x, y = px, py
	}
}
