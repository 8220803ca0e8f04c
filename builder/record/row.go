package record

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"tankside/builder/finding"
	"tankside/builder/quantity"
)

// row reads the cells of a row. It is false where the row has no time that can be read.
func (p *parser) row(raw *rawRow) (Row, bool) {
	row := Row{Line: raw.line, Values: make([]Value, len(p.record.Columns))}
	for i, h := range p.heads {
		text, at := strings.TrimSpace(raw.cells[i]), raw.starts[i]
		switch {
		case h.name == whenColumn:
			row.At = p.place(at)
			when, day, problem := timeOf(text)
			if problem != "" {
				p.record.Unused++
				p.tell(ruleRow, at, problem+" The row is not used.", "Write day and time as 2026-11-27T06:10, or the day alone as 2026-11-27.")
				return row, false
			}
			row.When, row.Day = when, day
		case text == "":
		case h.numbers >= 0:
			row.Values[h.numbers] = p.number(text, h, at)
		case utf8.RuneCountInString(text) > maxText:
			p.record.Unused++
			p.tell(ruleCell, at, fmt.Sprintf("This text has more than %d characters; it is not used.", maxText), "Make it shorter.")
		case h.name == workColumn:
			row.Work = p.work(text, at)
		case h.name == byColumn:
			row.By = text
		case h.name == noteColumn:
			row.Note = text
		case h.name == replacesColumn:
			row.Replaces = text
		case h.name == idColumn:
			row.ID = text
		default:
			row.Other = append(row.Other, Other{h.text, text})
		}
	}
	return row, true
}

// dashes stand for a reading that was not taken.
var dashes = []string{"-", "–", "—"}

// number reads a number of a column.
func (p *parser) number(text string, h headOf, at spot) Value {
	if slices.Contains(dashes, text) {
		return Value{}
	}
	column := p.record.Columns[h.numbers].Unit
	if column.Kind == quantity.VolumeFraction && strings.ContainsRune(text, ratio) {
		if v, err := quantity.Parse(text, column.Kind); err == nil {
			return p.accepted(v.SI, text, h, column.Kind, at)
		}
	}
	c, problem := cellOf(text, h.of, column)
	if problem != "" {
		return p.unused(ruleCell, at, problem, "Write the number alone, in the unit of the head: "+h.text)
	}
	decimal := p.decimal
	if c.clear != undecided && (decimal == mixed || decimal == undecided) {
		decimal = c.clear
	}
	if c.twice && (decimal == mixed || decimal == undecided) {
		if decimal == mixed {
			decimal = onlyOne(c, h.of)
		}
		if decimal == undecided {
			p.record.Unused++ // told by judge, once for the file
			return Value{}
		}
	}
	if decimal == undecided {
		decimal = point // a whole number: there is no sign in it
	}
	si, read, _ := c.si(decimal, h.of)
	if !read {
		return p.unused(ruleCell, at, "“"+clip(text)+"” is no number.", "Write the number alone, in the unit of the head: "+h.text)
	}
	return p.accepted(si, text, h, c.unit.Kind, at)
}

// accepted gives an amount if it can be.
func (p *parser) accepted(si float64, text string, h headOf, kind quantity.Kind, at spot) Value {
	if !h.of.possible(si, kind) {
		return p.unused(ruleImpossible, at, "“"+clip(text)+"” under “"+h.text+"” cannot be: "+h.of.Why+". It is not used.", "Write what was read; where nobody knows, leave the cell empty and say so in the note.")
	}
	return Value{si, true}
}

func (p *parser) unused(r finding.Rule, at spot, message, remedy string) Value {
	p.record.Unused++
	p.tell(r, at, message, remedy)
	return Value{}
}

// work reads what was done.
func (p *parser) work(text string, at spot) Work {
	switch w := Work(strings.ReplaceAll(key(text), " ", "-")); w {
	case Change, TopUp, Repair:
		return w
	}
	p.record.Unused++
	p.tell(ruleCell, at, "“"+clip(text)+"” is no work that a chart can mark.", "Write change, top-up or repair, and the rest in the note.")
	return ""
}

// opening are words with which a note begins that says what was done, in a record without a column for it.
var opening = []struct {
	words string
	is    Work
}{
	{"bath changed", Change}, {"bath change", Change}, {"changed bath", Change}, {"changed the bath", Change}, {"change of bath", Change}, {"new bath", Change}, {"fresh bath", Change},
	{"topped up", TopUp}, {"top-up", TopUp}, {"top up", TopUp}, {"repair", Repair}, {"repaired", Repair},
}

// alsoWork marks what was done where no column says it: by the opening of a note, and what was added as a top-up.
func (p *parser) alsoWork(rows []Row) []Row {
	said := slices.ContainsFunc(p.heads, func(h headOf) bool { return h.name == workColumn })
	added := p.record.Column("added")
	for i := range rows {
		r := &rows[i]
		for _, o := range opening {
			if rest, begins := strings.CutPrefix(key(r.Note), o.words); !said && r.Work == "" && begins && !startsWithLetter(rest) {
				r.Work = o.is
			}
		}
		if r.Work == "" && added >= 0 && r.Values[added].Set && r.Values[added].SI > 0 {
			r.Work = TopUp
		}
	}
	return rows
}

func startsWithLetter(text string) bool {
	return text != "" && (text[0] >= 'a' && text[0] <= 'z' || text[0] >= utf8.RuneSelf)
}
