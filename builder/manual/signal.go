package manual

import (
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"
)

// SignalWords are the signal words of ANSI Z535.6 and ISO 3864, gravest first.
var SignalWords = []string{"DANGER", "WARNING", "CAUTION", "NOTICE"}

// signalWordsIn are the signal words of other languages, as they stand on signs and labels in two languages, with what they mean. The first
// of two for one word is the usual one. Spanish: the words of bilingual labels by ANSI Z535.4 and Z535.6, from memory; PRECAUCIÓN and ATENCIÓN
// are both in use for CAUTION.
var signalWordsIn = map[string][]struct{ shown, means string }{
	"es": {{"PELIGRO", "DANGER"}, {"ADVERTENCIA", "WARNING"}, {"PRECAUCIÓN", "CAUTION"}, {"ATENCIÓN", "CAUTION"}, {"AVISO", "NOTICE"}},
}

// SignalWordsIn lists the signal words of a language, gravest first; none where the manual's format has none for it.
func SignalWordsIn(language string) []string {
	general, _, _ := strings.Cut(language, "-")
	if general == "en" || general == "" {
		return SignalWords
	}
	var list []string
	for _, w := range signalWordsIn[general] {
		list = append(list, w.shown)
	}
	return list
}

// meaning gives what a signal word of any language means: a word of SignalWords, or "". A safety message is one in whatever language it is.
func meaning(shown string) string {
	if slices.Contains(SignalWords, shown) {
		return shown
	}
	for _, words := range signalWordsIn {
		for _, w := range words {
			if w.shown == shown {
				return w.means
			}
		}
	}
	return ""
}

// SignalWord gives the signal word with which a paragraph opens, as it is written, and what it means: a word of SignalWords, or "" where it is
// none. In a block quote it makes a safety message.
func SignalWord(paragraph ast.Node, source []byte) (shown, means string) {
	shown, _ = (&bodyReader{source: source}).signal(paragraph)
	return shown, meaning(shown)
}
