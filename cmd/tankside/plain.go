package main

import (
	"bytes"
	"fmt"
	"io"
	"sync"
	"unicode/utf8"
)

// plain is a stream in which nothing is obeyed by a terminal but the end of a line, the tabulator and our own styles: names of files and folders,
// and what a library says of them, may hold anything. Bytes that are no text are left out of it by their numbers as well.
type plain struct {
	mu   sync.Mutex
	to   io.Writer
	rest []byte // of a character that was cut
}

// raw is the stream as it was given, for what moves the cursor on purpose, and for answers that have their own way of writing such characters.
func raw(w io.Writer) io.Writer {
	if p, is := w.(*plain); is {
		return p.to
	}
	return w
}

// style tells whether a style of our own begins here.
func style(text []byte) bool {
	if bytes.HasPrefix(text, []byte(boldOn)) || bytes.HasPrefix(text, []byte(boldOff)) {
		return true
	}
	for _, c := range colours {
		if bytes.HasPrefix(text, []byte(c)) {
			return true
		}
	}
	return false
}

// Write passes text on.
func (p *plain) Write(text []byte) (int, error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	all := append(p.rest, text...)
	p.rest = nil
	var b bytes.Buffer
	for len(all) > 0 {
		if !utf8.FullRune(all) {
			p.rest = all
			break
		}
		r, size := utf8.DecodeRune(all)
		switch {
		case r == '\x1b' && style(all):
			b.WriteByte('\x1b')
		case r == '\n' || r == '\t' || !obeyed(r) && !(r == utf8.RuneError && size == 1):
			b.Write(all[:size])
		case size == 1 && r == utf8.RuneError:
			fmt.Fprintf(&b, "\\x{%x}", all[0])
		default:
			fmt.Fprintf(&b, "\\u{%x}", r)
		}
		all = all[size:]
	}
	if _, err := p.to.Write(b.Bytes()); err != nil {
		return 0, err
	}
	return len(text), nil
}
