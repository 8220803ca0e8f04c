package manual

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"unicode/utf8"

	"tankside/builder/finding"
)

// load gives the bytes of a file, never more than its sort may have, however large it says it is.
func (d *decoder) load(fsys fs.FS, f source) ([]byte, bool) {
	at := finding.Place{File: f.path}
	file, err := fsys.Open(f.name)
	if err != nil {
		d.report(ruleUnreadable, at, "This file cannot be opened: "+reason(err)+".", "See that you may read it.")
		return nil, false
	}
	defer file.Close()
	limit := f.sort.limit()
	var data bytes.Buffer
	data.Grow(int(min(max(f.size, 0), limit)) + bytes.MinRead)
	switch n, err := data.ReadFrom(io.LimitReader(file, limit+1)); {
	case err != nil:
		d.report(ruleUnreadable, at, "This file cannot be read: "+reason(err)+".", "See that you may read it, and that the disk is sound.")
		return nil, false
	case n > limit:
		tooLarge(d, at, n, limit)
		return nil, false
	}
	return data.Bytes(), true
}

// clean gives the text of a file with line feeds for line ends and without byte order mark.
func (d *decoder) clean(data []byte) ([]byte, bool) {
	data = bytes.TrimPrefix(data, []byte("\uFEFF"))
	if bytes.IndexByte(data, '\r') >= 0 {
		data = bytes.ReplaceAll(data, []byte("\r\n"), []byte("\n"))
		data = bytes.ReplaceAll(data, []byte("\r"), []byte("\n"))
	}
	if i := invalid(data); i >= 0 {
		before := data[:i]
		at := finding.Place{File: d.file, Line: 1 + bytes.Count(before, []byte("\n")), Column: 1 + utf8.RuneCount(before[bytes.LastIndexByte(before, '\n')+1:])}
		message, remedy := "The file is not UTF-8 text: here stands a byte that no character has.", "Save it as UTF-8 in your editor; it may have been saved as “ANSI” or “Latin-1”."
		switch r, _ := utf8.DecodeRune(data[i:]); {
		case r == 0:
			message, remedy = "The file has a NUL byte in it, so it is no text, or it was saved as UTF-16.", "Save it as UTF-8 in your editor."
		case r != utf8.RuneError:
			message, remedy = fmt.Sprintf("Here stands a character that nobody sees, U+%04X, which steers printers and terminals.", r), "Take it out; it came in with pasted text."
		}
		d.report(ruleUnreadable, at, message, remedy)
		return nil, false
	}
	return data, true
}

// invalid is the offset of the first byte that is not part of a UTF-8 character, or of a character that steers; -1 when there is none.
func invalid(data []byte) int {
	for i, c := range data {
		switch {
		case c >= utf8.RuneSelf:
			return invalidFrom(data, i)
		case steers(rune(c)):
			return i
		}
	}
	return -1
}

func invalidFrom(data []byte, i int) int {
	for i < len(data) {
		c := rune(data[i])
		n := 1
		if c >= utf8.RuneSelf {
			if c, n = utf8.DecodeRune(data[i:]); c == utf8.RuneError && n <= 1 {
				return i
			}
		}
		if steers(c) {
			return i
		}
		i += n
	}
	return -1
}

// steers tells whether a character is a control character (ECMA-48) other than those that text has: the tabulator, the end of a line, of a page.
func steers(r rune) bool {
	return r < ' ' && r != '\t' && r != '\n' && r != '\f' && r != '\r' || 0x7f <= r && r < 0xa0 && r != 0x85
}

// tooLarge reports a file larger than its sort may be.
func tooLarge(d *decoder, at finding.Place, size, limit int64) {
	d.report(ruleTooLarge, at, fmt.Sprintf("This file has %.1f MiB; its sort may have %d MiB. It was not read.", float64(size)/(1<<20), limit>>20),
		"Put a long listing into several articles, or make the picture smaller.")
}

// reason is what the file system said, without the path.
func reason(err error) string {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err.Error()
	}
	return err.Error()
}
