package rules

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"tankside/builder/expression"
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sentence"
)

// wrongPrice checks what an amount costs at a price: “9 kWh at 0.28 EUR are 2.52 EUR”.
func (p *proof) wrongPrice(_ *manual.Article, s *sentence.Sentence) (int, string) {
	if len(s.Quantities) != 1 || s.Question || !hasSign(s.Text(), "EUR", "euro", "€") || s.Has(noWords) || s.Has(multiples) {
		return 0, ""
	}
	prices := priceOf.FindAllStringSubmatchIndex(s.Block.Text[s.From:s.To], 3)
	if len(prices) != 2 || hasShare(s.AllWords()) {
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

// wrongPriceOfUnit checks what an amount, or the fill of a tank, costs at a price for each unit: “The concentrate costs 6 EUR a litre, so a fill of 4.8 L
// costs 28.80 EUR”.
func (p *proof) wrongPriceOfUnit(_ *manual.Article, s *sentence.Sentence) (int, string) {
	if len(s.Quantities) > 1 || s.Question || !hasSign(s.Text(), "EUR", "euro", "€") || s.Has(noWords) || s.Has(multiples) || hasShare(s.AllWords()) || s.Block.Kind == sentence.Cell {
		return 0, ""
	}
	prices := moneyIn(s)
	if len(prices) != 2 || prices[0].each.size == 0 && !prices[0].at || prices[1].each.size > 0 || !prices[1].told {
		return 0, ""
	}
	amount, text := 0.0, ""
	switch t := onlyTank(s); {
	case len(s.Quantities) == 1 && plain(&s.Quantities[0]):
		q := &s.Quantities[0]
		if text = q.Text; prices[0].each.size == 0 {
			amount = q.Low.Value
		} else if q.Kind == prices[0].each.kind {
			amount = q.Range.Low / prices[0].each.size
		}
	case t != nil && s.Has(fillWord) && t.Volume.Set && t.Strength.Set && t.Strength.Kind == quantity.VolumeFraction && prices[0].each.kind == quantity.Volume && prices[0].each.size > 0:
		dose := t.Volume.Low * t.Strength.Low
		amount, text = dose/prices[0].each.size, quantity.Show(dose, quantity.Volume, p.Shop.System())
	}
	want, cost := amount*prices[0].value, prices[1].value
	if amount == 0 || math.Abs(want-cost) <= max(0.03*want, prices[1].slack) || slices.ContainsFunc(timesIn(s), func(n float64) bool { return math.Abs(n*want-cost) <= max(0.03*n*want, prices[1].slack) }) {
		return 0, ""
	}
	return prices[1].from, fmt.Sprintf("%s at that price cost %.2f, not %.2f.", text, want, cost)
}

// money is a sum of euros in a sentence.
type money struct {
	value, slack float64
	each         unitOf // for what unit it is told
	at, told     bool   // “at” stands before it; a word that tells a result does
	from         int
}

// moneyIn gives the sums of euros in a sentence, in their order.
func moneyIn(s *sentence.Sentence) []money {
	text := s.Block.Text[s.From:s.To]
	var list []money
	for _, m := range moneyOf.FindAllStringSubmatchIndex(text, 4) {
		figures := m[2:4]
		if figures[0] < 0 {
			figures = m[4:6]
		}
		figure := text[figures[0]:figures[1]]
		one := money{value: floatOf(figure), slack: 0.02, from: s.From + m[0]}
		if !strings.Contains(figure, ".") {
			one.slack = 0.5
		}
		if behind := wordsBehind(s, s.From+m[1], 2); len(behind) > 1 && eachWords[behind[0]] {
			one.each = unitWords[strings.TrimSuffix(behind[1], "s")]
		}
		before := words(s, s.From, one.from)
		for n := len(before); n > 0 && tellFillers[before[n-1]]; n-- {
			before = before[:n-1]
		}
		if n := len(before); n > 0 {
			one.at, one.told = before[n-1] == "at" || before[n-1] == "×", tells[before[n-1]] || costWords[before[n-1]]
		}
		list = append(list, one)
	}
	return list
}

var (
	fillWord  = sentence.Set("fill charge")
	moneyOf   = expression.Of(`(?:EUR|€) ?(\d+(?:\.\d+)?)|(\d+(?:\.\d+)?) ?(?:EUR|euros?|€)`)
	priceOf   = expression.Of(`(\d+(?:\.\d+)?) ?(?:EUR|euros?|€)`)
	costWords = sentence.Set("cost costs to")
)
