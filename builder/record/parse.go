package record

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"path"
	"slices"
	"strings"
	"unicode/utf8"

	"tankside/builder/finding"
)

// Parse reads the text of a record, as [Text] gives it. A record of which nothing can be used has no rows, and a finding says why.
func Parse(file string, text []byte) (*Record, []finding.Finding) {
	p := parse(file, text, maxTold, false)
	return p.record, p.found
}

// parse reads it, tells so many findings of a rule one by one, and keeps the rows as they were cut if they are wanted.
func parse(file string, text []byte, most int, keep bool) *parser {
	p := newParser(file, string(text))
	p.most, p.keep = most, keep
	p.read()
	for _, r := range Rules() {
		if more := p.told[r.Name] - most; more > 0 {
			p.found = append(p.found, r.At(finding.Place{File: file}, fmt.Sprintf("There are %d more findings of this rule in the record.", more), "Put the first ones right; the others may have the same cause."))
		}
	}
	return p
}

func newParser(file, text string) *parser {
	p := &parser{most: maxTold, path: file, record: &Record{Path: file, Tank: strings.TrimSuffix(path.Base(file), path.Ext(file))}, text: text, told: map[finding.RuleName]int{}, lines: []int{0}}
	for i := range len(text) {
		if text[i] == '\n' {
			p.lines = append(p.lines, i+1)
		}
	}
	return p
}

// parser is what reading a record goes by.
type parser struct {
	path   string
	text   string
	record *Record
	found  []finding.Finding
	told   map[finding.RuleName]int
	most   int   // findings of a rule that are told one by one
	keep   bool  // raw stays
	lines  []int // where each begins
	comma  rune  // that parts the cells
	base   int   // where the table begins in the text, behind the spreadsheet's own line
	body   int   // where its first row begins

	heads   []headOf
	raw     []rawRow
	decimal sign
}

// headOf says what the column under a head holds.
type headOf struct {
	text    string // as written
	name    string // of a text column, or ""
	numbers int    // column of the record, or -1
	of      Quantity
}

// rawRow is a row as it was cut.
type rawRow struct {
	line     int
	cells    []string
	starts   []spot
	from, to int // where it stands in the text, with its line end
}

// spot is where a cell begins: line, and column in bytes, from 1.
type spot struct{ line, column int32 }

// tell adds a finding, up to as many of a rule as are told one by one.
func (p *parser) tell(r finding.Rule, at spot, message, remedy string, also ...finding.Place) {
	p.tellAt(r, p.place(at), message, remedy, also...)
}

func (p *parser) tellAt(r finding.Rule, at finding.Place, message, remedy string, also ...finding.Place) {
	if p.told[r.Name]++; p.told[r.Name] <= p.most {
		p.found = append(p.found, r.At(at, message, remedy, also...))
	}
}

// place counts characters where csv counts bytes.
func (p *parser) place(at spot) finding.Place {
	if at.line == 0 {
		return finding.Place{File: p.path}
	}
	rest := p.text[p.lines[min(int(at.line), len(p.lines))-1]:]
	before := rest[:min(len(rest), int(at.column)-1)]
	return finding.Place{File: p.path, Line: int(at.line), Column: 1 + utf8.RuneCountInString(before)}
}

// read goes through the file: heads, rows, numbers, times.
func (p *parser) read() {
	if strings.TrimSpace(p.text) == "" {
		p.tell(ruleUnreadable, spot{}, "The record is empty.", "Its first line holds the heads, for example: when,strength (% v/v),temperature (°C),by,note")
		return
	}
	comma, text := separator(p.text)
	table := csv.NewReader(strings.NewReader(text))
	table.Comma, table.FieldsPerRecord = comma, -1
	p.comma, p.base = comma, len(p.text)-len(text)
	if !p.readHeads(table) {
		return
	}
	p.body = p.base + int(table.InputOffset())
	p.readRows(table)
	p.decimal = p.judge()
	p.readCells()
}

// separator tells which character parts the cells: that of the spreadsheet's own line “sep=”, or the one by which most heads are known. The text comes
// back without that line.
func separator(text string) (rune, string) {
	first, rest, _ := strings.Cut(text, "\n")
	if s, is := strings.CutPrefix(strings.ToLower(strings.Trim(first, `"`)), "sep="); is && len(s) == 1 && strings.ContainsAny(s, ",;\t") {
		return rune(s[0]), "\n" + rest
	}
	best, most, cells := ',', -1, 0
	for _, comma := range []rune{',', ';', '\t'} {
		r := csv.NewReader(strings.NewReader(text))
		r.Comma, r.FieldsPerRecord, r.LazyQuotes = comma, -1, true
		heads, err := r.Read()
		if err != nil {
			continue
		}
		known := 0
		for _, h := range heads {
			if name, _, _ := head(h); slices.Contains(Heads(), name) {
				known++
			}
		}
		if known > most || known == most && len(heads) > cells {
			best, most, cells = comma, known, len(heads)
		}
	}
	return best, text
}

// cells cuts the next row. It is false at the end.
func (p *parser) cells(table *csv.Reader) (row rawRow, err error, more bool) {
	row.from = p.base + int(table.InputOffset())
	cells, err := table.Read()
	row.to = p.base + int(table.InputOffset())
	if errors.Is(err, io.EOF) {
		return row, nil, false
	}
	if err != nil {
		return row, err, true
	}
	row.cells = cells
	row.starts = make([]spot, len(cells))
	for i := range cells {
		line, column := table.FieldPos(i)
		row.starts[i] = spot{int32(line), int32(column)}
	}
	row.line = int(row.starts[0].line)
	return row, nil, true
}

// readRows cuts the rows and sets aside those that cannot be cut.
func (p *parser) readRows(table *csv.Reader) {
	for {
		row, err, more := p.cells(table)
		switch {
		case !more:
			return
		case err != nil:
			if !p.brokenQuotes(table, err) {
				return
			}
			continue
		case empty(row.cells):
			continue
		case len(p.raw) == MaxRows:
			p.tell(ruleUnreadable, row.starts[0], fmt.Sprintf("The record has more than %d rows. Those from here on were not read, and they are the newest.", MaxRows),
				"Put the oldest rows into a file outside of the manual.")
			return
		}
		if extra := len(row.cells) - len(p.heads); extra > 0 && empty(row.cells[len(p.heads):]) {
			row.cells, row.starts = row.cells[:len(p.heads)], row.starts[:len(p.heads)]
		}
		if len(row.cells) != len(p.heads) {
			p.unequal(row)
			continue
		}
		p.raw = append(p.raw, row)
	}
}

// unequal tells of a row with more or fewer cells than heads.
func (p *parser) unequal(row rawRow) {
	p.record.Unused++
	remedy := "Give it a cell for each head, empty ones included."
	at := row.starts[min(len(row.starts), len(p.heads))-1]
	if len(row.cells) > len(p.heads) {
		remedy = "Put a cell that has the separator in it, such as a number with a decimal comma or a note, in quotation marks."
		at = row.starts[len(p.heads)]
	}
	p.tell(ruleRow, at, fmt.Sprintf("This row has %d cells, and there are %d heads. It is not used.", len(row.cells), len(p.heads)), remedy)
}

// brokenQuotes tells of a row with a stray quotation mark. It is false where the rest of the file is lost.
func (p *parser) brokenQuotes(table *csv.Reader, err error) bool {
	var broken *csv.ParseError
	if !errors.As(err, &broken) {
		p.tell(ruleUnreadable, spot{}, "The record cannot be read: "+err.Error()+".", "Save it again from the spreadsheet.")
		return false
	}
	p.record.Unused++
	at := spot{int32(broken.Line), int32(broken.Column)}
	if broken.StartLine < broken.Line || table.InputOffset() >= int64(len(p.text)) && errors.Is(broken.Err, csv.ErrQuote) {
		p.tell(ruleUnreadable, spot{int32(broken.StartLine), 1}, fmt.Sprintf("In this row a quotation mark is opened and not closed as it should be: everything up to line %d is taken for one cell, and not used.", broken.Line),
			`Close the quotation mark, or double each one that belongs to the text: "5"" pipe".`)
		return true
	}
	p.tell(ruleRow, at, "Here stands a stray quotation mark. The row is not used.", `Put the whole cell in quotation marks and double each one in it: "5"" pipe".`)
	return true
}

// empty tells whether there is nothing in the cells.
func empty(cells []string) bool {
	return !slices.ContainsFunc(cells, func(c string) bool { return strings.TrimSpace(c) != "" })
}
