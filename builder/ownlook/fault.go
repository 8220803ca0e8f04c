package ownlook

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"path"
	"strings"
	"unicode/utf8"

	"tankside/builder/manual"
)

// Fault is what is wrong with a file, whatever it is to the built-in ones.
type Fault struct {
	Line int // from 1
	Says string
}

// faultOf looks whether a file can be what its ending says: a style whose brackets, quotation marks and comments are closed, a drawing in SVG, a script in
// UTF-8. Templates are tried by making the pages; what a script says is not looked at. nil where nothing is wrong, or nothing was looked at.
func faultOf(f manual.ThemeFile) *Fault {
	sort := path.Ext(f.Name)
	if path.Dir(f.Name) == "styles" {
		sort = ".css" // whatever its ending is, it is joined to the others
	}
	switch sort {
	case ".css", ".svg", ".js":
	default:
		return nil
	}
	if !utf8.Valid(f.Data) {
		return &Fault{notUTF8(f.Data), "It is no text in UTF-8."}
	}
	switch sort {
	case ".css":
		return styleFault(string(f.Data))
	case ".svg":
		return drawingFault(f.Data)
	}
	return nil
}

// notUTF8 is the line of the first byte that is no UTF-8.
func notUTF8(data []byte) int {
	line := 1
	for len(data) > 0 {
		r, n := utf8.DecodeRune(data)
		if r == utf8.RuneError && n == 1 {
			break
		}
		if r == '\n' {
			line++
		}
		data = data[n:]
	}
	return line
}

// drawingFault reads a drawing: well-formed XML whose one element at the top is svg (W3C, Extensible Markup Language 1.0, fifth edition, 2008; Scalable Vector
// Graphics 2, 2018, section 5.1).
func drawingFault(data []byte) *Fault {
	d := xml.NewDecoder(bytes.NewReader(data))
	tops := 0
	for depth := 0; ; {
		token, err := d.Token()
		line, _ := d.InputPos()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return &Fault{line, "It is no drawing in SVG: " + err.Error() + "."}
		}
		switch t := token.(type) {
		case xml.StartElement:
			if depth == 0 {
				if tops++; t.Name.Local != "svg" || tops > 1 {
					return &Fault{line, "It is no drawing in SVG: <" + t.Name.Local + "> stands where one <svg> has to."}
				}
			}
			depth++
		case xml.EndElement:
			depth--
		}
	}
	if tops == 0 {
		return &Fault{1, "It is no drawing in SVG: there is no <svg> in it."}
	}
	return nil
}

// styleFault looks whether brackets, quotation marks and comments of a style are closed, each by its own kind (W3C, CSS Syntax Module Level 3, 2021, sections
// 4.3 and 5.4). What is left open swallows the styles of all files that come after.
func styleFault(text string) *Fault {
	type open struct {
		with byte
		line int
	}
	var stack []open
	line := 1
	for i := 0; i < len(text); i++ {
		switch c := text[i]; c {
		case '\n':
			line++
		case '\\':
			if i++; i < len(text) && text[i] == '\n' {
				line++
			}
		case '/':
			if !strings.HasPrefix(text[i:], "/*") {
				continue
			}
			end := strings.Index(text[i+2:], "*/")
			if end < 0 {
				return &Fault{line, "The comment that begins here has no end."}
			}
			line += strings.Count(text[i:i+2+end], "\n")
			i += end + 3
		case '"', '\'':
			end := closing(text, i)
			if end < 0 {
				return &Fault{line, "The quotation mark here is not closed in its line."}
			}
			line += strings.Count(text[i:end], "\n")
			i = end
		case '{', '(', '[':
			stack = append(stack, open{map[byte]byte{'{': '}', '(': ')', '[': ']'}[c], line})
			if c == '(' && isURL(text[:i]) {
				if end := strings.IndexByte(text[i:], ')'); end > 0 && !strings.ContainsAny(strings.TrimSpace(text[i+1:i+end]), "\"'\n") {
					i += end - 1 // an address without quotation marks is one word
				}
			}
		case '}', ')', ']':
			if len(stack) == 0 {
				return &Fault{line, fmt.Sprintf("“%c” closes nothing.", c)}
			}
			if last := stack[len(stack)-1]; last.with != c {
				return &Fault{line, fmt.Sprintf("“%c” stands where “%c” has to close what was opened in line %d.", c, last.with, last.line)}
			}
			stack = stack[:len(stack)-1]
		}
	}
	if len(stack) > 0 {
		last := stack[len(stack)-1]
		return &Fault{last.line, fmt.Sprintf("What is opened here is never closed with “%c”.", last.with)}
	}
	return nil
}

// isURL tells whether a text ends with the name of the function url.
func isURL(text string) bool {
	return len(text) >= 3 && strings.EqualFold(text[len(text)-3:], "url")
}

// closing is where the quotation mark at i is closed, or -1. A line's end may be written \ at its end.
func closing(text string, i int) int {
	for j := i + 1; j < len(text); j++ {
		switch text[j] {
		case '\\':
			j++
		case '\n':
			return -1
		case text[i]:
			return j
		}
	}
	return -1
}
