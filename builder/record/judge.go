package record

import (
	"fmt"

	"tankside/builder/finding"
)

// ratios are written as 1:40; they have no decimal sign.
const ratio = ':'

// judge tells the decimal sign of the file. A number shows it by its shape (3,4 or 1.234,5), or because only one reading of it can be: pH 9,812 is not
// nine thousand. Where nothing shows it although some number needs it, or where both signs are shown, that is a finding.
func (p *parser) judge() sign {
	var shown [2]struct {
		times int
		at    spot
	}
	var needs struct {
		times int
		at    spot
		text  string
	}
	for i := range p.raw {
		row := &p.raw[i]
		for j, h := range p.heads {
			if h.numbers < 0 {
				continue
			}
			c, problem := cellOf(row.cells[j], h.of, p.record.Columns[h.numbers].Unit)
			if problem != "" {
				continue
			}
			s := c.clear
			if c.twice {
				if s = onlyOne(c, h.of); s == undecided {
					if needs.times++; needs.times == 1 {
						needs.at, needs.text = row.starts[j], row.cells[j]
					}
					continue
				}
			}
			if s == undecided {
				continue
			}
			k := 0
			if s == comma {
				k = 1
			}
			if shown[k].times++; shown[k].times == 1 {
				shown[k].at = row.starts[j]
			}
		}
	}
	points, commas := shown[0], shown[1]
	switch {
	case points.times > 0 && commas.times > 0:
		fewer, more := points, commas
		if points.times > commas.times {
			fewer, more = commas, points
		}
		message := fmt.Sprintf("Some numbers of the record have a decimal point (%d show it), some a decimal comma (%d).", points.times, commas.times)
		if needs.times > 0 {
			message += fmt.Sprintf(" Those that can be read with either, %d, are not used.", needs.times)
		}
		p.tell(ruleDecimal, fewer.at, message, "Write all numbers of the record with one sign.", p.place(more.at))
		return mixed
	case points.times > 0:
		return point
	case commas.times > 0:
		return comma
	case needs.times > 0:
		p.tell(ruleDecimal, needs.at, fmt.Sprintf("“%s” can be read with the sign for decimals and with the sign for thousands, and no number of the record tells which; %s not used.",
			clip(needs.text), numbersAre(needs.times)), "Write one number so that it tells: 1234 without a sign for thousands, or 1.50 with a decimal of two digits.")
	}
	return undecided
}

func numbersAre(n int) string {
	if n == 1 {
		return "it is"
	}
	return fmt.Sprintf("%d such numbers are", n)
}

// onlyOne is the sign with which an amount can be, where it cannot with the other.
func onlyOne(c cell, q Quantity) sign {
	_, _, withPoint := c.si(point, q)
	_, _, withComma := c.si(comma, q)
	switch {
	case withPoint && !withComma:
		return point
	case withComma && !withPoint:
		return comma
	}
	return undecided
}

// readCells makes rows of what was cut.
func (p *parser) readCells() {
	rows := make([]Row, 0, len(p.raw))
	same := newRepeats()
	for i := range p.raw {
		raw := &p.raw[i]
		row, ok := p.row(raw)
		if !ok {
			continue
		}
		if p.repeated(same, raw, &row) {
			continue
		}
		rows = append(rows, row)
	}
	if !p.keep {
		p.raw = nil
	}
	p.record.Rows = p.inOrder(p.corrected(rows))
	p.record.Rows = p.alsoWork(p.record.Rows)
}

// repeats finds rows and ids that are there before.
type repeats struct{ rows, ids map[string]int }

func newRepeats() repeats { return repeats{map[string]int{}, map[string]int{}} }

// repeated tells of a row that is there before, or whose id is.
func (p *parser) repeated(same repeats, raw *rawRow, row *Row) bool {
	whole := ""
	for _, c := range raw.cells {
		whole += fmt.Sprintf("%d %s", len(c), c)
	}
	before, twice := same.rows[whole]
	if !twice {
		same.rows[whole] = raw.line
	}
	if twice {
		p.record.Unused++
		p.tell(ruleTwice, raw.starts[0], fmt.Sprintf("This row is the same as that of line %d. It counts once.", before), "Take one of the two out.", finding.Place{File: p.path, Line: before, Column: 1})
		return true
	}
	if row.ID == "" {
		return false
	}
	if before, twice = same.ids[row.ID]; twice {
		p.record.Unused++
		p.tell(ruleTwice, p.spotOf(raw, idColumn), fmt.Sprintf("The id “%s” is that of line %d as well. Only that row is used.", clip(row.ID), before),
			"Take out the row that does not hold, or give it an id of its own.", finding.Place{File: p.path, Line: before, Column: 1})
		return true
	}
	same.ids[row.ID] = raw.line
	return false
}

// spotOf is where a row's cell of a text column begins.
func (p *parser) spotOf(raw *rawRow, name string) spot {
	for i, h := range p.heads {
		if h.name == name {
			return raw.starts[i]
		}
	}
	return raw.starts[0]
}
