package record

import (
	"strconv"
	"strings"

	"tankside/builder/expression"
	"tankside/builder/quantity"
)

// sign is the decimal sign of a file.
type sign byte

const (
	undecided sign = 0
	mixed     sign = 'x'
	point     sign = '.'
	comma     sign = ','
)

// other is the sign that then groups thousands.
func (s sign) other() sign {
	if s == point {
		return comma
	}
	return point
}

var (
	// amount is a number with, perhaps, a unit behind it.
	amount = expression.Of(`^([+\-−–]?[ \x{a0}]?[\d.,'’\x{a0}\x{202f} ]*\d(?:[eE][+\-−]?\d{1,2})?)[ \x{a0}\x{202f}]*(\D.*)?$`)

	plain    = expression.Of(`^\d+$`)
	grouped  = expression.Of(`^[1-9]\d{0,2}(?:[.,]\d{3})+$`) // 1.234 or 1,234,567
	parted   = expression.Of(`^\d*[.,]\d+$`)
	both     = expression.Of(`^\d{1,3}(?:(?:\.\d{3})+,|(?:,\d{3})+\.)\d+$`)
	inThrees = expression.Of(`^\d{1,3}(?:['’\x{a0}\x{202f} ]\d{3})+(?:[.,]\d+)?$`)
)

// numeral is a number as written: its sign and power of ten taken off, groups set apart by blanks or apostrophes joined.
type numeral struct {
	minus bool
	body  string
	power string
	clear sign // the decimal sign that its shape alone tells, or undecided
	twice bool // it can be read with either sign
}

// numeralOf reads the shape of a number; ok is false where it is none.
func numeralOf(text string) (n numeral, ok bool) {
	text = strings.TrimSpace(text)
	if rest, cut := cutSign(text); cut != 0 {
		n.minus, text = cut == '-', rest
	}
	if i := strings.IndexAny(text, "eE"); i > 0 {
		text, n.power = text[:i], strings.ReplaceAll(text[i+1:], "−", "-")
	}
	if inThrees.MatchString(text) {
		text = strings.NewReplacer("'", "", "’", "", "\u00a0", "", "\u202f", "", " ", "").Replace(text)
		if last := strings.LastIndexAny(text, ".,"); last >= 0 { // thousands are set apart otherwise, so this is the decimal sign
			n.clear = sign(text[last])
		}
	}
	n.body = text
	last := strings.LastIndexAny(text, ".,")
	switch {
	case plain.MatchString(text), n.clear != undecided:
	case both.MatchString(text):
		n.clear = sign(text[last])
	case grouped.MatchString(text) && strings.Count(text, ".")+strings.Count(text, ",") > 1:
		if strings.Contains(text, ".") && strings.Contains(text, ",") {
			return n, false
		}
		n.clear = sign(text[last]).other()
	case grouped.MatchString(text) && n.power == "":
		n.twice = true
	case parted.MatchString(text):
		n.clear = sign(text[last])
	default:
		return n, false
	}
	return n, true
}

// cutSign takes a plus or minus off; sign is '+', '-' or 0.
func cutSign(text string) (rest string, sign byte) {
	for _, s := range []string{"-", "−", "–"} {
		if rest, cut := strings.CutPrefix(text, s); cut {
			return strings.TrimSpace(rest), '-'
		}
	}
	if rest, cut := strings.CutPrefix(text, "+"); cut {
		return strings.TrimSpace(rest), '+'
	}
	return text, 0
}

// value is the number with a decimal sign.
func (n numeral) value(decimal sign) (float64, bool) {
	body := strings.ReplaceAll(n.body, string(rune(decimal.other())), "")
	body = strings.Replace(body, ",", ".", 1)
	if n.power != "" {
		body += "e" + n.power
	}
	v, err := strconv.ParseFloat(body, 64)
	if n.minus {
		v = -v
	}
	return v, err == nil
}

// cell is a cell of a column of numbers, taken apart.
type cell struct {
	numeral
	unit quantity.Unit
}

// cellOf takes a cell apart: a number in the column's unit, or with a unit of its own of the same kind. problem says what is wrong with it.
func cellOf(text string, q Quantity, column quantity.Unit) (c cell, problem string) {
	c.unit = column
	m := amount.FindStringSubmatch(text)
	if m == nil {
		return c, "“" + clip(text) + "” is no number."
	}
	if unit := strings.TrimSpace(m[2]); unit != "" {
		switch own, known := quantity.UnitNamed(unit, column.Kind); {
		case unit == "%" && strings.HasPrefix(column.Symbol, "%"):
		case !known || column.Kind == quantity.Number:
			return c, "“" + clip(text) + "” has a unit that does not measure " + q.Name + " as the head does."
		default:
			if v, err := quantity.Parse("1 "+unit, column.Kind); err == nil && v.Loose {
				return c, "“" + clip(text) + "” has a bare gallon, quart or fluid ounce, which can be the US one and the imperial one."
			}
			c.unit = own
		}
	}
	var ok bool
	if c.numeral, ok = numeralOf(m[1]); !ok {
		return c, "“" + clip(text) + "” is no number."
	}
	return c, ""
}

// si is the amount with a decimal sign, and whether it can be.
func (c cell) si(decimal sign, q Quantity) (si float64, read, possible bool) {
	v, ok := c.value(decimal)
	if !ok {
		return 0, false, false
	}
	si = c.unit.ToSI(v)
	return si, true, q.possible(si, c.unit.Kind)
}
