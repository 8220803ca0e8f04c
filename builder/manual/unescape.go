package manual

import (
	"bytes"
	"html"
	"strings"
	"unicode"
)

// writeUnescaped writes text as readers see it: a backslash before punctuation is left out, and a reference such as &amp; or &#38; is what it
// stands for (CommonMark 0.31.2, sections 2.4 and 2.5).
func writeUnescaped(b *strings.Builder, text []byte) {
	for {
		at := bytes.IndexAny(text, `\&`)
		if at < 0 {
			b.Write(text)
			return
		}
		b.Write(text[:at])
		text = text[at:]
		switch {
		case text[0] == '\\' && len(text) > 1 && isPunctuation(text[1]):
			b.WriteByte(text[1])
			text = text[2:]
			continue
		case text[0] == '&':
			if shown, width := reference(text); width > 0 {
				b.WriteString(shown)
				text = text[width:]
				continue
			}
		}
		b.WriteByte(text[0])
		text = text[1:]
	}
}

// isPunctuation tells whether a character may be escaped.
func isPunctuation(c byte) bool {
	return '!' <= c && c <= '/' || ':' <= c && c <= '@' || '[' <= c && c <= '`' || '{' <= c && c <= '~'
}

// longestReference is the longest name of an entity with its ampersand and semicolon, in bytes.
const longestReference = 33

// reference gives what a reference at the beginning of a text stands for and how long it is; width is 0 where there is none.
func reference(text []byte) (shown string, width int) {
	end := bytes.IndexByte(text[:min(len(text), longestReference)], ';')
	if end < 0 {
		return "", 0
	}
	written := string(text[:end+1])
	shown = html.UnescapeString(written)
	if shown == written || strings.HasSuffix(shown, ";") && shown != ";" { // HTML knows names without a semicolon, markdown does not
		return "", 0
	}
	return strings.Map(func(r rune) rune { // as CommonMark has it for NUL
		if steers(r) {
			return unicode.ReplacementChar
		}
		return r
	}, shown), end + 1
}
