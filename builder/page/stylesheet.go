package page

import (
	"bytes"
	"strings"
)

// withoutComments leaves out the comments of a style sheet, which are for who writes it and not for who waits for the page; one that begins with “!” stays,
// as a notice of rights does. What stands in quotes or in an address of url() is no comment (CSS Syntax Module Level 3, section 4.3).
func withoutComments(css []byte) []byte {
	out := make([]byte, 0, len(css))
	for i := 0; i < len(css); {
		rest := css[i:]
		n := 1
		switch {
		case bytes.HasPrefix(rest, []byte("/*")):
			end := bytes.Index(rest[2:], []byte("*/"))
			n = len(rest)
			if end >= 0 {
				n = end + 4
			}
			if !bytes.HasPrefix(rest, []byte("/*!")) {
				if i += n; !parted(out, css[i:]) {
					out = append(out, "/**/"...)
				}
				continue
			}
		case rest[0] == '"' || rest[0] == '\'':
			n = quoted(rest)
		case rest[0] == '\\':
			n = min(2, len(rest))
		case len(rest) >= 4 && strings.EqualFold(string(rest[:4]), "url("):
			if n = bytes.IndexByte(rest, ')') + 1; n == 0 {
				n = len(rest)
			}
			if inside := bytes.TrimSpace(rest[4:n]); len(inside) > 0 && (inside[0] == '"' || inside[0] == '\'') {
				n = 4
			}
		}
		out = append(out, rest[:n]...)
		i += n
	}
	return out
}

// parted tells whether what comes before a comment and what follows it stay apart without it.
func parted(before, after []byte) bool {
	const apart = " \t\r\n\f{};,"
	return len(before) == 0 || len(after) == 0 || strings.IndexByte(apart, before[len(before)-1]) >= 0 || strings.IndexByte(apart, after[0]) >= 0
}

// quoted is the length of the string with which a text begins, its quotes included; of one that is not closed, of all that is left.
func quoted(text []byte) int {
	for i := 1; i < len(text); i++ {
		switch text[i] {
		case '\\':
			i++
		case text[0]:
			return i + 1
		}
	}
	return len(text)
}
