// Package inboth finds the amounts in finished text and puts the same in the other family of units before each, for readers who have chosen
// that family:
//
//	Heat to 60 °C.   becomes   Heat to <span class="us">140 °F (</span>60 °C<span class="us">)</span>.
//
// so that a page with US units shows “Heat to 140 °F (60 °C).” and one with SI units “Heat to 60 °C.” The styles show one of the two. An amount
// in US units has its SI value before it in the same way, whatever the shop's own units are.
//
// [HTML] does so with a page, a book, or what the module answers; [Text] with a text that has no markup. Both run when an edition is published and
// in the reader's browser, in any language: what is read is numbers and the symbols of units, and beside degrees the words that tell a difference
// of temperatures from a temperature (English, Spanish and German; some of French, Italian, Portuguese, Dutch and Polish).
//
// What is not sure stays as it is written, for one of the reasons below; the test of every page of the demo edition counts them.
package inboth

import (
	"strings"

	"tankside/builder/quantity"
)

// amount is one amount of a text, or a row of them that share a unit: “50, 60 and 70 °C”, “300 × 200 mm”, “60 ± 2 °C”.
type amount struct {
	from, to int // bytes of the text
	numbers  []number
	unit     quantity.Unit
	feet     bool // a length that was written in metres
	why      reason
	other    string // the same in the other family
}

// reason is why an amount stays as it is written.
type reason byte

const (
	converted     reason = iota
	goesOnFurther        // its unit goes on, as in W/m² or kJ/(kg·K): no unit of the other family is in the tables
	fewDegrees           // nothing says whether few degrees are a temperature or a difference
	partOfName           // its number is part of a name, a ratio or a date
	looseOunces          // ounces in a gallon that do not say whether they are weighed
)

// toward is the family for whose readers an amount is converted: the one that its unit does not belong to.
func (a *amount) toward() quantity.System {
	if usUnit(a.unit) {
		return quantity.SI
	}
	return quantity.US
}

func usUnit(u quantity.Unit) bool {
	s := u.Symbol
	return s == "°F" || strings.Contains(s, "US ") || s == "oz" || s == "lb" || s == "in" || s == "ft" || s == "psi" || s == "in²" || s == "ft²" || s == "ft/min" || s == "lb/ft³"
}

// Text writes a text without markup for readers of one family: amounts of the other have theirs before them, 140 °F (60 °C).
func Text(text string, chosen quantity.System) string {
	var b strings.Builder
	at := 0
	for _, a := range find(text) {
		if a.why != converted || a.from < at {
			continue
		}
		as, end := a.other+" ("+text[a.from:a.to]+")", a.to
		switch p, both := pairAt(text, a); {
		case both && a.toward() == chosen:
			as, end = p.swapped, p.to
		case both: // theirs stands first as it is
			as, end = text[a.from:p.to], p.to
		case a.toward() != chosen:
			continue
		}
		b.WriteString(text[at:a.from] + as)
		at = end
	}
	if at == 0 {
		return text
	}
	return b.String() + text[at:]
}
