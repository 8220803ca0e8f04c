// Package fragment writes parts of pages as HTML, natively and in the browser's module alike.
package fragment

import "strings"

// Writer gathers HTML.
type Writer struct{ strings.Builder }

// Put writes markup in which each {} stands for a text, which is escaped. Markup with many holes in one call keeps the browser's module small.
func (w *Writer) Put(markup string, texts ...string) {
	for {
		before, after, found := strings.Cut(markup, "{}")
		w.WriteString(before)
		if !found {
			return
		}
		w.escape(texts[0])
		markup, texts = after, texts[1:]
	}
}

// escape writes a text so that it is one in an element and in an attribute (HTML Standard, 13.3 and 13.1.2.3; U+0000 is a parse error).
func (w *Writer) escape(s string) {
	for i := range len(s) {
		switch s[i] {
		case '&':
			w.WriteString("&amp;")
		case '<':
			w.WriteString("&lt;")
		case '>':
			w.WriteString("&gt;")
		case '"':
			w.WriteString("&#34;")
		case '\'':
			w.WriteString("&#39;")
		case 0:
			w.WriteString("\uFFFD")
		default:
			w.WriteByte(s[i])
		}
	}
}
