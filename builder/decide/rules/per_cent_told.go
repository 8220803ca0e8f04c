package rules

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sentence"
)

// wrongPerCentTold checks a per cent of two amounts: “The lid saves 1.8 kWh of 9 kWh, which is 20 %”, “410 W last month, 390 W now, a loss of 5 %”,
// “28 L is 23 % of 120 L”. Which of the two is the whole is not always said, so any share that they make explains it.
func (p *proof) wrongPerCentTold(_ *manual.Article, s *sentence.Sentence) (int, string) {
	if s.Question || s.Has(noWords) || s.Has(sharesTold) && !s.Has(lowOrHigh) && !s.Has(thanWord) || s.Block.Kind == sentence.Cell || len(s.Quantities) < 3 || len(s.Quantities) > 4 {
		return 0, ""
	}
	for i := range s.Quantities {
		share := &s.Quantities[i]
		if share.Kind != quantity.Fraction && share.Kind != quantity.VolumeFraction || !plain(share) && share.Relation != sentence.Difference || strings.HasPrefix(share.Text, "1:") {
			continue
		}
		one, two := pairFor(s, i)
		if one == nil || one.Kind == quantity.Temperature || !sharesAmounts(s, one, two, share) {
			continue
		}
		a, b := one.Range.Low, two.Range.Low
		if one.Kind == share.Kind && off(math.Abs(a-b), share.Range.Low) <= slackOf(share) {
			continue
		}
		slack := max(0.55*math.Pow(10, -float64(share.Low.Decimals))/100, 0.07*share.Range.Low)
		if share.Rough {
			slack *= 2
		}
		if slices.ContainsFunc([]float64{a / b, b / a, math.Abs(a-b) / a, math.Abs(a-b) / b, a / (a + b), b / (a + b)}, func(v float64) bool { return math.Abs(v-share.Range.Low) <= slack }) {
			continue
		}
		return share.From, fmt.Sprintf("%s and %s make no %s: the one is %s of the other.", one.Text, two.Text, share.Text, quantity.ShowIn(min(a/b, b/a), share.Unit))
	}
	return 0, ""
}

// pairFor gives the two amounts of one kind of which a per cent may be told; nil where there are more. A third that is their difference is none more.
func pairFor(s *sentence.Sentence, share int) (one, two *sentence.Quantity) {
	var list []*sentence.Quantity
	for i := range s.Quantities {
		q := &s.Quantities[i]
		if i != share && q.Kind == s.Quantities[share].Kind && len(list) > 0 && q.Kind != list[0].Kind {
			return nil, nil // another per cent
		}
		if i != share && !q.Span && q.Range.Low > 0 && (len(list) == 0 || q.Kind == list[0].Kind) {
			list = append(list, q)
		}
	}
	if len(list) == 3 && len(s.Quantities) == 4 && off(math.Abs(list[0].Range.Low-list[1].Range.Low), list[2].Range.Low) <= slackOf(list[2]) {
		list = list[:2]
	}
	if len(list) != 2 || len(s.Quantities) > 4 {
		return nil, nil
	}
	return list[0], list[1]
}

// sharesAmounts tells whether a per cent is said to be what two amounts make of one another.
func sharesAmounts(s *sentence.Sentence, one, two, share *sentence.Quantity) bool {
	switch {
	case share.From > one.To && share.To < two.From: // “28 L is 23 % of 120 L”
		behind := words(s, share.To, two.From)
		return endsTelling(gap(s, one, share), nil, share) && (isOf(behind) || len(behind) > 0 && len(behind) < 5 && lowOrHigh[behind[0]] || len(behind) == 1 && (behind[0] == "under" || behind[0] == "over"))
	case share.From < two.To:
		return false
	case isOf(words(s, one.To, two.From)) && one.Kind == share.Kind:
		return false // “2 % of a 5 % bath is 0.1 %” is a product
	case isOf(words(s, one.To, two.From)):
		list := gap(s, two, share)
		n := len(list)
		return n > 0 && n < 7 && (tells[list[n-1]] || strings.HasSuffix(list[n-1], ":") || list[n-1] == "or" || list[n-1] == ",")
	}
	behind, before := s.PhraseBehind(share, 3), s.PhraseBefore(share, 3)
	if slices.Contains(behind, "than") || slices.Contains(behind, "of") {
		return false
	}
	return len(behind) > 0 && lowOrHigh[behind[0]] || len(before) > 1 && changeNouns[before[len(before)-2]] && (before[len(before)-1] == "of" || before[len(before)-1] == "by") || len(before) > 0 && (before[len(before)-1] == "by" && len(before) > 1 || before[len(before)-1] == "minus")
}

var thanWord = sentence.Set("than")

// isOf tells whether two amounts are joined as part and whole: “of”, “of the”, “out of”.
func isOf(list []string) bool {
	if len(list) > 0 && list[0] == "out" {
		list = list[1:]
	}
	return len(list) > 0 && len(list) < 4 && list[0] == "of" && !slices.ContainsFunc(list[1:], func(w string) bool { return !ofTwo[w] && w != "full" && w != "whole" })
}

// changeNouns are words of a change that a per cent tells: “a loss of 5 %”.
var changeNouns = sentence.Set("loss drop fall gain rise saving increase decrease reduction down up fell dropped rose grew shrank")
