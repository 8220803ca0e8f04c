package rename

import (
	"bytes"
	"slices"
	"unicode/utf8"

	"tankside/builder/finding"
)

// text is a file as it lies on the disk and as the manual's reader sees it: without byte order mark and with line feeds alone.
type text struct {
	file    string
	disk    []byte
	read    []byte
	mark    int   // bytes of the byte order mark
	removed []int // offsets in read before which a carriage return was taken out
	starts  []int // offsets in read at which lines begin
}

func newText(file string, disk []byte) *text {
	t := &text{file: file, disk: disk}
	rest := bytes.TrimPrefix(disk, []byte("\uFEFF"))
	t.mark = len(disk) - len(rest)
	t.starts = []int{0}
	for i, c := range rest {
		switch {
		case c == '\r' && i+1 < len(rest) && rest[i+1] == '\n':
			t.removed = append(t.removed, len(t.read))
			continue
		case c == '\r':
			c = '\n'
		}
		t.read = append(t.read, c)
		if c == '\n' {
			t.starts = append(t.starts, len(t.read))
		}
	}
	return t
}

// onDisk gives the offset in the file for one in the text that was read.
func (t *text) onDisk(offset int) int {
	before, _ := slices.BinarySearch(t.removed, offset)
	return t.mark + offset + before
}

// at gives the offset in the text of a place in the file, which has a line; a column beyond the line's end is its end.
func (t *text) at(p finding.Place) int {
	if p.Line < 1 || p.Line > len(t.starts) {
		return len(t.read)
	}
	offset := t.starts[p.Line-1]
	for range max(0, p.Column-1) {
		_, size := utf8.DecodeRune(t.read[offset:])
		offset += size
	}
	return min(offset, len(t.read))
}

// place gives the place in the file of an offset in the text.
func (t *text) place(offset int) finding.Place {
	line, exact := slices.BinarySearch(t.starts, offset)
	if !exact {
		line--
	}
	return finding.Place{File: t.file, Line: line + 1, Column: 1 + utf8.RuneCount(t.read[t.starts[line]:offset])}
}

// lineEnd is how the file ends its lines.
func (t *text) lineEnd() string {
	switch {
	case len(t.removed) > 0:
		return "\r\n"
	case bytes.IndexByte(t.disk, '\n') < 0 && bytes.IndexByte(t.disk, '\r') >= 0:
		return "\r"
	}
	return "\n"
}
