package manual

import (
	"bytes"
	"fmt"

	"tankside/builder/finding"
)

// The marks that version control puts at the beginning of a line where two versions of a file could not be joined, seven characters each: the
// one version stands below the first, the other below the third, and below the second, if it is there, what both were made from.
const (
	conflictBegins = "<<<<<<<"
	conflictBase   = "|||||||"
	conflictParts  = "======="
	conflictEnds   = ">>>>>>>"
)

// conflict tells whether version control has left two versions in a text, or a mark of them. It is one finding a file, with the lines of the
// first mark and of the last that belongs to it.
func (d *decoder) conflict(data []byte) bool {
	first, last, mark := 0, 0, ""
	number, before := 0, []byte{}
	rest := data
	for len(rest) > 0 && last == 0 {
		var line []byte
		line, rest, _ = bytes.Cut(rest, []byte("\n"))
		number++
		switch found := conflictMark(line); {
		case found == "":
		case first == 0 && stray(found, before, rest):
			first, mark = number, found
		case first == 0:
		case found == conflictEnds:
			last = number
		}
		before = line
	}
	if first == 0 {
		return false
	}
	at := finding.Place{File: d.file, Line: first, Column: 1}
	const remedy = "Keep one of the two versions, or make one text of both, take the lines of marks out, and read the whole file again."
	if mark == conflictBegins && last > 0 {
		d.report(ruleConflict, at, fmt.Sprintf("Version control has left two versions here, from line %d to line %d. The rest of the manual was not proof-read.", first, last),
			remedy, finding.Place{File: d.file, Line: last, Column: 1})
		return true
	}
	var also []finding.Place
	message := fmt.Sprintf("Line %d begins with %s, which version control writes where it leaves two versions of a text. The rest of the manual was not proof-read.", first, mark)
	if last > 0 {
		message = fmt.Sprintf("Line %d begins with %s and line %d with %s, as version control writes them where it leaves two versions of a text. The rest of the manual was not proof-read.", first, mark, last, conflictEnds)
		also = []finding.Place{{File: d.file, Line: last, Column: 1}}
	}
	d.report(ruleConflict, at, message, remedy, also...)
	return true
}

// conflictMark is the mark that a line is, or "": alone, or with a name behind it.
func conflictMark(line []byte) string {
	for _, mark := range []string{conflictBegins, conflictBase, conflictParts, conflictEnds} {
		rest, is := bytes.CutPrefix(line, []byte(mark))
		if is && (len(bytes.TrimSpace(rest)) == 0 || rest[0] == ' ' && mark != conflictParts) {
			return mark
		}
	}
	return ""
}

// stray tells whether the first mark of a file is one, or markdown that looks like it: a line of equals signs under a line of text makes that
// a heading, and seven bars are a row of empty cells in a table. What stands between two marks has been noticed by the first.
func stray(mark string, before, rest []byte) bool {
	next, _, _ := bytes.Cut(rest, []byte("\n"))
	switch mark {
	case conflictParts:
		return len(bytes.TrimSpace(before)) == 0 || bytes.Contains(rest, []byte("\n"+conflictEnds))
	case conflictBase:
		inTable := bytes.HasPrefix(bytes.TrimSpace(before), []byte("|")) || bytes.HasPrefix(bytes.TrimSpace(next), []byte("|"))
		return !inTable || bytes.Contains(rest, []byte("\n"+conflictEnds))
	}
	return true
}
