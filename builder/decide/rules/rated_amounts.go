package rules

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"tankside/builder/expression"
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sentence"
)

// wrongRated checks so much to each unit of something, and how much that makes: “At 2.7 L a centimetre, 3 cm are 8.1 L”, “5 L in 8 h is 0.6 L an hour”.
func (p *proof) wrongRated(_ *manual.Article, s *sentence.Sentence) (int, string) {
	q := s.Quantities
	if len(q) != 3 || s.Question || s.Has(otherProducts) || s.Has(noWords) || hasShare(s.AllWords()) {
		return 0, ""
	}
	k := slices.IndexFunc(q, func(q sentence.Quantity) bool { return ratedBy(s, &q).size > 0 })
	if k < 0 || !tellsProduct(s) || slices.ContainsFunc(q, func(q sentence.Quantity) bool {
		return !plain(&q) && !overTime(&q) && q.Relation != sentence.Difference
	}) {
		return 0, ""
	}
	rate, each := &q[k], ratedBy(s, &q[k])
	one, two := &q[(k+1)%3], &q[(k+2)%3]
	if one.Kind != rate.Kind {
		one, two = two, one
	}
	if one.Kind != rate.Kind || two.Kind != each.kind || one.Kind == two.Kind || ratedBy(s, one).size > 0 {
		return 0, ""
	}
	if rate.Kind == quantity.Temperature && (rate.Unit != one.Unit || rate.Unit.Symbol != "°C") {
		return 0, ""
	}
	want := rate.Range.Low * two.Range.Low / each.size
	if off(want, one.Range.Low) <= slackOf(&q[2]) || timesOver(s, want, one) {
		return 0, ""
	}
	return q[2].From, fmt.Sprintf("At %s a %s, %s make %s, not %s.", rate.Text, each.word, two.Text, quantity.ShowIn(want, one.Unit), one.Text)
}

// unitOf is a unit by its word.
type unitOf struct {
	word string
	kind quantity.Kind
	size float64 // SI
}

// ratedBy gives the unit to which an amount is told as a rate: “2.7 L a centimetre”; of size 0 where it is none.
func ratedBy(s *sentence.Sentence, q *sentence.Quantity) unitOf {
	behind := s.PhraseBehind(q, 3)
	if len(behind) == 3 && (behind[0] == "for" || behind[0] == "to" || behind[0] == "in") && eachWords[behind[1]] && !(behind[0] == "in" && unitWords[behind[2]].kind == quantity.Time) {
		behind = behind[1:] // “40 mL to the litre”
	}
	if len(behind) < 2 || !eachWords[behind[0]] {
		return unitOf{}
	}
	u := unitWords[strings.TrimSuffix(behind[1], "s")]
	u.word = behind[1]
	return u
}

var (
	eachWords = sentence.Set("a an per each every the")
	unitWords = map[string]unitOf{
		"second": {kind: quantity.Time, size: 1}, "minute": {kind: quantity.Time, size: 60}, "hour": {kind: quantity.Time, size: 3600}, "day": {kind: quantity.Time, size: 86400}, "week": {kind: quantity.Time, size: 7 * 86400},
		"litre": {kind: quantity.Volume, size: 1e-3}, "liter": {kind: quantity.Volume, size: 1e-3}, "millimetre": {kind: quantity.Length, size: 1e-3}, "centimetre": {kind: quantity.Length, size: 1e-2}, "metre": {kind: quantity.Length, size: 1},
		"kilogram": {kind: quantity.Mass, size: 1}, "kilo": {kind: quantity.Mass, size: 1},
	}
)

// wrongHeatUp checks how far a bath comes at a rate: “36 °C at 37 °C/h takes about one hour”, “Starting at 20 °C and gaining 30 °C an hour, the bath is at
// 50 °C after one hour”.
func (p *proof) wrongHeatUp(_ *manual.Article, s *sentence.Sentence) (int, string) {
	if !hasSign(s.Block.Text[s.From:s.To], "°C/", "°C /", "°C a", "°Ca", "°C p", "°Cp", "°C e", "°Ce") || s.Question || s.Has(noWords) {
		return 0, ""
	}
	m := heatRate.FindStringSubmatchIndex(s.Block.Text[s.From:s.To])
	if m == nil || hasShare(s.AllWords()) || hasSign(s.Text(), "=", "×", "÷") || len(heatRate.FindAllString(s.Text(), 2)) > 1 {
		return 0, ""
	}
	from, to := s.From+m[0], s.From+m[1]
	rate := floatOf(s.Block.Text[s.From+m[2] : s.From+m[3]])
	if strings.HasPrefix(s.Block.Text[s.From+m[4]:], "m") {
		rate *= 60
	}
	var heats []float64
	var time *sentence.Quantity
	for i := range s.Quantities {
		switch q := &s.Quantities[i]; {
		case q.From >= from && q.From < to:
		case q.Span && q.Kind == quantity.Temperature && q.Unit.Symbol == "°C" && precededBy(s, q, "from") && len(heats) == 0:
			heats = append(heats, q.Range.Low, q.Range.High) // “From 12 °C to 62 °C at 40 °C an hour”
		case q.Span || q.Unit.Symbol == "°F" || time != nil && q.Kind == quantity.Time:
			return 0, ""
		case q.Kind == quantity.Time:
			time = q
		case q.Kind == quantity.Temperature:
			heats = append(heats, q.Low.Value)
		default:
			return 0, ""
		}
	}
	if time == nil || !takesTime(s.PhraseBefore(time, 4)) || s.Has(slowsDown) || len(heats) == 0 || len(heats) > 2 || rate <= 0 || time.Relation == sentence.Difference {
		return 0, ""
	}
	rise := heats[0]
	if len(heats) == 2 {
		rise = max(heats[0]-heats[1], heats[1]-heats[0])
	}
	want := rise / rate * 3600
	if off(want, time.Range.Low) <= max(0.15, slackOf(time)) {
		return 0, ""
	}
	return time.From, fmt.Sprintf("At that rate %g °C take %s, not %s.", rise, quantity.ShowIn(want, time.Unit), time.Text)
}

// takesTime tells whether the words before a time say that something takes it: “takes about”, “after”.
func takesTime(before []string) bool {
	for n := len(before); n > 0; n-- {
		if w := before[n-1]; !tellFillers[w] && w != "only" || w == "in" {
			return tells[w] || tellsAmount[w] || afterWhat[w]
		}
	}
	return false
}

// slowsDown are words of a bath that cools, which it does the slower the colder it is.
var slowsDown = sentence.Set("cools cool falls fall loses slows slower")

// heatRate is how fast a bath gets hotter or colder.
var heatRate = expression.Of(`(\d+(?:\.\d+)?) ?°C ?(?:/|an |a |per |each |every )(h|hour|min|minute)\b`)

// floatOf is the number that a text of figures writes, or 0.
func floatOf(text string) float64 {
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return 0
	}
	return v
}
