package rules

import (
	"fmt"
	"slices"
	"strings"

	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sentence"
)

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

// wrongParts checks “Two parts of concentrate in 50 parts of bath are 4 %”, “4 of concentrate to 96 of water is 4 %”, “One to fifty is 2 %”, by parts of the
// whole or of water.
func (p *proof) wrongParts(_ *manual.Article, s *sentence.Sentence) (int, string) {
	if len(s.Quantities) != 1 || s.Has(noWords) || s.Question {
		return 0, ""
	}
	share := &s.Quantities[0]
	list := words(s, s.From, share.From)
	if n := len(list); n > 1 && resultPhrases[list[n-2]+" "+list[n-1]] {
		list = append(list[:n-2:n-2], "is") // “One part in fifty comes to 2 %”
	}
	n := len(list)
	if share.Kind != quantity.Fraction && share.Kind != quantity.VolumeFraction || !plain(share) || n < 4 || n > 14 || !tells[list[n-1]] {
		return 0, ""
	}
	part, whole, link := twoParts(list[:n-1])
	if part == 0 || whole <= part || link != "" && link != "in" && link != "to" && link != "and" && link != "with" || n > 4 && !s.Has(partWords) {
		return 0, ""
	}
	if off(part/whole, share.Range.Low) <= slackOf(share) || off(part/(part+whole), share.Range.Low) <= slackOf(share) {
		return 0, ""
	}
	return share.From, fmt.Sprintf("That is %s, not %s.", quantity.ShowIn(part/whole, share.Unit), share.Text)
}

// twoParts gives the two numbers of a list of words and the word that joins them, which is “” where they stand side by side; zeros where there are more or
// fewer numbers.
func twoParts(list []string) (part, whole float64, link string) {
	for _, w := range list {
		w = strings.Trim(w, ",:;")
		switch v := numberOf(w); {
		case v > 0 && part == 0:
			part = v
		case v > 0 && whole == 0:
			whole = v
		case v > 0:
			return 0, 0, ""
		case part > 0 && whole == 0 && (w == "in" || w == "to" || w == "and" || w == "with"):
			link = w
		}
	}
	if whole == 0 {
		return 0, 0, ""
	}
	return part, whole, link
}

// partWords are words of a sentence that reckons in parts.
var partWords = sentence.Set("part parts concentrate water")
