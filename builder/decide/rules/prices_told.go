package rules

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"tankside/builder/expression"
	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// wrongPrice checks what an amount costs at a price: “9 kWh at 0.28 EUR are 2.52 EUR”.
func (p *proof) wrongPrice(_ *manual.Article, s *sentence.Sentence) (int, string) {
	if len(s.Quantities) != 1 || s.Question || s.Has(noWords) || s.Has(multiples) {
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

var (
	priceOf   = expression.Of(`(\d+(?:\.\d+)?) ?(?:EUR|euros?|€)`)
	costWords = sentence.Set("cost costs to")
)
