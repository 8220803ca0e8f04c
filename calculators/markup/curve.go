package markup

import (
	"math"
	"strings"

	"tankside/builder/quantity"
	"tankside/calculators"
)

// The drawing's size in its own units; at 320 px it stands nearly one to one.
const (
	wide, tall              = 360., 250.
	left, right, top, below = 46., 14., 16., 46.
	plotWide, plotTall      = wide - left - right, tall - top - below
)

// curve draws points as an SVG with axes, units and a band between the low and
// the high course. Colours are the text's own, so it is read on light, dark and
// paper alike. The figure around it bears the title as its name: in a tagged
// document it is a picture like the drawing, and each has to be described.
func (w *writer) curve(c *calculators.Curve) {
	p := newPlot(c)
	w.Put(`<figure class="sum-curve" aria-label="{}"><svg role="img" width="100%" viewBox="0 0 360 250" font-size="13" fill="currentColor" aria-label="{}. {}">
<title>{}</title><desc>{}</desc>
`, c.Title, c.Title, c.Description, c.Title, c.Description)
	w.axes(c, p)
	band := ""
	if low, high := p.clip(c.Low), p.clip(c.High); len(low) > 1 && len(high) > 1 && p.between(low, high) >= seen {
		band = "; " + w.Say("the shaded band is what is likely")
		w.Put(`<path class="curve-band" fill-opacity=".13" d="`)
		w.path(p, low)
		for i := len(high) - 1; i >= 0; i-- {
			w.draw("L{} {}", p.x(high[i].X), p.y(high[i].Y))
		}
		w.Put("Z\"/>\n")
	}
	for i, l := range c.Levels {
		y := p.y(l.Y)
		at := y - 4
		if i > 0 && math.Abs(p.y(c.Levels[0].Y)-y) < 16 || at < top+4 {
			at = y + 14
		}
		w.draw(`<path class="curve-level" fill="none" stroke="currentColor" stroke-width="1.2" stroke-dasharray="5 4" d="M{} {}H{}"/><text x="{}" y="{}" text-anchor="end">`, left, y, wide-right, wide-right, at)
		w.Put("{} {}</text>\n", l.Label, quantity.ShowIn(l.Y, c.Y.Unit))
	}
	w.Put(`<path class="curve-line" fill="none" stroke="currentColor" stroke-width="2.5" stroke-linejoin="round" d="`)
	w.path(p, c.Likely)
	w.Put(`"/>
</svg>
<figcaption>{}{}.</figcaption></figure>
`, c.Title, band)
}

// plot maps SI numbers to the drawing.
type plot struct {
	xs, ys         []float64 // ticks in the axes' units
	x0, x1, y0, y1 float64   // the ends in SI
	xUnit, yUnit   quantity.Unit
}

func newPlot(c *calculators.Curve) plot {
	p := plot{x0: math.Inf(1), x1: math.Inf(-1), y0: math.Inf(1), y1: math.Inf(-1), xUnit: c.X.Unit, yUnit: c.Y.Unit}
	take := func(x, y float64) {
		p.x0, p.x1 = math.Min(p.x0, x), math.Max(p.x1, x)
		p.y0, p.y1 = math.Min(p.y0, y), math.Max(p.y1, y)
	}
	for _, line := range [][]calculators.Point{c.Likely, c.Low, c.High} {
		for _, at := range line {
			take(at.X, at.Y)
		}
	}
	// The slow course may run on for hours; the likely one sets the width.
	if n := len(c.Likely); n > 0 {
		p.x1 = math.Min(p.x1, 1.6*c.Likely[n-1].X)
	}
	for _, l := range c.Levels {
		p.y0, p.y1 = math.Min(p.y0, l.Y), math.Max(p.y1, l.Y)
	}
	p.xs = ticks(c.X.Unit.FromSI(p.x0), c.X.Unit.FromSI(p.x1), 5, c.X.Unit.Symbol == "min")
	p.ys = ticks(c.Y.Unit.FromSI(p.y0), c.Y.Unit.FromSI(p.y1), 5, false)
	p.x1 = math.Max(p.x1, c.X.Unit.ToSI(p.xs[len(p.xs)-1]))
	p.y0 = math.Min(p.y0, c.Y.Unit.ToSI(p.ys[0]))
	p.y1 = math.Max(p.y1, c.Y.Unit.ToSI(p.ys[len(p.ys)-1]))
	return p
}

func (p plot) x(si float64) float64 { return left + plotWide*share(si, p.x0, p.x1) }
func (p plot) y(si float64) float64 { return top + plotTall*(1-share(si, p.y0, p.y1)) }

// seen is how high a band is at the least that somebody sees beside a line of 2.5, in the drawing's units.
const seen = 3.

// between is the mean height of the band between two courses, in the drawing's units: its area (Gauss's formula for polygons) over its width.
func (p plot) between(low, high []calculators.Point) float64 {
	around := append([]calculators.Point{}, low...)
	for i := len(high) - 1; i >= 0; i-- {
		around = append(around, high[i])
	}
	area, left, right := 0., math.Inf(1), math.Inf(-1)
	for i, at := range around {
		next := around[(i+1)%len(around)]
		area += p.x(at.X)*p.y(next.Y) - p.x(next.X)*p.y(at.Y)
		left, right = math.Min(left, p.x(at.X)), math.Max(right, p.x(at.X))
	}
	if right <= left {
		return 0
	}
	return math.Abs(area) / 2 / (right - left)
}

// clip cuts a line off where the drawing ends.
func (p plot) clip(line []calculators.Point) []calculators.Point {
	for i, at := range line {
		if at.X > p.x1 && i > 0 {
			last := line[i-1]
			cut := last.Y + (at.Y-last.Y)*(p.x1-last.X)/(at.X-last.X)
			return append(line[:i:i], calculators.Point{X: p.x1, Y: cut})
		}
	}
	return line
}

func share(v, low, high float64) float64 {
	if high <= low {
		return 0.5
	}
	return math.Min(1, math.Max(0, (v-low)/(high-low)))
}

// ticks are round numbers that cover low to high, about so many steps.
func ticks(low, high float64, count int, minutes bool) []float64 {
	if !(high > low) {
		high = low + 1
	}
	rough := (high - low) / float64(count)
	step := math.Pow(10, math.Floor(math.Log10(rough)))
	for _, k := range [...]float64{1, 2, 5, 10} {
		if step*k >= rough*0.999 {
			step *= k
			break
		}
	}
	if minutes {
		for _, k := range [...]float64{1, 2, 5, 10, 15, 30, 60} {
			if k >= rough*0.999 {
				step = math.Max(k, math.Min(step, 1))
				break
			}
		}
	}
	var t []float64
	for i := math.Floor(low/step + 1e-9); len(t) < 20; i++ {
		t = append(t, i*step)
		if i*step >= high-step*1e-9 {
			break
		}
	}
	return t
}

func (w *writer) axes(c *calculators.Curve, p plot) {
	const bottom = top + plotTall
	w.draw(`<path class="curve-axis" fill="none" stroke="currentColor" stroke-width="1.2" d="M{} {}V{}H{}"/>
`, left, top, bottom, wide-right)
	for _, v := range p.ys {
		y := p.y(c.Y.Unit.ToSI(v))
		w.draw(`<path class="curve-grid" fill="none" stroke="currentColor" stroke-opacity=".22" d="M{} {}H{}"/><text x="{}" y="{}" text-anchor="end">`, left, y, wide-right, left-6, y+4.5)
		w.Put("{}</text>\n", quantity.Decimal(v, 4))
	}
	for _, v := range p.xs {
		x := p.x(c.X.Unit.ToSI(v))
		w.draw(`<path class="curve-tick" fill="none" stroke="currentColor" d="M{} {}v5"/><text x="{}" y="{}" text-anchor="middle">`, x, bottom, x, bottom+18)
		w.Put("{}</text>\n", quantity.Decimal(v, 4))
	}
	w.draw(`<text x="{}" y="{}" text-anchor="middle">`, left+plotWide/2, tall-8)
	w.Put("{}</text>\n", w.Fill("{axis} in {unit}", c.X.Label, c.X.Unit.Symbol))
	w.draw(`<text transform="translate(12 {}) rotate(-90)" text-anchor="middle">`, top+plotTall/2)
	w.Put("{}</text>\n", w.Fill("{axis} in {unit}", c.Y.Label, c.Y.Unit.Symbol))
}

func (w *writer) path(p plot, line []calculators.Point) {
	command := "M{} {}"
	for _, at := range line {
		w.draw(command, p.x(at.X), p.y(at.Y))
		command = "L{} {}"
	}
}

// draw writes markup in which each {} stands for a coordinate, to a tenth.
func (w *writer) draw(markup string, numbers ...float64) {
	for {
		before, after, found := strings.Cut(markup, "{}")
		w.WriteString(before)
		if !found {
			return
		}
		w.tenth(numbers[0])
		markup, numbers = after, numbers[1:]
	}
}

// tenth writes a coordinate, none of which is below nought or above 1000.
func (w *writer) tenth(v float64) {
	n := int(math.Round(v * 10))
	whole, part := n/10, n%10
	for _, power := range [...]int{100, 10, 1} {
		if whole >= power || power == 1 {
			w.WriteByte(byte('0' + whole/power%10))
		}
	}
	if part > 0 {
		w.WriteByte('.')
		w.WriteByte(byte('0' + part))
	}
}
