package rules

import (
	"fmt"
	"slices"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sentence"
)

// dwellSaid finds, on a part's or a material's page, a time in the wash that is not the one of the header, by three things and no order of words:
// the time is said of this part or material; the place is its bath, or it is washed, soaked or left in; and nothing puts the time
// elsewhere: on the rack, in the rinse, for a turn, for a load or a shift.
func (p *proof) dwellSaid(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	if a.Part == nil && a.Material == nil || a.Partial || s.Quiet() || !hasTimes(s) || s.Question || s.TakenBack || s.Block.Signal != "" || s.Block.Kind == sentence.Cell || s.Block.Kind == sentence.Heading {
		return nil
	}
	if elsewhere(s) || s.Has(olderOnes) || illOf(s) || s.Harmful() || denied(s) || s.Has(exceptions) || s.Has(perLoad) || otherMatter(a, s) {
		return nil
	}
	for i := range s.Quantities {
		q := &s.Quantities[i]
		if q.Kind != quantity.Time || !plain(q) && !q.Span || q.Relation != sentence.At && q.Relation != sentence.To && q.Relation != sentence.AtMost || placedElsewhere(s, q) && !doneAfter(s, q) || inAll(s, q) || precededBy(s, q, "in") && !doneWithin(s, q) || precededBy(s, q, "after") && !doneAfter(s, q) || precededBy(s, q, "every") {
			continue
		}
		if f := p.dwells(a, s, q); f != nil {
			return f
		}
	}
	return nil
}

func hasTimes(s *sentence.Sentence) bool {
	return slices.ContainsFunc(s.Quantities, func(q sentence.Quantity) bool { return q.Kind == quantity.Time })
}

func (p *proof) dwells(a *manual.Article, s *sentence.Sentence, q *sentence.Quantity) *finding.Finding {
	k := q.Clause
	c := &s.Clauses[k]
	switch c.Mood {
	case sentence.If:
		if !doneAfter(s, q) {
			return nil
		}
	case sentence.MustNot, sentence.Was, sentence.Ask, sentence.Example:
		return nil
	}
	if c.Opener != "" && !doneAfter(s, q) || otherPart(a, s, k) || s.ClauseHas(k, otherTimes) && !doneAfter(s, q) && !inTankItself(s, q) || s.ClauseHas(k, turnWords) && !s.ClauseHas(k, eachWord) || othersWork(s, k) {
		return nil
	}
	var tank *manual.Tank
	for i := range s.Mentions {
		if m := &s.Mentions[i]; m.Thing != nil && m.Thing.Tank != nil {
			if tank != nil {
				return nil
			}
			tank = m.Thing.Tank
		} else if m.Thing != nil && m.Thing.Kind() == manual.Chemistry || m.Thing != nil && (m.Thing.Rinse != nil || m.Thing.Dryer != nil) && !inTankItself(s, q) {
			return nil
		}
	}
	if !inItsBath(s, k, tank != nil) && !(a.Part != nil && s.ClauseHas(k, rightWords) && s.ClauseHas(k, forWord) && namesOwn(a, s, k)) && !(a.Part != nil && (p.besideHeat(a, s, q) || besideFrequency(s, q) || doneWithin(s, q))) {
		return nil
	}
	if a.Material != nil {
		l := a.Material.Time
		if !l.Set || q.Range.High <= l.High*1.001 || c.Mood != sentence.Do && c.Mood != sentence.Able && !(c.Mood == sentence.Is && (s.ClauseHas(k, mays) || s.ClauseHas(k, mostWord))) || !ownNamed(a, s, k) {
			return nil
		}
		return dwellFinding(a, s, q, l)
	}
	if !namesOwn(a, s, k) && !(s.ClauseHas(k, timerWord) && k+1 < len(s.Clauses) && namesOwn(a, s, k+1)) && !(doneAfter(s, q) && k > 0 && namesOwn(a, s, k-1)) && c.Mood != sentence.Fragment && !(len(s.Words(k)) > 0 && s.Words(k)[0] == "its") {
		return nil
	}
	var said *manual.Limit
	for _, w := range washes(p, a) {
		if !w.Time.Set || tank != nil && (w.Tank == nil || w.Tank.ID != tank.ID) {
			continue
		}
		if !contradicts(q, known{limit: w.Time, exact: w.Time.Low == w.Time.High}) {
			return nil
		}
		l := w.Time
		said = &l
	}
	if said == nil {
		return nil
	}
	return dwellFinding(a, s, q, *said)
}

// inTankItself tells whether “in” and a tank stand right behind a time, which so is of no other station: “Half an hour in Wash 1, mains rinse, dryer”.
func inTankItself(s *sentence.Sentence, q *sentence.Quantity) bool {
	m := q.About
	return q.Near == "in" && m != nil && m.Thing != nil && m.Thing.Tank != nil && m.From > q.To && m.From-q.To < 9
}

// doneAfter tells whether something is said to be done after a time: “The body is done after 12 min in Wash 1”.
func doneAfter(s *sentence.Sentence, q *sentence.Quantity) bool {
	k := q.Clause
	return k > 0 && s.Clauses[k].Opener == "after" && s.Clauses[k-1].Mood == sentence.Is && s.ClauseHas(k-1, doneWords) && !denies(s, k-1)
}

// doneWithin tells whether something is said to be done in a time: “Springs are done in a quarter of an hour”.
func doneWithin(s *sentence.Sentence, q *sentence.Quantity) bool {
	return precededBy(s, q, "done in") || precededBy(s, q, "done in a") || precededBy(s, q, "clean in") || precededBy(s, q, "clean in a")
}

// besideFrequency tells whether a time stands beside a frequency, which only a wash has: “The nuts get ten minutes at 80 kHz”.
func besideFrequency(s *sentence.Sentence, q *sentence.Quantity) bool {
	return slices.ContainsFunc(s.Quantities, func(o sentence.Quantity) bool { return o.Kind == quantity.Frequency && o.Clause == q.Clause })
}

var doneWords = sentence.Set("done ready clean finished out")

func dwellFinding(a *manual.Article, s *sentence.Sentence, q *sentence.Quantity, l manual.Limit) *finding.Finding {
	f := numberAgainstModel.At(placeIn(a, s.Block, q.From), fmt.Sprintf("The text says %s in the bath, the header %s.", q.Text, l), "Correct the time here, or in the header.", l.At)
	return &f
}

// inItsBath tells whether a clause is about a stay in a bath.
func inItsBath(s *sentence.Sentence, k int, tank bool) bool {
	list := s.Words(k)
	in := false
	for i, w := range list {
		if w != "in" && w != "into" || i+1 >= len(list) {
			continue
		}
		in = in || tank || list[i+1] == "it"
		for j := i + 1; j < min(i+4, len(list)); j++ {
			in = in || bathWords[list[j]]
		}
	}
	return in || s.ClauseHas(k, washedWords) || s.ClauseHas(k, timerWord)
}

// ownNamed tells whether a material's page is named in a clause, or a word for the work stands in it.
func ownNamed(a *manual.Article, s *sentence.Sentence, k int) bool {
	if slices.ContainsFunc(s.Words(k), func(w string) bool { return pieceWords[w] || w == "it" || w == "they" }) {
		return true
	}
	for i := range s.Mentions {
		if m := &s.Mentions[i]; s.ClauseOf(m) == k && m.Thing != nil && m.Thing.Includes(a) {
			return true
		}
	}
	return s.ClauseHas(k, matters)
}

var (
	washedWords = sentence.Set("washed soaked sonicated cleaned degreased wash soak sonicate immersed washing soaking immersion")
	olderOnes   = sentence.Set("old former earlier trial test needed took wanted")
	rightWords  = sentence.Set("right enough correct plenty sufficient rule usual standard")
	mostWord    = sentence.Set("most longest maximum")
	timerWord   = sentence.Set("timer")
	mays        = sentence.Set("may can")
	perLoad     = sentence.Set("tray trays basket baskets load loads batch batches shift hour's day week month sample spray lid door power fan warm-up degas degassing heating heat-up sheet strip old-bath")
)
