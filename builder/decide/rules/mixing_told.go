package rules

import (
	"fmt"

	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sentence"
)

// wrongMixing checks the strength of two baths poured together: “60 L at 2 % with 60 L at 6 % gives 120 L at 4 %”.
func (p *proof) wrongMixing(_ *manual.Article, s *sentence.Sentence) (int, string) {
	q := s.Quantities
	if len(q) < 5 || len(q) > 6 || s.Question || s.Has(noWords) || s.Block.Kind == sentence.Cell {
		return 0, ""
	}
	volume := func(i int) bool { return q[i].Kind == quantity.Volume && !q[i].Span && q[i].Range.Low > 0 }
	share := func(i int) bool {
		return (q[i].Kind == quantity.Fraction || q[i].Kind == quantity.VolumeFraction) && !q[i].Span && joinsShare(words(s, q[i-1].To, q[i].From))
	}
	last := len(q) - 1
	if !volume(0) || !share(1) || !volume(2) || !share(3) || len(q) == 6 && !volume(4) || q[last].Kind != quantity.Fraction && q[last].Kind != quantity.VolumeFraction || q[last].Span {
		return 0, ""
	}
	if between := words(s, q[1].To, q[2].From); len(between) == 0 || len(between) > 2 || between[0] != "and" && between[0] != "with" && between[0] != "into" && between[0] != "plus" {
		return 0, ""
	}
	if !isResult(s, &q[4]) {
		return 0, ""
	}
	want := (q[0].Range.Low*q[1].Range.Low + q[2].Range.Low*q[3].Range.Low) / (q[0].Range.Low + q[2].Range.Low)
	if off(want, q[last].Range.Low) <= slackOf(&q[last]) {
		return 0, ""
	}
	return q[last].From, fmt.Sprintf("Together these have %s, not %s.", quantity.ShowIn(want, q[last].Unit), q[last].Text)
}

// joinsShare tells whether the words between a volume and a strength only join the two.
func joinsShare(list []string) bool {
	n := len(list)
	return n > 0 && n < 4 && (list[n-1] == "at" || list[n-1] == "of" || list[n-1] == "with")
}
