package rules

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"

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

// unequalCells finds two cells of a row, side by side, that give one amount in two units under heads that say so: “metric” and “US”, “°C” and “°F”.
func (p *proof) unequalCells(a *manual.Article) []finding.Finding {
	var list []finding.Finding
	blocks := p.reading(a).blocks
	for i := 1; i < len(blocks); i++ {
		left, right := &blocks[i-1], &blocks[i]
		if left.Kind != sentence.Cell || right.Kind != sentence.Cell || left.Row != right.Row || left.First && left.Row != left.Text || right.First || !twoSystems(left.Column, right.Column) {
			continue
		}
		one, two := p.cellAmount(left), p.cellAmount(right)
		if one == nil || two == nil || one.Unit == two.Unit || !alike(one.Kind, two.Kind) || one.Span != two.Span || equal(one, two) {
			continue
		}
		shown := quantity.ShowIn(one.Range.Low, two.Unit)
		if one.Span {
			shown += "–" + quantity.ShowIn(one.Range.High, two.Unit)
		}
		list = append(list, unequalUnits.At(placeIn(a, right, 0), fmt.Sprintf("%s and %s are not the same: %s is %s.", one.Text, two.Text, one.Text, shown), "Correct one of the two, or take one out."))
	}
	return list
}

// cellAmount gives the one amount of a cell, in the unit of its column's head where it has none.
func (p *proof) cellAmount(b *sentence.Block) *sentence.Quantity {
	if q := p.onlyAmount(b.Text); q != nil {
		return q
	}
	if q := p.onlyAmount(b.Text + " " + b.Column); q != nil {
		return q
	}
	if u := unitOfHead(b.Column); u != "" {
		return p.onlyAmount(b.Text + " " + u)
	}
	return nil
}

// unitOfHead gives the unit at the end of a column's head: “temperature (°C)”, “volume, L”; "" where there is none.
func unitOfHead(head string) string {
	head = strings.TrimSpace(head)
	if i := strings.LastIndexByte(head, '('); i >= 0 && strings.HasSuffix(head, ")") {
		return head[i+1 : len(head)-1]
	}
	if i := strings.LastIndex(head, ", "); i >= 0 {
		return head[i+2:]
	}
	return ""
}

// sameHead tells whether two heads name one thing in two units: “temperature (°C)” and “temperature (°F)”.
func sameHead(left, right string) bool {
	l, r := unitOfHead(left), unitOfHead(right)
	if l == "" || r == "" || l == r {
		return false
	}
	return strings.EqualFold(strings.TrimRight(strings.TrimSuffix(strings.TrimRight(left, ") "), l), " (,"), strings.TrimRight(strings.TrimSuffix(strings.TrimRight(right, ") "), r), " (,"))
}

// twoSystems tells whether the heads of two columns are a pair of unit systems, or two units.
func twoSystems(left, right string) bool {
	l, r := strings.Trim(strings.ToLower(left), "() "), strings.Trim(strings.ToLower(right), "() ")
	return systems[l] && systems[r] && l != r || sameHead(left, right)
}

var systems = map[string]bool{"metric": true, "us": true, "si": true, "imperial": true, "american": true, "inch": true, "inches": true, "us units": true, "metric units": true, "customary": true, "°c": true, "°f": true, "celsius": true,
	"fahrenheit": true, "mm": true, "in": true, "bar": true, "psi": true, "l": true, "gal": true, "us gal": true, "kg": true, "lb": true, "litres": true, "gallons": true, "gallons (us": true, "us gallons": true, "kilograms": true, "pounds": true, "millimetres": true, "metres": true, "feet": true, "ounces": true, "grams": true, "cm": true, "g": true, "oz": true, "ft": true, "m": true}

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
var inUnits = regexp.MustCompile(`^,? (?:or |that is |which is |i\.e\. )?in (\pL+(?: \pL+)?) (?:about |roughly |some |only )?(\d+(?:\.\d+)?)(?:[.,;)]|$)`)

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
var oneUnit = regexp.MustCompile(`^\s*(?:A|An|One) ((?:US |imperial |fluid |cubic )?\pL+) (?:is|are|has|equals|makes|holds|weighs|=) (?:about |only |just |exactly )?$`)

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

// restated tells whether the second of two amounts in two families of units is said to be the first in other words: “48 °C reads 118 °F”, “4.8 L of
// concentrate (1.27 US gal)”, “80 °C in the air stream (that makes 176 °F)”.
func restated(s *sentence.Sentence, one, two *sentence.Quantity) bool {
	if one.Unit.System(quantity.SI) == two.Unit.System(quantity.SI) || one.Relation == sentence.Difference || two.Relation == sentence.Difference {
		return false
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

// otherSides are the sides of a thing in other units before the last: “600 × 450 × 445 mm (23.6 × 17.7 × 17.5 in)”.
var otherSides = regexp.MustCompile(`^\d+(?:\.\d+)? [×x] (?:\d+(?:\.\d+)? [×x])?$`)

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

var (
	restates     = sentence.Set("reads read shows show says called is are equals i.e. i.e., makes")
	restateWords = sentence.Set("reads read shows show says stands called would be will it which that makes make comes come to about in on at the our your its a an dial gauge scale thermometer ring american us imperial metric fahrenheit celsius pounds kilograms inches millimetres litres gallons units terms inner outer other i.e. i.e., or is are equals same as roughly around nearly")
)

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
var inWords = regexp.MustCompile(`\b(?:in|on|for)? ?(?:the |your |our |an? |old )?(?:american|us|u\.s\.|imperial|metric|english|british|older|foreign)(?: papers?| books?| units?| sheets?| terms?| measures?| money| gauges?| scales?| rulers?)?\b,?`)

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
