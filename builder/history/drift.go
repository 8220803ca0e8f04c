package history

import (
	"math"
	"slices"
	"time"

	"tankside/builder/record"
	"tankside/calculators/control"
)

// moved are the quantities that a top-up moves.
var moved = []string{"strength", "ph", "conductivity", "level", "titrant"}

// drift says where the newest readings of a chart are going: those since the last work on the bath that moves the quantity. Where a bath is topped up so
// often that too few lie behind the last top-up, the readings since the last change or repair tell, and the top-ups are part of what they show.
func drift(t *Tank, c *Chart) Drift {
	from, since := c.since(t, record.Change, record.Repair, record.TopUp)
	over := false
	if len(c.Points)-from < control.FewestForTrend && since == record.TopUp {
		from, since = c.since(t, record.Change, record.Repair)
		over = true
	}
	if more := len(c.Points) - from - mostForTrend; more > 0 {
		from, since = from+more, ""
	}
	d := Drift{N: len(c.Points) - from, Since: since, Over: over}
	if d.N == 0 {
		return d
	}
	d.From = c.Points[from].When
	times, readings := make([]float64, d.N), make([]float64, d.N)
	for i, p := range c.Points[from:] {
		times[i], readings[i] = p.When.Sub(d.From).Hours()/24, p.Value
	}
	line, told := control.TrendOf(times, readings)
	if !told {
		return d
	}
	d.State, d.PerDay, d.P, d.Level = Steady, line.Slope, line.P, line.At(line.To)
	off := line.SlopeBand(sure)
	d.Low, d.High = line.Slope-off, line.Slope+off
	d.Outside = !c.Window.Allows(d.Level)
	if d.P >= byChance || d.PerDay == 0 {
		return d
	}
	d.State = Drifts
	d.leaves(c, line)
	return d
}

// leaves works out when the line leaves the window. Nothing is said of times further ahead than the readings reach back.
func (d *Drift) leaves(c *Chart, line control.Trend) {
	upper := d.PerDay > 0
	limit := c.Window.Low
	if upper {
		limit = c.Window.High
	}
	at := func(days float64) time.Time {
		return d.From.Add(time.Duration(days * 24 * float64(time.Hour))).Truncate(time.Minute)
	}
	horizon := line.To + (line.To - line.From)
	d.Horizon = at(horizon)
	if !c.Window.Set || math.IsInf(limit, 0) {
		d.NoLimit = true
		return
	}
	if d.Outside {
		return
	}
	meets := line.Meets(limit, upper, horizon, sure)
	told := func(days float64) *time.Time {
		if math.IsInf(days, 1) {
			return nil
		}
		when := at(days)
		return &when
	}
	d.Leaves, d.Earliest, d.Latest = told(meets.At), told(meets.Earliest), told(meets.Latest)
}

// since gives the first point behind the last work of some sorts, and that work; "" where there was none.
func (c *Chart) since(t *Tank, works ...record.Work) (from int, since record.Work) {
	for i := len(t.rows) - 1; i >= 0; i-- {
		w := t.rows[i].Work
		if w == "" || !slices.Contains(works, w) || w == record.TopUp && !slices.Contains(moved, c.Quantity) {
			continue
		}
		from = slices.IndexFunc(c.Points, func(p Point) bool { return p.Row > i || p.Row == i && w != record.TopUp })
		if from < 0 {
			from = len(c.Points)
		}
		return from, w
	}
	return 0, ""
}
