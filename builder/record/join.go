package record

import (
	"bytes"
	"cmp"
	"fmt"
	"path"
	"slices"
	"strings"

	"tankside/builder/expression"
	"tankside/builder/finding"
)

// Joined is what comes of rows that are put into a record.
type Joined struct {
	Text    []byte    // the record's file, as it is to be written
	Added   []string  // ids
	There   int       // rows that the record had already
	Refused []Refusal // by line
}

// Refusal is a row that was not put into a record, and why.
type Refusal struct {
	ID   string `json:"id"`
	Line int    `json:"line"` // of the file that it came in
	Why  string `json:"why"`
}

// TankOf is the tank that a file of rows is of, by its name: what stands before the first dot, blank or bracket. Browsers put “ (1)” behind a name that
// is taken.
func TankOf(file string) string {
	name := path.Base(strings.ReplaceAll(file, `\`, "/"))
	if end := strings.IndexAny(name, ". (["); end >= 0 {
		name = name[:end]
	}
	return strings.ToLower(name)
}

// Rows reads a table of rows, as a device saves it or a spreadsheet does, for [Merge]. What is wrong with some of them is found with its place; those are
// refused, and not among the rows. ok is false where nothing can be read.
func Rows(file string, data []byte) (rows []Cells, refused []Refusal, found []finding.Finding, ok bool) {
	p, ok := readTable(file, data)
	if !ok {
		return nil, nil, p.found, false
	}
	for _, r := range p.rows(&refused) {
		rows = append(rows, r.cells)
	}
	return rows, refused, p.found, true
}

// Write writes rows as a table (RFC 4180), which [Rows] and a manual read.
func Write(rows []Cells) []byte {
	heads := []string{whenColumn}
	for _, row := range rows {
		heads = withHeads(heads, row)
	}
	var b strings.Builder
	line := func(cell func(head string) string) {
		for i, h := range heads {
			if i > 0 {
				b.WriteByte(',')
			}
			b.WriteString(cell(h))
		}
		b.WriteString("\r\n")
	}
	line(func(h string) string { return quoted(h, ',') })
	for _, row := range rows {
		line(func(h string) string { return quoted(numeralIn(h, row[h], point), ',') })
	}
	return []byte(b.String())
}

// Join puts the rows of a device's file into a record by the rule of [Merge]. Rows that the record has stay as they are written, those that come are put where
// their time belongs, columns that the record lacks come behind the others. old is nil where there is no record yet. An error says that one of the two cannot be
// read; the findings say why, and what is wrong with rows of the file.
func Join(recordFile string, old []byte, file string, coming []byte) (Joined, []finding.Finding, error) {
	from, ok := readTable(file, coming)
	if !ok {
		return Joined{}, from.found, fmt.Errorf("%s cannot be read", file)
	}
	if old == nil {
		old = []byte(whenColumn + "\n")
	}
	into, ok := readTable(recordFile, old)
	if !ok {
		return Joined{}, into.found, fmt.Errorf("the record %s cannot be read", recordFile)
	}
	j := joiner{p: into, byID: map[string]*piece{}}
	j.takeOld()
	for _, r := range from.rows(&j.done.Refused) {
		if why := j.take(r); why != "" {
			j.done.Refused = append(j.done.Refused, Refusal{r.cells[idColumn], r.line, why})
		}
	}
	slices.SortStableFunc(j.done.Refused, func(a, b Refusal) int { return a.Line - b.Line })
	if len(j.pieces)+len(j.fresh) > MaxRows {
		return Joined{}, nil, fmt.Errorf("with these rows the record %s would have more than %d", recordFile, MaxRows)
	}
	j.done.Text = asBefore(old, j.write())
	return j.done, from.found, nil
}

// readTable reads a table and keeps its rows as they were cut.
func readTable(file string, data []byte) (*parser, bool) {
	text, found, ok := Text(file, data)
	if !ok {
		return &parser{found: found}, false
	}
	p := parse(file, text, MaxRows, true)
	return p, !slices.ContainsFunc(p.found, func(f finding.Finding) bool { return f.Rule == ruleUnreadable.Name })
}

// tableRow is a row of a table with what its cells mean.
type tableRow struct {
	cells    Cells
	when     Row // its time
	line     int
	from, to int // where it stands in the text
}

// rows gives the rows of a table that a record would use or that another row replaces; the others are refused.
func (p *parser) rows(refused *[]Refusal) []tableRow {
	read := map[int]*Row{}
	for _, list := range [][]Row{p.record.Rows, p.record.Replaced} {
		for i := range list {
			read[list[i].Line] = &list[i]
		}
	}
	var rows []tableRow
	for i := range p.raw {
		raw := &p.raw[i]
		row := read[raw.line]
		if row == nil {
			continue
		}
		cells, why := p.cellsOf(raw, row)
		if why != "" {
			*refused = append(*refused, Refusal{row.ID, raw.line, why})
			continue
		}
		rows = append(rows, tableRow{cells, Row{When: row.When, Day: row.Day}, raw.line, raw.from, raw.to})
	}
	for _, f := range p.found { // a row that is none, or is there twice
		if _, used := read[f.Line]; f.Line > 1 && !used {
			read[f.Line] = nil
			*refused = append(*refused, Refusal{Line: f.Line, Why: f.Message})
		}
	}
	return rows
}

// cellsOf writes the cells of a row as rows are compared and handed on; why says that one of them can be read in two ways.
func (p *parser) cellsOf(raw *rawRow, row *Row) (c Cells, why string) {
	c = Cells{}
	for i, h := range p.heads {
		text := strings.TrimSpace(raw.cells[i])
		switch {
		case text == "" || h.text == "":
		case h.numbers >= 0 && slices.Contains(dashes, text):
		case h.numbers >= 0:
			number, clear := p.plainNumber(text, h, row.Values[h.numbers].Set)
			if !clear {
				return nil, "“" + clip(text) + "” can be read in two ways."
			}
			c[plainHead(h.text)] = number
		default:
			c[plainHead(h.text)] = text
		}
	}
	return c, ""
}

// plainNumber writes a number with a point and without signs for thousands. What is no number that can be used stays as it is written.
func (p *parser) plainNumber(text string, h headOf, used bool) (number string, clear bool) {
	c, problem := cellOf(text, h.of, p.record.Columns[h.numbers].Unit)
	if problem != "" || strings.ContainsRune(text, ratio) {
		return text, true
	}
	if !used && c.twice && (p.decimal == mixed || p.decimal == undecided) {
		return "", false
	}
	decimal := p.decimal
	switch {
	case decimal != mixed && decimal != undecided:
	case c.clear != undecided:
		decimal = c.clear
	case c.twice:
		decimal = onlyOne(c, h.of)
	default:
		decimal = point
	}
	number = strings.Replace(strings.ReplaceAll(c.body, string(rune(decimal.other())), ""), ",", ".", 1)
	if c.minus {
		number = "-" + number
	}
	if c.power != "" {
		number += "e" + c.power
	}
	if m := amount.FindStringSubmatch(text); strings.TrimSpace(m[2]) != "" {
		number += " " + strings.TrimSpace(m[2])
	}
	return number, true
}

// plainHead writes a head as rows have it: known ones in small letters, others as they are.
func plainHead(text string) string {
	name, unit, _ := head(text)
	_, number := QuantityNamed(name)
	switch {
	case number && unit != "":
		return name + " (" + unit + ")"
	case number || slices.Contains(textColumns, name):
		return name
	}
	return strings.TrimSpace(text)
}

// withHeads adds the heads of a row to those of a table: numbers in the order of Quantities, then what is not known, then words.
func withHeads(heads []string, row Cells) []string {
	var more []string
	for h, text := range row {
		if text != "" && !slices.Contains(heads, h) {
			more = append(more, h)
		}
	}
	if len(more) == 0 {
		return heads
	}
	heads = append(slices.Clone(heads), more...)
	slices.SortStableFunc(heads[1:], func(a, b string) int { return cmp.Or(rank(a)-rank(b), strings.Compare(a, b)) })
	return heads
}

func rank(text string) int {
	name, _, _ := head(text)
	if i := slices.IndexFunc(Quantities, func(q Quantity) bool { return q.Name == name }); i >= 0 {
		return i
	}
	return 100 + slices.Index(textColumns, name) // what is not known comes before the words
}

// piece is a part of the record that is written: a row, as it stood or as it came, or what is none.
type piece struct {
	text string // as it stood, with its line end
	row  Cells  // as it is to be written, where it no longer stands as it stood
	same Cells  // what it says, with an id
	when Row
	read bool
	gone bool // another stands for it
}

// joiner puts rows into a record.
type joiner struct {
	p      *parser
	pieces []*piece
	fresh  []*piece
	byID   map[string]*piece
	more   []string // heads behind those of the record
	done   Joined
}

// takeOld parts the record into what stands there.
func (j *joiner) takeOld() {
	at := j.p.body
	var unused []Refusal
	for _, r := range j.p.rows(&unused) {
		if r.from > at { // rows that are not used stay
			j.pieces = append(j.pieces, &piece{text: j.p.text[at:r.from]})
		}
		one := &piece{text: j.p.text[r.from:r.to], same: r.cells.named(), when: r.when, read: true}
		j.pieces = append(j.pieces, one)
		j.byID[one.same[idColumn]] = one
		at = r.to
	}
	if at < len(j.p.text) {
		j.pieces = append(j.pieces, &piece{text: j.p.text[at:]})
	}
}

// take puts a row that comes into the record; why says that it cannot be.
func (j *joiner) take(r tableRow) (why string) {
	if !r.when.Day && slices.ContainsFunc(j.p.record.Rows, func(row Row) bool { return !row.Day }) && Zoned(r.when.When) != j.p.record.Zoned {
		if j.p.record.Zoned {
			return "Its time does not say its offset from UTC, and those of the record do."
		}
		return "Its time says its offset from UTC, and those of the record say none."
	}
	row, why := j.underHeads(r.cells)
	if why == "" {
		j.put(&piece{row: row.named(), same: row.named(), when: r.when, read: true}, true)
	}
	return why
}

// put adds a row by the rule of Merge. came is false for one that had to give way.
func (j *joiner) put(one *piece, came bool) {
	id := one.same[idColumn]
	there := j.byID[id]
	if there == nil {
		j.byID[id] = one
		j.fresh = append(j.fresh, one)
		j.done.Added = append(j.done.Added, id)
		return
	}
	if there.same.content() == one.same.content() {
		if came {
			j.done.There++
		}
		return
	}
	stays, other := meet(there.same, one.same)
	when := one.when
	if stays.content() != there.same.content() { // the row that comes keeps the id, and the one that was there is written anew
		there.gone = true
		kept := &piece{row: stays, same: stays, when: one.when, read: true}
		j.byID[id], when = kept, there.when
		j.fresh = append(j.fresh, kept)
	}
	j.put(&piece{row: other, same: other, when: when, read: true}, came)
}

// underHeads gives a row the heads of the record: a number in another unit of its kind takes its unit with it.
func (j *joiner) underHeads(row Cells) (Cells, string) {
	given := Cells{}
	for h, text := range row {
		name, unit, _ := head(h)
		q, number := QuantityNamed(name)
		at := slices.IndexFunc(j.p.heads, func(own headOf) bool {
			ownName, _, _ := head(own.text)
			return ownName == name && (number || slices.Contains(textColumns, name)) || own.text == h
		})
		if at < 0 || plainHead(j.p.heads[at].text) == h {
			given[h] = text
			continue
		}
		own := j.p.heads[at]
		if !number || own.numbers < 0 {
			return nil, "The record's column “" + own.text + "” cannot be used."
		}
		if name, unit, has := split(text); has {
			given[plainHead(own.text)] = name + " " + unit
			continue
		}
		u, problem := unitOf(unit, q)
		if problem != "" || u.Kind != j.p.record.Columns[own.numbers].Unit.Kind || text == "" {
			return nil, "“" + clip(h) + "” is another measure than the record's “" + own.text + "”."
		}
		given[plainHead(own.text)] = text + " " + unit
	}
	for _, h := range withHeads(append([]string{whenColumn}, j.more...), given)[1:] {
		if !slices.Contains(j.more, h) && !slices.ContainsFunc(j.p.heads, func(own headOf) bool { return plainHead(own.text) == h }) {
			j.more = append(j.more, h)
		}
	}
	return given, ""
}

// split parts a number from the unit behind it.
func split(text string) (number, unit string, has bool) {
	m := amount.FindStringSubmatch(text)
	if m == nil || strings.TrimSpace(m[2]) == "" {
		return text, "", false
	}
	return strings.TrimSpace(m[1]), strings.TrimSpace(m[2]), true
}

// write puts the record together again.
func (j *joiner) write() string {
	slices.SortFunc(j.more, func(a, b string) int { return cmp.Or(rank(a)-rank(b), strings.Compare(a, b)) })
	slices.SortStableFunc(j.fresh, func(a, b *piece) int {
		switch {
		case before(&a.when, &b.when):
			return -1
		case before(&b.when, &a.when):
			return 1
		}
		return strings.Compare(a.same[idColumn], b.same[idColumn])
	})
	var b strings.Builder
	b.WriteString(j.p.text[:j.p.base])
	heads := strings.TrimLeft(j.p.text[j.p.base:j.p.body], "\n")
	b.WriteString(j.p.text[j.p.base : j.p.body-len(heads)])
	b.WriteString(j.wider(heads, func(h string) string { return h }))
	for _, p := range j.ordered() {
		switch {
		case p.gone:
		case p.row != nil:
			b.WriteString(j.line(p.row))
		case p.read:
			b.WriteString(j.wider(p.text, func(string) string { return "" }))
		default:
			b.WriteString(p.text)
		}
	}
	return b.String()
}

// ordered are the pieces with each row that came behind the last that is not later.
func (j *joiner) ordered() []*piece {
	behind := make([][]*piece, len(j.pieces)+1)
	at := len(j.pieces)
	for _, one := range slices.Backward(j.fresh) {
		for at > 0 && (!j.pieces[at-1].read || before(&one.when, &j.pieces[at-1].when)) {
			at--
		}
		behind[at] = append(behind[at], one)
	}
	var all []*piece
	for i, more := range behind {
		if i > 0 {
			all = append(all, j.pieces[i-1])
		}
		slices.Reverse(more)
		all = append(all, more...)
	}
	return all
}

// wider is a line with a cell for each head that comes behind those of the record.
func (j *joiner) wider(text string, cell func(head string) string) string {
	text = strings.TrimSuffix(text, "\n")
	for _, h := range j.more {
		text += string(j.p.comma) + quoted(cell(h), j.p.comma)
	}
	return text + "\n"
}

// line writes a row under the heads of the record.
func (j *joiner) line(row Cells) string {
	var cells []string
	for _, h := range j.p.heads {
		cells = append(cells, quoted(numeralIn(plainHead(h.text), row[plainHead(h.text)], j.p.decimal), j.p.comma))
	}
	return j.wider(strings.Join(cells, string(j.p.comma)), func(h string) string { return numeralIn(h, row[h], j.p.decimal) })
}

var (
	leading = expression.Of(`^-?\d+(\.\d+)?`)
	astray  = expression.Of(`["\r\n]|^\s|\s$`)
)

// numeralIn writes a number with the decimal sign of a table. One that could be read with the sign for thousands, 1.234, gets a zero more.
func numeralIn(head, text string, decimal sign) string {
	if !isNumber(head) {
		return text
	}
	number := leading.FindString(text)
	rest := text[len(number):]
	if grouped.MatchString(strings.TrimPrefix(number, "-")) {
		number += "0"
	}
	if decimal == comma {
		number = strings.Replace(number, ".", ",", 1)
	}
	return number + rest
}

func quoted(cell string, separator rune) string {
	if strings.ContainsRune(cell, separator) || astray.MatchString(cell) {
		return `"` + strings.ReplaceAll(cell, `"`, `""`) + `"`
	}
	return cell
}

// asBefore writes a text with the line ends and the byte order mark of a file. UTF-16 becomes UTF-8 with a mark.
func asBefore(old []byte, text string) []byte {
	if bytes.Contains(old, []byte("\r\n")) {
		text = strings.ReplaceAll(text, "\n", "\r\n")
	}
	if bytes.HasPrefix(old, []byte("\xEF\xBB\xBF")) || bytes.IndexByte(old, 0) >= 0 {
		text = "\uFEFF" + text
	}
	return []byte(text)
}
