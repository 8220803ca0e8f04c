package main

import (
	"fmt"
	"math"
	"strings"
	"time"
	"unicode"

	"tankside/builder/history"
	"tankside/builder/quantity"
	"tankside/builder/record"
	"tankside/calculators/control"
)

// chartsForPrograms gives every chart of the tanks.
func chartsForPrograms(tanks []history.Tank) []chartAnswer {
	list := []chartAnswer{}
	for i := range tanks {
		for j := range tanks[i].Charts {
			list = append(list, chartForPrograms(&tanks[i], &tanks[i].Charts[j]))
		}
	}
	return list
}

func chartForPrograms(t *history.Tank, c *history.Chart) chartAnswer {
	now := c.Now()
	last := c.Points[len(c.Points)-1]
	a := chartAnswer{
		Tank: t.ID, Quantity: c.Quantity, Unit: unitName(c), N: now.To - now.From, Signals: []signalAnswer{}, Lambda: control.Lambda,
		DriftSays: driftSays(c), LimitsSay: limitsSay(c), Newest: last.Value, NewestAt: history.ISO(last.When, last.Day), ReadingsInAll: len(c.Points),
		Baseline: baselineAnswer{now.Baseline, isoOf(c.Points[now.From]), isoOf(c.Points[now.From+now.Baseline-1])},
	}
	mean := now.Limits.Mean
	a.Mean = &mean
	if now.Baseline > 1 {
		a.MovingRange = &now.Limits.MovingRange
	}
	if now.Told() {
		ewma := now.Averages[len(now.Averages)-1]
		a.Upper, a.Lower, a.EWMA, a.EWMAUpper, a.EWMALower = &now.Limits.Upper, &now.Limits.Lower, &ewma.Value, &ewma.Upper, &ewma.Lower
	}
	for i := range c.Baths {
		for _, s := range c.Baths[i].Signals {
			a.Signals = append(a.Signals, signalAnswer{string(s.Rule), isoOf(c.Points[s.Point]), c.Points[s.Point].Line, s.High})
		}
	}
	if d := &c.Drift; d.State == history.Drifts {
		a.Drift, a.DriftLow, a.DriftHigh = &d.PerDay, &d.Low, &d.High
		a.LeavesAt, a.LeavesFrom, a.LeavesTo = isoTime(d.Leaves), isoTime(d.Earliest), isoTime(d.Latest)
	}
	if w := c.Window; w.Set {
		a.Window = &windowAnswer{finite(w.Low), finite(w.High), w.Article}
	}
	return a
}

func isoOf(p history.Point) string { return history.ISO(p.When, p.Day) }

func isoTime(t *time.Time) *string {
	if t == nil {
		return nil
	}
	text := history.ISO(*t, false)
	return &text
}

func finite(x float64) *float64 {
	if math.IsInf(x, 0) {
		return nil
	}
	return &x
}

func unitName(c *history.Chart) string {
	if c.Unit.Symbol == "" && c.Quantity == "foil" {
		return "marks"
	}
	return c.Unit.Symbol
}

// digits writes a figure of a chart.
func digits(x float64) string { return quantity.Decimal(x, 4) }

// tellRecord prints what the record of a tank shows.
func (c *console) tellRecord(t *history.Tank) {
	fmt.Fprintf(c.out, "%s\n", c.strong(t.Name+" ("+t.Record.Path+")"))
	rows := t.Rows()
	if len(rows) > 0 {
		fmt.Fprintf(c.out, "  %s from %s to %s\n", count(len(rows), "row", "rows"), history.ISO(rows[0].When, rows[0].Day), history.ISO(t.Last.When, t.Last.Day))
	}
	if n := len(t.Record.Replaced); n > 0 {
		fmt.Fprintf(c.out, "  corrected, and not charted: %s\n", count(n, "row", "rows"))
	}
	if t.Record.Unused > 0 {
		fmt.Fprintf(c.out, "  not used: %s; tankside proof says why\n", count(t.Record.Unused, "value or row", "values and rows"))
	}
	if t.Later > 0 {
		fmt.Fprintf(c.out, "  left out, since later than today: %s\n", count(t.Later, "row", "rows"))
	}
	for _, g := range t.Gaps {
		fmt.Fprintf(c.out, "  no readings for %s, between %s and %s\n", count(g.Days, "day", "days"), g.From.Format(time.DateOnly), g.To.Format(time.DateOnly))
	}
	for _, m := range t.Marks {
		if m.Work != record.TopUp {
			fmt.Fprintf(c.out, "  %s: %s%s\n", m.When.Format(time.DateOnly), m.Work, noted(m.Note))
		}
	}
	for i := range t.Charts {
		c.tellChart(&t.Charts[i])
	}
	fmt.Fprintln(c.out)
}

func noted(note string) string {
	if note == "" {
		return ""
	}
	plain := strings.Map(func(r rune) rune { // a terminal takes some characters for commands
		if !unicode.IsPrint(r) {
			return ' '
		}
		return r
	}, note)
	return " (" + strings.Join(strings.Fields(plain), " ") + ")"
}

// mostCalled is how many times a quantity was called out that are told one by one, the newest.
const mostCalled = 12

func (c *console) tellChart(h *history.Chart) {
	last := h.Points[len(h.Points)-1]
	fmt.Fprintf(c.out, "\n  %s: %s on %s\n", c.strong(h.Quantity), strings.TrimSpace(digits(last.Value)+" "+unitName(h)), isoOf(last))
	fmt.Fprintf(c.out, "    limits: %s\n", limitsSay(h))
	switch w := h.Window; {
	case w.Set:
		fmt.Fprintf(c.out, "    allowed: %s, by %s; this is no control limit\n", span(w.Low, w.High), w.Article)
	case w.Otherwise:
		fmt.Fprintf(c.out, "    allowed: not checked, since %s gives it in another measure\n", w.Article)
	}
	var called []history.Episode
	for i := range h.Baths {
		called = append(called, h.Baths[i].Episodes()...)
	}
	if before := len(called) - mostCalled; before > 0 {
		fmt.Fprintf(c.out, "    called out before what follows: %s; --json has them all\n", count(before, "time", "times"))
		called = called[before:]
	}
	for _, e := range called {
		fmt.Fprintf(c.out, "    called out: %s\n", episodeSays(h, e))
	}
	fmt.Fprintf(c.out, "    drift: %s\n", driftSays(h))
}

// span writes a range of which an end may be open.
func span(low, high float64) string {
	switch {
	case math.IsInf(low, 0):
		return "at most " + digits(high)
	case math.IsInf(high, 0):
		return "at least " + digits(low)
	}
	return digits(low) + " to " + digits(high)
}

// limitsSay says what limits there are and what they are taken from.
func limitsSay(h *history.Chart) string {
	b := h.Now()
	from := "of the record"
	if b.Changed {
		from = "after the change of bath"
	}
	switch {
	case b.Few:
		return fmt.Sprintf("cannot be told: there are %s %s, and %d are needed", count(b.Baseline, "reading", "readings"), from, history.LeastBaseline)
	case b.Alike:
		return fmt.Sprintf("cannot be told: the first %d readings %s are alike, or nearly so, and nothing shows what chance does; a reading with one more digit would", b.Baseline, from)
	}
	text := fmt.Sprintf("%s to %s around %s, mean moving range %s, from the first %d readings %s, %s to %s", digits(b.Limits.Lower), digits(b.Limits.Upper), digits(b.Limits.Mean),
		digits(b.Limits.MovingRange), b.Baseline, from, h.Points[b.From].When.Format(time.DateOnly), h.Points[b.From+b.Baseline-1].When.Format(time.DateOnly))
	if b.Short {
		text += "; there are no more yet"
	}
	ewma := b.Averages[len(b.Averages)-1]
	return text + fmt.Sprintf("; moving average (%s of each new reading) %s, its limits %s to %s", digits(control.Lambda), digits(ewma.Value), digits(ewma.Lower), digits(ewma.Upper))
}

var ruleSays = map[control.Rule]string{
	control.Beyond: "beyond the limits", control.TwoOfThree: "two of three beyond two standard deviations", control.FourOfFive: "four of five beyond one standard deviation",
	control.EightInARow: "eight in a row on one side of the mean", control.MovedMean: "moving average beyond its limits",
}

func episodeSays(h *history.Chart, e history.Episode) string {
	side := "low"
	if e.High {
		side = "high"
	}
	from, to := h.Points[e.From], h.Points[e.To]
	if e.Count() == 1 {
		return fmt.Sprintf("%s, %s: %s (line %d)", ruleSays[e.Rule], side, from.When.Format(time.DateOnly), from.Line)
	}
	return fmt.Sprintf("%s, %s: %s to %s, %d readings (lines %d to %d)", ruleSays[e.Rule], side, from.When.Format(time.DateOnly), to.When.Format(time.DateOnly), e.Count(), from.Line, to.Line)
}

// driftSays says whether a quantity drifts, and when it leaves what is allowed.
func driftSays(h *history.Chart) string {
	d := &h.Drift
	told := count(d.N, "reading", "readings")
	switch {
	case d.Since != "":
		told += " since the " + map[record.Work]string{record.Change: "change of bath", record.TopUp: "top-up", record.Repair: "repair"}[d.Since]
	case d.N == len(h.Points):
	default:
		told = "newest " + told
	}
	if d.State == history.Few {
		return fmt.Sprintf("cannot be told from %s; %d at different times are needed", told, control.FewestForTrend)
	}
	if d.Over {
		told += ", top-ups included"
	}
	if d.State == history.Steady {
		text := fmt.Sprintf("none that could not be chance, from %s (%s to %s a day)", told, digits(d.Low), digits(d.High))
		if d.Outside {
			text += "; it is outside of what is allowed"
		}
		return text
	}
	text := fmt.Sprintf("%s a day (95 %%: %s to %s), from %s", digits(d.PerDay), digits(d.Low), digits(d.High), told)
	date := func(t *time.Time) string { return t.Format(time.DateOnly) }
	switch {
	case d.NoLimit:
		return text + "; nothing is said of how far it may go"
	case d.Outside:
		return text + "; it is outside of what is allowed"
	case d.Earliest == nil:
		return text + "; not outside of what is allowed before " + date(&d.Horizon) + ", and of later nothing can be told"
	case d.Leaves == nil:
		return text + "; leaves what is allowed on " + date(d.Earliest) + " at the earliest, and more cannot be told"
	case d.Latest == nil:
		return text + "; leaves what is allowed about " + date(d.Leaves) + " (95 %: " + date(d.Earliest) + " or later, perhaps never)"
	}
	return text + "; leaves what is allowed about " + date(d.Leaves) + " (95 %: " + date(d.Earliest) + " to " + date(d.Latest) + ")"
}
