package rules

import (
	"fmt"
	"math"
	"strings"

	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sentence"
)

// wrongFold checks how often one amount goes into another: “A rinse that thins a hundredfold takes 4 % down to 0.04 %”.
func (p *proof) wrongFold(_ *manual.Article, s *sentence.Sentence) (int, string) {
	if len(s.Quantities) != 2 || s.Question || s.Has(noWords) || s.Block.Kind == sentence.Cell {
		return 0, ""
	}
	fold := 0.0
	for _, w := range s.AllWords() {
		if n, ok := strings.CutSuffix(w, "fold"); ok {
			if f := folds[strings.TrimSuffix(n, "-")]; f > 0 && fold == 0 {
				fold = f
			} else if f > 0 {
				return 0, ""
			}
		}
	}
	one, two := &s.Quantities[0], &s.Quantities[1]
	between := words(s, one.To, two.From)
	if fold == 0 || one.Kind != two.Kind || one.Kind == quantity.Temperature || one.Span || two.Span || one.Range.Low <= 0 || two.Range.Low <= 0 || len(between) == 0 || len(between) > 4 || between[len(between)-1] != "to" {
		return 0, ""
	}
	ratio := max(one.Range.Low, two.Range.Low) / min(one.Range.Low, two.Range.Low)
	if off(ratio, fold) <= 0.1 {
		return 0, ""
	}
	return two.From, fmt.Sprintf("From %s to %s is %s times, not %g.", one.Text, two.Text, plainFigure(ratio), fold)
}

var folds = map[string]float64{"two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "eight": 8, "ten": 10, "twenty": 20, "fifty": 50, "hundred": 100, "thousand": 1000}

// wrongWindow checks a window told by a share around a value: “10 % around 4 % runs from 3.6 % to 4.4 %”. Where both are per cents, points of per cent may be
// meant as well.
func (p *proof) wrongWindow(_ *manual.Article, s *sentence.Sentence) (int, string) {
	if len(s.Quantities) != 3 || s.Question || s.Has(noWords) || s.Block.Kind == sentence.Cell {
		return 0, ""
	}
	share, middle, window := &s.Quantities[0], &s.Quantities[1], &s.Quantities[2]
	between := words(s, share.To, middle.From)
	if share.Kind != quantity.Fraction && share.Kind != quantity.VolumeFraction || share.Span || middle.Span || !window.Span || !sameStrength(middle.Kind, window.Kind) || len(between) == 0 || len(between) > 3 || !aroundWhat[between[len(between)-1]] {
		return 0, ""
	}
	aroundIt := between[0] == "around" || between[0] == "round" || between[0] == "either" || strings.Contains(s.Block.Text[max(s.From, share.From-4):share.From], "±")
	if !aroundIt {
		return 0, ""
	}
	m, slack := middle.Range.Low, 0.55*lastFigure(window)
	for _, by := range []float64{share.Range.Low * m, share.Range.Low} {
		if math.Abs(m-by-window.Range.Low) <= max(slack, 0.01*m) && math.Abs(m+by-window.Range.High) <= max(slack, 0.01*m) {
			return 0, ""
		}
	}
	by := share.Range.Low * m
	return window.From, fmt.Sprintf("%s around %s runs from %s to %s, not %s.", share.Text, middle.Text, quantity.ShowIn(m-by, middle.Unit), quantity.ShowIn(m+by, middle.Unit), window.Text)
}

var aroundWhat = sentence.Set("of around round side")

// sameStrength tells whether two kinds are one, or both a share.
func sameStrength(one, two quantity.Kind) bool {
	share := func(k quantity.Kind) bool { return k == quantity.Fraction || k == quantity.VolumeFraction }
	return one == two || share(one) && share(two)
}

// wrongClock checks how long it is from one time of day to another: “On at 6:00, ready at 7:30: Wash 1 needs an hour and a half”.
func (p *proof) wrongClock(_ *manual.Article, s *sentence.Sentence) (int, string) {
	if len(s.Quantities) != 1 || s.Question || s.Has(noWords) || s.Has(eachOf) || s.Block.Kind == sentence.Cell {
		return 0, ""
	}
	q := &s.Quantities[0]
	if q.Kind != quantity.Time || q.Span || !isResult(s, q) {
		return 0, ""
	}
	var minutes []float64
	list := s.Tokens()
	for i, w := range list {
		if m, ok := clockTime(w.Text); ok {
			if before := textAt(list, i-1); len(minutes) == 0 && !beginsAt[before] && !beginsAt[textAt(list, i-2)] || len(minutes) == 1 && before != "to" && before != "until" && !readyAt[textAt(list, i-2)] || w.From > q.From {
				return 0, ""
			}
			minutes = append(minutes, m)
		}
	}
	if len(minutes) != 2 || minutes[1] <= minutes[0] {
		return 0, ""
	}
	want := 60 * (minutes[1] - minutes[0])
	if math.Abs(want-q.Range.Low) <= max(0.12*want, 180) || q.Range.Low > 3*want || q.Range.Low < want/3 {
		return 0, ""
	}
	return q.From, fmt.Sprintf("Between these times lie %s, not %s.", quantity.ShowIn(want, q.Unit), q.Text)
}

// clockTime reads a time of day such as 6:00, in minutes.
func clockTime(w string) (float64, bool) {
	hours, minutes, ok := strings.Cut(w, ":")
	if !ok || len(minutes) != 2 || hours == "" || len(hours) > 2 || strings.Trim(hours+minutes, "0123456789") != "" {
		return 0, false
	}
	return 60*floatOf(hours) + floatOf(minutes), true
}

var (
	beginsAt = sentence.Set("from on started start starts begin begins switched between")
	readyAt  = sentence.Set("ready done finished off warm hot ends end up")
)
