package page

import "bytes"

const noBreak = "\u00a0"

// units that a number must not be parted from at a line's end.
var units = map[string]bool{}

func init() {
	for _, u := range []string{"°C", "°F", "%", "K", "kHz", "Hz", "L", "mL", "min", "s", "h", "W", "kW", "W/L", "mm", "cm", "m", "µm", "μm",
		"g", "kg", "g/L", "mg/L", "µS/cm", "μS/cm", "gal", "lb", "in", "ft", "°dH", "bar", "mbar", "kPa", "psi", "dB", "L/min", "N", "kWh"} {
		units[u] = true
	}
}

// bind puts a no-break space between a number and its unit (25 °C, 3 % v/v), so that no line ends between them.
// The text may be HTML-escaped. It returns the text itself where there is nothing to bind.
func bind(text []byte) []byte {
	var out []byte
	from := 0
	for i := 1; i+1 < len(text); i++ {
		if text[i] != ' ' || !(text[i-1] >= '0' && text[i-1] <= '9' || text[i-1] == '%') {
			continue
		}
		word := text[i+1:]
		if end := bytes.IndexAny(word, " ,.;:)!?<&\n"); end >= 0 {
			word = word[:end]
		}
		percent := text[i-1] == '%'
		if percent && !bytes.HasPrefix(word, []byte("v/v")) && !bytes.HasPrefix(word, []byte("w/")) || !percent && !units[string(word)] {
			continue
		}
		out = append(append(out, text[from:i]...), "\u00a0"...)
		from = i + 1
	}
	if out == nil {
		return text
	}
	return append(out, text[from:]...)
}
