package admit

import (
	"math"

	"tankside/builder/decide/fact"
	"tankside/builder/finding"
	"tankside/builder/quantity"
	"tankside/calculators/mix"
	"tankside/calculators/safety"
)

// NotComparable guards against strengths in measures that cannot be turned into one another: a volume of concentrate in a bath and a mass of
// it differ by its density, so without that nothing follows from the two, least of all a yes.
var NotComparable = finding.Rule{
	Name: "strength-not-comparable", Severity: finding.Parts,
	Finds:  "strengths in measures of volume and of mass, of a chemistry without density",
	Why:    "900 g/L and 1–5 % v/v cannot be compared without the density, and what was not compared would pass for right.",
	Source: "a mass is a volume times its density; the chemistry's article, density",
}

// close is how near two values are that count as the same: what conversion of units and rounding leave.
func close(x float64) float64 { return 1e-9 * (1 + math.Abs(x)) }

// in turns a strength of a bath into a measure; false where that takes the density of the concentrate and nobody gives it. Every other limit
// has one measure.
func (b *Bath) in(l fact.Limit, kind quantity.Kind) (fact.Limit, bool) {
	if l.Kind == kind {
		return l, true
	}
	density := b.Chemistry.Density
	if !density.Set || !strength(l.Kind) || !strength(kind) {
		return l, false
	}
	turn := func(x float64) float64 {
		if math.IsInf(x, 0) {
			return x
		}
		return mix.FromVolume(mix.ByVolume(x, l.Kind, density.Low), kind, density.Low)
	}
	l.Range = quantity.Range{Low: turn(l.Low), High: turn(l.High), Kind: kind, Unit: unitOf(kind)}
	return l, true
}

func strength(k quantity.Kind) bool {
	return k == quantity.VolumeFraction || k == quantity.MassFraction || k == quantity.MassConcentration
}

func unitOf(kind quantity.Kind) quantity.Unit {
	return quantity.Preferred(0.05, kind, quantity.SI)
}

// alike turns limits, in place, into the measure of the first. What cannot be turned is told, and left out.
func (b *Bath) alike(list []Limit) (same []Limit, gaps []Reason) {
	if len(list) == 0 {
		return nil, nil
	}
	kind, first := list[0].Kind, list[0]
	same = list[:0]
	for _, l := range list {
		if l.Kind != kind {
			turned, can := b.in(l.Limit, kind)
			if !can {
				gaps = append(gaps, b.gap(l, first))
				continue
			}
			l.Limit, l.turned = turned, true
		}
		same = append(same, l)
	}
	return same, gaps
}

// gap is the reason for two strengths that cannot be compared.
func (b *Bath) gap(l, first Limit) Reason {
	return against(&NotComparable, Say("{one asks}, but {another asks}: without the density of {chemistry} the two cannot be compared.", Clause(l.Asks), Clause(first.Asks), within(b.Chemistry))).
		mend("Give density in the article of " + b.Chemistry.Title + ", as its data sheet has it, or write both in the same measure.").
		by(l.At).other(first.At).value(l.At)
}

// leaves tells whether a value is not within a limit, both in the same measure.
func leaves(v, l quantity.Range) bool {
	return v.Low < l.Low-close(l.Low) || v.High > l.High+close(l.High)
}

// slipsOut tells whether less than half of a bath's own pH range is left. Nobody sets the pH of a bath: it comes with the cleaner, its
// strength and its age, so a bath that is out of bounds most of the time is out of bounds. That it is half is our own limit.
func slipsOut(own, left quantity.Range) bool {
	if left.High < left.Low-close(left.Low) {
		return true
	}
	own, left = meet(own, wholePH), meet(left, wholePH)
	return left.High-left.Low < (own.High-own.Low)*safety.Half-1e-9
}

// wholePH is what a range of pH with an open end reaches to.
var wholePH = quantity.Range{Low: 0, High: 14, Kind: quantity.PH}

// meet is what two ranges have in common; its low end is above the high one where that is nothing.
func meet(a, b quantity.Range) quantity.Range {
	a.Low, a.High = math.Max(a.Low, b.Low), math.Min(a.High, b.High)
	return a
}
