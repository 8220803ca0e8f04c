package manual

import (
	"maps"
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"
)

// SignalWords are the signal words of ANSI Z535.6 and ISO 3864, gravest first.
var SignalWords = []string{"DANGER", "WARNING", "CAUTION", "NOTICE"}

// signalWordsIn are the signal words of other languages that the program itself speaks, as they stand on signs and labels, with what they mean. The first
// of two for one word is the usual one. A manual's own theme declares those of further languages in its files of words.
// Spanish: the words of bilingual labels by ANSI Z535.4 and Z535.6, from memory; PRECAUCIÓN and ATENCIÓN are both in use for CAUTION. German: DIN ISO
// 3864-2 for the first three, as manufacturers' documents cite it; HINWEIS for damage without injury by ANSI Z535.6.
var signalWordsIn = map[string][]signalWord{
	"de": {{"GEFAHR", "DANGER"}, {"WARNUNG", "WARNING"}, {"VORSICHT", "CAUTION"}, {"HINWEIS", "NOTICE"}},
	"es": {{"PELIGRO", "DANGER"}, {"ADVERTENCIA", "WARNING"}, {"PRECAUCIÓN", "CAUTION"}, {"ATENCIÓN", "CAUTION"}, {"AVISO", "NOTICE"}},
}

type signalWord struct{ shown, means string }

// ownSignals are the signal words that the files of words in the manual's own theme declare, by language tag in small letters, gravest first.
type ownSignals map[string][]signalWord

// signals tell what a signal word means in the articles of one language: a word of SignalWords by what is shown.
type signals map[string]string

// in gives the signal words as articles of a language know them. A safety message is one in whatever language it is; where a word means something else
// in another language, as AVISO does in Portuguese, the article's own language counts, and then the graver meaning.
func (o ownSignals) in(tag string) signals {
	all := signals{}
	put := func(words []signalWord, over bool) {
		for _, w := range words {
			if before, there := all[w.shown]; !there || over && slices.Index(SignalWords, w.means) < slices.Index(SignalWords, before) {
				all[w.shown] = w.means
			}
		}
	}
	for _, w := range o.of(tag) {
		all[w.shown] = w.means
	}
	for _, w := range SignalWords {
		put([]signalWord{{w, w}}, false)
	}
	known := maps.Clone(all)
	for _, of := range []map[string][]signalWord{signalWordsIn, o} {
		for _, words := range of {
			put(words, true)
		}
	}
	maps.Copy(all, known)
	return all
}

// of gives the signal words of a language, or of the language of a region: the manual's own before the program's.
func (o ownSignals) of(tag string) []signalWord {
	tag = strings.ToLower(tag)
	general, _, _ := strings.Cut(tag, "-")
	for _, words := range [][]signalWord{o[tag], o[general], signalWordsIn[general]} {
		if len(words) > 0 {
			return words
		}
	}
	return nil
}

// SignalWordsIn lists the signal words of a language, gravest first; none where neither the manual's theme nor the program has any for it.
func (m *Manual) SignalWordsIn(tag string) []string {
	general, _, _ := strings.Cut(tag, "-")
	words := m.signals.of(tag)
	if len(words) == 0 && (general == "en" || general == "") {
		return SignalWords
	}
	var list []string
	for _, w := range words {
		list = append(list, w.shown)
	}
	return list
}

// builtInSignals are those of a manual that declares none.
var builtInSignals = ownSignals(nil).in("en")

// meaning gives what a signal word means, or "".
func (s signals) meaning(shown string) string {
	if s == nil {
		s = builtInSignals
	}
	return s[shown]
}

// SignalWord gives the signal word with which a paragraph opens, as it is written, and what it means: a word of SignalWords, or "" where it is
// none. In a block quote it makes a safety message. The signal words are those of the article's manual; of no article, those that every manual knows.
func (a *Article) SignalWord(paragraph ast.Node, source []byte) (shown, means string) {
	shown, _ = (&bodyReader{source: source}).signal(paragraph)
	if a == nil {
		return shown, builtInSignals[shown]
	}
	return shown, a.signals.meaning(shown)
}
