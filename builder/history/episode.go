package history

import (
	"slices"
	"time"

	"tankside/builder/record"
	"tankside/calculators/control"
)

// Episode is one rule calling out readings one after the other, on one side.
type Episode struct {
	Rule     control.Rule
	High     bool
	From, To int // points of the chart, To included
}

// Count is how many readings it has.
func (e Episode) Count() int { return e.To - e.From + 1 }

// Episodes gathers the signals of a bath, in the order in which they begin; of those that begin together, in the order of the rules.
func (b *Bath) Episodes() []Episode {
	var list []Episode
	for _, rule := range control.Rules {
		for _, s := range b.Signals {
			if s.Rule != rule {
				continue
			}
			if n := len(list); n > 0 && list[n-1].Rule == rule && list[n-1].High == s.High && list[n-1].To == s.Point-1 {
				list[n-1].To = s.Point
				continue
			}
			list = append(list, Episode{rule, s.High, s.Point, s.Point})
		}
	}
	slices.SortStableFunc(list, func(x, y Episode) int { return x.From - y.From })
	return list
}

// Called are the points of a bath that some rule calls out.
func (b *Bath) Called() map[int]bool {
	called := make(map[int]bool, len(b.Signals))
	for _, s := range b.Signals {
		called[s.Point] = true
	}
	return called
}

// ISO writes a time of a record in ISO 8601: the day alone where no more is known, with the offset from UTC where the record says it.
func ISO(when time.Time, day bool) string {
	switch {
	case day:
		return when.Format(time.DateOnly)
	case record.Zoned(when):
		return when.Format("2006-01-02T15:04-07:00")
	}
	return when.Format("2006-01-02T15:04")
}
