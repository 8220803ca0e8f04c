package record

import (
	"bytes"
	"fmt"
	"unicode/utf16"
	"unicode/utf8"

	"tankside/builder/finding"
)

// Text gives a file as UTF-8 with line feeds for line ends, whatever a spreadsheet has saved it as: UTF-8 with or without a byte order mark, or UTF-16
// of either order. ok is false where it is none of these; then the finding says so.
func Text(path string, data []byte) (text []byte, found []finding.Finding, ok bool) {
	switch {
	case bytes.HasPrefix(data, []byte{0xEF, 0xBB, 0xBF}):
		data = data[3:]
	case bytes.HasPrefix(data, []byte{0xFF, 0xFE}):
		return fromUTF16(path, data[2:], false)
	case bytes.HasPrefix(data, []byte{0xFE, 0xFF}):
		return fromUTF16(path, data[2:], true)
	case len(data) >= 4 && data[0] != 0 && data[1] == 0 && data[2] != 0 && data[3] == 0: // “w” and “h” of when, without a mark
		return fromUTF16(path, data, false)
	case len(data) >= 4 && data[0] == 0 && data[1] != 0 && data[2] == 0 && data[3] != 0:
		return fromUTF16(path, data, true)
	}
	return checked(path, data)
}

// fromUTF16 turns UTF-16 into UTF-8.
func fromUTF16(path string, data []byte, bigEnd bool) ([]byte, []finding.Finding, bool) {
	if len(data)%2 != 0 {
		return nil, []finding.Finding{ruleUnreadable.At(finding.Place{File: path}, "The file is UTF-16 text with half a character at its end: it was cut off.", "Save it again from the spreadsheet, as “CSV UTF-8”.")}, false
	}
	text := make([]byte, 0, len(data))
	units := make([]uint16, 0, len(data)/2)
	for i := 0; i < len(data); i += 2 {
		low, high := data[i], data[i+1]
		if bigEnd {
			low, high = high, low
		}
		units = append(units, uint16(low)|uint16(high)<<8)
	}
	for i := 0; i < len(units); i++ {
		r := rune(units[i])
		if utf16.IsSurrogate(r) {
			whole := utf8.RuneError
			if i+1 < len(units) {
				whole = utf16.DecodeRune(r, rune(units[i+1]))
			}
			if whole == utf8.RuneError {
				return nil, []finding.Finding{ruleUnreadable.At(placeOf(path, text), "The file is UTF-16 text with half a character in it.", "Save it again from the spreadsheet, as “CSV UTF-8”.")}, false
			}
			r = whole
			i++
		}
		text = utf8.AppendRune(text, r)
	}
	return checked(path, text)
}

// checked gives text with line feeds for line ends if it is UTF-8 without NUL.
func checked(path string, data []byte) ([]byte, []finding.Finding, bool) {
	for i := 0; i < len(data); {
		r, n := utf8.DecodeRune(data[i:])
		if r == 0 || r == utf8.RuneError && n <= 1 {
			what := fmt.Sprintf("a byte that no character has (%#x)", data[i])
			if r == 0 {
				what = "a NUL byte"
			}
			return nil, []finding.Finding{ruleUnreadable.At(placeOf(path, data[:i]), "The file is not UTF-8 text: here stands "+what+".",
				"Save it as “CSV UTF-8”; it may have been saved as “ANSI” or “Latin-1”, in which µ and ° are other bytes.")}, false
		}
		i += n
	}
	data = bytes.ReplaceAll(data, []byte("\r\n"), []byte("\n"))
	return bytes.ReplaceAll(data, []byte("\r"), []byte("\n")), nil, true
}

// placeOf is the place behind a text.
func placeOf(path string, before []byte) finding.Place {
	last := before[bytes.LastIndexAny(before, "\r\n")+1:]
	line := 1 + bytes.Count(before, []byte("\n"))
	if line == 1 {
		line += bytes.Count(before, []byte("\r"))
	}
	return finding.Place{File: path, Line: line, Column: 1 + utf8.RuneCount(last)}
}
