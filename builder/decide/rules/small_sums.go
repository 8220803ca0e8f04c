package rules

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"

	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sentence"
)

// wrongPrice checks what an amount costs at a price: “9 kWh at 0.28 EUR are 2.52 EUR”.
func (p *proof) wrongPrice(_ *manual.Article, s *sentence.Sentence) (int, string) {
	prices := priceOf.FindAllStringSubmatchIndex(s.Block.Text[s.From:s.To], 3)
	if len(prices) != 2 || len(s.Quantities) != 1 || s.Question || s.Has(noWords) || s.Has(multiples) || hasShare(s.AllWords()) {
		return 0, ""
	}
	text := s.Block.Text[s.From:s.To]
	q, one, cost := &s.Quantities[0], floatOf(text[prices[0][2]:prices[0][3]]), floatOf(text[prices[1][2]:prices[1][3]])
	before, between := words(s, s.From, s.From+prices[0][0]), words(s, s.From+prices[0][1], s.From+prices[1][0])
	for n := len(between); n > 0 && tellFillers[between[n-1]]; n-- {
		between = between[:n-1]
	}
	if len(before) == 0 || before[len(before)-1] != "at" && before[len(before)-1] != "×" || len(between) == 0 || !tells[between[len(between)-1]] && !costWords[between[len(between)-1]] || !plain(q) || q.From > s.From+prices[1][0] {
		return 0, ""
	}
	want, slack := q.Low.Value*one, 0.02
	if _, decimals, _ := strings.Cut(text[prices[1][2]:prices[1][3]], "."); decimals == "" {
		slack = 0.5
	}
	if math.Abs(want-cost) <= max(0.02*want, slack) || slices.ContainsFunc(timesIn(s), func(n float64) bool { return math.Abs(n*want-cost) <= max(0.02*n*want, slack) }) {
		return 0, ""
	}
	return s.From + prices[1][0], fmt.Sprintf("%s at that price cost %.2f, not %.2f.", q.Text, want, cost)
}

var (
	priceOf   = regexp.MustCompile(`(\d+(?:\.\d+)?) ?(?:EUR|euros?|€)`)
	costWords = sentence.Set("cost costs to")
)

// wrongOneIn checks “4.8 L in 120 L is 1 in 25”, by parts of the whole or of what it goes into.
func (p *proof) wrongOneIn(_ *manual.Article, s *sentence.Sentence) (int, string) {
	q := s.Quantities
	if len(q) != 2 || s.Question || s.Has(noWords) || q[0].Kind != q[1].Kind || !addable[q[0].Kind] || !plain(&q[0]) || !plain(&q[1]) || !joinsProduct(words(s, q[0].To, q[1].From)) {
		return 0, ""
	}
	m := oneIn.FindStringSubmatchIndex(s.Block.Text[q[1].To:s.To])
	if m == nil {
		return 0, ""
	}
	n, want := floatOf(s.Block.Text[q[1].To+m[2]:q[1].To+m[3]]), q[1].Range.Low/q[0].Range.Low
	if off(n, want) <= 0.05 || off(n, want+1) <= 0.05 || off(n, want-1) <= 0.05 {
		return 0, ""
	}
	return q[1].To + m[2], fmt.Sprintf("%s in %s is 1 in %s.", q[0].Text, q[1].Text, plainFigure(want))
}

var oneIn = regexp.MustCompile(`^[^.,;0-9]{0,24}(?:is|are|makes?|=) (?:(?:1|one) (?:in|to)|1:) ?(\d+)\b`)

// wrongParted checks a whole that is parted in two: “Of the 120 L, 4.8 L are concentrate and 115.2 L water”.
func (p *proof) wrongParted(_ *manual.Article, s *sentence.Sentence) (int, string) {
	q := s.Quantities
	if len(q) != 3 || s.Question || s.Has(noWords) || s.Has(sharesTold) || !addable[q[0].Kind] || q[1].Kind != q[0].Kind || q[2].Kind != q[0].Kind || !plain(&q[0]) || !plain(&q[1]) || !plain(&q[2]) {
		return 0, ""
	}
	before := words(s, s.From, q[0].From)
	if len(before) == 0 || len(before) > 2 || before[0] != "of" || !slices.Contains(words(s, q[1].To, q[2].From), "and") {
		return 0, ""
	}
	whole, sum := q[0].Range.Low, q[1].Range.Low+q[2].Range.Low
	if off(whole, sum) <= 0.02 || off(whole, sum) > 0.25 {
		return 0, "" // what is far from the whole is not said to be all of it
	}
	return q[2].From, fmt.Sprintf("%s less %s is %s, not %s.", q[0].Text, q[1].Text, quantity.ShowIn(whole-q[1].Range.Low, q[2].Unit), q[2].Text)
}

// wrongMadeUp checks the concentrate and water of a tank against its volume: “Wash 1 needs 4.8 L of concentrate and 115.2 L of water”.
func (p *proof) wrongMadeUp(_ *manual.Article, s *sentence.Sentence) (int, string) {
	t := onlyTank(s)
	if t == nil || !t.Volume.Set || len(s.Quantities) != 2 || s.Question || s.Has(noWords) || s.Has(oldBaths) || s.Has(sharesTold) || s.Has(stepWords) || !s.Has(newBaths) || !s.Has(concentrates) || !s.Has(waterWord) {
		return 0, ""
	}
	one, two := &s.Quantities[0], &s.Quantities[1]
	if one.Kind != quantity.Volume || two.Kind != quantity.Volume || !plain(one) || !plain(two) || one.Near != "of" || two.Near != "of" || !slices.Contains(words(s, one.To, two.From), "and") {
		return 0, ""
	}
	sum := one.Range.Low + two.Range.Low
	if d := off(sum, t.Volume.Low); d <= 0.05 || d > 0.3 { // nobody measures the water as well as the concentrate
		return 0, ""
	}
	return two.From, fmt.Sprintf("Together these are %s; %s holds %s.", quantity.ShowIn(sum, two.Unit), t.Name, t.Volume.In(p.Shop.System()))
}

// stepWords are words of a sentence that tells what is poured one after the other.
var stepWords = sentence.Set("first then half before later again rest")

// wrongVolumeRatio checks so much in so much: “10 L per 100 L is 10 %”, “20 mL a litre is 2 %”, “40 mL to the litre makes 4.8 L in Wash 1”.
func (p *proof) wrongVolumeRatio(_ *manual.Article, s *sentence.Sentence) (int, string) {
	q := s.Quantities
	if len(q) < 2 || len(q) > 3 || s.Question || s.Has(noWords) || q[0].Kind != quantity.Volume || !plain(&q[0]) {
		return 0, ""
	}
	told, whole := &q[len(q)-1], 1e-3
	first := words(s, q[0].To, told.From)
	if len(q) == 3 {
		if first = words(s, q[0].To, q[1].From); q[1].Kind != quantity.Volume || !plain(&q[1]) || len(first) == 0 || len(first) > 4 || !perWhole[first[len(first)-1]] || !toldAs(s, &q[1], told) {
			return 0, ""
		}
		whole = q[1].Range.Low
	} else if !litreOnly(first) || !toldAs(s, &q[0], told) {
		return 0, ""
	}
	share := q[0].Range.Low / whole
	t := onlyTank(s)
	switch {
	case told.Kind == quantity.Volume && t != nil && t.Volume.Set && len(q) == 2:
		share *= t.Volume.Low
	case told.Kind != quantity.Fraction && told.Kind != quantity.VolumeFraction:
		return 0, ""
	}
	if off(share, told.Range.Low) <= slackOf(told) || told.Kind != quantity.Volume && off(share/(1+share), told.Range.Low) <= slackOf(told) {
		return 0, ""
	}
	return told.From, fmt.Sprintf("That is %s, not %s.", quantity.ShowIn(share, told.Unit), told.Text)
}

var perWhole = sentence.Set("per each every")

// litreOnly tells whether “a litre”, “in a litre” or “to the litre” begins what stands between two amounts.
func litreOnly(list []string) bool {
	if len(list) > 0 && (list[0] == "in" || list[0] == "to" || list[0] == "for") {
		list = list[1:]
	}
	return len(list) > 1 && (list[0] == "a" || list[0] == "per" || list[0] == "each" || list[0] == "the") && list[1] == "litre" || len(list) > 2 && list[1] == "each" && list[2] == "litre"
}

// wrongPerThing checks what several make of so much for one: “0.38 L a shift, five shifts a week: 1.9 L a week”, “Every shift 0.38 L, in 20 shifts 7.6 L”.
func (p *proof) wrongPerThing(_ *manual.Article, s *sentence.Sentence) (int, string) {
	q := s.Quantities
	if len(q) != 2 || s.Question || s.Has(noWords) || q[0].Kind != q[1].Kind || !addable[q[0].Kind] || !plain(&q[0]) || !plain(&q[1]) || hasShare(s.AllWords()) {
		return 0, ""
	}
	word := perThing(s, &q[0])
	if word == "" || unitWords[word].size > 0 || perThing(s, &q[1]) == word {
		return 0, ""
	}
	count := 0.0
	for _, t := range thingsIn(s) {
		if t.word == word && t.n > 1 {
			if count > 0 {
				return 0, ""
			}
			count = t.n
		}
	}
	if want := count * q[0].Range.Low; count > 0 && off(want, q[1].Range.Low) > slackOf(&q[1], &q[0]) && !timesOver(s, want, &q[1]) {
		return q[1].From, fmt.Sprintf("%g times %s is %s, not %s.", count, q[0].Text, quantity.ShowIn(want, q[1].Unit), q[1].Text)
	}
	return 0, ""
}

// perThing gives for what one an amount is told, without the s: “a shift”, “every shift” before it; "" where it is told for none.
func perThing(s *sentence.Sentence, q *sentence.Quantity) string {
	if behind := s.PhraseBehind(q, 2); len(behind) > 1 && eachWords[behind[0]] && behind[0] != "the" && isNoun(behind[1]) {
		return strings.TrimSuffix(behind[1], "s")
	}
	if before := s.PhraseBefore(q, 3); len(before) > 1 && (before[0] == "every" || before[0] == "each" || before[0] == "per") && isNoun(before[1]) {
		return strings.TrimSuffix(before[1], "s")
	}
	return ""
}

// wrongLitreHolds checks how much concentrate a litre of bath holds: “At 4 % v/v a litre of bath holds 45 g of concentrate”, by the strength that the sentence
// says, or that of the tank it names, and the density of the chemistry.
func (p *proof) wrongLitreHolds(a *manual.Article, s *sentence.Sentence) (int, string) {
	if s.Question || s.Has(noWords) || s.Has(oldBaths) || !s.Has(dosed) || !aLitreOf.MatchString(strings.ToLower(s.Text())) {
		return 0, ""
	}
	var share, held *sentence.Quantity
	for i := range s.Quantities {
		switch q := &s.Quantities[i]; {
		case !plain(q):
			return 0, ""
		case q.Kind == quantity.VolumeFraction || q.Kind == quantity.Fraction:
			share = q
		case (q.Kind == quantity.Volume || q.Kind == quantity.Mass) && q.Near == "of" && q.Text != "one litre" && q.Text != "One litre" && q.Range.Low < 1:
			held = q
		case q.Kind != quantity.Volume:
			return 0, ""
		}
	}
	strength := 0.0
	switch t := onlyTank(s); {
	case share != nil:
		strength = share.Range.Low
	case t != nil && t.Strength.Set && t.Strength.Kind == quantity.VolumeFraction:
		strength = t.Strength.Low
	}
	if strength == 0 || held == nil || len(s.Quantities) > 3 {
		return 0, ""
	}
	want := strength * 1e-3
	if held.Kind == quantity.Mass {
		densities := p.densitiesIn(a, s)
		if len(densities) == 0 {
			return 0, ""
		}
		want *= densities[0]
	}
	if off(want, held.Range.Low) <= max(0.06, slackOf(held)) {
		return 0, ""
	}
	return held.From, fmt.Sprintf("A litre holds %s, not %s.", quantity.ShowIn(want, held.Unit), held.Text)
}

// aLitreOf finds a litre of finished bath.
var aLitreOf = regexp.MustCompile(`\b(?:a|one|each|every|per|1) ?(?:litre|liter|l) of (?:the |our |ready |finished |mixed |fresh )*(?:bath|solution|mix|wash)\b`)
