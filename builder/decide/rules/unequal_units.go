package rules

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"tankside/builder/expression"
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sentence"
)

// unequalUnits finds one amount said in two units that are not the same: “60 °C (150 °F)”, “2 bar (40 psi)”. It prevents that the reader who
// knows the other unit works by another number. The factors are those of package quantity (NIST SP 811); what rounding takes is let through:
// half of the last figure written, 3 % for what has two figures and more, 1.5 °C for temperatures.
var unequalUnits = finding.Rule{
	Name: "unequal-units", Severity: finding.Result,
	Finds:  "one amount in two units that are not the same",
	Why:    "Half of the readers know only one of the two units, and work by another number than the rest.",
	Source: "NIST SP 811 (2008), appendix B",
}

func findUnequalUnits(p *proof, a *manual.Article) []finding.Finding {
	var list []finding.Finding
	said := p.reading(a)
	list = append(list, p.unequalCells(a)...)
	for i := range said.sentences {
		s := &said.sentences[i]
		if says := wrongUnit(s); says != "" {
			list = append(list, unequalUnits.At(placeIn(a, s.Block, s.Quantities[0].From), says, "Correct the number."))
			continue
		}
		var before *sentence.Sentence
		if i > 0 {
			before = &said.sentences[i-1]
		}
		if says, at := numberElsewhere(s, before); says != "" {
			list = append(list, unequalUnits.At(placeIn(a, s.Block, at), says, "Correct one of the two, or take one out."))
			continue
		}
		for j := range s.Quantities {
			if says, at := unitFirst(s, &s.Quantities[j]); says != "" {
				list = append(list, unequalUnits.At(placeIn(a, s.Block, at), says, "Correct one of the two, or take one out."))
			}
		}
		for j := 1; j < len(s.Quantities); j++ {
			if pairedOtherwise(s, j) || betweenTwo(s, j) {
				continue
			}
			one, two := compound(s, j-1, -1), compound(s, j, 1)
			if says, remedy := unequal(s, one, two); says != "" {
				list = append(list, unequalUnits.At(placeIn(a, s.Block, two.From), says, remedy))
			}
		}
	}
	return list
}

// unequal tells how two quantities that are said to be one amount differ, and what to do; "" where they do not.
func unequal(s *sentence.Sentence, one, two *sentence.Quantity) (says, remedy string) {
	difference := hotterBehind(s, one, two)
	switch {
	case perMinute(s, one, two):
		if off(one.Range.Low, two.Range.Low/60) <= 0.08 {
			return "", ""
		}
		return fmt.Sprintf("%s and %s a minute are not the same: %s is %s a minute.", one.Text, two.Text, one.Text, quantity.ShowIn(one.Range.Low*60, two.Unit)), "Correct one of the two, or take one out."
	case !sameAmount(s, one, two), s.Has(nominal) && off(one.Range.Low, two.Range.Low) <= 0.05:
		return "", ""
	case difference && sameDifference(one, two), !difference && (equal(one, two) || (s.Has(differences) || changesBy(s, one)) && asDifference(one, two)):
		return "", ""
	case difference, one.Kind == quantity.TemperatureDifference, two.Kind == quantity.TemperatureDifference, one.Relation == sentence.Difference:
		return fmt.Sprintf("%s and %s are not the same difference.", one.Text, two.Text), "Correct one of the two: 10 °C are 18 °F as a difference."
	}
	shown := quantity.ShowIn(one.Range.Low, two.Unit)
	if one.Span {
		shown += "–" + quantity.ShowIn(one.Range.High, two.Unit)
	}
	return fmt.Sprintf("%s and %s are not the same: %s is %s.", one.Text, two.Text, one.Text, shown), "Correct one of the two, or take one out."
}

// pairedOtherwise tells whether the two amounts before and at a place each have their own other unit: “212 °F is 100 °C, 32 °F is 0 °C”.
func pairedOtherwise(s *sentence.Sentence, j int) bool {
	q := s.Quantities
	return j > 1 && j+1 < len(q) && repeats(s, &q[j-2], &q[j-1]) && repeats(s, &q[j], &q[j+1])
}

// betweenTwo tells whether two temperatures are the difference of two that stand before, in both units: “From 12 °C (54 °F) to 62 °C (144 °F) are 50 °C
// (90 °F)”.
func betweenTwo(s *sentence.Sentence, j int) bool {
	rise := &s.Quantities[j-1]
	if !asDifference(rise, &s.Quantities[j]) {
		return false
	}
	for a := range s.Quantities[:j-1] {
		for b := range s.Quantities[:a] {
			one, two := &s.Quantities[b], &s.Quantities[a]
			if one.Unit == rise.Unit && two.Unit == rise.Unit && math.Abs(math.Abs(one.Low.Value-two.Low.Value)-rise.Low.Value) <= 1 {
				return true
			}
		}
	}
	return false
}

// nominal are words of vessels that are called by a round number in each family of units: a drum of 200 L is one of 55 US gallons (common practice,
// no source).
var nominal = sentence.Set("nominal nominally drum drums barrel barrels")

// perMinute tells whether a flow and a volume “a minute” in another system of units are said to be one amount: “4 L/min, about 1.1 US gal a minute”.
func perMinute(s *sentence.Sentence, one, two *sentence.Quantity) bool {
	if one.Kind != quantity.Flow || two.Kind != quantity.Volume || !plain(one) || !plain(two) || len(words(s, one.To, two.From)) > 2 {
		return false
	}
	list := words(s, two.To, s.To)
	return len(list) > 1 && (list[0] == "a" || list[0] == "per" || list[0] == "each") && strings.Trim(list[1], ".,;)") == "minute"
}

// hotterBehind tells whether a temperature with another in brackets is a difference: “5 °C (9 °F) hotter”.
func hotterBehind(s *sentence.Sentence, one, two *sentence.Quantity) bool {
	if one.Kind != quantity.Temperature || two.Kind != quantity.Temperature {
		return false
	}
	rest := strings.TrimLeft(s.Block.Text[two.To:s.To], " )]")
	word, _, _ := strings.Cut(rest, " ")
	return hotter[strings.Trim(word, ".,;")]
}

var hotter = sentence.Set("hotter cooler colder warmer higher lower apart")

// sameAmount tells whether two quantities that follow one another are said to be one amount.
func sameAmount(s *sentence.Sentence, one, two *sentence.Quantity) bool {
	if one.Unit == two.Unit || !alike(one.Kind, two.Kind) || one.Span != two.Span && !(one.Span || two.Span) || one.Span != two.Span {
		return false
	}
	between := strings.ToLower(s.Block.Text[one.To:two.From])
	rest := s.Block.Text[two.To:s.To]
	trimmed := strings.TrimSpace(between)
	if before := strings.ToLower(s.Block.Text[s.From:one.From]); strings.HasSuffix(before, " of ") && one.Unit.System(quantity.SI) == two.Unit.System(quantity.SI) && s.CountBefore(one) > 1 {
		return false // “sixteen rings of 90 g (1.4 kg)”
	}
	if countOf(s, one) > 1 && one.Unit.System(quantity.SI) == two.Unit.System(quantity.SI) {
		return false // “50 nuts at 40 g are 2 kg”
	}
	if b := words(s, s.From, one.From); len(b) > 0 && reckoned[b[len(b)-1]] {
		return false // “15:30 less 30 min is 8 h”
	}
	if doseIn(s, one) && one.Unit.System(quantity.SI) == two.Unit.System(quantity.SI) {
		return false // “2 % v/v in 9 L, that is 180 mL”: whether the sum comes out is asked by wrong-sum
	}
	bracket := strings.HasPrefix(trimmed, "(") || strings.HasPrefix(trimmed, "[")
	trimmed = strings.TrimSpace(strings.TrimLeft(trimmed, "([,=≈~/–—-* "))
	trimmed = strings.TrimSpace(inWords.ReplaceAllString(trimmed, " "))
	for _, w := range []string{"which", "holds", "corresponds to", "correspond to", "equivalent to", "±", "about", "roughly", "that is", "i.e.", "or", "which is", "is", "equals", "equal to", "approx.", "some", "say", "nearly", "around", "the same as", "are", "in other words", "just over", "in fahrenheit", "in celsius", "on the fahrenheit scale", "in american units", "in metric", "just under", "comes to", ",", "≈", "=", "makes", "make", "means", "mean"} {
		trimmed = strings.TrimSpace(strings.TrimPrefix(trimmed, w))
	}
	if strings.Trim(trimmed, " ,≈=~*") != "" || between == "" {
		return restated(s, one, two)
	}
	foreign := pointSlipped(one, two, between) || strings.Contains(between, "i.e.") || strings.Contains(between, "other words") || one.Unit.System(quantity.SI) != two.Unit.System(quantity.SI) || strings.Contains(between, "=") || trimmedIs(between) || strings.Contains(between, "equal") || strings.Contains(between, "that is")
	switch {
	case bracket:
		return strings.HasPrefix(strings.TrimLeft(rest, " "), ")") || strings.HasPrefix(strings.TrimLeft(rest, " "), "]") || foreign
	case strings.Contains(between, "hold") && one.Kind != quantity.Volume:
		return false
	case strings.TrimSpace(between) == "": // “5 ft 3 in”
		return false
	}
	return foreign
}

// reckoned are words and signs before an amount that is reckoned with: what follows “is” is the result, and not the same amount.
var reckoned = sentence.Set("less minus plus times + − × ÷ * /")

// compound gives the amount at a place together with what belongs to it in a smaller unit, before it (-1) or behind it (1): “3 ft 3 in”, “1 h 30 min”.
func compound(s *sentence.Sentence, j, step int) *sentence.Quantity {
	q, k := &s.Quantities[j], j+step
	if k < 0 || k >= len(s.Quantities) || q.Kind == quantity.Temperature {
		return q
	}
	first, second := q, &s.Quantities[k]
	if step < 0 {
		first, second = second, first
	}
	if first.To > second.From || first.Kind != second.Kind || first.Unit == second.Unit || first.Unit.ToSI(1) < second.Unit.ToSI(1) || first.Span || second.Span || first.Range.Low <= second.Range.Low {
		return q
	}
	if between := words(s, first.To, second.From); len(between) > 0 && !isOne(between, "and") {
		return q
	}
	both := *first
	both.To, both.Text = second.To, s.Block.Text[first.From:second.To]
	both.Range.Low, both.Range.High = first.Range.Low+second.Range.Low, first.Range.High+second.Range.High
	both.Low.Value = both.Range.Low / both.Unit.ToSI(1)
	both.Low.Decimals = max(1, both.Low.Decimals)
	both.High, both.Near = both.Low, second.Near
	return &both
}

// doseIn tells whether an amount is that of a bath into which a strength goes: “2 % v/v in 9 L”, “for 9 L at 2 % v/v”.
func doseIn(s *sentence.Sentence, bath *sentence.Quantity) bool {
	before := words(s, s.From, bath.From)
	if len(before) == 0 || !bathFollows[before[len(before)-1]] {
		return false
	}
	return slices.ContainsFunc(s.Quantities, func(q sentence.Quantity) bool {
		return q.Kind == quantity.VolumeFraction || q.Kind == quantity.MassFraction || q.Kind == quantity.Fraction || q.Kind == quantity.MassConcentration
	})
}

// bathFollows are words before the volume of a bath that something is put into.
var bathFollows = sentence.Set("in into to for of per")

// inWords are words for the other system of units.
var inWords = expression.Of(`\b(?:in|on|for)? ?(?:the |your |our |an? |old )?(?:american|us|u\.s\.|imperial|metric|english|british|older|foreign)(?: papers?| books?| units?| sheets?| terms?| measures?| money| gauges?| scales?| rulers?)?\b,?`)

// trimmedIs tells whether nothing but “is” stands between.
func trimmedIs(between string) bool {
	w := strings.TrimSpace(between)
	return w == "is" || w == "are" || w == "means" || w == "is the same as"
}

// alike tells whether amounts of two kinds can be one.
func alike(a, b quantity.Kind) bool {
	temperature := func(k quantity.Kind) bool { return k == quantity.Temperature || k == quantity.TemperatureDifference }
	switch a {
	case quantity.Fraction, quantity.VolumeFraction, quantity.MassFraction, quantity.PH:
		return a == b && a == quantity.VolumeFraction
	}
	hardness := func(k quantity.Kind) bool { return k == quantity.Hardness || k == quantity.MassConcentration } // mg/L of it are as CaCO₃
	return a == b || temperature(a) && temperature(b) || a != b && hardness(a) && hardness(b)
}

func equal(one, two *sentence.Quantity) bool {
	if one.Kind == quantity.VolumeFraction { // 1:20 is 4.8 % to one and 5 % to another
		for _, v := range []float64{1 / one.Range.Low, 1/one.Range.Low - 1, 1/one.Range.Low + 1} {
			if math.Abs(1/v-two.Range.Low) <= 0.04*two.Range.Low {
				return true
			}
		}
		return false
	}
	if one.Kind == quantity.Temperature && two.Kind == quantity.Temperature && one.Relation != sentence.Difference {
		if near(one, two, one.Range.Low, two.Range.Low, two.Low) && near(one, two, one.Range.High, two.Range.High, two.High) {
			return true
		}
		if one.Relation != sentence.Difference && two.Relation != sentence.Difference && one.Low.Value > 25 {
			return false
		}
	}
	if one.Kind == quantity.Temperature || one.Kind == quantity.TemperatureDifference { // as a difference
		return sameDifference(one, two)
	}
	return near(one, two, one.Range.Low, two.Range.Low, two.Low) && near(one, two, one.Range.High, two.Range.High, two.High)
}

var differences = sentence.Set("difference step steps rise drop swing jump margin apart warmer cooler hotter colder fall spread")

// changesBy tells whether a temperature is how far something goes up or down: “cools 40 °C”, “gains about 34 °C”.
func changesBy(s *sentence.Sentence, q *sentence.Quantity) bool {
	list := words(s, s.From, q.From)
	for n := len(list); n > 0; n-- {
		if w := strings.Trim(list[n-1], ",;:"); !tellFillers[w] && w != "another" && w != "by" {
			return changeVerbs[w]
		}
	}
	return false
}

var changeVerbs = sentence.Set("cools cool cooled climbs climb climbed gains gain gained loses lose lost rises rose falls fell drops dropped warms warmed varies swings drifts heats")

// asDifference tells whether two temperatures are the same as differences.
func asDifference(one, two *sentence.Quantity) bool {
	return one.Kind == quantity.Temperature && two.Kind == quantity.Temperature && sameDifference(one, two)
}

// sameDifference tells whether two temperatures, read as differences, are the same but for rounding.
func sameDifference(one, two *sentence.Quantity) bool {
	return math.Abs(kelvins(one)-kelvins(two)) <= math.Max(0.6, 0.06*kelvins(one))
}

// kelvins is a temperature as a difference.
func kelvins(q *sentence.Quantity) float64 {
	if q.Unit.Symbol == "°F" {
		return q.Low.Value * 5 / 9
	}
	return q.Low.Value
}

// near tells whether two amounts are the same but for rounding.
func near(one, two *sentence.Quantity, a, b float64, written sentence.Written) bool {
	if one.Kind == quantity.Temperature {
		tolerance := 1.3
		if one.Rough || two.Rough {
			tolerance = 3
		}
		return math.Abs(a-b) <= tolerance
	}
	if a == b {
		return true
	}
	relative := math.Abs(a-b) / math.Max(math.Abs(a), math.Abs(b))
	step := math.Pow(10, -float64(written.Decimals)) // of the last figure that is written
	if written.Decimals == 0 && one.Unit.System(quantity.SI) != two.Unit.System(quantity.SI) {
		step = math.Pow(10, float64(written.Noughts)) // within a family of units nobody rounds to tens
	}
	allowed := math.Min(step/2/math.Max(written.Value, 1e-9), 0.1)
	if written.Word || written.Decimals == 2 && written.Value <= 1 {
		allowed = math.Max(allowed, 0.08)
	}
	least := 0.03
	if one.Rough || two.Rough {
		least = 0.06
	}
	return relative <= math.Max(allowed, least)+1e-9
}
