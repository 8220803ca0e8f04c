// Package spelling counts typing errors, for whoever suggests what was meant.
package spelling

// Distance counts the errors between words: a letter wrong, missing or too many, or two neighbours exchanged (optimal string alignment; F. J.
// Damerau, A technique for computer detection and correction of spelling errors, Communications of the ACM 7, 1964). The zero Distance is ready; its
// rows are used again, so one is for one goroutine.
type Distance struct {
	before, above, row []int
	letters            []rune
}

// Between gives the errors from a to b, or most+1 as soon as it is sure that there are more than most.
func (d *Distance) Between(a []rune, b string, most int) int {
	// Bytes are no fewer than letters, so this never leaves out a near word.
	if len(b) < len(a)-most {
		return most + 1
	}
	d.letters = d.letters[:0]
	for _, letter := range b {
		d.letters = append(d.letters, letter)
	}
	letters := d.letters
	if n := len(letters) - len(a); n > most || -n > most {
		return most + 1
	}
	width := len(letters) + 1
	if cap(d.row) < width {
		d.before, d.above, d.row = make([]int, 2*width), make([]int, 2*width), make([]int, 2*width)
	}
	before, above, row := d.before[:width], d.above[:width], d.row[:width]
	for j := range above {
		above[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row[0] = i
		least := i
		for j := 1; j < width; j++ {
			wrong := above[j-1]
			if a[i-1] != letters[j-1] {
				wrong++
			}
			row[j] = min(wrong, above[j]+1, row[j-1]+1)
			if i > 1 && j > 1 && a[i-1] == letters[j-2] && a[i-2] == letters[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
			least = min(least, row[j])
		}
		if least > most {
			return most + 1
		}
		before, above, row = above, row, before
	}
	return min(above[width-1], most+1)
}
