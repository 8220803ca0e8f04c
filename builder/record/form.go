package record

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"
	"unicode"

	"tankside/builder/expression"
	"tankside/builder/finding"
	"tankside/builder/quantity"
)

// Form is how a record is written, for whoever adds to it: which character parts the cells, which sign decimals have, what the columns hold, whether times
// say their offset from UTC. What is added is written the same way, so that one record does not become two kinds.
type Form struct {
	comma   rune
	decimal sign
	heads   []headOf
	columns []Column
	zones   zones
	lineEnd string
	open    bool // the last line has no end
}

// zones says whether the times of a record say their offset from UTC.
type zones uint8

const (
	zonesUnsaid zones = iota // no row has a time of day yet
	zonesLeft                // they do not: by the shop's clock
	zonesSaid
)

// errCoding says that nothing can be added to a file as it is.
var errCoding = errors.New("it is not saved as UTF-8 text with one kind of line ends; save it from the spreadsheet as “CSV UTF-8”")

// Fresh is the form of a record that is not there yet, with the heads of the readings that begin it, and its first line.
func Fresh(b *Batch) (*Form, []byte) {
	f := &Form{comma: ',', decimal: point, heads: b.heads, columns: b.columns, lineEnd: "\n"}
	texts := make([]string, len(f.heads))
	for i, h := range f.heads {
		texts[i] = h.text
	}
	return f, f.join(texts)
}

// Known is what is known of a record that is added to.
type Known struct {
	IDs    map[string]At // of every row, used or not
	Rows   int
	Unused int // as in a Record
}

// At is when a row says it was.
type At struct {
	When time.Time
	Day  bool
}

// Reopened reads a record from the bytes of its file, for whoever adds to it. An error says why nothing can be added.
func Reopened(file string, data []byte) (*Form, *Known, error) {
	f := &Form{lineEnd: "\n", open: len(data) > 0 && data[len(data)-1] != '\n'}
	if first, _, has := bytes.Cut(data, []byte("\n")); has && bytes.HasSuffix(first, []byte("\r")) {
		f.lineEnd = "\r\n"
	}
	text, _, ok := Text(file, data)
	if !ok || bytes.Contains(bytes.ReplaceAll(data, []byte("\r\n"), nil), []byte("\r")) || bytes.HasPrefix(data, []byte{0xFF, 0xFE}) || bytes.HasPrefix(data, []byte{0xFE, 0xFF}) {
		return nil, nil, errCoding
	}
	p := newParser(file, string(text))
	p.read()
	if len(p.heads) == 0 || !p.named(whenColumn) {
		return nil, nil, fmt.Errorf("its first line does not hold the heads of a record: %s", firstMessage(p.found))
	}
	for _, found := range p.found {
		if found.Rule == ruleUnreadable.Name {
			return nil, nil, errors.New(found.Message)
		}
	}
	f.comma, f.decimal, f.heads, f.columns = p.comma, p.decimal, p.heads, p.record.Columns
	if f.decimal != comma {
		f.decimal = point
	}
	for i := range p.record.Rows {
		if r := &p.record.Rows[i]; !r.Day {
			f.zones = zonesLeft
			if Zoned(r.When) {
				f.zones = zonesSaid
			}
			break
		}
	}
	return f, f.known(p), nil
}

// known gathers what a record has, those rows too that no chart uses.
func (f *Form) known(p *parser) *Known {
	k := &Known{IDs: map[string]At{}, Unused: p.record.Unused}
	_, text := separator(p.text)
	table := csv.NewReader(strings.NewReader(text))
	table.Comma, table.FieldsPerRecord, table.ReuseRecord = f.comma, -1, true
	for first := true; ; first = false {
		cells, err := table.Read()
		if errors.Is(err, io.EOF) {
			return k
		}
		if first || empty(cells) {
			continue
		}
		k.Rows++
		var id string
		var at At
		for i, h := range f.heads[:min(len(cells), len(f.heads))] {
			switch h.name {
			case idColumn:
				id = strings.Clone(strings.TrimSpace(cells[i]))
			case whenColumn:
				at.When, at.Day, _ = timeOf(strings.TrimSpace(cells[i]))
			}
		}
		if _, there := k.IDs[id]; id != "" && !there {
			k.IDs[id] = at
		}
	}
}

func firstMessage(found []finding.Finding) string {
	if len(found) == 0 {
		return "it is empty."
	}
	return found[0].Message
}

// named tells whether there is a column of text with a name.
func (p *parser) named(name string) bool {
	for _, h := range p.heads {
		if h.name == name {
			return true
		}
	}
	return false
}

// Batch is what a device sends: a table with the heads of a record, numbers with a decimal point, an id in each row.
type Batch struct {
	Rows    []Sent
	heads   []headOf
	columns []Column
}

// Sent is one row of a batch. Why says what is wrong with it; then it is not to be kept.
type Sent struct {
	ID   string
	When time.Time
	Day  bool
	Why  string

	cells []string
}

// ErrBatch is wrapped by what ReadBatch says of a table as a whole.
var ErrBatch = errors.New("the readings cannot be taken")

// ReadBatch reads the table that a device sends, of at most so many rows. What is wrong with one row is said in that row.
func ReadBatch(body []byte, most int) (*Batch, error) {
	text, _, ok := Text("", body)
	if !ok {
		return nil, fmt.Errorf("%w: they are not UTF-8 text", ErrBatch)
	}
	p := newParser("", string(text))
	p.comma, p.decimal = ',', point
	table := csv.NewReader(bytes.NewReader(text))
	table.FieldsPerRecord = -1
	if !p.readHeads(table) {
		return nil, fmt.Errorf("%w: %s", ErrBatch, firstMessage(p.found))
	}
	if len(p.found) > 0 {
		return nil, fmt.Errorf("%w: %s", ErrBatch, p.found[0].Message)
	}
	if !p.named(idColumn) {
		return nil, fmt.Errorf("%w: there is no column “id”", ErrBatch)
	}
	for _, h := range p.heads {
		if r := []rune(h.text); len(r) == 0 || len(r) > maxHead || strings.ContainsFunc(h.text, func(r rune) bool { return !unicode.IsPrint(r) }) {
			return nil, fmt.Errorf("%w: “%s” is no head of a column", ErrBatch, clip(h.text))
		}
	}
	b := &Batch{heads: p.heads, columns: p.record.Columns}
	for {
		row, err, more := p.cells(table)
		switch {
		case !more:
			return b, nil
		case err != nil:
			return nil, fmt.Errorf("%w: a row has a stray quotation mark", ErrBatch)
		case empty(row.cells):
			continue
		case len(b.Rows) == most:
			return nil, fmt.Errorf("%w: there are more than %d rows; send them in parts", ErrBatch, most)
		}
		b.Rows = append(b.Rows, p.sent(&row))
	}
}

// maxHead is how many characters the head of a column has at most that a device brings.
const maxHead = 60

// plainNumber is how a device writes a number: with a decimal point and, where it was read in another unit than that of the head, with its own.
var plainNumber = expression.Of(`^(?:([+\-−–]?\d{1,9}(?:\.\d{1,9})?)(?:[ \x{a0}]?([^\d.,\s]+(?: [^\d.,\s]+)*))?|1:\d{1,6}(?:\.\d{1,6})?)$`)

// plainID is an id that cannot be mistaken for anything else.
var plainID = expression.Of(`^[A-Za-z0-9][A-Za-z0-9._:-]{0,63}$`)

// sent judges one row of a batch, by the rules of a record.
func (p *parser) sent(raw *rawRow) Sent {
	s := Sent{cells: raw.cells}
	if len(raw.cells) != len(p.heads) {
		s.Why = fmt.Sprintf("The row has %d cells, and there are %d heads.", len(raw.cells), len(p.heads))
		return s
	}
	for i, h := range p.heads {
		text := strings.TrimSpace(raw.cells[i])
		s.cells[i] = text
		switch {
		case h.name == idColumn:
			if s.ID = text; !plainID.MatchString(text) {
				s.Why = "The id is missing, or has characters that an id may not have."
			}
		case h.numbers >= 0 && text != "" && !plainNumber.MatchString(text):
			s.Why = "“" + clip(text) + "” under “" + h.text + "” is no number with a decimal point."
		case strings.ContainsFunc(text, func(r rune) bool {
			return unicode.IsControl(r) && r != '\n' && r != '\t' || r == '\u2028' || r == '\u2029'
		}):
			s.Why = "“" + h.text + "” has a character that cannot be seen."
		}
	}
	before := len(p.found)
	row, ok := p.row(raw)
	if s.Why == "" && len(p.found) > before {
		s.Why = p.found[before].Message
	}
	p.found, p.told = p.found[:before], map[finding.RuleName]int{} // each row is told of, however many there are
	if s.Why == "" && ok && !says(&row) {
		s.Why = "The row says nothing but when."
	}
	s.When, s.Day = row.When, row.Day
	return s
}

// says tells whether a row has a reading, work or a note.
func says(r *Row) bool {
	if r.Work != "" || r.Note != "" || r.Replaces != "" { // one that only replaces another takes it back
		return true
	}
	for _, v := range r.Values {
		if v.Set {
			return true
		}
	}
	return false
}

// Lacks gives the heads of a batch under which a row has something, and which the record does not have.
func (f *Form) Lacks(b *Batch, s *Sent) []string {
	var heads []string
	for i, h := range b.heads {
		if s.cells[i] != "" && f.column(h) < 0 {
			heads = append(heads, h.text)
		}
	}
	return heads
}

// column is the column of the record for what stands under a head of a batch, or -1.
func (f *Form) column(h headOf) int {
	for i, own := range f.heads {
		switch {
		case h.name != own.name, h.of.Name != own.of.Name:
		case h.name != "", h.of.Name != "", key(h.text) == key(own.text):
			return i
		}
	}
	return -1
}

// Line writes a row of a batch as the record is written. why says what keeps it from that.
func (f *Form) Line(b *Batch, s *Sent) (line []byte, why string) {
	cells := make([]string, len(f.heads))
	for i, h := range b.heads {
		text := s.cells[i]
		if text == "" {
			continue
		}
		at := f.column(h)
		if at < 0 {
			return nil, "The record has no column “" + h.text + "”."
		}
		switch {
		case h.numbers >= 0:
			cells[at], why = f.number(text, h, b.columns[h.numbers].Unit, f.heads[at])
		case h.name == whenColumn:
			cells[at], why = f.time(text, s)
		default:
			cells[at] = harmless(text)
		}
		if why != "" {
			return nil, why
		}
	}
	line = f.join(cells)
	if f.open {
		line = append([]byte(f.lineEnd), line...)
	}
	return line, ""
}

// Added notes that a line is in the record.
func (f *Form) Added(s *Sent) {
	f.open = false
	if f.zones == zonesUnsaid && !s.Day {
		f.zones = zonesLeft
		if Zoned(s.When) {
			f.zones = zonesSaid
		}
	}
}

// number writes a number of a batch under a head of the record.
func (f *Form) number(text string, from headOf, unit quantity.Unit, to headOf) (cell, why string) {
	if to.numbers < 0 {
		return "", "The record's own column “" + to.text + "” cannot be read; see tankside proof."
	}
	own := f.columns[to.numbers].Unit
	if strings.ContainsRune(text, ratio) {
		if own.Kind != quantity.VolumeFraction {
			return "", "The record has “" + to.text + "”, in which a ratio cannot be written."
		}
		return strings.Replace(text, ".", string(rune(f.decimal)), 1), ""
	}
	m := plainNumber.FindStringSubmatch(text)
	number, symbol := m[1], m[2]
	if _, decimals, _ := strings.Cut(number, "."); len(decimals) == 3 { // 1.234 can be read as one thousand and more
		number += "0"
	}
	number = strings.Replace(number, ".", string(rune(f.decimal)), 1)
	switch {
	case own.Kind != unit.Kind:
		return "", "The record has “" + to.text + "”, and “" + from.text + "” measures it otherwise."
	case symbol == "" && own.Symbol == unit.Symbol:
		return number, ""
	case symbol == "":
		symbol = unit.Symbol
	}
	return number + " " + symbol, ""
}

// time writes the time of a row as those of the record are written: one that says its offset from UTC stands without it where the others have none, since
// the clocks of one shop go alike.
func (f *Form) time(text string, s *Sent) (cell, why string) {
	switch {
	case s.Day, f.zones == zonesUnsaid, f.zones == zonesSaid && Zoned(s.When), f.zones == zonesLeft && !Zoned(s.When):
		return text, ""
	case f.zones == zonesSaid:
		return "", "The times of this record say their offset from UTC, and “" + clip(text) + "” does not."
	}
	return s.When.Format("2006-01-02T15:04:05"), ""
}

// harmless keeps a spreadsheet from taking a text for a formula. The blank is no part of the text: whoever reads a record leaves it out.
func harmless(text string) string {
	if strings.ContainsAny(text[:1], "=+-@") {
		return " " + text
	}
	return text
}

// join writes a line.
func (f *Form) join(cells []string) []byte {
	var line bytes.Buffer
	w := csv.NewWriter(&line)
	w.Comma, w.UseCRLF = f.comma, f.lineEnd == "\r\n"
	if err := errors.Join(w.Write(cells), flushed(w)); err != nil {
		panic(err) // a buffer takes everything, and the separator is one that was read
	}
	return line.Bytes()
}

func flushed(w *csv.Writer) error {
	w.Flush()
	return w.Error()
}

// Widened gives the bytes of a record with more columns at its right edge. What stands in the others stays as it is, to the byte.
func (f *Form) Widened(data []byte, heads []string) ([]byte, error) {
	start := 0
	if bytes.HasPrefix(data, []byte("\ufeff")) {
		start = len("\ufeff")
	}
	if comma, _ := separator(string(data[start:])); comma != f.comma {
		return nil, errCoding
	}
	if bytes.HasPrefix(bytes.ToLower(bytes.Trim(data[start:min(len(data), start+8)], `"`)), []byte("sep=")) {
		start += bytes.IndexByte(data[start:], '\n') + 1
	}
	table := csv.NewReader(bytes.NewReader(data[start:]))
	table.Comma, table.FieldsPerRecord = f.comma, -1
	wide := append(make([]byte, 0, len(data)+len(data)/8), data[:start]...)
	more := bytes.TrimRight(f.join(append([]string{""}, heads...)), "\r\n")
	for from := 0; ; {
		_, err := table.Read()
		if errors.Is(err, io.EOF) {
			return append(wide, data[start+from:]...), nil
		}
		if err != nil {
			return nil, fmt.Errorf("a row cannot be read (%w); see tankside proof", err)
		}
		to := int(table.InputOffset())
		row := data[start+from : start+to]
		body := bytes.TrimRight(row, "\r\n")
		wide = append(append(append(wide, body...), more...), row[len(body):]...)
		more = bytes.Repeat([]byte(string(f.comma)), len(heads))
		from = to
	}
}
