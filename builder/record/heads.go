package record

import (
	"encoding/csv"
	"fmt"
	"slices"
	"strings"
	"unicode"

	"tankside/builder/quantity"
	"tankside/builder/spelling"
)

// readHeads reads the first row. It is false where nothing can be told from it.
func (p *parser) readHeads(table *csv.Reader) bool {
	row, err, more := p.cells(table)
	if !more {
		p.tell(ruleUnreadable, spot{}, "The record is empty.", "Its first line holds the heads.")
		return false
	}
	if err != nil {
		p.tell(ruleUnreadable, spot{1, 1}, "The first line, which holds the heads, has a stray quotation mark.", "Put a head with a quotation mark in it in quotation marks, and double the one within.")
		return false
	}
	if len(row.cells) > maxColumns {
		p.tell(ruleUnreadable, row.starts[maxColumns], fmt.Sprintf("The record has %d columns; it may have %d.", len(row.cells), maxColumns), "Leave out the columns that are not about the bath.")
		return false
	}
	seen := map[string]int{}
	forWhen := "" // a head that may be meant for the time
	for i, text := range row.cells {
		h := headOf{text: strings.TrimSpace(text), numbers: -1}
		name, unit, hasUnit := head(text)
		before, twice := seen[name]
		switch q, numbers := QuantityNamed(name); {
		case name == "":
		case twice && (numbers || slices.Contains(textColumns, name)):
			p.tell(ruleHead, row.starts[i], "“"+h.text+"” is there twice; what stands below this one is not used.", "Keep one of the two columns.", p.place(row.starts[before]))
		case numbers:
			h.of = q
			p.numbers(&h, unit, hasUnit, row.starts[i])
		case slices.Contains(textColumns, name):
			h.name = name
		default:
			if meant := nearest(name); meant == "“"+whenColumn+"”" {
				forWhen = h.text
			} else if meant != "" {
				p.tell(ruleHead, row.starts[i], "There is no column “"+h.text+"”; it is kept, and nothing is done with it.", "Did you mean "+meant+"? Otherwise give it a name that is further from it.")
			}
		}
		if _, there := seen[name]; !there && name != "" {
			seen[name] = i
		}
		p.heads = append(p.heads, h)
	}
	if _, has := seen[whenColumn]; !has {
		remedy := ""
		if forWhen != "" {
			remedy = "Call the column “" + forWhen + "” when. "
		}
		p.tell(ruleUnreadable, row.starts[0], "The record has no column “when”.", remedy+"Its first line holds the heads, for example: when,strength (% v/v),temperature (°C),by,note. A time is written as 2026-11-27T06:10.")
		return false
	}
	return true
}

// numbers makes a column of numbers of a head, if its unit is clear.
func (p *parser) numbers(h *headOf, unit string, hasUnit bool, at spot) {
	q := h.of
	switch {
	case q.Kinds[0] == quantity.Number && (!hasUnit || unit == "" || "("+unit+")" == strings.TrimPrefix(q.Example, q.Name+" ")):
		unit = ""
	case q.Kinds[0] == quantity.PH && (!hasUnit || strings.EqualFold(unit, "ph") || unit == "" || unit == "1"):
		unit = ""
	case !hasUnit || unit == "":
		p.tell(ruleHead, at, "“"+h.text+"” has no unit, so its numbers are not used.", "Write the unit into the head, for example: "+q.Example)
		return
	}
	u, problem := unitOf(unit, q)
	if problem != "" {
		p.tell(ruleHead, at, "“"+h.text+"”: "+problem+" Its numbers are not used.", "Write for example: "+q.Example)
		return
	}
	h.numbers = len(p.record.Columns)
	p.record.Columns = append(p.record.Columns, Column{q.Name, u})
}

// unitOf finds the unit of a head among those of the quantity's kinds; problem says what is wrong with it.
func unitOf(symbol string, q Quantity) (u quantity.Unit, problem string) {
	found := 0
	for _, kind := range q.Kinds {
		if one, known := quantity.UnitNamed(symbol, kind); known {
			u, found = one, found+1
		}
	}
	switch {
	case found == 0:
		return u, "“" + clip(symbol) + "” is no unit of " + q.Name + "."
	case found > 1:
		return u, "“" + clip(symbol) + "” can be by volume and by mass."
	}
	if v, err := quantity.Parse("1 "+symbol, u.Kind); err == nil && v.Loose {
		return u, "a bare gallon, quart or fluid ounce can be the US one and the imperial one."
	}
	return u, ""
}

// nearest is the known head that a word is nearly like, or one that people use for it.
func nearest(name string) string {
	if meant, known := map[string]string{"date": whenColumn, "time": whenColumn, "datetime": whenColumn, "timestamp": whenColumn, "day": whenColumn,
		"temp": "temperature (°C)", "temp.": "temperature (°C)", "conc": "strength (% v/v)", "concentration": "strength (% v/v)", "cond": "conductivity (µS/cm)", "ec": "conductivity (µS/cm)"}[name]; known {
		return "“" + meant + "”"
	}
	var d spelling.Distance
	for _, known := range Heads() {
		if len(name) > 3 && len(known) > 3 && d.Between([]rune(name), known, 1) == 1 {
			return "“" + known + "”"
		}
	}
	return ""
}

// clip shortens what somebody wrote for a sentence.
func clip(text string) string {
	text = strings.ToValidUTF8(strings.Map(func(r rune) rune {
		if !unicode.IsPrint(r) { // a terminal takes some characters for commands
			return ' '
		}
		return r
	}, text), "�")
	if r := []rune(text); len(r) > 40 {
		return string(r[:40]) + "…"
	}
	return text
}
