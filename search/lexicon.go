package search

import (
	"cmp"
	"math/bits"
	"slices"
	"sort"
	"strings"

	"tankside/builder/spelling"
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
	letters   letterSet
}

// letterSet says which small letters, a to z, a word has, a bit for each. A typing
// error changes two of them at most, which is soon seen and leaves few words
// whose letters need a look in their order.
type letterSet uint32

func lettersOf(word string) (set letterSet) {
	for i := range len(word) {
		if b := word[i]; 'a' <= b && b <= 'z' {
			set |= 1 << (b - 'a')
		}
	}
	return set
}

// mayBe tells whether so few typing errors can lead from one set to another.
func (l letterSet) mayBe(other letterSet, errors int) bool {
	return bits.OnesCount32(uint32(l^other)) <= 2*errors
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
	letters, set := []rune(word), lettersOf(word)
	var rows spelling.Distance
	for i := range l {
		e := &l[i]
		if !set.mayBe(e.letters, errors) || errors > 1 && e.word[0] != word[0] {
			continue
		}
		if d := rows.Between(letters, e.word, errors); d <= errors {
			found = append(found, near{*e, d})
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
