// Package language holds how the program's phrases are said in another language than English.
//
// The English phrase, with its holes in place, is the key to what is shown:
//
//	w := language.Words{"the bath boils at {temperature}": "el baño hierve a {temperature}"}
//	w.Fill("the bath boils at {temperature}", "96 °C")
//
// So code is read as what it says, and a phrase that a language lacks is said in English. Holes are filled in the order in which they
// stand; a translation has the same ones in the same order.
//
// Numbers are the same in every language: a decimal point and narrow spaces between thousands, as package quantity reads them back. The
// Spanish of the program's readers knows both signs.
//
// A page hands its words to the module that answers in it, so that no module carries a language: [Words.Pack] and [Unpack].
package language

import (
	"slices"
	"strings"
)

// English is the language of the program's own phrases, which need no file of words: a BCP 47 tag.
const English = "en"

// General is the language of a BCP 47 tag without its region, in small letters: es of es-MX.
func General(tag string) string {
	general, _, _ := strings.Cut(Lower(tag), "-")
	return general
}

// Words say phrases in one language. Nil is English.
type Words map[string]string

// Say gives what is shown for an English phrase.
func (w Words) Say(phrase string) string {
	if t := w[phrase]; t != "" {
		return t
	}
	return phrase
}

// Fill says a phrase and puts texts into its holes, in their order. A hole is a word in braces: {volume}.
func (w Words) Fill(phrase string, texts ...string) string {
	var b strings.Builder
	rest := w.Say(phrase)
	for {
		before, after, found := strings.Cut(rest, "{")
		b.WriteString(before)
		if !found {
			return b.String()
		}
		_, rest, _ = strings.Cut(after, "}")
		if len(texts) > 0 {
			b.WriteString(texts[0])
			texts = texts[1:]
		}
	}
}

// separator stands between the phrases of packed words: U+001F, which no phrase has.
const separator = "\x1f"

// Pack writes the words for a module in a page: each phrase and what is shown for it, in the phrases' order. English packs to nothing.
func (w Words) Pack() string {
	phrases := make([]string, 0, len(w))
	for p := range w {
		phrases = append(phrases, p)
	}
	slices.Sort(phrases)
	var b strings.Builder
	for i, p := range phrases {
		if i > 0 {
			b.WriteString(separator)
		}
		b.WriteString(p)
		b.WriteString(separator)
		b.WriteString(w[p])
	}
	return b.String()
}

// Unpack reads what Pack wrote.
func Unpack(packed string) Words {
	fields := strings.Split(packed, separator)
	w := make(Words, len(fields)/2)
	for i := 1; i < len(fields); i += 2 {
		w[fields[i-1]] = fields[i]
	}
	return w
}
