package inboth

import (
	"math"
	"strings"

	"tankside/builder/quantity"
)

// Units that a text has where package quantity would write another: what both families read is of no use to somebody who measures in ounces and
// gallons, and nobody says how many inches three metres are.
func (a *amount) target(si float64) quantity.Unit {
	symbol := ""
	us := a.toward() == quantity.US
	switch {
	case a.unit.Kind == quantity.MassConcentration && us:
		symbol = "wt oz/US gal"
	case a.unit.Kind == quantity.VolumeFraction && us:
		symbol = "fl oz/US gal"
	case a.unit.Kind == quantity.MassConcentration:
		symbol = "g/L"
	case a.unit.Kind == quantity.VolumeFraction:
		symbol = "mL/L"
	case a.unit.Kind == quantity.Speed && us:
		symbol = "ft/min"
	case a.unit.Kind == quantity.Mass && us && math.Abs(si) < 0.45: // as package quantity does, but for milligrams
		symbol = "oz"
	case a.feet && us && math.Abs(si) >= 1:
		symbol = "ft"
	case a.unit.Kind == quantity.Pressure && !us:
		symbol = "bar"
	}
	if symbol != "" {
		u, _ := quantity.UnitNamed(symbol, a.unit.Kind)
		return u
	}
	return quantity.Preferred(si, a.unit.Kind, a.toward())
}

// write gives the amount in the other family of units, with what stands between the numbers of a row.
func (a *amount) write(text string) string {
	most := 0.
	digits, decimals := 0, false
	for i := range a.numbers {
		n := &a.numbers[i]
		if !n.spread {
			most = max(most, math.Abs(n.value))
			digits, decimals = max(digits, n.digits), decimals || n.decimals
		}
	}
	unit := a.target(a.unit.ToSI(most))
	var b strings.Builder
	for i := range a.numbers {
		n := &a.numbers[i]
		from := a.from
		if i > 0 {
			from = a.numbers[i-1].to
		}
		b.WriteString(text[from:n.from])
		if n.signed {
			b.WriteByte('+')
		}
		if n.spread && a.unit.Kind == quantity.Temperature {
			d := asDifference(a.unit)
			b.WriteString(quantity.Decimal(asDifference(unit).FromSI(d.ToSI(n.value)), 2))
			continue
		}
		b.WriteString(quantity.Like(unit.FromSI(a.unit.ToSI(n.value)), unit, digits, decimals))
	}
	b.WriteString("\u00a0" + unit.Symbol)
	return b.String()
}

// pair is an amount that is written in both families: 60 °C (140 °F).
type pair struct {
	to      int    // where it ends
	swapped string // the same with the other first
}

// pairAt tells whether the same amount stands in the other family right behind one, in brackets or behind a slash or a sign of equality.
func pairAt(text string, a *amount) (pair, bool) {
	at := skipBlanks(text, a.to)
	brackets := strings.HasPrefix(text[at:], "(")
	switch {
	case brackets || strings.HasPrefix(text[at:], "/") || strings.HasPrefix(text[at:], "="):
		at++
	case strings.HasPrefix(text[at:], "or "):
		at += 2
	case strings.HasPrefix(text[at:], "o "):
		at++
	default:
		return pair{}, false
	}
	at = skipBlanks(text, at)
	if at >= len(text) || !starts(text, at) {
		return pair{}, false
	}
	b, _ := rowAt(text, at)
	if b == nil || b.toward() == a.toward() {
		return pair{}, false
	}
	as := a.unit
	if b.unit.Kind != as.Kind { // one is taken for a temperature that the other shows to be a difference
		if as.Kind == quantity.Temperature {
			as = asDifference(as)
		}
		if b.unit.Kind == quantity.Temperature {
			b.unit = asDifference(b.unit)
		}
	}
	if b.unit.Kind != as.Kind || !a.same(as, b) {
		return pair{}, false
	}
	end := b.to
	if brackets {
		if !strings.HasPrefix(text[end:], ")") {
			return pair{}, false
		}
		end++
	}
	return pair{end, text[b.from:b.to] + text[a.to:b.from] + text[a.from:a.to] + text[b.to:end]}, true
}

// same tells whether two amounts, the first of a unit, are one, as near as people round.
func (a *amount) same(unit quantity.Unit, b *amount) bool {
	if len(a.numbers) != len(b.numbers) {
		return false
	}
	for i := range a.numbers {
		x, y := unit.ToSI(a.numbers[i].value), b.unit.ToSI(b.numbers[i].value)
		near := 0.06 * max(math.Abs(x), math.Abs(y))
		if unit.Kind == quantity.Temperature {
			near = 2
		}
		if math.Abs(x-y) > near {
			return false
		}
	}
	return true
}
