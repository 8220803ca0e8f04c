package handout

import (
	"fmt"
	"math"
	"regexp"

	"tankside/builder/language"
	"tankside/builder/quantity"
)

// measure is what an amount is poured with: below what amount it is used, and to what it can be read. Common practice, no source. From 20 mL on, rounding to the nearest
// step is never off by more than a fortieth.
type measure struct {
	below, step float64 // m³
	name        string  // English
}

const (
	litre = 1e-3
	gal   = 3.785411784e-3 // m³: the US gallon of 231 cubic inches (NIST SP 811, 2008, appendix B)
	qt    = gal / 4
	floz  = gal / 128
)

var measuresSI = []measure{
	{0.02 * litre, 0.0001 * litre, "syringe"}, {0.1 * litre, 0.001 * litre, "100 mL cylinder"}, {0.25 * litre, 0.005 * litre, "250 mL cylinder"},
	{litre, 0.01 * litre, "1 L cylinder"}, {2 * litre, 0.05 * litre, "2 L jug"}, {10 * litre, 0.1 * litre, "5 L jug"},
	{50 * litre, 0.5 * litre, "10 L bucket"}, {math.Inf(1), litre, "water meter"},
}

var measuresUS = []measure{
	{floz, 0.01 * floz, "syringe"}, {8 * floz, 0.25 * floz, "8 fl oz measure"}, {32 * floz, 0.5 * floz, "quart measure"},
	{4 * qt, floz, "quart measure"}, {5 * gal, 0.25 * qt, "1 gal jug"}, {15 * gal, qt, "5 gal pail"}, {math.Inf(1), gal, "water meter"},
}

// Pour writes a volume in m³ as it is poured, with what: “4.8 L (5 L jug)”, “1 gal 1 qt (1 gal jug)”. It is rounded to what the measure shows, down if it must not
// be more.
func Pour(w language.Words, volume float64, down bool) Text {
	return both(func(in quantity.System) string {
		amount, with := pour(volume, in, down)
		if with == "" {
			return amount
		}
		return fmt.Sprintf("%s (%s)", amount, glued(w.Say(with)))
	})
}

// glued keeps the number in the name of a measure and its unit on one line.
func glued(name string) string { return sizeOf.ReplaceAllString(name, "$1\u00a0$2") }

var sizeOf = regexp.MustCompile(`([0-9]) (mL|L|gal|fl oz)\b`)

// pour gives the amount and the measure.
func pour(volume float64, in quantity.System, down bool) (amount, with string) {
	if volume <= 0 || math.IsNaN(volume) || math.IsInf(volume, 0) {
		return quantity.Show(0, quantity.Volume, in), ""
	}
	list := measuresSI
	if in == quantity.US {
		list = measuresUS
	}
	m := list[0]
	for _, m = range list {
		if volume < m.below {
			break
		}
	}
	steps := math.Round(volume / m.step)
	if down {
		steps = math.Floor(volume/m.step + 1e-6) // what is whole but for the last digits stays
	}
	v := steps * m.step
	if in == quantity.US {
		return american(v), m.name
	}
	if v < litre*(1-1e-9) {
		return quantity.Decimal(v/litre*1000, 4) + "\u00a0mL", m.name
	}
	return quantity.Decimal(v/litre, 4) + "\u00a0L", m.name
}

// american writes a volume in gallons, quarts and fluid ounces, as jugs are marked.
func american(v float64) string {
	switch {
	case v < qt*(1-1e-9):
		return quantity.Decimal(v/floz, 4) + "\u00a0fl\u00a0oz"
	case v < gal*(1-1e-9):
		whole := math.Floor(v/qt + 1e-9)
		return parts(whole, "qt", math.Round((v-whole*qt)/floz*4)/4, "fl\u00a0oz")
	}
	whole := math.Floor(v/gal + 1e-9)
	return parts(whole, "gal", math.Round((v-whole*gal)/qt*4)/4, "qt")
}

func parts(whole float64, unit string, rest float64, smaller string) string {
	text := quantity.Decimal(whole, 6) + "\u00a0" + unit
	if rest > 0 {
		text += " " + quantity.Decimal(rest, 4) + "\u00a0" + smaller
	}
	return text
}
