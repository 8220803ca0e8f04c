package rules

import (
	"fmt"
	"math"
	"strings"

	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sentence"
)

// wrongMean checks the mean of readings: “Three samples read 9.8, 10.0 and 10.2 mL; their mean is 10.0 mL”.
func (p *proof) wrongMean(_ *manual.Article, s *sentence.Sentence) (int, string) {
	if !s.Has(means) || len(s.Quantities) == 0 || s.Question || s.Has(noWords) {
		return 0, ""
	}
	var before []sentence.Term
	named, is, of := false, false, false
	for _, t := range s.Arithmetic() {
		text := strings.ToLower(s.Block.Text[t.From:t.To])
		switch {
		case t.Number && (!named || of && !is):
			before = append(before, t)
		case means[text]:
			of = len(before) == 0 && s.Has(ofWord) // “The mean of 3.8 %, 4.0 % and 4.2 % is 4.0 %”
			named = of || len(before) > 1
		case named && !is && (equalWords[text] || !of && text == "of"):
			is = len(before) > 1
		case t.Number && is:
			return meanOf(s, before, t)
		case named && t.Number, is:
			return 0, ""
		}
	}
	return 0, ""
}

// meanOf compares the mean of the readings that stand together before it with what is said; the last of them has the unit.
func meanOf(s *sentence.Sentence, readings []sentence.Term, mean sentence.Term) (int, string) {
	from := len(readings) - 1
	for from > 0 && joinsReadings(s.Block.Text[readings[from-1].To:readings[from].From]) {
		from--
	}
	readings = readings[max(0, from):]
	if len(readings) < 2 || readings[len(readings)-1].Unit != mean.Unit || mean.Percent != readings[len(readings)-1].Percent {
		return 0, ""
	}
	sum, low, high := 0.0, math.Inf(1), math.Inf(-1)
	for _, r := range readings {
		sum, low, high = sum+r.Value, min(low, r.Value), max(high, r.Value)
	}
	want := sum / float64(len(readings))
	step := 0.6 * math.Pow(10, -float64(mean.Decimals))
	if math.Abs(want-mean.Value) <= max(step, 0.02*want) || mean.Value >= low && mean.Value <= high && len(readings) == 2 && math.Abs(want-mean.Value) < 0.1*(high-low) {
		return 0, ""
	}
	return mean.From, fmt.Sprintf("The mean of these is %s.", plainFigure(want))
}

func joinsReadings(between string) bool {
	switch strings.TrimSpace(between) {
	case ",", "and", ", and":
		return true
	}
	return false
}

// wrongRatioShare checks a ratio and the per cent that it is said to be: “1:20 is 4.8 %”, by parts of concentrate to parts of water or of bath.
func (p *proof) wrongRatioShare(_ *manual.Article, s *sentence.Sentence) (int, string) {
	for i := 0; i+1 < len(s.Quantities); i++ {
		one, two := &s.Quantities[i], &s.Quantities[i+1]
		if n := len(s.Quantities); strings.HasPrefix(one.Text, "1:") && n > i+2 && s.Quantities[n-1].Kind != quantity.Volume {
			two = &s.Quantities[n-1] // “1:9 means one litre and nine litres, so it is 10 %”
		}
		if one.Kind == quantity.VolumeFraction && !strings.HasPrefix(one.Text, "1:") && !strings.Contains(one.Unit.Symbol, "%") && plain(one) && two.Kind == quantity.Fraction && plain(two) && isWord(words(s, one.To, two.From)) && !s.Has(noWords) {
			if v := one.Range.Low; off(v, two.Range.Low) > slackOf(two) && off(v/(1+v), two.Range.Low) > slackOf(two) {
				return two.From, fmt.Sprintf("%s is %s, not %s.", one.Text, quantity.ShowIn(v, two.Unit), two.Text)
			}
			continue
		}
		if !strings.HasPrefix(one.Text, "1:") || two.Kind != quantity.Fraction && two.Kind != quantity.VolumeFraction || two.Span || strings.HasPrefix(two.Text, "1:") || !isWord(words(s, one.To, two.From)) && !soItIs(words(s, one.To, two.From)) || s.Has(noWords) {
			continue
		}
		n := one.Low.Value
		if n < 2 {
			continue
		}
		if off(1/n, two.Range.Low) <= slackOf(two) || off(1/(n+1), two.Range.Low) <= slackOf(two) {
			continue
		}
		return two.From, fmt.Sprintf("%s is %s, or %s by parts of water, not %s.", one.Text, quantity.ShowIn(1/n, two.Unit), quantity.ShowIn(1/(n+1), two.Unit), two.Text)
	}
	return 0, ""
}

// soItIs tells whether what stands between a ratio and a per cent ends with “so it is” or “so that is”.
func soItIs(between []string) bool {
	n := len(between)
	return n > 2 && n < 12 && equalWords[between[n-1]] && between[n-3] == "so" || n > 1 && n < 12 && between[n-2] == "which" && equalWords[between[n-1]]
}

// wrongShareOfTank checks a per cent of a tank's bath and its litres: “10 % of Wash 1 is 12 L”, “ten per cent of the bath, 12 L in Wash 1”.
func (p *proof) wrongShareOfTank(_ *manual.Article, s *sentence.Sentence) (int, string) {
	t := onlyTank(s)
	if t == nil || !t.Volume.Set || len(s.Quantities) != 2 || s.Has(concentrates) {
		return 0, ""
	}
	share, litres := &s.Quantities[0], &s.Quantities[1]
	if share.Kind != quantity.Fraction || share.Near != "of" || litres.Kind != quantity.Volume || share.Span || litres.Span || share.Relation == sentence.Difference {
		return 0, ""
	}
	between := words(s, share.To, litres.From)
	if len(between) < 3 || len(between) > 5 || between[0] != "of" {
		return 0, ""
	}
	last := between[len(between)-1]
	inTank := strings.HasSuffix(last, ",") && (isBathWord(strings.Trim(last, ","))) && litres.Near == "in"
	if !inTank && !(equalWords[last] && (isBathWord(between[len(between)-2]) || strings.Contains(strings.Join(between, " "), strings.ToLower(t.Name)))) {
		return 0, ""
	}
	want := share.Range.Low * t.Volume.Low
	if off(want, litres.Range.Low) <= slackOf(litres, share) {
		return 0, ""
	}
	return litres.From, fmt.Sprintf("%s of %s is %s, not %s.", share.Text, t.Volume.In(p.Shop.System()), quantity.ShowIn(want, litres.Unit), litres.Text)
}

// wrongLitre checks “A litre of concentrate to 20 L makes 5 %”: the litre is said in words.
func (p *proof) wrongLitre(_ *manual.Article, s *sentence.Sentence) (int, string) {
	if len(s.Quantities) != 2 || s.Has(oldBaths) || s.Question || s.Has(noWords) {
		return 0, ""
	}
	whole, share := &s.Quantities[0], &s.Quantities[1]
	if whole.Kind != quantity.Volume || share.Kind != quantity.Fraction && share.Kind != quantity.VolumeFraction || whole.Span || share.Span || share.Range.Low <= 0 {
		return 0, ""
	}
	part := litreOf(words(s, s.From, whole.From))
	if part == 0 || !makesStrength(words(s, whole.To, share.From)) {
		return 0, ""
	}
	v := whole.Range.Low
	if off(part/v, share.Range.Low) <= slackOf(share, whole) || off(part/(part+v), share.Range.Low) <= slackOf(share, whole) {
		return 0, ""
	}
	return share.From, fmt.Sprintf("That makes %s, not %s.", quantity.ShowIn(part/v, share.Unit), share.Text)
}

// litreOf gives the cubic metres of “A litre of concentrate to” and “half a litre of detergent in”, or 0.
func litreOf(list []string) float64 {
	part := 1e-3
	if len(list) > 0 && list[0] == "half" {
		list, part = list[1:], 0.5e-3
	}
	if len(list) < 5 || list[0] != "a" && list[0] != "one" || list[1] != "litre" || list[2] != "of" || !dilutedIn[list[len(list)-1]] || len(list) > 7 {
		return 0
	}
	for _, w := range list[3 : len(list)-1] {
		if concentrates[w] {
			return part
		}
	}
	return 0
}

// makesStrength tells whether only words such as “of water makes” stand between a volume and its strength.
func makesStrength(list []string) bool {
	if len(list) == 0 || len(list) > 5 {
		return false
	}
	last := list[len(list)-1]
	if (last == "about" || last == "a" || last == "to") && len(list) > 1 {
		last = list[len(list)-2]
	}
	return equalWords[last] || last == "gives" || last == "comes"
}

var (
	means     = sentence.Set("mean average")
	dilutedIn = sentence.Set("to in on for into per")
)

// wrongFromTo checks what lies between two amounts: “From 90 L to 120 L there are 30 L to fill”.
func (p *proof) wrongFromTo(_ *manual.Article, s *sentence.Sentence) (int, string) {
	if len(s.Quantities) == 2 && s.Quantities[0].Span {
		return wrongSpan(s)
	}
	for i := 0; i+2 < len(s.Quantities); i++ {
		one, two, sum := &s.Quantities[i], &s.Quantities[i+1], &s.Quantities[i+2]
		if one.Kind != two.Kind || two.Kind != sum.Kind || !addable[sum.Kind] || one.Span || two.Span || !plain(sum) && sum.Relation != sentence.Difference || s.Has(noWords) {
			continue
		}
		if b := words(s, s.From, one.From); len(b) == 0 || b[len(b)-1] != "from" || !isOne(words(s, one.To, two.From), "to") {
			continue
		}
		between := words(s, two.To, sum.From)
		if len(between) == 0 || len(between) > 4 || !fromToTells[strings.Trim(between[len(between)-1], ",")] {
			continue
		}
		if sum.Near == "of" && s.Has(concentrates) {
			continue // what the fill takes of something, not what is filled
		}
		if want := math.Abs(two.Range.Low - one.Range.Low); off(want, sum.Range.Low) > slackOf(sum, one, two) {
			return sum.From, fmt.Sprintf("From %s to %s is %s, not %s.", one.Text, two.Text, quantity.ShowIn(want, sum.Unit), sum.Text)
		}
	}
	return 0, ""
}

// wrongSpan is wrongFromTo for two amounts in one unit, which are read as one range.
func wrongSpan(s *sentence.Sentence) (int, string) {
	span, sum := &s.Quantities[0], &s.Quantities[1]
	if !precededBy(s, span, "from") || span.Kind != sum.Kind || !addable[sum.Kind] || !plain(sum) && sum.Relation != sentence.Difference || s.Has(noWords) || s.Question {
		return 0, ""
	}
	between := words(s, span.To, sum.From)
	if n := len(between); n == 0 || n > 4 || !fromToTells[strings.Trim(between[n-1], ",")] || sum.Near == "of" && s.Has(concentrates) {
		return 0, ""
	}
	if want := span.Range.High - span.Range.Low; off(want, sum.Range.Low) > slackOf(sum, span) {
		return sum.From, fmt.Sprintf("%s is %s, not %s.", span.Text, quantity.ShowIn(want, sum.Unit), sum.Text)
	}
	return 0, ""
}

func isOne(list []string, w string) bool { return len(list) == 1 && list[0] == w }

var fromToTells = sentence.Set("are is makes make need needs takes take missing add gives")

// wrongBoth checks what two tanks of the shop hold together: “Together Wash 1 and Wash 2 hold 148 L”.
func (p *proof) wrongBoth(_ *manual.Article, s *sentence.Sentence) (int, string) {
	if len(s.Quantities) != 1 || !s.Has(togetherOnes) || s.Has(noWords) || s.Question {
		return 0, ""
	}
	q := &s.Quantities[0]
	if q.Kind != quantity.Volume || !plain(q) || !s.ClauseHas(q.Clause, sizes) || q.Near == "of" {
		return 0, ""
	}
	sum, n := 0.0, 0
	for i := range s.Mentions {
		if m := &s.Mentions[i]; m.Thing != nil && m.Thing.Tank != nil {
			if !m.Thing.Tank.Volume.Set {
				return 0, ""
			}
			sum += m.Thing.Tank.Volume.Low
			n++
		}
	}
	if n < 2 || off(sum, q.Range.Low) <= slackOf(q) {
		return 0, ""
	}
	return q.From, fmt.Sprintf("Together they hold %s, not %s.", quantity.ShowIn(sum, q.Unit), q.Text)
}

var togetherOnes = sentence.Set("together both altogether")
