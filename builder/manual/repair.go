package manual

import (
	"regexp"
	"strings"

	"tankside/builder/expression"
	"tankside/builder/quantity"
)

var (
	decimalComma = expression.Of(`(\d),(\d)`)
	loneNumber   = expression.Of(`^[^\pL%°µ"']*\d$`)
	backwards    = expression.Of(`^(\d+(?:\.\d+)?)(\s*(?:–|-)\s*)(\d+(?:\.\d+)?)(.*)$`)
	degrees      = expression.Of(`(?i)\b(?:deg(?:rees|\.)?\s*)([CF])\b|(\d)\s*([CF])\b`)
	percent      = expression.Of(`%`)
)

// commonUnits are the units that are likely meant where none stands.
var commonUnits = map[quantity.Kind][]string{
	quantity.Temperature: {"°C", "°F"}, quantity.Time: {"min", "h"}, quantity.Frequency: {"kHz"}, quantity.Length: {"mm", "in"},
	quantity.Volume: {"L", "US gal"}, quantity.Power: {"kW", "W"}, quantity.Density: {"kg/L"}, quantity.Fraction: {"%"},
	quantity.VolumeFraction: {"% v/v"}, quantity.MassFraction: {"% w/w"}, quantity.MassConcentration: {"% w/v", "g/L"},
	quantity.Conductivity: {"µS/cm"}, quantity.Hardness: {"mg/L"}, quantity.Alkalinity: {"mg/L"}, quantity.Flow: {"L/min"},
}

// repaired gives the amounts that a text which cannot be read as one was likely meant to be: with points for decimal commas, each sort of strength
// for a lone percent sign, the usual units where none stands, the ends of a range in their order. All that is wrong is put right at once, so
// that each of them can be read; none are given where that does not succeed.
func repaired(text string, kinds []quantity.Kind) []string {
	texts := []string{decimalComma.ReplaceAllString(strings.TrimSpace(text), "$1.$2")}
	texts[0] = degrees.ReplaceAllStringFunc(texts[0], func(s string) string {
		m := degrees.FindStringSubmatch(s)
		if m[1] != "" {
			return "°" + strings.ToUpper(m[1])
		}
		return m[2] + " °" + strings.ToUpper(m[3])
	})
	texts = throughAll(texts, func(t string) []string { return withSign(t, kinds) })
	texts = throughAll(texts, func(t string) []string { return withUnit(t, kinds) })
	texts = throughAll(texts, inOrder)
	var good []string
	for _, t := range texts {
		if _, err := quantity.ParseRange(t, kinds...); err == nil && len(good) < 4 {
			good = append(good, t)
		}
	}
	return good
}

func throughAll(texts []string, step func(string) []string) []string {
	var list []string
	for _, t := range texts {
		list = append(list, step(t)...)
	}
	return list
}

// withSign says of a lone percent sign per cent of what; it stands once, at the end.
func withSign(text string, kinds []quantity.Kind) []string {
	rest := strings.TrimSpace(percent.ReplaceAllString(text, ""))
	if rest == text || !loneNumber.MatchString(rest) {
		return []string{text}
	}
	var list []string
	for _, k := range kinds {
		if units := commonUnits[k]; len(units) > 0 && strings.HasPrefix(units[0], "%") {
			list = append(list, spaced(rest)+" "+units[0])
		}
	}
	if len(list) == 0 {
		return []string{text}
	}
	return list
}

// spaced takes the blanks out from around a dash that were left by a sign.
func spaced(text string) string {
	return regexp.MustCompile(`\s*([–-])\s*`).ReplaceAllString(text, "–")
}

// withUnit puts the usual units behind a number that has none.
func withUnit(text string, kinds []quantity.Kind) []string {
	if !loneNumber.MatchString(text) {
		return []string{text}
	}
	var list []string
	for _, k := range kinds {
		if k == quantity.PH {
			return []string{text}
		}
		for _, u := range commonUnits[k] {
			list = append(list, text+" "+u)
		}
	}
	if len(list) == 0 {
		return []string{text}
	}
	return list
}

// inOrder puts the smaller end of a range first.
func inOrder(text string) []string {
	m := backwards.FindStringSubmatch(text)
	if m == nil {
		return []string{text}
	}
	low, err1 := quantity.Parse(m[1])
	high, err2 := quantity.Parse(m[3])
	if err1 != nil || err2 != nil || low.SI <= high.SI {
		return []string{text}
	}
	return []string{m[3] + m[2] + m[1] + m[4]}
}
