package calculators

import (
	"math"

	"tankside/calculators/rinse"
)

// basin is a rinse of the line by the names of its inputs and readings; runsOn is none of the first.
type basin struct{ flow, stages, ph, alkalinity, runsOn, left, reading string }

// basins are the rinses in the order in which parts go through them.
var basins = [...]basin{
	{"flow", "stages", "water-ph", "water-alkalinity", "", "first-rinse", "ph"},
	{"second-flow", "second-stages", "second-ph", "second-alkalinity", "second-runs-on", "second-rinse", "second-ph"},
	{"third-flow", "third-stages", "third-ph", "third-alkalinity", "third-runs-on", "last-stage", "third-ph"},
}

// dragged is the number of the bath among the liquids of a line: behind the water of each rinse.
const dragged = len(basins)

// row is the rinses in a row with what runs into them; ok is false where the inputs do not fit together.
func (s *sum) row() (l *rinse.Line, ok bool) {
	l = &rinse.Line{Liquids: dragged + 1}
	for i := range basins {
		b := &basins[i]
		n := s.si(b.stages)
		switch {
		case n != math.Floor(n):
			s.fail(b.stages, "stages are counted in whole numbers.")
			return nil, false
		case i > len(l.Rinses) && s.has(b.flow):
			s.fail(b.flow, "a third rinse comes after a second: give the flow of that too, 0 where it has none of its own.")
			return nil, false
		case i > 0 && !s.has(b.flow):
			continue
		}
		t := rinse.Tank{Stages: int(n), Feeds: []rinse.Feed{{Liquid: i, Flow: s.si(b.flow)}}}
		if i == 0 {
			t.Volume, t.Separate = s.si("volume"), s.at("feed").choice == "separate"
		} else if s.yes(b.runsOn) {
			if l.Rinses[i-1].Separate {
				s.fail(b.flow, "water of the next rinse runs in at the end and through all stages, against the parts.")
				return nil, false
			}
			l.Rinses[i-1].FedBy = []int{i}
		}
		l.Rinses = append(l.Rinses, t)
		l.Drags = append(l.Drags, rinse.Drag{Flow: s.si("drag-out"), Liquid: dragged, From: i - 1, To: i})
	}
	return l, true
}

// thinned gives by how much the bath is thinned in the last stage of each rinse. The closed forms of package rinse reach further than the balances of
// a line, down to what no longer can be told from nothing; they are those of a rinse into which no other runs.
func thinned(l *rinse.Line) []float64 {
	stages, _ := l.Steady() // no overflow runs in a circle
	before := 1.
	out := make([]float64, len(l.Rinses))
	for i := range l.Rinses {
		t, r := &l.Rinses[i], l.Rinses[i].Feeds[0].Flow/l.Drags[0].Flow
		switch {
		case len(t.FedBy) > 0 || i > 0 && len(l.Rinses[i-1].FedBy) > 0:
			out[i] = 1 / stages[i][t.Stages-1].Shares[dragged]
		case t.Separate:
			out[i] = before * rinse.RatioSeparate(r, t.Stages)
		default:
			out[i] = before * rinse.Ratio(r, t.Stages)
		}
		before = out[i]
	}
	return out
}
