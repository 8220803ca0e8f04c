package rules

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"tankside/builder/expression"
	"tankside/builder/quantity"
	"tankside/builder/sentence"
)

// restated tells whether the second of two amounts in two families of units is said to be the first in other words: “48 °C reads 118 °F”, “4.8 L of
// concentrate (1.27 US gal)”, “80 °C in the air stream (that makes 176 °F)”.
func restated(s *sentence.Sentence, one, two *sentence.Quantity) bool {
	if one.Unit.System(quantity.SI) == two.Unit.System(quantity.SI) || one.Relation == sentence.Difference || two.Relation == sentence.Difference {
		return false
	}
	if sideBySide(s, one, two) {
		return true
	}
	list := words(s, one.To, two.From)
	if outside, inside, ok := cutBracket(list); ok {
		return strings.HasPrefix(strings.TrimLeft(s.Block.Text[two.To:s.To], " "), ")") && len(outside) < 5 && onlyOf(outside, nil) && (onlyOf(inside, restateWords) || len(outside) == 0 && otherSides.MatchString(strings.Join(inside, " ")))
	}
	if n := len(list); (n == 1 || n == 2) && strings.HasSuffix(list[n-1], ",") && sized[strings.Trim(list[n-1], ",")] && endsPart(s, two) {
		return true // “a 25 kg sack, 55 lb”
	}
	says := slices.ContainsFunc(list, func(w string) bool { return restates[w] })
	return says && len(list) < 8 && onlyOf(list, restateWords)
}

var (
	restates     = sentence.Set("reads read shows show says called is are equals i.e. i.e., makes")
	restateWords = sentence.Set("reads read shows show says stands called would be will it which that makes make comes come to about in on at the our your its a an dial gauge scale thermometer ring american us imperial metric fahrenheit celsius pounds kilograms inches millimetres litres gallons units terms inner outer other i.e. i.e., or is are equals same as roughly around nearly")
)

// otherSides are the sides of a thing in other units before the last: “600 × 450 × 445 mm (23.6 × 17.7 × 17.5 in)”.
var otherSides = expression.Of(`^\d+(?:\.\d+)? [×x] (?:\d+(?:\.\d+)? [×x])?$`)

// endsPart tells whether nothing or a mark follows an amount.
func endsPart(s *sentence.Sentence, q *sentence.Quantity) bool {
	return q.Near == "" || strings.ContainsAny(q.Near, ".,;:)")
}

// cutBracket parts words at the bracket that opens last among them.
func cutBracket(list []string) (outside, inside []string, ok bool) {
	for i := len(list) - 1; i >= 0; i-- {
		if rest, is := strings.CutPrefix(list[i], "("); is {
			inside = list[i+1:]
			if rest != "" {
				inside = append([]string{rest}, inside...)
			}
			return list[:i], inside, true
		}
	}
	return nil, nil, false
}

// onlyOf tells whether all words are of a set, or, without one, whether none has a mark or joins something else.
func onlyOf(list []string, set map[string]bool) bool {
	for _, w := range list {
		if set == nil {
			if strings.ContainsAny(w, ",;:.") || parted[w] && w != "on" && w != "at" && w != "for" && w != "with" {
				return false
			}
			continue
		}
		if !set[strings.Trim(w, ",")] {
			return false
		}
	}
	return true
}

// pointSlipped tells whether an amount said again in a unit of the same family has the same figures with the point at another place: “4.8 litres, or
// 480 millilitres,”.
func pointSlipped(one, two *sentence.Quantity, between string) bool {
	joined := strings.TrimSpace(between)
	if !strings.HasPrefix(joined, ", or") && !(joined == "or" && !addable[one.Kind]) || one.Span || two.Span || one.Low.Value <= 0 || two.Range.Low <= 0 {
		return false
	}
	exponent := math.Log10(one.Range.Low / two.Range.Low)
	figures := math.Log10(one.Low.Value)
	return math.Abs(exponent-math.Round(exponent)) < 1e-6 && math.Abs(figures-math.Round(figures)) > 1e-6
}

// unitFirst tells how an amount differs from a number whose unit stands before it: “28 L, in imperial gallons 6.2”, and where that stands.
func unitFirst(s *sentence.Sentence, q *sentence.Quantity) (says string, at int) {
	m := inUnits.FindStringSubmatchIndex(s.Block.Text[q.To:s.To])
	if m == nil || !plain(q) {
		return "", 0
	}
	name, number := s.Block.Text[q.To+m[2]:q.To+m[3]], s.Block.Text[q.To+m[4]:q.To+m[5]]
	u, ok := quantity.UnitNamed(name, q.Kind)
	value := floatOf(number)
	if !ok || u == q.Unit || value <= 0 {
		return "", 0
	}
	_, decimals, _ := strings.Cut(number, ".")
	slack := max(0.03, min(0.55*math.Pow(10, -float64(len(decimals)))/value, 0.12))
	if q.Kind == quantity.Temperature && math.Abs(u.ToSI(value)-q.Range.Low) <= 1.3 || q.Kind != quantity.Temperature && off(u.ToSI(value), q.Range.Low) <= slack {
		return "", 0
	}
	return fmt.Sprintf("%s and %s %s are not the same: %s is %s.", q.Text, number, name, q.Text, quantity.ShowIn(q.Range.Low, u)), q.To + m[4]
}

// inUnits finds a number behind its unit.
var inUnits = expression.Of(`^,? (?:or |that is |which is |i\.e\. )?in (\pL+(?: \pL+)?) (?:about |roughly |some |only )?(\d+(?:\.\d+)?)(?:[.,;)]|$)`)

// wrongUnit tells how a sentence is wrong about one unit: “A pound is 0.54 kg”. A gallon, quart or ounce is right where either of its sorts is.
func wrongUnit(s *sentence.Sentence) string {
	if len(s.Quantities) == 0 || s.Question || s.TakenBack || s.Has(noWords) {
		return ""
	}
	q := &s.Quantities[0]
	m := oneUnit.FindStringSubmatch(s.Block.Text[s.From:q.From])
	if m == nil || q.Span || q.Relation != sentence.At && q.Relation != sentence.To {
		return ""
	}
	known := false
	for _, sort := range []string{"", "US ", "imperial "} {
		u, ok := quantity.UnitNamed(sort+m[1], q.Kind)
		if !ok || u == q.Unit || q.Kind == quantity.Temperature || q.Kind == quantity.Time {
			continue
		}
		slack := max(0.03, min(0.55*math.Pow(10, -float64(q.Low.Decimals))/q.Low.Value, 0.12))
		if q.Rough || q.Low.Word {
			slack = 0.12
		}
		if off(u.ToSI(1), q.Range.Low) <= slack {
			return ""
		}
		known = true
	}
	if !known {
		return ""
	}
	u, _ := quantity.UnitNamed(m[1], q.Kind)
	return fmt.Sprintf("A %s is %s, not %s.", m[1], quantity.ShowIn(u.ToSI(1), q.Unit), q.Text)
}

// oneUnit finds one unit at the head of a sentence, and the verb behind it.
var oneUnit = expression.Of(`^\s*(?:A|An|One) ((?:US |imperial |fluid |cubic )?\pL+) (?:is|are|has|equals|makes|holds|weighs|=) (?:about |only |just |exactly )?$`)
