package page

import (
	"bytes"
	"slices"
	"strings"
	"unicode"

	"tankside/builder/quantity"
)

// converter finds quantities in prose that readers of the other family of units would want in their own. It would rather leave one out
// than put a wrong number beside it: it knows only the common units, and takes a temperature only where it cannot be a difference.
type converter struct {
	other quantity.System
	units map[string]quantity.Kind
}

// The units of each family that stand in prose. "in" is left out: it is a word more often than an inch.
var proseUnits = map[quantity.System]map[string]quantity.Kind{
	quantity.SI: {
		"°C": quantity.Temperature, "L": quantity.Volume, "mL": quantity.Volume, "kg": quantity.Mass, "g": quantity.Mass,
		"mm": quantity.Length, "cm": quantity.Length, "m": quantity.Length, "L/min": quantity.Flow, "W/L": quantity.PowerDensity,
		"bar": quantity.Pressure, "kPa": quantity.Pressure,
	},
	quantity.US: {
		"°F": quantity.Temperature, "gal": quantity.Volume, "lb": quantity.Mass, "oz": quantity.Mass, "ft": quantity.Length,
		"gal/min": quantity.Flow, "W/gal": quantity.PowerDensity, "psi": quantity.Pressure,
	},
}

func newConverter(own quantity.System) converter {
	other := quantity.US
	if own == quantity.US {
		other = quantity.SI
	}
	return converter{other, proseUnits[own]}
}

// lowest is the temperature, in °C, below which a number of degrees is left alone: "within 5 °C" and "15 °C below" are differences.
const lowest = 30

const noBreak = "\u00a0"

// next gives where the next quantity ends, and the same in the other family of units; or the end of the text and "".
// Numbers have to be bound to their units already.
func (c converter) next(text []byte) (end int, other string) {
	for from := 0; ; {
		at := bytes.Index(text[from:], []byte(noBreak))
		if at < 0 {
			return len(text), ""
		}
		at += from
		from = at + len(noBreak)
		word := text[from:]
		if stop := bytes.IndexAny(word, " ,.;:)!?<&\n"+noBreak); stop >= 0 {
			word = word[:stop]
		}
		kind, known := c.units[string(word)]
		if !known {
			continue
		}
		start := numberBefore(text, at)
		if start == at || start > 0 && (text[start-1] == '/' || text[start-1] == ':') {
			continue
		}
		end = from + len(word)
		after := strings.TrimLeft(string(text[end:]), " "+noBreak)
		if strings.HasPrefix(after, "(") || strings.HasPrefix(after, "/") || kind == quantity.Temperature && difference(string(text[:start]), after) {
			continue
		}
		r, err := quantity.ParseRange(string(text[start:end]), kind)
		if err != nil {
			continue
		}
		if kind == quantity.Temperature && r.Low < lowest {
			continue
		}
		if other = r.In(c.other); other == r.String() {
			continue
		}
		return end, other
	}
}

// numberBefore gives where the number or range that ends at a place begins.
func numberBefore(text []byte, end int) int {
	start := end
	for start > 0 {
		switch c := text[start-1]; {
		case c >= '0' && c <= '9':
			start--
		case (c == '.' || c == ',') && start < end && start > 1 && text[start-2] >= '0' && text[start-2] <= '9':
			start--
		case start < end && bytes.HasSuffix(text[:start], []byte("–")) && start > len("–") && text[start-len("–")-1] >= '0' && text[start-len("–")-1] <= '9':
			start -= len("–")
		default:
			return start
		}
	}
	return start
}

// Words beside a number of degrees that make it a difference of temperatures.
var (
	beforeDifference = []string{"by", "each", "every", "within", "per", "another", "±", "of", "last", "further", "first", "than", "and", "plus", "minus", "or", "some", "are", "difference"}
	afterDifference  = []string{"hotter", "colder", "cooler", "warmer", "above", "below", "higher", "lower", "more", "less", "rise", "too", "difference", "per", "under", "over", "steps", "beyond", "drop", "fall", "off", "apart", "short", "either", "a", "an", "from", "between", "than"}
)

// difference tells whether a number of degrees may be a difference, which is converted otherwise than a temperature.
func difference(before, after string) bool {
	letters := func(r rune) bool { return !unicode.IsLetter(r) && r != '±' }
	words := strings.FieldsFunc(lastLine(before), letters)
	if len(words) > 0 && slices.Contains(beforeDifference, strings.ToLower(words[len(words)-1])) {
		return true
	}
	words = strings.FieldsFunc(after, letters)
	return len(words) > 0 && slices.Contains(afterDifference, strings.ToLower(words[0]))
}

// lastLine keeps what stands near the end of a text.
func lastLine(text string) string {
	const near = 40
	if len(text) > near {
		return text[len(text)-near:]
	}
	return text
}
