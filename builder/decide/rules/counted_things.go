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

// wrongCounted checks sums of things that are counted: “200 nuts in four trays of 50”, “240 nuts in trays of 60 are four trays”, “Six loads an hour for
// 8 hours make 48 loads”, “A tray of 50 nuts weighs 2 kg, so four trays weigh 8 kg”, “Of ten foils nine were pitted, which is 90 %”.
func (p *proof) wrongCounted(_ *manual.Article, s *sentence.Sentence) (int, string) {
	if s.Question || s.Has(noWords) || s.Block.Kind == sentence.Cell {
		return 0, ""
	}
	list := thingsIn(s)
	for _, check := range []func(*sentence.Sentence, []thing) (int, string){wrongTrays, wrongPace, wrongOfCount, wrongSoMany} {
		if from, says := check(s, list); says != "" {
			return from, says
		}
	}
	return 0, ""
}

// thing is a word of a sentence with the number that stands before it, and “a” as one; 0 where it is not counted.
type thing struct {
	n      float64
	word   string // without the s of several
	before string // the word before the number
	from   int    // byte of the number in the block's text
}

// thingsIn gives what is counted in a sentence, in its order.
func thingsIn(s *sentence.Sentence) []thing {
	var list []thing
	tokens := s.Tokens()
	for i := 0; i+1 < len(tokens); i++ {
		n := numberOf(tokens[i].Text)
		if tokens[i].Text == "a" || tokens[i].Text == "an" || tokens[i].Text == "each" || tokens[i].Text == "every" {
			n = 1
		}
		if n == 0 || tokens[i].Amount || inMention(s, tokens[i].From) {
			continue
		}
		before := ""
		if i > 0 {
			before = tokens[i-1].Text
		}
		w := tokens[i+1].Text
		if !isNoun(w) {
			w = ""
		}
		list = append(list, thing{n: n, word: strings.TrimSuffix(w, "s"), before: before, from: tokens[i].From})
	}
	return list
}

// isNoun tells whether a word behind a number can be what is counted.
func isNoun(w string) bool {
	return fillNouns[w] || len(w) > 2 && w[0] >= 'a' && w[0] <= 'z' && !parted[w] && !tells[w] && !joinsTwo[w]
}

// wrongTrays checks things that are parted among others: “200 nuts in four trays of 50”, “240 nuts in trays of 60 are four trays”.
func wrongTrays(s *sentence.Sentence, list []thing) (int, string) {
	if len(s.Quantities) == 2 && len(list) > 0 {
		return wrongBags(s, list[len(list)-1])
	}
	if len(s.Quantities) > 0 || len(list) != 3 || list[0].word == "" {
		return 0, ""
	}
	all, second, third := list[0], list[1], list[2]
	switch {
	case second.before == "in" && third.before == "of" && second.word != "" && endsWith(s, third):
		if all.n == second.n*third.n {
			return 0, ""
		}
		return third.from, fmt.Sprintf("%g times %g are %g, not %g.", second.n, third.n, second.n*third.n, all.n)
	case second.before == "of" && third.word != "" && (tells[third.before] || tellFillers[third.before]) && boxedIn(s, second, third.word):
		if want := all.n / second.n; third.n == want || third.n == math.Ceil(want) {
			return 0, ""
		}
		return third.from, fmt.Sprintf("%g at %g each are %s %ss, not %g.", all.n, second.n, plainFigure(all.n/second.n), third.word, third.n)
	}
	return 0, ""
}

// wrongBags checks an amount that is parted among others: “25 kg in bags of 500 g are 50 bags”.
func wrongBags(s *sentence.Sentence, bags thing) (int, string) {
	all, one := &s.Quantities[0], &s.Quantities[1]
	between := words(s, all.To, one.From)
	n := len(between)
	if all.Kind != one.Kind || !addable[all.Kind] || !plain(all) || !plain(one) || bags.from < one.To || bags.word == "" || !tells[bags.before] || n < 3 || between[n-1] != "of" || strings.TrimSuffix(between[n-2], "s") != bags.word || between[n-3] != "in" {
		return 0, ""
	}
	if want := all.Range.Low / one.Range.Low; math.Abs(want-bags.n) >= 1 {
		return bags.from, fmt.Sprintf("%s at %s each are %s, not %g.", all.Text, one.Text, plainFigure(want), bags.n)
	}
	return 0, ""
}

// endsWith tells whether a sentence ends with a number, or with it and its noun.
func endsWith(s *sentence.Sentence, t thing) bool {
	rest := words(s, t.from, s.To)
	return len(rest) == 1 || len(rest) == 2 && strings.HasSuffix(rest[1], ".")
}

// boxedIn tells whether “in WORDs of” stands before a number.
func boxedIn(s *sentence.Sentence, t thing, word string) bool {
	list := words(s, s.From, t.from)
	n := len(list)
	return n > 3 && list[n-1] == "of" && strings.TrimSuffix(list[n-2], "s") == word && list[n-3] == "in"
}

// wrongPace checks how many there are in a time: “Six loads an hour for 8 hours make 48 loads”, “A load every 10 min is six loads an hour”.
func wrongPace(s *sentence.Sentence, list []thing) (int, string) {
	if len(list) < 2 || list[0].word == "" || len(s.Quantities) > 1 || s.Has(otherProducts) {
		return 0, ""
	}
	per, last := 0.0, thing{}
	for _, t := range list[1:] {
		if u := unitWords[t.word]; t.n == 1 && u.kind == quantity.Time {
			if per > 0 {
				return 0, ""
			}
			per = u.size
			continue
		}
		if tells[t.before] || tellFillers[t.before] {
			last = t
		}
	}
	time := shiftTime(s)
	if len(s.Quantities) == 1 {
		time = s.Quantities[0].Range.Low
	}
	if per == 0 || last.n == 0 || time <= 0 || last.word != "" && last.word != list[0].word || len(s.Quantities) == 1 && (s.Quantities[0].Kind != quantity.Time || !plain(&s.Quantities[0])) {
		return 0, ""
	}
	want := list[0].n * time / per
	if len(s.Quantities) == 1 && precededBy(s, &s.Quantities[0], "every") {
		want = list[0].n * per / time
	}
	if math.Abs(want-last.n) < 1 {
		return 0, ""
	}
	return last.from, fmt.Sprintf("That makes %s, not %g.", plainFigure(want), last.n)
}

// shiftTime gives the seconds of “an eight-hour shift”, or 0.
func shiftTime(s *sentence.Sentence) float64 {
	for _, t := range s.Tokens() {
		if n, ok := strings.CutSuffix(t.Text, "-hour"); ok {
			return numberOf(n) * 3600
		}
	}
	return 0
}

// wrongOfCount checks a per cent of things that are counted: “Of ten foils nine were pitted, which is 90 %”.
func wrongOfCount(s *sentence.Sentence, list []thing) (int, string) {
	if len(s.Quantities) != 1 || len(list) != 2 {
		return 0, ""
	}
	q := &s.Quantities[0]
	all, some := list[0], list[1]
	if all.before != "of" {
		all, some = some, all
	}
	if all.before != "of" || all.n < some.n || q.Kind != quantity.Fraction && q.Kind != quantity.VolumeFraction || !plain(q) {
		return 0, ""
	}
	before := s.PhraseBefore(q, 2)
	if n := len(before); n == 0 || !tells[before[n-1]] && before[n-1] != "," && before[n-1] != "or" && before[n-1] != ":" {
		return 0, ""
	}
	want := some.n / all.n
	step := max(0.006, 0.04*q.Range.Low)
	if math.Abs(want-q.Range.Low) <= step || math.Abs(1-want-q.Range.Low) <= step {
		return 0, ""
	}
	return q.From, fmt.Sprintf("%g of %g are %s, not %s.", some.n, all.n, quantity.ShowIn(want, q.Unit), q.Text)
}

// wrongSoMany checks what several weigh, hold or take by what one does: “A tray of 50 nuts weighs 2 kg, so four trays weigh 8 kg”.
func wrongSoMany(s *sentence.Sentence, list []thing) (int, string) {
	if len(s.Quantities) != 2 {
		return 0, ""
	}
	one, two := &s.Quantities[0], &s.Quantities[1]
	between := words(s, one.To, two.From)
	if one.Kind != two.Kind || !plain(one) || !plain(two) || one.Kind == quantity.Temperature || !endsTelling(between, nil, two) || !slices.Contains(between, "so") {
		return 0, ""
	}
	told := strings.HasPrefix(strings.Trim(strings.Join(between, " "), ", ;"), "so ")
	for _, many := range list {
		if many.from < one.To || many.from > two.From || many.word == "" || !told && many.before != "so" || many.before == "its" || many.before == "the" {
			continue
		}
		for _, few := range list {
			if few.from > one.From || few.word != many.word {
				continue
			}
			want := one.Range.Low * many.n / few.n
			if off(want, two.Range.Low) <= slackOf(two) || off(one.Range.Low*few.n/many.n, two.Range.Low) <= slackOf(two) {
				return 0, ""
			}
			return two.From, fmt.Sprintf("%g times %s is %s, not %s.", many.n/few.n, one.Text, quantity.ShowIn(want, two.Unit), two.Text)
		}
	}
	return 0, ""
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
		if t.word == word && t.n > 1 && t.before != "its" {
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
	behind := s.PhraseBehind(q, 3)
	if len(behind) == 3 && (behind[0] == "to" || behind[0] == "for") && (behind[1] == "each" || behind[1] == "every") {
		behind = behind[1:]
	}
	if len(behind) > 1 && eachWords[behind[0]] && behind[0] != "the" && isNoun(behind[1]) {
		return strings.TrimSuffix(behind[1], "s")
	}
	if before := s.PhraseBefore(q, 3); len(before) > 1 && (before[0] == "every" || before[0] == "each" || before[0] == "per") && isNoun(before[1]) && !tells[before[len(before)-1]] {
		return strings.TrimSuffix(before[1], "s")
	}
	return ""
}
