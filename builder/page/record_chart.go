package page

import (
	"fmt"
	"html/template"
	"math"
	"strings"
	"time"

	"tankside/builder/history"
	"tankside/builder/quantity"
	"tankside/builder/record"
)

// A chart is drawn so large, in units of which 340 are the width of a phone's page; around the plot stand the labels.
const (
	chartWidth  = 340.0
	chartHeight = 196.0
	plotLeft    = 44.0
	plotRight   = 332.0
	plotTop     = 16.0
	plotBottom  = 164.0

	mostDrawn    = 120 // readings
	mostDrawnFor = 92  // days
)

// drawing is what a chart's lines go by.
type drawing struct {
	tank      *history.Tank
	chart     *history.Chart
	from      int // first point that is drawn
	start     time.Time
	days      float64 // from start to the right edge
	low, high float64 // of the plot, in the chart's unit
	step      float64 // between two labels
}

// newDrawing chooses the readings and the spans: the newest readings, their control limits, and of what is allowed the edges that are near.
func newDrawing(h *history.Tank, c *history.Chart) *drawing {
	d := &drawing{tank: h, chart: c, from: max(0, len(c.Points)-mostDrawn)}
	last := c.Points[len(c.Points)-1].When
	for d.from < len(c.Points)-1 && last.Sub(c.Points[d.from].When).Hours() > 24*mostDrawnFor {
		d.from++
	}
	d.start = c.Points[d.from].When
	d.days = max(1, last.Sub(d.start).Hours()/24)
	d.low, d.high = math.Inf(1), math.Inf(-1)
	take := func(x float64) { d.low, d.high = min(d.low, x), max(d.high, x) }
	for _, p := range c.Points[d.from:] {
		take(p.Value)
	}
	for i := range c.Baths {
		if b := &c.Baths[i]; b.Told() && b.To > d.from {
			take(b.Limits.Upper)
			take(b.Limits.Lower)
		}
	}
	span := d.high - d.low
	if w := c.Window; w.Set {
		if w.High-d.high < span && !math.IsInf(w.High, 0) {
			take(w.High)
		}
		if d.low-w.Low < span && !math.IsInf(w.Low, 0) {
			take(w.Low)
		}
	}
	if leaves := c.Drift.Leaves; leaves != nil {
		d.days = max(d.days, leaves.Sub(d.start).Hours()/24)
		if c.Drift.PerDay > 0 {
			take(c.Window.High)
		} else {
			take(c.Window.Low)
		}
	}
	d.days *= 1.02
	d.step = niceStep(d.high - d.low)
	if d.high-d.low < d.step/2 { // one value alone
		d.low, d.high = d.low-d.step, d.high+d.step
	}
	d.low, d.high = d.step*math.Floor(d.low/d.step), d.step*math.Ceil(d.high/d.step)
	return d
}

// niceStep is a step of 1, 2 or 5 times a power of ten that parts a span into about four.
func niceStep(span float64) float64 {
	if !(span > 0) {
		return 1
	}
	power := math.Pow(10, math.Floor(math.Log10(span/4)))
	for _, times := range []float64{1, 2, 5} {
		if span/4 <= times*power {
			return times * power
		}
	}
	return 10 * power
}

func (d *drawing) x(when time.Time) float64 {
	return plotLeft + (plotRight-plotLeft)*when.Sub(d.start).Hours()/24/d.days
}

func (d *drawing) y(v float64) float64 {
	return plotBottom - (plotBottom-plotTop)*max(0, min(1, (v-d.low)/(d.high-d.low)))
}

// drawChart draws it. Nothing is told by colour alone: what is allowed is a tinted band with an edge, control limits are broken lines, readings are dots, those that
// are called out diamonds, the moving average is the thick line.
func (s *site) drawChart(d *drawing) template.HTML {
	var b strings.Builder
	fmt.Fprintf(&b, `<svg class="control-chart" viewBox="0 0 %g %g" aria-hidden="true" focusable="false">`, chartWidth, chartHeight)
	d.allowed(&b)
	s.axes(&b, d)
	d.gaps(&b)
	d.limits(&b)
	d.lines(&b)
	d.trend(&b)
	d.marks(&b)
	b.WriteString(`</svg>`)
	return template.HTML(b.String())
}

// allowed draws the band of what the chemistry allows.
func (d *drawing) allowed(b *strings.Builder) {
	w := d.chart.Window
	if !w.Set {
		return
	}
	top, bottom := d.y(min(w.High, d.high)), d.y(max(w.Low, d.low))
	fmt.Fprintf(b, `<rect class="allowed" x="%g" y="%.1f" width="%g" height="%.1f"/>`, plotLeft, top, plotRight-plotLeft, max(0, bottom-top))
	for _, edge := range []float64{w.Low, w.High} {
		if edge >= d.low && edge <= d.high {
			fmt.Fprintf(b, `<path class="allowed-edge" d="M%g %.1fH%g"/>`, plotLeft, d.y(edge), plotRight)
		}
	}
}

// axes draws both axes with their labels: numbers in the shop's units and in the other family's, days as dates.
func (s *site) axes(b *strings.Builder, d *drawing) {
	fmt.Fprintf(b, `<path class="axis" d="M%g %gV%gH%g"/>`, plotLeft, plotTop, plotBottom, plotRight)
	for i := 0; ; i++ {
		v := d.low + float64(i)*d.step
		if v > d.high+d.step/2 {
			break
		}
		at := fmt.Sprintf(`x="%g" y="%.1f" text-anchor="end"`, plotLeft-5, d.y(v)+4)
		fmt.Fprintf(b, `<path class="axis" d="M%g %.1fh-3"/>`, plotLeft, d.y(v))
		own, other := d.label(v, s.system), d.label(v, s.otherSystem())
		if own == other {
			b.WriteString(svgText(at, "end", own))
			continue
		}
		b.WriteString(svgText(at, "end "+systemClass(s.system), own))
		b.WriteString(svgText(at, "end "+systemClass(s.otherSystem()), other))
	}
	end := d.start.Add(time.Duration(d.days * 24 * float64(time.Hour)))
	for i, when := range []time.Time{d.start, d.start.Add(end.Sub(d.start) / 2), end} {
		x := d.x(when)
		fmt.Fprintf(b, `<path class="axis" d="M%.1f %gv4"/>`, x, plotBottom)
		b.WriteString(svgText(fmt.Sprintf(`x="%.1f" y="%g" text-anchor="%s"`, x, plotBottom+17, []string{"start", "middle", "end"}[i]), "end", when.Format(time.DateOnly)))
	}
	own, other := d.unitLabel(s.system), d.unitLabel(s.otherSystem())
	at := `x="2" y="9"`
	if own == other {
		b.WriteString(svgText(at, "end", own))
		return
	}
	b.WriteString(svgText(at, "end "+systemClass(s.system), own))
	b.WriteString(svgText(at, "end "+systemClass(s.otherSystem()), other))
}

// unitIn is the unit in which the axis is labelled in a system.
func (d *drawing) unitIn(system quantity.System) quantity.Unit {
	if u := d.chart.Unit; u.Suits(system) {
		return u
	}
	return quantity.Preferred(d.chart.Unit.ToSI(max(math.Abs(d.low), math.Abs(d.high))), d.chart.Unit.Kind, system)
}

func (d *drawing) label(v float64, system quantity.System) string {
	u := d.unitIn(system)
	return quantity.Decimal(u.FromSI(d.chart.Unit.ToSI(math.Round(v/d.step)*d.step)), 4)
}

func (d *drawing) unitLabel(system quantity.System) string { return d.unitIn(system).Symbol }

// gaps marks the time in which nobody looked.
func (d *drawing) gaps(b *strings.Builder) {
	for _, g := range d.tank.Gaps {
		if g.From.Before(d.start) {
			continue
		}
		left, right := d.x(g.From)+3, d.x(g.To)-3
		if right > left {
			fmt.Fprintf(b, `<path class="unseen" d="M%.1f %gV%gH%.1fV%g"/>`, left, plotBottom-7, plotBottom-3, right, plotBottom-7)
		}
	}
}

// limits draws mean and control limits of each bath, as long as the bath was there.
func (d *drawing) limits(b *strings.Builder) {
	c := d.chart
	for i := range c.Baths {
		bath := &c.Baths[i]
		if !bath.Told() || bath.To <= d.from {
			continue
		}
		left, right := d.x(c.Points[max(bath.From, d.from)].When), plotRight
		if i+1 < len(c.Baths) {
			right = d.x(c.Points[c.Baths[i+1].From].When)
		}
		fmt.Fprintf(b, `<path class="mean" d="M%.1f %.1fH%.1f"/>`, left, d.y(bath.Limits.Mean), right)
		for _, limit := range []float64{bath.Limits.Lower, bath.Limits.Upper} {
			fmt.Fprintf(b, `<path class="limit" d="M%.1f %.1fH%.1f"/>`, left, d.y(limit), right)
		}
	}
}

// lines draws the readings, joined where neither a change of bath nor a gap lies between them, and the moving average.
func (d *drawing) lines(b *strings.Builder) {
	c := d.chart
	var joined, average, dots, diamonds strings.Builder
	for i := range c.Baths {
		bath := &c.Baths[i]
		called := bath.Called()
		for p := max(bath.From, d.from); p < bath.To; p++ {
			x, y := d.x(c.Points[p].When), d.y(c.Points[p].Value)
			move := "L"
			if p == max(bath.From, d.from) || d.unseen(c.Points[p-1].When, c.Points[p].When) {
				move = "M"
			}
			fmt.Fprintf(&joined, "%s%.1f %.1f", move, x, y)
			if bath.Told() {
				fmt.Fprintf(&average, "%s%.1f %.1f", move, x, d.y(bath.Averages[p-bath.From].Value))
			}
			if called[p] {
				fmt.Fprintf(&diamonds, "M%.1f %.1fl3.6 3.6-3.6 3.6-3.6-3.6z", x, y-3.6)
			} else {
				fmt.Fprintf(&dots, "M%.1f %.1fh0", x, y)
			}
		}
	}
	for _, line := range []struct{ class, path string }{{"readings", joined.String()}, {"average", average.String()}, {"dots", dots.String()}, {"called", diamonds.String()}} {
		if line.path != "" {
			fmt.Fprintf(b, `<path class="%s" d="%s"/>`, line.class, line.path)
		}
	}
}

// unseen tells whether a gap lies between two readings.
func (d *drawing) unseen(from, to time.Time) bool {
	for _, g := range d.tank.Gaps {
		if !g.From.Before(from) && !g.To.After(to) {
			return true
		}
	}
	return false
}

// trend draws where a drift leads.
func (d *drawing) trend(b *strings.Builder) {
	drift := &d.chart.Drift
	if drift.State != history.Drifts {
		return
	}
	last := d.chart.Points[len(d.chart.Points)-1].When
	to := last
	if drift.Leaves != nil {
		to = *drift.Leaves
	}
	at := func(when time.Time) float64 { return drift.Level + drift.PerDay*when.Sub(last).Hours()/24 }
	from := drift.From
	if from.Before(d.start) {
		from = d.start
	}
	fmt.Fprintf(b, `<path class="trend" d="M%.1f %.1fL%.1f %.1f"/>`, d.x(from), d.y(at(from)), d.x(to), d.y(at(to)))
}

// marks draws what was done to the bath: a change as a line across the plot, a repair as a square and a top-up as a triangle on its lower edge.
func (d *drawing) marks(b *strings.Builder) {
	for _, m := range d.tank.Marks {
		x := d.x(m.When)
		if m.When.Before(d.start) && m.When.Format(time.DateOnly) != d.start.Format(time.DateOnly) || x > plotRight {
			continue
		}
		x = max(x, plotLeft)
		switch m.Work {
		case record.Change:
			fmt.Fprintf(b, `<path class="change" d="M%.1f %gV%g"/><path class="mark" d="M%.1f %gl-5-8h10z"/>`, x, plotTop, plotBottom, x, plotTop)
		case record.Repair:
			fmt.Fprintf(b, `<path class="mark" d="M%.1f %gh6v-6h-6z"/>`, x-3, plotBottom)
		case record.TopUp:
			fmt.Fprintf(b, `<path class="mark" d="M%.1f %gl-3.5 6h7z"/>`, x, plotBottom-6)
		}
	}
}
