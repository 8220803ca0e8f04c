package rules

import (
	"bytes"
	"fmt"
	"strings"

	"tankside/builder/expression"
	"tankside/builder/finding"
	"tankside/builder/manual"
)

// lostCell finds tables that lose cells, or are none: a row with more or fewer cells than the head, a table drawn with plus signs, lines of
// cells without the line of hyphens beneath the head, columns parted by tabs. It prevents that the number of one column is read under the head
// of another, or is not shown at all.
// Limit: GFM, section 4.10: a row's cells beyond those of the head are ignored, missing ones are empty.
var lostCell = finding.Rule{
	Name: "lost-cell", Severity: finding.Result,
	Finds:  "a row of a table with more or fewer cells than its head, or a table that is not shown as one",
	Why:    "A cell too many is not shown, and one too few moves every number of the row under the wrong head.",
	Source: "GitHub Flavored Markdown, section 4.10 (tables)",
}

var (
	delimiterRow = expression.Of(`^\s*\|?\s*:?-+:?\s*(\|\s*:?-+:?\s*)*\|?\s*$`)
	gridLine     = expression.Of(`^\s*\+(?:[-=:]{2,}\+){1,}\s*$`)
	tabbed       = expression.Of(`\S\t+\S`)
)

func findLostCells(_ *proof, a *manual.Article) []finding.Finding {
	if bytes.IndexByte(a.Body, '|') < 0 && bytes.IndexByte(a.Body, '\t') < 0 && bytes.IndexByte(a.Body, '+') < 0 {
		return nil
	}
	var list []finding.Finding
	report := func(offset int, says, remedy string) {
		list = append(list, lostCell.At(placeOf(a, offset), says, remedy))
	}
	head, cells, inTable, loose, tabs, grid := 0, 0, false, 0, 0, false
	looseAt := 0
	var before []byte
	flush := func() {
		if loose >= 2 {
			report(looseAt, "These lines look like a table and are shown as text.", "Put a line | --- | --- | beneath the first, with as many cells as that has.")
		}
		if tabs >= 2 {
			report(looseAt, "These lines are parted by tabs and are shown as running text.", "Write a table: cells between upright strokes, and a line | --- | --- | beneath the head.")
		}
		loose, tabs = 0, 0
	}
	for offset, line := range textLines(a.Body) {
		bare := bytes.TrimLeft(line, " >")
		switch {
		case len(bytes.TrimSpace(bare)) == 0:
			flush()
			inTable, grid, before = false, false, nil
			continue
		case bare[0] == '+' && gridLine.Match(bare):
			if !grid {
				report(offset, "This table is drawn with plus signs, and is shown as text.", "Write it with upright strokes: | what | how much |, and | --- | --- | beneath the head.")
			}
			grid, inTable, loose = true, false, 0
			before = nil
			continue
		case grid:
			continue
		case inTable:
			if n := countCells(bare); n != cells && bytes.IndexByte(bare, '|') >= 0 {
				says, remedy := fmt.Sprintf("This row has %d cells, and the table has %d columns: what is too much is not shown.", n, cells), "Give the row as many cells as the head, or put a backslash before an upright stroke that belongs to the text."
				if n < cells {
					says, remedy = fmt.Sprintf("This row has %d cells, and the table has %d columns.", n, cells), "Give the row as many cells as the head; leave a cell empty where nothing is to stand."
				}
				report(offset, says, remedy)
			}
			continue
		case before != nil && bytes.IndexByte(bare, '-') >= 0 && !bytes.ContainsAny(bare, "abcdefghijklmnopqrstuvwxyz.0123456789") && delimiterRow.Match(bare) && (bytes.IndexByte(bare, '|') >= 0 || bytes.IndexByte(before, '|') >= 0):
			if n := countCells(bare); n == head && n > 0 {
				inTable, cells, loose = true, n, 0
			} else if bytes.IndexByte(before, '|') >= 0 && bytes.IndexByte(bare, '|') >= 0 {
				report(offset, fmt.Sprintf("The head of this table has %d cells and the line beneath it %d, so that it is shown as text.", head, n), "Give both as many cells.")
				loose = -1000
			}
			continue
		}
		trimmed := strings.TrimSpace(string(bare))
		if strings.HasPrefix(trimmed, "|") && strings.HasSuffix(trimmed, "|") && len(trimmed) > 2 {
			if loose == 0 {
				looseAt = offset
			}
			loose++
		} else if strings.IndexByte(trimmed, '\t') >= 0 && tabbed.MatchString(trimmed) {
			if tabs == 0 {
				looseAt = offset
			}
			tabs++
		}
		before, head = bare, countCells(bare)
	}
	flush()
	return list
}

// countCells counts the cells of a row: those between upright strokes that no backslash and no back-tick hides.
func countCells(row []byte) int {
	s := strings.TrimSpace(string(row))
	s = strings.TrimPrefix(s, "|")
	if strings.HasSuffix(s, "|") && !strings.HasSuffix(s, `\|`) {
		s = s[:len(s)-1]
	}
	n := 1
	for i := 0; i < len(s); i++ {
		if s[i] == '|' && (i == 0 || s[i-1] != '\\') {
			n++
		}
	}
	return n
}
