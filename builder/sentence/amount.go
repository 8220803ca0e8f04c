package sentence

import (
	"strings"

	"tankside/builder/expression"
)

// saidAmount finds a number that is said of something: no code of a hazard statement, of a steel or of a paragraph.
var saidAmount = expression.Of(`(?:^|[\s(–≤≥<>±≈-])(?:pH[\s\x{a0}]*)?\d+(?:\.\d+)?(?:[\s\x{a0}]*[–-][\s\x{a0}]*\d+(?:\.\d+)?)?[\s\x{a0}]*` +
	`(?:%|°|mg|µg|g/|g\b|kg|L\b|mL|ppm|ppb|dB|kHz|MHz|W/|W\b|kW|V\b|mA|min|minute|hour|h\b|second|s\b|day|week|month|mm|cm|m\b|µm|bar|mbar|MPa|kPa|psi|K\b|°?F\b|lb|US gal|gal|fl oz|inch|in\b|ft\b|N\b|mol/|meq/|µS/|times|per cent|years?)|\bpH\b[^.;]{0,40}?\d`)

// HasAmount tells whether a text says a number of something.
func HasAmount(text string) bool {
	return strings.ContainsAny(text, "0123456789") && saidAmount.MatchString(text) // most sentences have none, and the expression is long
}
