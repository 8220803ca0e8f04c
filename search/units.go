package search

import (
	"math"
	"strconv"
	"strings"
)

// units are the spellings that, behind a number, mean a unit, and the one form
// each is kept in. Single letters count only here, never as words.
var units = map[string]string{
	"c": "c", "degc": "c", "celsius": "c", "centigrade": "c",
	"f": "f", "degf": "f", "fahrenheit": "f", "k": "k", "kelvin": "k",
	"hz": "hz", "khz": "khz", "mhz": "mhz", "kilohertz": "khz", "hertz": "hz",
	"%": "%", "percent": "%", "ppm": "ppm",
	"l": "l", "litre": "l", "liter": "l", "litres": "l", "liters": "l", "ml": "ml", "gal": "gal", "gallon": "gal", "gallons": "gal",
	"g": "g", "kg": "kg", "mg": "mg", "lb": "lb", "lbs": "lb", "oz": "oz",
	"s": "s", "sec": "s", "second": "s", "seconds": "s",
	"min": "min", "mins": "min", "minute": "min", "minutes": "min",
	"h": "h", "hr": "h", "hrs": "h", "hour": "h", "hours": "h", "day": "day", "days": "day",
	"w": "w", "kw": "kw", "watt": "w", "watts": "w", "v": "v", "volt": "v", "volts": "v", "amp": "amp", "amps": "amp",
	"mm": "mm", "cm": "cm", "m": "m", "µm": "µm", "um": "µm", "micron": "µm", "microns": "µm", "nm": "nm", "in": "in", "inch": "in", "inches": "in",
	"bar": "bar", "mbar": "mbar", "psi": "psi", "kpa": "kpa", "pa": "pa",
	"µs": "µs", "us": "µs",
}

// unit reads a unit behind a number that ends at the given byte: at once, after
// one space or after a degree sign. The end is 0 where there is none.
func (s *scanner) unit(from int) (unit string, end int) {
	at := from
	for _, space := range []string{" ", "\u00a0", "\u202f", "\u2009"} {
		if strings.HasPrefix(s.text[at:], space) {
			at += len(space)
			break
		}
	}
	degrees := false
	for _, sign := range []string{"°", "º", "deg. ", "deg ", "degrees ", "degree "} {
		if strings.HasPrefix(s.text[at:], sign) {
			at += len(sign)
			degrees = true
			break
		}
	}
	if degrees && strings.HasPrefix(s.text[at:], " ") {
		at++
	}
	if strings.HasPrefix(s.text[at:], "%") {
		return "%", at + 1
	}
	word, wordEnd := s.plain(at)
	known, ok := units[string(word)]
	if !ok || degrees && known != "c" && known != "f" {
		return "", 0
	}
	// "5 in the tank": a word that is a unit only by chance needs to stand close.
	if at > from && (string(word) == "in" || string(word) == "us") {
		return "", 0
	}
	return known, wordEnd
}

// sameTemperature gives a temperature token in the other scale, to the nearest
// whole degree: "140f" for "60c". It is empty for anything else.
func sameTemperature(term string) string {
	if len(term) < 2 {
		return ""
	}
	value, err := strconv.ParseFloat(term[:len(term)-1], 64)
	if err != nil {
		return ""
	}
	switch term[len(term)-1] {
	case 'c':
		return strconv.Itoa(int(math.Round(value*9/5+32))) + "f"
	case 'f':
		return strconv.Itoa(int(math.Round((value-32)*5/9))) + "c"
	}
	return ""
}
