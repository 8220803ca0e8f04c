package rules

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"tankside/builder/quantity"
	"tankside/builder/sentence"
)

// sideBySide tells whether two amounts are the only two of their kind in a sentence, one in each family of units, with nothing between that puts them
// apart, and so near to each other that they can only be meant as one: “450 mm wide, which is just under 18 in”, “30 psi, call it 2 bar”.
func sideBySide(s *sentence.Sentence, one, two *sentence.Quantity) bool {
	if one.Kind != two.Kind || one.Span || two.Span || one.Range.Low <= 0 || two.Range.Low <= 0 || s.Has(differences) || s.Has(apartWords) {
		return false
	}
	if slices.ContainsFunc(s.Quantities, func(q sentence.Quantity) bool { return q.Kind == one.Kind && q.From != one.From && q.From != two.From }) {
		return false
	}
	list := words(s, one.To, two.From)
	if len(list) == 0 || len(list) > 8 || slices.ContainsFunc(list, func(w string) bool { return setsApart[strings.Trim(w, ",;:(")] || strings.HasSuffix(w, ";") }) {
		return false
	}
	if one.Kind == quantity.Temperature {
		return math.Abs(one.Range.Low-two.Range.Low) < 15
	}
	return off(one.Range.Low, two.Range.Low) < 0.35
}

var (
	// setsApart are words between two amounts of which each is one by itself, apartWords such as say so anywhere.
	setsApart  = sentence.Set("and to from than but while whereas against instead minus plus less more then with between not nor of if when until into for by on × x versus")
	apartWords = sentence.Set("than instead versus difference differ differs either whichever hose nozzle bolt pipe thread was were")
)

// otherScales are words for the other family of units, with the unit; "" where it is the one of what is measured.
var otherScales = map[string]string{"fahrenheit": "°F", "psi": "psi", "gallons": "US gal", "inches": "in", "pounds": "lb", "american": "", "us": "", "imperial": ""}

// foreignUnits are the units of the other family by what they measure.
var foreignUnits = map[quantity.Kind]string{quantity.Temperature: "°F", quantity.Pressure: "psi", quantity.Volume: "US gal", quantity.Length: "in", quantity.Mass: "lb"}

// numberElsewhere tells how an amount differs from a number whose unit is only named somewhere in its sentence: “In Fahrenheit that is 144”, “on the American
// gauge you will read 176”. The amount stands in the same sentence, or in the one before.
func numberElsewhere(s, before *sentence.Sentence) (says string, at int) {
	scale, named := "", false
	for _, w := range s.AllWords() {
		if u, is := otherScales[w]; is && !named {
			scale, named = u, true
		}
	}
	if !named || s.Question || s.TakenBack || s.Has(noWords) || s.Has(differences) || s.Block.Kind == sentence.Cell {
		return "", 0
	}
	q := onlyMetric(s)
	if q == nil && len(s.Quantities) == 0 && before != nil && before.Block == s.Block {
		q = onlyMetric(before)
	}
	if q == nil {
		return "", 0
	}
	if scale == "" {
		scale = foreignUnits[q.Kind]
	}
	u, ok := quantity.UnitNamed(scale, q.Kind)
	number, decimals, at := bareNumber(s)
	if !ok || number == 0 {
		return "", 0
	}
	value := u.ToSI(number)
	if q.Kind == quantity.Temperature && (math.Abs(value-q.Range.Low) <= 1.6 || math.Abs(value-q.Range.Low) > 25) {
		return "", 0
	}
	if q.Kind != quantity.Temperature && (off(value, q.Range.Low) <= max(0.04, 0.55*math.Pow(10, -float64(decimals))/number) || off(value, q.Range.Low) > 0.4) {
		return "", 0
	}
	return fmt.Sprintf("%s is %s, not %s.", q.Text, quantity.ShowIn(q.Range.Low, u), plainFigure(number)), at
}

// onlyMetric gives the one amount of a sentence, where it is plain and in units of the SI.
func onlyMetric(s *sentence.Sentence) *sentence.Quantity {
	if len(s.Quantities) != 1 {
		return nil
	}
	q := &s.Quantities[0]
	if !plain(q) || foreignUnits[q.Kind] == "" || q.Unit.System(quantity.SI) != quantity.SI {
		return nil
	}
	return q
}

// bareNumber gives the one number of a sentence that stands without a unit and is in no name, with its decimals and place; 0 where there are more.
func bareNumber(s *sentence.Sentence) (number float64, decimals, at int) {
	for _, t := range s.Tokens() {
		v := floatOf(t.Text)
		if t.Amount || v == 0 || inMention(s, t.From) {
			continue
		}
		if number != 0 {
			return 0, 0, 0
		}
		_, fraction, _ := strings.Cut(t.Text, ".")
		number, decimals, at = v, len(fraction), t.From
	}
	return number, decimals, at
}
