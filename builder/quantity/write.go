package quantity

import (
	"math"
	"strings"
)

// nbsp stands between a number and its unit, so that they stay on one line.
const nbsp = "\u00a0"

// String writes the amount in the unit it was written in: "60 °C", "1:40".
func (v Value) String() string { return Format(v.SI, v.Unit) }

// In writes the amount in a system of units: as it was written when its unit
// belongs to that system, otherwise converted and rounded to what one can
// measure.
func (v Value) In(system System) string {
	if v.Unit.Suits(system) {
		return v.String()
	}
	return Show(v.SI, v.Kind, system)
}

// String writes the range in the unit it was written in: "50–65 °C",
// "≤ 60 °C", "40 kHz".
func (r Range) String() string {
	return r.write(r.Unit, func(number float64) string { return Decimal(number, 10) })
}

// In writes the range in a system of units, like [Value.In].
func (r Range) In(system System) string {
	if r.Unit.Suits(system) {
		return r.String()
	}
	widest := r.High
	if math.IsInf(widest, 0) {
		widest = r.Low
	}
	u := Preferred(widest, r.Kind, system)
	return r.write(u, func(number float64) string { return sensible(number, u) })
}

func (r Range) write(u Unit, number func(float64) string) string {
	low, high := u.FromSI(r.Low), u.FromSI(r.High)
	switch {
	case math.IsInf(r.Low, 0) && math.IsInf(r.High, 0):
		return "any"
	case math.IsInf(r.Low, 0):
		return "≤" + nbsp + with(number(high), u)
	case math.IsInf(r.High, 0):
		return "≥" + nbsp + with(number(low), u)
	case r.Low == r.High:
		return with(number(low), u)
	case u.Symbol == ratio:
		return with(number(low), u) + "–" + with(number(high), u)
	}
	return number(low) + "–" + with(number(high), u)
}

// Format writes an amount, given in the SI unit of the unit's kind, in that
// unit with up to ten significant digits.
func Format(si float64, unit Unit) string {
	return with(Decimal(unit.FromSI(si), 10), unit)
}

// Show writes an amount in the unit that people of a system use for that size,
// rounded to what one can measure; times of an hour and more as "1 h 20 min".
func Show(si float64, kind Kind, system System) string {
	u := Preferred(si, kind, system)
	if kind == Time {
		return duration(si)
	}
	return ShowIn(si, u)
}

// ShowIn writes an amount in a unit, rounded to what one can measure.
func ShowIn(si float64, unit Unit) string {
	return with(sensible(unit.FromSI(si), unit), unit)
}

// duration writes a time of any length in at most two units.
func duration(s float64) string {
	switch {
	case math.IsNaN(s) || math.IsInf(s, 0):
		return "no time"
	case s < 0:
		return "−" + duration(-s)
	case s < 119.5:
		return significant(s, 3) + nbsp + "s"
	case s < 9.95*minute:
		return significant(s/minute, 2) + nbsp + "min"
	case math.Round(s/minute) < 120:
		return Decimal(math.Round(s/minute), 6) + nbsp + "min"
	case s < 2*day:
		m := math.Round(s / minute)
		h := math.Floor(m / 60)
		if m -= 60 * h; m > 0 {
			return Decimal(h, 10) + nbsp + "h" + nbsp + Decimal(m, 10) + nbsp + "min"
		}
		return Decimal(h, 10) + nbsp + "h"
	}
	return significant(s/day, 3) + nbsp + "d"
}

func with(number string, u Unit) string {
	switch {
	case u.Symbol == ratio:
		return "1:" + number
	case u.Symbol == "" || u.Symbol == missing:
		return number
	case u.Symbol[0] == '/':
		return number + u.Symbol
	}
	return number + nbsp + u.Symbol
}

// sensible rounds for display: temperatures to whole degrees, pH and money to a
// hundredth, millilitres from fifty on to whole ones, as a measuring cylinder has
// them; of volumes and masses from a hundred on a fourth significant digit, so
// that what is added and what is there still add up; everything else to three.
func sensible(number float64, u Unit) string {
	switch u.Kind {
	case Temperature:
		if math.Abs(number) >= 10 {
			return Decimal(math.Round(number), 10)
		}
		return Decimal(math.Round(number*10)/10, 10)
	case PH:
		return Decimal(math.Round(number*100)/100, 10)
	case Volume, Mass:
		switch a := math.Abs(number); {
		case u.Symbol == "mL" && a >= 50:
			return Decimal(math.Round(number), 10)
		case a >= 100:
			return significant(number, 4)
		}
	case Money:
		return Decimal(math.Round(number*100)/100, 12)
	}
	if u.Symbol == ratio {
		return significant(number, 2)
	}
	return significant(number, 3)
}

// Like rounds a number of a unit for running text, as far as the number it comes from was told: with two or three significant digits, whole degrees
// where that one had no decimals, and three digits for what a bath is made up of, where a twentieth more is another strength.
func Like(number float64, u Unit, digits int, decimals bool) string {
	switch u.Kind {
	case Temperature:
		if !decimals || math.Abs(number) >= 1000 {
			return Decimal(math.Round(number), 10)
		}
		return Decimal(math.Round(number*10)/10, 10)
	case TemperatureDifference:
		return Decimal(number, 2)
	case Volume, Mass, VolumeFraction, MassConcentration, Density:
		digits = 3
	}
	return significant(number, min(max(digits, 2), 3))
}

// significant rounds to so many significant digits; whole numbers keep theirs
// up to 10 000.
func significant(x float64, digits int) string {
	if x == 0 || math.IsNaN(x) || math.IsInf(x, 0) {
		return Decimal(x, digits)
	}
	if a := math.Abs(x); a >= 100 && a < 1e4 && digits == 3 {
		return Decimal(math.Round(x), 10)
	}
	return Decimal(x, digits)
}

// BothGallons writes a loose amount in US and in imperial measure, the number being the same: 30 US gal and 30 imp gal.
func (v Value) BothGallons() (us, imperial string) { return bothGallons(v.String(), v.Unit) }

// BothGallons is the same for a range.
func (r Range) BothGallons() (us, imperial string) { return bothGallons(r.String(), r.Unit) }

func bothGallons(us string, unit Unit) (american, imperial string) {
	if unit.Symbol == loose {
		us = strings.Replace(us, loose, "fl oz/US gal", 1)
		return us, strings.Replace(us, "fl oz/US", "imp fl oz/imp", 1)
	}
	return us, strings.ReplaceAll(us, "US ", "imp ")
}
