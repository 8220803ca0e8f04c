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

// Sums whose result a word tells: “in all”, “left”, “lower”, “an average of”. What they are worked out from may stand anywhere in the sentence, and not
// all that stands there has a part in it. So a result is called wrong only where nothing that the other amounts of its kind can make explains it:
// their sums and differences, each taken as often as a number of the sentence says.

// wrongTold checks a total, a rest and a difference: “First 60 L, then 4.8 L, then 55.2 L: 120 L in all”, “With 12 kg allowed and a basket of 3 kg,
// 9 kg are left”, “410 W last month, 390 W now: 20 W less”.
func (p *proof) wrongTold(_ *manual.Article, s *sentence.Sentence) (int, string) {
	if s.Question || s.Has(noWords) || s.Has(sharesTold) || s.Block.Kind == sentence.Cell {
		return 0, ""
	}
	for i := range s.Quantities {
		if from, says := wrongList(s, i); says != "" {
			return from, says
		}
		result := &s.Quantities[i]
		if result.Span || result.Range.Low <= 0 || !addable[result.Kind] {
			continue
		}
		before := alikeBefore(s, i)
		switch {
		case isTotal(s, result) && (len(before) > 1 || len(before) == 1 && countOf(s, before[0]) > 1), len(before) == 1 && countOf(s, before[0]) > 1 && thatIs(s, result):
			if reaches(result, before, timesIn(s), []float64{0, 1}) && !missesTotal(s, result, before) {
				continue
			}
			sum := 0.0
			for _, q := range before {
				sum += q.Range.Low * max(1, countOf(s, q))
			}
			return result.From, fmt.Sprintf("Together these are %s, not %s.", quantity.ShowIn(sum, result.Unit), result.Text)
		case isMean(s, result) && len(before) > 1:
			if from, says := wrongAverage(result, before); says != "" {
				return from, says
			}
		case isRest(s, result) && len(before) == 2 && s.Clauses[result.Clause].Mood != sentence.If && !(result.Kind == quantity.Length && s.Has(sideNames)) && !isRest(s, before[0]) && !isRest(s, before[1]):
			if reaches(result, before, timesIn(s), []float64{-1, 0, 1}) {
				continue
			}
			rest := math.Abs(before[0].Range.Low*max(1, countOf(s, before[0])) - before[1].Range.Low*max(1, countOf(s, before[1])))
			return result.From, fmt.Sprintf("Between %s and %s lie %s, not %s.", before[0].Text, before[1].Text, quantity.ShowIn(rest, result.Unit), result.Text)
		}
	}
	return 0, ""
}

// missesTotal tells whether amounts of one unit, written to the tenth or finer, add up to another total than the one that is told, by more than rounding
// takes: 115.2 L and 5.8 L are 121 L and not 120 L.
func missesTotal(s *sentence.Sentence, total *sentence.Quantity, parts []*sentence.Quantity) bool {
	if total.Rough || len(timesIn(s)) > 0 || len(parts) < 2 {
		return false
	}
	sum, fine := 0.0, false
	for _, q := range parts {
		if q.Unit != total.Unit || q.Rough || q.Span || countOf(s, q) > 0 {
			return false
		}
		sum, fine = sum+q.Low.Value, fine || q.Low.Decimals > 0
	}
	diff := math.Abs(sum - total.Low.Value)
	return fine && diff > 0.6*math.Pow(10, -float64(total.Low.Decimals)) && diff > 0.004*sum && diff < 0.2*sum
}

// alikeBefore gives the plain amounts before one that are of its kind.
func alikeBefore(s *sentence.Sentence, i int) []*sentence.Quantity {
	var list []*sentence.Quantity
	for j := range s.Quantities[:i] {
		if q := &s.Quantities[j]; q.Kind == s.Quantities[i].Kind && !q.Span && q.Range.Low > 0 {
			list = append(list, q)
		}
	}
	return list
}

// reaches tells whether a result comes of two amounts or more, or of one several times, each taken with one of the factors or with a number of the
// sentence. Each is as exact as it is written.
func reaches(result *sentence.Quantity, from []*sentence.Quantity, times, factors []float64) bool {
	const most = 5 // amounts; a longer list is left alone
	if len(from) > most {
		return true
	}
	for _, n := range times {
		factors = append(factors, n)
		if factors[0] < 0 {
			factors = append(factors, -n)
		}
	}
	slack := lastFigure(result)/2 + 0.005*result.Range.Low
	for _, q := range from {
		slack += lastFigure(q) / 4
	}
	if result.Rough {
		slack += 0.06 * result.Range.Low
	}
	var try func(k int, sum, used float64) bool
	try = func(k int, sum, used float64) bool {
		if k == len(from) {
			return used > 1 && math.Abs(math.Abs(sum)-result.Range.Low) <= slack
		}
		for _, f := range factors {
			if try(k+1, sum+f*from[k].Range.Low, used+math.Abs(f)) {
				return true
			}
		}
		return false
	}
	return try(0, 0, 0)
}

// lastFigure is what the last figure of an amount stands for, where it is written with decimals; of a whole number it is one, and never more than a
// twentieth of it.
func lastFigure(q *sentence.Quantity) float64 {
	step := math.Pow(10, -float64(q.Low.Decimals)) * math.Abs(q.Unit.ToSI(1)-q.Unit.ToSI(0))
	return min(step, q.Range.Low/20)
}

// timesIn gives the numbers of a sentence that stand without a unit and are in no name.
func timesIn(s *sentence.Sentence) []float64 {
	var list []float64
	for _, t := range s.Tokens() {
		if n := numberOf(t.Text); n > 1 && n < 400 && !t.Amount && !inMention(s, t.From) {
			list = append(list, n)
		}
	}
	return list
}

// inMention tells whether a place is inside a name: “Wash 1”.
func inMention(s *sentence.Sentence, at int) bool {
	for i := range s.Mentions {
		if m := &s.Mentions[i]; m.From <= at && at < m.To {
			return true
		}
	}
	return false
}

// isTotal tells whether an amount is said to be all of several: “120 L in all”, “14 kg together”, “total 3.6 L”, “adds up to 16 kWh”.
func isTotal(s *sentence.Sentence, q *sentence.Quantity) bool {
	behind := s.PhraseBehind(q, 4)
	for i, w := range behind {
		if totalWords[w] && !(i+1 < len(behind) && behind[i+1] == "with") || i > 0 && (w == "all" || w == "total") && behind[i-1] == "in" {
			return true
		}
	}
	before := s.PhraseBefore(q, 4)
	for n := len(before); n > 0 && totalFillers[before[n-1]]; n-- {
		before = before[:n-1]
	}
	n := len(before)
	return n > 0 && (totalWords[before[n-1]] || n > 1 && (before[n-1] == "all" || before[n-1] == "total") && before[n-2] == "in" || n > 1 && before[n-1] == "up" && (before[n-2] == "adds" || before[n-2] == "add") || n > 1 && before[n-1] == "to" && comesUpTo[before[n-2]])
}

// thatIs tells whether “that is” or “which makes” stands before an amount.
func thatIs(s *sentence.Sentence, q *sentence.Quantity) bool {
	before := s.PhraseBefore(q, 3)
	for n := len(before); n > 0 && tellFillers[before[n-1]]; n-- {
		before = before[:n-1]
	}
	n := len(before)
	return n > 1 && (before[n-2] == "that" || before[n-2] == "which") && equalWords[before[n-1]]
}

// isMean tells whether an amount is said to be the mean of others: “on average 6 L a day”.
func isMean(s *sentence.Sentence, q *sentence.Quantity) bool {
	for _, w := range slices.Concat(s.PhraseBefore(q, 3), s.PhraseBehind(q, 3)) {
		if means[w] {
			return true
		}
	}
	return false
}

// wrongAverage checks a mean against the amounts before it, all or some that follow one another.
func wrongAverage(result *sentence.Quantity, before []*sentence.Quantity) (int, string) {
	mean := 0.0
	for from := range before {
		sum := 0.0
		for n, q := range before[from:] {
			sum += q.Range.Low
			v := sum / float64(n+1)
			if n > 0 && off(v, result.Range.Low) <= max(0.03, slackOf(result)) {
				return 0, ""
			}
			if from == 0 {
				mean = v
			}
		}
	}
	return result.From, fmt.Sprintf("The mean of these is %s, not %s.", quantity.ShowIn(mean, result.Unit), result.Text)
}

// wrongList checks a total with its list behind a colon: “The check takes 40 min: 10 min to fill, 20 min to heat, 10 min to read”. Amounts for one case
// or another are no list, nor are such as are far from the total.
func wrongList(s *sentence.Sentence, i int) (int, string) {
	total := &s.Quantities[i]
	if !plain(total) || !addable[total.Kind] || i+2 >= len(s.Quantities) || len(alikeBefore(s, i)) > 0 || !strings.HasSuffix(strings.Join(gap(s, total, &s.Quantities[i+1]), " "), ":") {
		return 0, ""
	}
	if before := s.PhraseBefore(total, 3); !slices.ContainsFunc(before, func(w string) bool { return holdsAll[w] }) {
		return 0, ""
	}
	var parts []*sentence.Quantity
	sum := 0.0
	for j := i + 1; j < len(s.Quantities); j++ {
		q := &s.Quantities[j]
		if q.Kind != total.Kind || !plain(q) || q.Range.Low >= total.Range.Low || caseWords[q.Near] {
			return 0, ""
		}
		parts, sum = append(parts, q), sum+q.Range.Low*max(1, countOf(s, q))
	}
	if off(sum, total.Range.Low) > 0.4 || reaches(total, parts, timesIn(s), []float64{0, 1}) {
		return 0, ""
	}
	return total.From, fmt.Sprintf("The parts make %s, not %s.", quantity.ShowIn(sum, total.Unit), total.Text)
}

var (
	holdsAll  = sentence.Set("takes take lasts last needs need total altogether all holds hold weighs weigh is are costs")
	caseWords = sentence.Set("for if when on or where unless at in with without each a per")
)

// isRest tells whether an amount is what is left of another, or lies between two.
func isRest(s *sentence.Sentence, q *sentence.Quantity) bool {
	before := s.PhraseBefore(q, 2)
	if len(before) > 0 && subtracts[before[0]] || len(before) > 1 && subtracts[before[1]] {
		return false
	}
	for _, w := range s.PhraseBehind(q, 3) {
		if restWords[w] {
			return true
		}
	}
	for _, w := range before {
		if restBefore[w] {
			return true
		}
	}
	return false
}

var (
	totalWords   = sentence.Set("hook gross together altogether total sum totals totalling")
	totalFillers = sentence.Set("of : is are about makes make a the")
	restWords    = sentence.Set("left remain remains remaining over lower less lighter heavier higher shorter longer gone lost used missing difference apart")
	restBefore   = sentence.Set("remaining used difference net rest leaves leaving lost")
	subtracts    = sentence.Set("less minus without")
	// sharesTold are words of a part of an amount, which is not worked out here.
	sharesTold = sentence.Set("half third quarter fifth tenth twice double per each every an about than")
)
