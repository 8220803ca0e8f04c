// Package wording is about files of words: what the program says in English, what each phrase is for, what a file of another language has of it, and
// what is wrong there. A file is YAML, a phrase and what is shown for it a line:
//
//	"Filled to the mark": "bis zur Marke gefüllt"
//
// [Template] writes one with what is missing and keeps it current; [Check] says which of its phrases nothing says, and which have lost a hole or a figure.
package wording

import (
	"regexp"
	"slices"
	"strings"

	"tankside/themes"
)

// List is one of the two lists of phrases.
type List string

// The lists: what pages, cards and reasons say, and what the calculators say. Each has a file a language.
const (
	Pages       List = "pages"
	Calculators List = "calculators"
)

// Lists are both, in the order in which they are told.
var Lists = []List{Pages, Calculators}

// File is the file of a list in a language, within the theme.
func (l List) File(tag string) string {
	if l == Calculators {
		return "words/calculators/" + tag + ".yaml"
	}
	return "words/" + tag + ".yaml"
}

// ListOf is the list that a file of the theme is of, and the language of the file by its name; is tells whether it is a file of words at all.
func ListOf(file string) (l List, tag string, is bool) {
	name, is := strings.CutPrefix(file, "words/")
	if !is {
		return "", "", false
	}
	l = Pages
	if below, sums := strings.CutPrefix(name, "calculators/"); sums {
		l, name = Calculators, below
	}
	tag, is = strings.CutSuffix(name, ".yaml")
	return l, tag, is && !strings.Contains(tag, "/")
}

// Phrase is something that the program says.
type Phrase struct {
	English string
	For     string // where it is said
}

// Phrases are those of a list, those said in one place together. What the list holds is compared with the program by the tests of packages page and
// calculators.
func (l List) Phrases() []Phrase {
	var list []Phrase
	for line := range strings.Lines(themes.Phrases(string(l))) {
		if english, where, is := strings.Cut(strings.TrimSuffix(line, "\n"), "\t"); is {
			list = append(list, Phrase{english, where})
		}
	}
	return list
}

// hole is what is filled into a phrase.
var hole = regexp.MustCompile(`%[sd]|\{[\w -]+\}`)

// number is a figure that a phrase has.
var number = regexp.MustCompile(`\d+(?:\.\d+)?`)

// Holes are the places of a phrase that are filled in, in their order.
func Holes(text string) []string { return hole.FindAllString(text, -1) }

// Figures are the numbers of a phrase, in the order of their digits: a translation may name them in another order.
func Figures(text string) []string {
	return slices.Sorted(slices.Values(number.FindAllString(text, -1)))
}
