package search

import (
	"cmp"
	"slices"
	"sort"
	"strings"
)

// lexicon is the list of the manual's words as they are written (folded, not
// stemmed), in order, each with the number of documents that hold it. Typing
// errors, beginnings of words and "did you mean" are found in it rather than
// among bleve's terms, which are stems: "anodizd" is one letter away from
// "anodized" and three from its stem.
type lexicon []entry

type entry struct {
	word      string
	documents int
}

// find gives the entry of a word.
func (l lexicon) find(word string) (entry, bool) {
	i, found := slices.BinarySearchFunc(l, word, func(e entry, word string) int {
		return strings.Compare(e.word, word)
	})
	if !found {
		return entry{}, false
	}
	return l[i], true
}

// beginning gives the entries that begin with the prefix, commonest first, at
// most limit of them.
func (l lexicon) beginning(prefix string, limit int) []entry {
	from := sort.Search(len(l), func(i int) bool { return l[i].word >= prefix })
	to := from
	for to < len(l) && strings.HasPrefix(l[to].word, prefix) {
		to++
	}
	return commonest(slices.Clone(l[from:to]), limit)
}

func commonest(entries []entry, limit int) []entry {
	slices.SortFunc(entries, func(a, b entry) int {
		return cmp.Or(cmp.Compare(b.documents, a.documents), strings.Compare(a.word, b.word))
	})
	return entries[:min(limit, len(entries))]
}

// near is an entry and how many typing errors lie between it and the word.
type near struct {
	entry
	errors int
}

// nearest gives the entries within the given number of typing errors, fewest
// errors first, then commonest, at most limit. People seldom get the first
// letter wrong, so with more than one error it has to agree.
func (l lexicon) nearest(word string, errors, limit int) []near {
	var found []near
	letters := []rune(word)
	var rows distance
	for _, e := range l {
		if errors > 1 && e.word[0] != word[0] {
			continue
		}
		if d := rows.between(letters, e.word, errors); d <= errors {
			found = append(found, near{e, d})
		}
	}
	slices.SortFunc(found, func(a, b near) int {
		return cmp.Or(cmp.Compare(a.errors, b.errors),
			cmp.Compare(b.documents, a.documents), strings.Compare(a.word, b.word))
	})
	return found[:min(limit, len(found))]
}

// allowed is how many typing errors a word of this length may hold: none up to
// three letters, one up to seven, two beyond.
func allowed(word string) int {
	switch n := len([]rune(word)); {
	case n <= 3:
		return 0
	case n <= 7:
		return 1
	}
	return 2
}

// distance counts typing errors: a letter wrong, missing or too many, or two
// neighbours exchanged (optimal string alignment). Its rows are used again.
type distance struct {
	before, above, row []int
	letters            []rune
}

// between gives the errors from a to b, or more than most as soon as it is sure.
func (d *distance) between(a []rune, b string, most int) int {
	// Bytes are no fewer than letters, so this never leaves out a near word.
	if len(b) < len(a)-most {
		return most + 1
	}
	d.letters = d.letters[:0]
	for _, letter := range b {
		d.letters = append(d.letters, letter)
	}
	letters := d.letters
	if len(letters) > len(a)+most {
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
	return above[width-1]
}
