package languageserver

import (
	"strings"
	"unicode/utf8"

	"tankside/builder/finding"
)

// encoding is how columns are counted: LSP 3.17, PositionEncodingKind.
type encoding string

const (
	utf16 encoding = "utf-16" // what every client has to know
	utf8s encoding = "utf-8"
)

// chosen is utf-8 where the client offers it, since that is how texts are kept here, and otherwise utf-16.
func chosen(offered []string) encoding {
	for _, o := range offered {
		if encoding(o) == utf8s {
			return utf8s
		}
	}
	return utf16
}

// width is how many columns a character takes; n is how many bytes it has.
func (e encoding) width(r rune, n int) uint32 {
	switch {
	case e == utf8s:
		return uint32(n)
	case r > 0xFFFF:
		return 2
	}
	return 1
}

// columns is how many columns a text without line ends has.
func (e encoding) columns(text string) uint32 {
	var columns uint32
	for i := 0; i < len(text); {
		r, n := utf8.DecodeRuneInString(text[i:])
		columns += e.width(r, n)
		i += n
	}
	return columns
}

// bytesOf is the offset in a line of a column; in the middle of a character it is that character's, beyond the end the end.
func (e encoding) bytesOf(line string, column uint32) int {
	for i := 0; i < len(line); {
		r, n := utf8.DecodeRuneInString(line[i:])
		w := e.width(r, n)
		if column < w {
			return i
		}
		column -= w
		i += n
	}
	return len(line)
}

// lineEnd gives how long the first line of a text is, and how many bytes its end has: LF, CR LF or CR, or 0 at the end of the text.
func lineEnd(text string) (length, end int) {
	i := strings.IndexAny(text, "\r\n")
	switch {
	case i < 0:
		return len(text), 0
	case strings.HasPrefix(text[i:], "\r\n"):
		return i, 2
	}
	return i, 1
}

// offset is the byte of a text at a position; beyond a line's end it is that end, beyond the last line the end of the text.
func (e encoding) offset(text string, at Position) int {
	start := 0
	for line := uint32(0); ; line++ {
		length, end := lineEnd(text[start:])
		if line == at.Line {
			return start + e.bytesOf(text[start:start+length], at.Character)
		}
		if end == 0 {
			return len(text)
		}
		start += length + end
	}
}

// lines parts a text into its lines, without their ends.
func lines(text string) []string {
	var list []string
	for {
		length, end := lineEnd(text)
		list = append(list, text[:length])
		if end == 0 {
			return list
		}
		text = text[length+end:]
	}
}

// mark is what the manual's reader drops at the beginning of a file.
const mark = "\uFEFF"

// span is where the word stands at which a finding points: the word itself, a link or a quotation as a whole; the line where it
// names no column, the first line where it names none.
func (e encoding) span(text []string, at finding.Place) Range {
	n := max(at.Line, 1) - 1
	if n >= len(text) {
		n = len(text) - 1
	}
	line, skipped := text[n], 0
	if n == 0 && strings.HasPrefix(line, mark) {
		skipped, line = len(mark), line[len(mark):]
	}
	from, to := 0, len(line)
	if at.Column > 0 {
		from = afterRunes(line, at.Column-1)
		to = from + wordLength(line[from:])
	} else {
		from = len(line) - len(strings.TrimLeft(line, " \t"))
	}
	whole := text[n]
	return Range{Position{uint32(n), e.columns(whole[:skipped+from])}, Position{uint32(n), e.columns(whole[:skipped+to])}}
}

// afterRunes is the offset behind so many characters of a line.
func afterRunes(line string, count int) int {
	for i := range line {
		if count == 0 {
			return i
		}
		count--
	}
	return len(line)
}

// wordLength is how many bytes the word at the beginning of a text has; at least one character, where there is any.
func wordLength(text string) int {
	if strings.HasPrefix(text, "[") || strings.HasPrefix(text, "![") {
		if i := strings.Index(text, "]("); i >= 0 {
			if j := strings.IndexByte(text[i:], ')'); j >= 0 {
				return i + j + 1
			}
		}
	}
	if text != "" && (text[0] == '"' || text[0] == '\'') {
		if i := strings.IndexByte(text[1:], text[0]); i >= 0 {
			return i + 2
		}
	}
	if i := strings.IndexAny(text, " \t,;:()[]{}|"); i > 0 {
		return i
	} else if i < 0 {
		return len(text)
	}
	_, n := utf8.DecodeRuneInString(text)
	return n
}
