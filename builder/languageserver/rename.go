package languageserver

import (
	"context"
	"regexp"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/rename"
)

// mend replaces some bytes of a file's text as it is.
type mend struct {
	file     string
	from, to int
	with     string
}

// move gives a file another path.
type move struct{ from, to string }

// renaming is what has to be done to call an article or a heading otherwise, everywhere.
type renaming struct {
	mends []mend   // by file and place; none overlap
	moves []move   // after the mends
	made  []string // files that are not there yet and are mended, before the mends
}

// planned is what package rename would do to the texts as they stand, in the editor or on the disk. The error says in sentences why it would be unsafe.
func (d *desk) planned(ctx context.Context, old, now string) (renaming, error) {
	plan, err := rename.For(ctx, &d.files, old, now)
	if err != nil {
		return renaming{}, err
	}
	var r renaming
	for _, e := range plan.Edits {
		r.mends = append(r.mends, mend{e.File, e.Start, e.End, e.Text})
	}
	for _, from := range plan.Moved() {
		r.moves = append(r.moves, move{from, plan.Moves[from]})
	}
	r.made = plan.Begun()
	return r, nil
}

// at is the offset of a place in the text of its file.
func at(text string, p finding.Place) int {
	start := 0
	for range max(p.Line, 1) - 1 {
		length, end := lineEnd(text[start:])
		start += length + end
	}
	if p.Line <= 1 && strings.HasPrefix(text, mark) {
		start += len(mark)
	}
	length, _ := lineEnd(text[start:])
	return start + afterRunes(text[start:start+length], max(p.Column, 1)-1)
}

var oneLineHeading = regexp.MustCompile(`^( {0,3}#{2,6}[ \t]+)(.*?)(?:[ \t]+#+)?[ \t]*$`)

// headingWords gives where the words of a heading stand in a line; ok is false for one that is underlined instead.
func headingWords(line string) (from, to int, ok bool) {
	m := oneLineHeading.FindStringSubmatchIndex(line)
	if m == nil {
		return 0, 0, false
	}
	return m[4], m[5], true
}
