package rules

import (
	"fmt"
	"math"
	"slices"

	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sentence"
)

// wrongCountTimes checks so many times so much: “Ten baskets an hour at 120 mL each make 1.2 L an hour”, “Nine drops at 0.5 % a drop read as 4.5 %”, and what is
// left of an amount after so many: “Wash 1 takes 12 kg, so two bodies of 5 kg leave 2 kg”.
func (p *proof) wrongCountTimes(_ *manual.Article, s *sentence.Sentence) (int, string) {
	if s.Question || s.Has(noWords) || s.Block.Kind == sentence.Cell || hasShare(s.AllWords()) || s.Has(multiples) {
		return 0, ""
	}
	q := s.Quantities
	if len(q) == 3 {
		return wrongLeft(s)
	}
	if len(q) != 2 || q[0].Kind != q[1].Kind || !addable[q[0].Kind] && q[0].Kind != quantity.Fraction && q[0].Kind != quantity.VolumeFraction || !plain(&q[0]) || !plain(&q[1]) || s.Has(leavesWords) && !s.Has(eachOf) {
		return 0, ""
	}
	many := thing{}
	for _, t := range thingsIn(s) {
		if t.n > 1 && t.word != "" && t.from < q[1].From {
			if many.n > 1 || t.before == "the" || t.before == "of" || t.before == "our" { // “two of the four tanks”
				return 0, ""
			}
			many = t
		}
	}
	if many.n < 2 || !forEach(s, &q[0], many) || !isResult(s, &q[1]) && !readsAs(s, &q[1]) || slices.ContainsFunc(words(s, q[0].To, q[1].From), func(w string) bool { return w == "the" || w == "our" || w == "its" || w == "wash" }) {
		return 0, ""
	}
	if vesselHolds(words(s, q[0].To, q[1].From)) {
		return 0, ""
	}
	want := many.n * q[0].Range.Low
	if off(want, q[1].Range.Low) <= slackOf(&q[1], &q[0]) || off(q[0].Range.Low, many.n*q[1].Range.Low) <= slackOf(&q[1]) || !nearEnough([]float64{want}, q[1].Range.Low) {
		return 0, ""
	}
	return q[1].From, fmt.Sprintf("%g times %s is %s, not %s.", many.n, q[0].Text, quantity.ShowIn(want, q[1].Unit), q[1].Text)
}

// forEach tells whether an amount is that of each of several things: “at 120 mL each”, “0.5 % a drop”, “fills a month at 4.8 L”.
func forEach(s *sentence.Sentence, q *sentence.Quantity, many thing) bool {
	if perThing(s, q) == many.word {
		return true
	}
	behind := wordsBehind(s, q.To, 6)
	if at := slices.IndexFunc(behind, func(w string) bool { return w == "each" || w == "apiece" }); at >= 0 {
		return true
	}
	between := words(s, many.from, q.From)
	if precededBy(s, q, "of") {
		return q.From > many.from && len(between) < 5 // “two small baskets of”, and not “two men lift baskets of”
	}
	return q.From > many.from && precededBy(s, q, "at") && !slices.Contains(between, "that")
}

// readsAs tells whether an amount is what something is read as.
func readsAs(s *sentence.Sentence, q *sentence.Quantity) bool {
	return precededBy(s, q, "read as") || precededBy(s, q, "count as") || precededBy(s, q, "amount to")
}

// wrongLeft checks what so many of one amount leave of another.
func wrongLeft(s *sentence.Sentence) (int, string) {
	all, one, rest := &s.Quantities[0], &s.Quantities[1], &s.Quantities[2]
	n := countOf(s, one)
	if all.Kind != one.Kind || one.Kind != rest.Kind || !addable[all.Kind] || !plain(all) || !plain(one) || !plain(rest) || n < 2 {
		return 0, ""
	}
	between := words(s, one.To, rest.From)
	if len(between) == 0 || len(between) > 3 || between[len(between)-1] != "leave" && between[len(between)-1] != "leaves" {
		return 0, ""
	}
	if want := all.Range.Low - n*one.Range.Low; math.Abs(want-rest.Range.Low) > max(0.02*all.Range.Low, 0.55*lastFigure(rest)) {
		return rest.From, fmt.Sprintf("%g times %s leave %s of %s, not %s.", n, one.Text, quantity.ShowIn(max(0, want), rest.Unit), all.Text, rest.Text)
	}
	return 0, ""
}

// wrongOutOf checks how often one amount can be taken out of another: “From a 25 L drum you can fill Wash 1 five times at 4.8 L each”.
func (p *proof) wrongOutOf(_ *manual.Article, s *sentence.Sentence) (int, string) {
	q := s.Quantities
	if len(q) != 2 || q[0].Kind != q[1].Kind || !addable[q[0].Kind] || q[0].Span || q[1].Span || s.Question || s.Has(noWords) || q[1].Range.Low >= q[0].Range.Low || s.Block.Kind == sentence.Cell {
		return 0, ""
	}
	list := s.Tokens()
	from, many := false, thing{}
	for i, w := range list {
		from = from || w.From < q[0].From && (w.Text == "from" || w.Text == "of" && textAt(list, i-1) == "out")
	}
	for i, w := range list {
		if n := numberOf(w.Text); n > 1 && !w.Amount && (textAt(list, i+1) == "times" || textAt(list, i+1) == "fills") && !eachWords[textAt(list, i+2)] {
			many = thing{n: n, from: w.From}
		}
	}
	if !from || many.n < 2 || many.n*q[1].Range.Low <= 1.02*q[0].Range.Low {
		return 0, ""
	}
	return many.from, fmt.Sprintf("%g times %s is %s, and that is more than %s.", many.n, q[1].Text, quantity.ShowIn(many.n*q[1].Range.Low, q[0].Unit), q[0].Text)
}

// wrongFillsOf checks the concentrate of several fills of a tank, or of a part of one: “Two fills of Wash 2 take 1.12 L”, “Half a fill of Wash 1 takes 2.4 L”.
func (p *proof) wrongFillsOf(_ *manual.Article, s *sentence.Sentence) (int, string) {
	t := onlyTank(s)
	if t == nil || len(s.Quantities) != 1 || s.Question || s.Has(noWords) || s.Has(notNew) || s.Block.Kind == sentence.Cell || !t.Volume.Set || !t.Strength.Set || t.Strength.Kind != quantity.VolumeFraction || t.Strength.Low != t.Strength.High {
		return 0, ""
	}
	q := &s.Quantities[0]
	n := fillsIn(s, q)
	if n == 0 || q.Kind != quantity.Volume || !plain(q) || !isResult(s, q) || q.Range.Low > 0.25*n*t.Volume.Low {
		return 0, ""
	}
	if behind := wordsBehind(s, q.To, 2); len(behind) > 1 && behind[0] == "of" && !concentrates[behind[1]] {
		return 0, ""
	}
	want := n * t.Volume.Low * t.Strength.Low
	if off(want, q.Range.Low) <= slackOf(q) || off(want/(1-t.Strength.Low), q.Range.Low) <= slackOf(q) {
		return 0, ""
	}
	return q.From, fmt.Sprintf("At %s that takes %s, not %s.", t.Strength.In(p.Shop.System()), quantity.ShowIn(want, q.Unit), q.Text)
}

// wrongBuckets checks how many amounts fill a tank: “Wash 1 takes twelve buckets of 10 L”.
func (p *proof) wrongBuckets(_ *manual.Article, s *sentence.Sentence) (int, string) {
	t := onlyTank(s)
	if t == nil || !t.Volume.Set || len(s.Quantities) != 1 || s.Question || s.Has(noWords) || s.Has(notNew) || hasShare(s.AllWords()) || s.Block.Kind == sentence.Cell {
		return 0, ""
	}
	q := &s.Quantities[0]
	n := countOf(s, q)
	if q.Kind != quantity.Volume || !plain(q) || n < 2 || q.Near == "of" || !s.ClauseHas(q.Clause, holds) || n*q.Range.Low < 0.5*t.Volume.Low || off(n*q.Range.Low, t.Volume.Low) <= 0.06 {
		return 0, ""
	}
	return q.From, fmt.Sprintf("%g times %s is %s; %s holds %s.", n, q.Text, quantity.ShowIn(n*q.Range.Low, q.Unit), t.Name, t.Volume.In(p.Shop.System()))
}

// wrongMixture checks a bath of concentrate and water on a list: “Concentrate 4.8 L, water 115.2 L, bath 120 L”.
func (p *proof) wrongMixture(_ *manual.Article, s *sentence.Sentence) (int, string) {
	q := s.Quantities
	if len(q) != 3 || s.Question || s.Has(noWords) || s.Block.Kind == sentence.Cell {
		return 0, ""
	}
	sum, parts := 0.0, 0
	var bath *sentence.Quantity
	for i := range q {
		if q[i].Kind != quantity.Volume || !plain(&q[i]) || q[i].Unit != q[0].Unit {
			return 0, ""
		}
		switch before := s.PhraseBefore(&q[i], 1); {
		case len(before) == 1 && (waterWord[before[0]] || concentrates[before[0]]):
			sum, parts = sum+q[i].Low.Value, parts+1
		case len(before) == 1 && (before[0] == "bath" || totalWords[before[0]]):
			bath = &q[i]
		}
	}
	if parts != 2 || bath == nil || math.Abs(sum-bath.Low.Value) <= max(0.004*sum, 0.6*math.Pow(10, -float64(bath.Low.Decimals))) {
		return 0, ""
	}
	return bath.From, fmt.Sprintf("Concentrate and water make %s %s, not %s.", plainFigure(sum), bath.Unit.Symbol, bath.Text)
}

// fillsIn gives how many fills stand before an amount: 2 of “two fills of”, 0.5 of “half a fill of”, 0 where none are told.
func fillsIn(s *sentence.Sentence, q *sentence.Quantity) float64 {
	words := s.Tokens()
	for i := 1; i+1 < len(words) && words[i].From < q.From; i++ {
		if !severalFills[words[i].Text] && words[i].Text != "fill" && words[i].Text != "charge" || words[i+1].Text != "of" {
			continue
		}
		j := i - 1
		if words[j].Text == "a" && j > 0 {
			j--
		}
		if share := shares[words[j].Text]; share > 0 {
			return share
		}
		return numberOf(words[j].Text)
	}
	return 0
}

// wrongEachPerCent checks what each per cent of strength takes in a tank: “Each per cent in Wash 1 stands for 1.2 L of cleaner”.
func (p *proof) wrongEachPerCent(_ *manual.Article, s *sentence.Sentence) (int, string) {
	t := onlyTank(s)
	n := len(s.Quantities)
	if t == nil || !t.Volume.Set || n == 0 || n > 2 || s.Question || s.Has(noWords) || s.Block.Kind == sentence.Cell {
		return 0, ""
	}
	q := &s.Quantities[n-1]
	if q.Kind != quantity.Volume || !plain(q) || n == 2 && s.Quantities[0].Range.Low != 0.01 {
		return 0, ""
	}
	list := words(s, s.From, q.From)
	k := len(list)
	if k < 4 || !eachWords[list[0]] && list[0] != "one" || !perCents[list[1]] && !(list[1] == "per" && list[2] == "cent") || !tells[list[k-1]] && !(list[k-1] == "for" && (list[k-2] == "stands" || list[k-2] == "stand")) {
		return 0, ""
	}
	want := 0.01 * t.Volume.Low
	if off(want, q.Range.Low) <= max(0.06, slackOf(q)) {
		return 0, ""
	}
	return q.From, fmt.Sprintf("One per cent of %s is %s, not %s.", t.Volume.In(p.Shop.System()), quantity.ShowIn(want, q.Unit), q.Text)
}

// notNew are words of a bath that is no new one.
var notNew = sentence.Set("top found weak low missing lost drain replace drag-out evaporates left remaining sample after still more less day shift week hour")

var perCents = sentence.Set("percent per-cent percentage point")

// wrongStrengthStep checks what a bath takes from one strength to a higher one: “From 2 % to 4 % Wash 1 needs 2.4 L more”, “From 3.5 % to 4 % in 120 L is 0.6 L”.
func (p *proof) wrongStrengthStep(_ *manual.Article, s *sentence.Sentence) (int, string) {
	n := len(s.Quantities)
	if n < 2 || n > 3 || s.Question || s.Has(noWords) || hasShare(s.AllWords()) || s.Block.Kind == sentence.Cell {
		return 0, ""
	}
	step, q := &s.Quantities[0], &s.Quantities[n-1]
	whole, text := 0.0, ""
	switch t := onlyTank(s); {
	case n == 3 && s.Quantities[1].Kind == quantity.Volume && plain(&s.Quantities[1]) && (precededBy(s, &s.Quantities[1], "in") || precededBy(s, &s.Quantities[1], "for")):
		whole, text = s.Quantities[1].Range.Low, s.Quantities[1].Text
	case n == 2 && t != nil && t.Volume.Set:
		whole, text = t.Volume.Low, t.Volume.In(p.Shop.System())
	}
	if whole == 0 || step.Kind != quantity.VolumeFraction && step.Kind != quantity.Fraction || !step.Span || !precededBy(s, step, "from") || q.Kind != quantity.Volume || q.Span || q.Range.Low >= whole || !isResult(s, q) {
		return 0, ""
	}
	want, slack := (step.Range.High-step.Range.Low)*whole, max(0.06, slackOf(q))
	if off(want, q.Range.Low) <= slack || off(want/(1-step.Range.High), q.Range.Low) <= slack {
		return 0, ""
	}
	return q.From, fmt.Sprintf("%s of %s is %s, not %s.", step.Text, text, quantity.ShowIn(want, q.Unit), q.Text)
}
