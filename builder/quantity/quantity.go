// Package quantity reads and writes amounts the way people write them on the
// shop floor: "60 °C", "140F", "32 US gal", "3 % v/v", "1:40", "1 h 20 min",
// "50–65 °C", "≤ 60 °C", "up to 8 min".
//
// # Reading
//
// [Parse] reads one amount, [ParseRange] a range. Both are told which kinds of
// quantity are welcome and keep the number in SI (the base of each kind stands
// beside its constant) together with the unit as written. Whoever reads an
// amount in the wrong unit gets an [Error] that says what stands there, where,
// and what is accepted, with an example.
//
// What is read:
//   - a decimal point. A comma is refused: "1,5" and "1,500" cannot be told
//     apart from what is meant by either.
//   - thousands set apart by a blank: "1 200 mL".
//   - a hyphen, a minus sign, and dashes in ranges; micro signs and degree
//     signs of every sort; blanks anywhere or nowhere around units.
//   - "gal" is the US gallon, "oz" the ounce of mass, "fl oz" the US fluid
//     ounce; British ones are "imp gal" and "imp fl oz". What says neither is
//     marked, so that whoever asked can refuse it; see [Value].
//   - ounces in a gallon must say whether they are weighed or measured:
//     "wt oz/US gal" or "fl oz/US gal", "wt oz/imp gal" or "imp fl oz/imp gal"; see [Value] for a gallon of which nothing is said.
//   - "1:40" and "1+40" are one part of concentrate to 40 parts of water, that is 1 in 41.
//     Others write 1:40 for 1 in 40; always show the percentage beside it.
//   - a lone "%" only where it cannot be mistaken: where strengths by volume and
//     by mass are both welcome, it must be "% v/v", "% w/w" or "% w/v".
//   - compound times, lengths and masses: "1 h 20 min", "2 ft 3 in", "5 lb 3 oz".
//
// # Writing
//
// [Value.String] and [Range.String] give the amount back in the unit it was
// written in; In gives it in a system of units, rounded to what one can
// measure. Between number and unit stands a no-break space.
//
// # Sources
//
// Unit factors: NIST Special Publication 811 (2008 edition), appendix B, exact
// ones from their definitions (inch 25.4 mm, pound 0.453 592 37 kg, US gallon
// 231 in³, imperial gallon 4.546 09 L, International Table Btu
// 1055.055 852 62 J). Hardness degrees: DIN 32643 / ISO 6059 definitions over
// the molar masses CaCO₃ 100.0869 and CaO 56.0774 g/mol (IUPAC 2013 atomic
// weights).
//
// The package imports little, so that it stays small in a page's WASM.
package quantity

import (
	"strings"

	"tankside/builder/language"
)

// Kind says what sort of quantity a number is.
type Kind uint8

// The kinds, each with the SI unit its numbers are kept in.
const (
	Number                Kind = iota // 1, plain number
	PH                                // 1, pH
	Temperature                       // °C
	TemperatureDifference             // K
	Volume                            // m³
	Mass                              // kg
	Length                            // m
	Area                              // m²
	Time                              // s
	Power                             // W
	Energy                            // J
	Frequency                         // Hz
	VolumeFraction                    // 1, volume of concentrate in volume of bath
	MassFraction                      // 1, mass of concentrate in mass of bath
	MassConcentration                 // kg/m³, mass in volume of bath
	Density                           // kg/m³, mass of a liquid itself
	PowerDensity                      // W/m³
	Pressure                          // Pa
	Speed                             // m/s
	Flow                              // m³/s
	Hardness                          // kg/m³ as CaCO₃
	Alkalinity                        // kg/m³ as CaCO₃
	Conductivity                      // S/m
	ArealMass                         // kg/m²
	Film                              // m, liquid on a surface (1 µm = 1 mL/m²)
	Fraction                          // 1, plain percentage such as relative humidity
	Normality                         // mol/m³ of acid or alkali equivalents
	EnergyPrice                       // money per J
	Money                             // money
	kinds
)

var kindNames = [kinds]struct{ name, example string }{
	Number:                {"a plain number", "2.5"},
	PH:                    {"a pH", "9.5"},
	Temperature:           {"a temperature", "60 °C or 140 °F"},
	TemperatureDifference: {"a temperature difference", "5 K or 9 °F"},
	Volume:                {"a volume", "120 L or 32 US gal"},
	Mass:                  {"a mass", "8 kg or 18 lb"},
	Length:                {"a length", "450 mm or 18 in"},
	Area:                  {"an area", "0.5 m² or 5 ft²"},
	Time:                  {"a time", "20 min or 1 h 20 min"},
	Power:                 {"a power", "6 kW"},
	Energy:                {"an energy", "5 kWh"},
	Frequency:             {"a frequency", "40 kHz"},
	VolumeFraction:        {"a strength by volume", "4 % v/v or 1:24"},
	MassFraction:          {"a strength by mass", "4 % w/w"},
	MassConcentration:     {"a mass per volume", "40 g/L or 4 % w/v"},
	Density:               {"a density", "1.08 kg/L"},
	PowerDensity:          {"a power density", "10 W/L or 38 W/US gal"},
	Pressure:              {"a pressure", "101.3 kPa"},
	Speed:                 {"a speed", "0.3 m/s or 60 ft/min"},
	Flow:                  {"a flow", "4 L/min or 1 US gal/min"},
	Hardness:              {"a hardness", "260 mg/L or 15 °dH"},
	Alkalinity:            {"an alkalinity", "220 mg/L or 4.4 meq/L"},
	Conductivity:          {"a conductivity", "640 µS/cm"},
	ArealMass:             {"a mass per area", "20 mg/m²"},
	Film:                  {"a film of liquid", "16 µm or 16 mL/m²"},
	Fraction:              {"a percentage", "50 %"},
	Normality:             {"a normality", "0.1 N or 0.1 mol/L"},
	EnergyPrice:           {"a price of energy", "0.28 EUR/kWh"},
	Money:                 {"an amount of money", "12 EUR"},
}

// String names the kind with its article, as in a sentence: "a volume".
func (k Kind) String() string {
	if k >= kinds {
		return "an unknown quantity"
	}
	return kindNames[k].name
}

// Example is an amount of this kind, written as it would be accepted.
func (k Kind) Example() string {
	if k >= kinds {
		return ""
	}
	return kindNames[k].example
}

// ExampleIn is the example in a language.
func (k Kind) ExampleIn(w language.Words) string {
	return strings.ReplaceAll(k.Example(), " or ", " "+w.Say("or")+" ")
}

// System is the family of units somebody prefers to read.
type System uint8

// The two systems. Both are always understood; the system only says which one
// is written.
const (
	SI System = iota
	US        // US customary: °F, US gal, lb, in
)

// SystemNamed reads "SI", "metric", "US" or "US customary" in either case.
func SystemNamed(name string) (System, bool) {
	switch language.Lower(name) {
	case "si", "metric":
		return SI, true
	case "us", "us customary", "customary":
		return US, true
	}
	return SI, false
}

// String is "SI" or "US".
func (s System) String() string {
	if s == US {
		return "US"
	}
	return "SI"
}

// Value is one amount.
type Value struct {
	SI   float64 // in the SI unit of Kind
	Kind Kind
	Unit Unit // as written

	// Loose says that its gallon, quart or fluid ounce is taken for the US one without anybody having said so: an imperial gallon is a fifth more.
	Loose bool
}

// Range is a span of amounts of one kind. Low or High is infinite where the
// range is open; both are equal for a single amount.
type Range struct {
	Low, High float64 // in the SI unit of Kind
	Kind      Kind
	Unit      Unit // as written
	Loose     bool // as in Value, of either end
}

// slack forgives the last digits lost when units are converted.
const slack = 1e-9

// Contains reports whether the amount si, in the SI unit of the range's kind,
// lies in the range, its ends included.
func (r Range) Contains(si float64) bool {
	return si >= r.Low-slack*(1+abs(r.Low)) && si <= r.High+slack*(1+abs(r.High))
}

// Within reports whether r lies wholly inside outer.
func (r Range) Within(outer Range) bool {
	return r.Low >= outer.Low-slack*(1+abs(outer.Low)) && r.High <= outer.High+slack*(1+abs(outer.High))
}

// Intersect gives the span common to both ranges, which must be of one kind,
// in r's unit; ok is false where they have nothing in common.
func (r Range) Intersect(other Range) (common Range, ok bool) {
	common = Range{max(r.Low, other.Low), min(r.High, other.High), r.Kind, r.Unit, r.Loose || other.Loose}
	return common, r.Kind == other.Kind && common.Low <= common.High+slack*(1+abs(common.High))
}

func abs(x float64) float64 {
	if x < 0 {
		return -x
	}
	return x
}
