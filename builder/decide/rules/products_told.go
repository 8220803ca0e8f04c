package rules

import (
	"fmt"
	"slices"
	"strings"

	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sentence"
)

// wrongProduct checks three amounts of which one is the product of the two others, where the last of them is told: “A shift of 8 h at 4 L/min takes
// 1920 L”, “5 % w/v is 2 kg in 40 L”, “At 6 L/min the 120 L are in after 20 min”.
func (p *proof) wrongProduct(a *manual.Article, s *sentence.Sentence) (int, string) {
	q := s.Quantities
	if len(q) == 6 && partsAt(s, &q[2], &q[3]) { // two sums in one sentence
		for _, half := range [][]sentence.Quantity{q[:3], q[3:]} {
			one := *s
			one.Quantities = half
			if from, says := p.wrongProduct(a, &one); says != "" {
				return from, says
			}
		}
		return 0, ""
	}
	if len(q) < 2 || len(q) > 3 || s.Question || s.Has(otherProducts) || s.Has(noWords) || hasShare(s.AllWords()) {
		return 0, ""
	}
	by := map[quantity.Kind]*sentence.Quantity{}
	for i := range q {
		c := &s.Clauses[q[i].Clause]
		if !plain(&q[i]) && !overTime(&q[i]) || by[q[i].Kind] != nil || c.Mood == sentence.If && onlyWhere[c.Opener] || c.Mood == sentence.Was {
			return 0, ""
		}
		by[q[i].Kind] = &q[i]
	}
	for _, x := range products {
		one, two, three := by[x[0]], by[x[1]], by[x[2]]
		if one == nil || three == nil {
			continue
		}
		second, text := 0.0, ""
		switch t := onlyTank(s); {
		case two != nil && len(q) == 3 && tellsProduct(s):
			second, text = two.Range.Low, two.Text
		case two == nil && x[1] == quantity.Volume && len(q) == 2 && (x[0] == quantity.PowerDensity || x[0] == quantity.MassConcentration) && t != nil && t.Volume.Set && (s.Has(results) || s.Has(colon)):
			second, text = t.Volume.Low, t.Volume.In(p.Shop.System())
		}
		if second == 0 {
			continue
		}
		if want := one.Range.Low * second; off(want, three.Range.Low) > max(slackOf(three, one, two), slackOf(&q[len(q)-1])) && !timesOver(s, want, three) {
			return three.From, fmt.Sprintf("%s × %s is %s, not %s.", one.Text, text, quantity.ShowIn(want, three.Unit), three.Text)
		}
	}
	return 0, ""
}

// overTime tells whether an amount is a time that something goes on for: “over eight hours” says no more than that.
func overTime(q *sentence.Quantity) bool {
	return q.Kind == quantity.Time && q.Relation == sentence.Above && !q.Span
}

// partsAt tells whether a sentence begins anew between two amounts: “, and”, “;”.
func partsAt(s *sentence.Sentence, one, two *sentence.Quantity) bool {
	text := strings.TrimSpace(s.Block.Text[one.To:two.From])
	return text == ", and" || text == ";" || text == "; and" || text == ", but"
}

// hasShare tells whether words such as “a fifth” or “quarters” are among those of a sentence.
func hasShare(list []string) bool {
	for _, w := range list {
		if w = strings.Trim(w, ".,;:"); shares[w] > 0 || sharesOf[w] > 0 {
			return true
		}
	}
	return false
}

// timesOver tells whether an amount is another as many times as a number of the sentence says, or such a part of it.
func timesOver(s *sentence.Sentence, one float64, result *sentence.Quantity) bool {
	for _, n := range timesIn(s) {
		if off(n*one, result.Range.Low) <= slackOf(result) || off(one/n, result.Range.Low) <= slackOf(result) {
			return true
		}
	}
	return false
}

// tellsProduct tells whether one of three amounts is told as what comes of the two others.
func tellsProduct(s *sentence.Sentence) bool {
	q := s.Quantities
	first, second := gap(s, &q[0], &q[1]), gap(s, &q[1], &q[2])
	if parts := strings.Join(slices.Concat(first, second), " "); strings.Contains(parts, ";") || strings.Contains(parts, "than") {
		return false
	}
	switch {
	case endsTelling(second, first, &q[2]):
		return true
	case endsTelling(first, nil, &q[1]) || s.Has(results) && joinsProduct(words(s, q[0].To, q[1].From)):
		return joinsProduct(words(s, q[1].To, q[2].From))
	}
	return false
}

// gap gives the words between two amounts without those at the end that say nothing.
func gap(s *sentence.Sentence, one, two *sentence.Quantity) []string {
	list := words(s, one.To, two.From)
	for n := len(list); n > 0 && (tellFillers[list[n-1]] && list[n-1] != "in" || list[n-1] == "out"); n-- {
		list = list[:n-1]
	}
	return list
}

// endsTelling tells whether the words before an amount say that it is a result: “takes”, “shift:”, “are in after”. What the sentence does may stand
// before the amount in front of it: “renews the 90 L once in”.
func endsTelling(list, before []string, result *sentence.Quantity) bool {
	n := len(list)
	if n == 0 || n > 16 {
		return false
	}
	last := list[n-1]
	if n > 1 && last == "to" && (comesUpTo[list[n-2]] || list[n-2] == "up") {
		return true
	}
	if n > 1 && last == "for" && (list[n-2] == "stand" || list[n-2] == "stands") {
		return true
	}
	if tells[last] || tellsAmount[last] || strings.HasSuffix(last, ":") {
		return true
	}
	if result.Kind != quantity.Time || !afterWhat[last] {
		return false
	}
	for _, w := range slices.Concat(before, list[:n-1]) {
		if comesToPass[w] {
			return true
		}
	}
	return false
}

// joinsProduct tells whether the words between two amounts only join them: “of powder in”, “for each”.
func joinsProduct(list []string) bool {
	if len(list) == 0 || len(list) > 5 {
		return false
	}
	for _, w := range list {
		if w = strings.Trim(w, ","); w != "" && !joinsTwo[w] && !ofTwo[w] && !concentrates[w] && !joinsAlso[w] {
			return false
		}
	}
	return true
}

var (
	// otherProducts are words of a sentence in which more is reckoned than one product.
	otherProducts = sentence.Set("duty twice evaporation evaporates leak more less sample titrant lots parts found weak replace overflow tops top cautious")

	tellsAmount = sentence.Set("weigh add dissolve stir measure pour mix runs run costs wants gets brings take takes")
	afterWhat   = sentence.Set("in after within for every")
	comesToPass = sentence.Set("is are full filled fills fill last lasts renews renewed changed changes change turns flows empties empty done through takes run runs turned turns replaced replaces exchanged swapped emptied drained pumped heated")
	comesUpTo   = sentence.Set("come comes amount amounts fill fills")
	onlyWhere   = sentence.Set("if when unless until whenever before without while")
	joinsAlso   = sentence.Set("to into powder crystals water flakes solution fill tank flow rinse drum shift with day week load an hour minute litre centimetre millimetre")
)
