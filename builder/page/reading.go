package page

import (
	"math"
	"strconv"
	"strings"

	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/tree"
)

// pick is the span of numbers that picks an answer, as a script reads it: ends that are open are empty.
type pick struct {
	Low, High     string
	LowIn, HighIn bool
	Alone         bool // the number is enough
}

func pickOf(r *tree.Reading, answer int) *pick {
	if r == nil {
		return nil
	}
	for _, p := range r.Picks {
		if p.Answer == answer {
			return &pick{bound(p.Low), bound(p.High), p.LowIn, p.HighIn, p.Alone}
		}
	}
	return nil
}

// writtenAs are the quantities of a record that a step's number can be written down as. A length may be anything.
var writtenAs = map[quantity.Kind]string{quantity.VolumeFraction: "strength", quantity.MassFraction: "strength", quantity.MassConcentration: "strength", quantity.Temperature: "temperature", quantity.Conductivity: "conductivity", quantity.PH: "ph"}

func bound(v float64) string {
	if math.IsInf(v, 0) {
		return ""
	}
	return strconv.FormatFloat(v, 'g', -1, 64)
}

// inOriginal is the section of the original that a step of a walk translates, or the step itself. The answers of both are the same, in the same
// order: a rule sees to it.
func (b *body) inOriginal(s *manual.Section) *manual.Section {
	if b.a.Original != nil {
		if o := b.a.Same(s, b.a.Original); o != nil && len(o.Answers) == len(s.Answers) {
			return o
		}
	}
	return s
}

// reading makes of what a step's answers ask for the field of its page.
func (b *body) reading(r *tree.Reading, s *manual.Section) *reading {
	if r == nil {
		return nil
	}
	asks := &reading{Name: s.Heading, Of: r.Of}
	if b.a.Original != nil { // the words behind the unit are in another language
		asks.Of = ""
	}
	asks.Asks = writtenAs[r.Kind]
	if r.Unit == "pH" {
		asks.Asks = "ph"
	}
	own, known := quantity.UnitNamed(r.Unit, r.Kind)
	if !known {
		asks.Units = []readingUnit{{Symbol: r.Unit, Times: 1, First: true}}
		return asks
	}
	if r.Kind == quantity.TemperatureDifference {
		asks.Units = []readingUnit{{"°C", 1, 0, false, "SI"}, {"°F", 5. / 9, 0, false, "US"}}
		if strings.HasSuffix(r.Unit, "F") {
			asks.Units = []readingUnit{{"°C", 9. / 5, 0, false, "SI"}, {"°F", 1, 0, false, "US"}}
		}
	} else {
		asks.Units = inUnits(own, b.s.system)
	}
	for i := range asks.Units {
		u := &asks.Units[i]
		u.First = u.System == b.s.system.String() || len(asks.Units) == 1
	}
	return asks
}

// inUnits gives a unit, and one of the other system of the same size, where there is one.
func inUnits(own quantity.Unit, first quantity.System) []readingUnit {
	list := []readingUnit{{Symbol: own.Symbol, Times: 1, System: own.System(first).String()}}
	mine := own.System(quantity.SI)
	other := quantity.US
	if mine == quantity.US {
		other = quantity.SI
	}
	u := quantity.Preferred(own.ToSI(1), own.Kind, other)
	if u == own || u.Suits(mine) {
		return list
	}
	zero, one := own.FromSI(u.ToSI(0)), own.FromSI(u.ToSI(1))
	return append(list, readingUnit{Symbol: u.Symbol, Times: one - zero, Plus: zero, System: other.String()})
}
