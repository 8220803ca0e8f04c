package inboth

import (
	"strings"

	"tankside/builder/quantity"
)

// spelling is a unit as texts write it.
type spelling struct {
	text string
	unit quantity.Unit
}

// spellings are the units that have another in the other family, the longest first for each first byte. Units that both families use, such as
// kHz, mg/L, µm or µS/cm, are not among them.
var spellings = func() (m [256][]spelling) {
	for _, row := range [...]struct {
		kind   quantity.Kind
		symbol string
		texts  string
	}{
		{quantity.Temperature, "°C", "°C|ºC|℃"},
		{quantity.Temperature, "°F", "°F|ºF|℉"},
		{quantity.TemperatureDifference, "K", "K"},
		{quantity.Flow, "L/min", "L/min|l/min"},
		{quantity.Flow, "L/h", "L/h|l/h"},
		{quantity.Flow, "m³/h", "m³/h"},
		{quantity.Flow, "US gal/min", "US gal/min|gal/min|gpm"},
		{quantity.Flow, "US gal/h", "US gal/h|gal/h"},
		{quantity.VolumeFraction, "mL/L", "mL/L|ml/L|ml/l"},
		{quantity.VolumeFraction, "fl oz/US gal", "fl oz/US gal|US fl oz/US gal"},
		{quantity.MassConcentration, "g/L", "g/L|g/l"},
		{quantity.MassConcentration, "wt oz/US gal", "wt oz/US gal"},
		{quantity.Density, "kg/L", "kg/L|kg/l"},
		{quantity.Density, "kg/m³", "kg/m³"},
		{quantity.Density, "g/mL", "g/mL|g/cm³"},
		{quantity.Density, "lb/US gal", "lb/US gal"},
		{quantity.PowerDensity, "W/L", "W/L|W/l"},
		{quantity.PowerDensity, "W/US gal", "W/US gal|W/gal"},
		{quantity.Volume, "mL", "mL|ml|millilitres|millilitre|mililitros|Milliliter"},
		{quantity.Volume, "L", "litres|litre|liters|liter|litros|litro|Litern|Liter|litri|L|l"},
		{quantity.Volume, "m³", "m³"},
		{quantity.Volume, "US gal", "US gal|gallons|gallon|gal"},
		{quantity.Volume, "US fl oz", "US fl oz|fl oz"},
		{quantity.Volume, "US qt", "US qt"},
		{quantity.Mass, "kg", "kilograms|kilogram|kilogramos|kilos|kilo|Kilogramm|Kilo|kg"},
		{quantity.Mass, "g", "grams|gram|gramos|Gramm|g"},
		{quantity.Mass, "lb", "pounds|pound|lbs|lb"},
		{quantity.Mass, "oz", "ounces|ounce|oz"},
		{quantity.Length, "mm", "millimetres|millimetre|milímetros|Millimeter|mm"},
		{quantity.Length, "cm", "centimetres|centimetre|centímetros|centímetro|Zentimeter|cm"},
		{quantity.Length, "m", "metres|metre|meters|meter|metros|metro|Metern|Meter|m"},
		{quantity.Length, "in", "inches|inch|in"},
		{quantity.Length, "ft", "feet|foot|ft"},
		{quantity.Area, "mm²", "mm²"},
		{quantity.Area, "cm²", "cm²"},
		{quantity.Area, "dm²", "dm²"},
		{quantity.Area, "m²", "m²|square metres|square metre"},
		{quantity.Area, "in²", "in²"},
		{quantity.Area, "ft²", "ft²"},
		{quantity.Film, "mL/m²", "mL/m²"},
		{quantity.Speed, "m/s", "m/s"},
		{quantity.Speed, "mm/s", "mm/s"},
		{quantity.Speed, "m/min", "m/min"},
		{quantity.Speed, "ft/min", "ft/min"},
		{quantity.Pressure, "bar", "bar"},
		{quantity.Pressure, "mbar", "mbar"},
		{quantity.Pressure, "hPa", "hPa"},
		{quantity.Pressure, "kPa", "kPa"},
		{quantity.Pressure, "MPa", "MPa"},
		{quantity.Pressure, "psi", "psi"},
	} {
		unit, known := quantity.UnitNamed(row.symbol, row.kind)
		if !known {
			panic("no unit " + row.symbol)
		}
		for rest := row.texts; rest != ""; {
			var t string
			t, rest, _ = strings.Cut(rest, "|")
			list := append(m[t[0]], spelling{t, unit})
			for i := len(list) - 1; i > 0 && len(list[i].text) > len(list[i-1].text); i-- {
				list[i], list[i-1] = list[i-1], list[i]
			}
			m[t[0]] = list
		}
	}
	return m
}()

// unitAt reads the unit at a place: the longest spelling behind which neither letter nor figure stands. more tells that the unit goes on with
// something that makes it another one.
func unitAt(text string, at int) (u quantity.Unit, end int, more, known bool) {
	if at >= len(text) {
		return u, at, false, false
	}
	for _, s := range spellings[text[at]] {
		end := at + len(s.text)
		if end > len(text) || text[at:end] != s.text || end < len(text) && wordByte(text[end]) {
			continue
		}
		rest := text[end:]
		if s.text == "in" && !endsPhrase(rest) {
			continue // “3 in the basket”
		}
		return s.unit, end, goesOn(rest), true
	}
	return u, at, false, false
}

// goesOn tells whether a unit has more to it: a slash with a letter behind it, a dot, a power, a hyphen with a letter.
func goesOn(rest string) bool {
	if len(rest) > 1 && (rest[0] == 0xc2 && rest[1] != 0xa0 || rest[0] == '^' || strings.HasPrefix(rest, "⁻") || strings.HasPrefix(rest, "⋅")) { // · ² ³
		return true
	}
	if len(rest) < 2 || rest[0] != '/' && rest[0] != '-' {
		return false
	}
	return letterByte(rest[1]) || rest[1] == '('
}

func endsPhrase(rest string) bool {
	for len(rest) > 0 && blankWidth(rest) > 0 {
		rest = rest[blankWidth(rest):]
	}
	if rest == "" {
		return true
	}
	switch rest[0] {
	case ')', ',', '.', ';', ':', '(', '/', '=', object:
		return true
	}
	return len(rest) > 1 && rest[:2] == "×" || len(rest) > 2 && (rest[:3] == "–" || rest[:3] == "≈")
}

func letterByte(c byte) bool { return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' }
func digitByte(c byte) bool  { return c >= '0' && c <= '9' }

// wordByte takes every byte of a letter outside ASCII for part of a word, but for the marks that may stand right behind a unit.
func wordByte(c byte) bool { return letterByte(c) || digitByte(c) || c == 0xc3 }

// blankWidth is how many bytes the blank at the head of a text has, or 0.
func blankWidth(s string) int {
	switch {
	case s == "":
		return 0
	case s[0] == ' ' || s[0] == '\n' || s[0] == '\t':
		return 1
	case len(s) > 1 && s[:2] == "\u00a0":
		return 2
	case len(s) > 2 && (s[:3] == "\u202f" || s[:3] == "\u2009"):
		return 3
	}
	return 0
}

func skipBlanks(text string, at int) int {
	for at < len(text) {
		w := blankWidth(text[at:])
		if w == 0 {
			break
		}
		at += w
	}
	return at
}
