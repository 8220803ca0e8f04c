// Package marked is a language for tests, in which every phrase is a mark with its number: a word that is still to be read in what the
// program writes was said without the words of the language, and the marks tell which phrases were said.
package marked

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"tankside/builder/language"
	"tankside/builder/quantity"
)

// Language is a language of marks.
type Language struct {
	language.Words
	Phrases []string
	Said    []bool // by the index of Phrases
}

// Holes are the places of a phrase that are filled in.
var Holes = regexp.MustCompile(`\{[\w -]+\}`)

// New gives the language of marks for phrases.
func New(phrases []string) *Language {
	l := &Language{Words: language.Words{}, Phrases: phrases, Said: make([]bool, len(phrases))}
	for i, p := range phrases {
		mark := "⟦" + strconv.Itoa(i) + "⟧"
		l.Words[p] = mark + strings.Join(Holes.FindAllString(p, -1), mark) + mark
	}
	return l
}

var mark = regexp.MustCompile(`⟦(\d+)⟧`)

// codes are those of ISO 16232, A(B17/F14), and the letters of its classes, which are the same in every language.
var codes = regexp.MustCompile(`[ANV]\(([B-K]>?\d+/?)+\)|\b([B-K], )*[B-K]\b`)

// Unsaid gives the first word of a text that is neither within a mark nor a unit nor one of the names, or "". The phrases that the text says are ticked.
func (l *Language) Unsaid(text string, names ...string) string {
	for _, m := range mark.FindAllStringSubmatch(text, -1) {
		i, _ := strconv.Atoi(m[1])
		l.Said[i] = true
	}
	text = codes.ReplaceAllString(mark.ReplaceAllString(text, " "), " ")
	for _, name := range names {
		text = strings.ReplaceAll(text, name, " ")
	}
	apart := func(r rune) bool { return unicode.IsSpace(r) || strings.ContainsRune("();,.:–", r) }
	for _, word := range strings.FieldsFunc(text, apart) {
		word = strings.TrimLeft(word, "0123456789.−-/=×÷")
		if strings.ContainsFunc(word, unicode.IsLetter) && !isUnit(word) {
			return word
		}
	}
	return ""
}

// isUnit tells whether a word is a unit or a part of one, such as US gal.
func isUnit(word string) bool {
	for k := quantity.Number; k.Example() != ""; k++ {
		if _, is := quantity.UnitNamed(word, k); is {
			return true
		}
		for _, symbol := range quantity.Symbols(k) { // those of two words, and a price
			if slices.Contains(strings.Fields(symbol), word) || strings.TrimPrefix(symbol, "/") == word {
				return true
			}
		}
	}
	return false
}
