package page

import (
	"fmt"
	"html/template"
	"math"
	"strings"

	"tankside/builder/manual"
	"tankside/builder/quantity"
)

// gauges is a row of scales: the band is what the article allows, the pointer is the shop's tank today.
type gauges struct {
	Rows []gauge
	Note string
}

// gauge is one scale, drawn.
type gauge struct {
	Name    string
	Value   template.HTML
	Outside template.HTML // in words, when the tank stands outside the band
	Drawing template.HTML
}

// scale is the span that a gauge draws, in the unit of the quantity's SI kind.
type scale struct {
	low, high   float64
	logarithmic bool
}

// at gives the place of a value on the scale, 0 to 1.
func (s scale) at(v float64) float64 {
	low, high := s.low, s.high
	if s.logarithmic {
		low, high, v = math.Log(low), math.Log(high), math.Log(math.Max(v, low))
	}
	return max(0, min(1, (v-low)/(high-low)))
}

// scaleFor chooses the span for a band: a fixed one where the quantity has natural ends, otherwise from nothing to half as much again.
func scaleFor(kind quantity.Kind, band quantity.Range) scale {
	switch kind {
	case quantity.PH:
		return scale{low: 0, high: 14}
	case quantity.Temperature:
		return scale{low: 0, high: 100}
	case quantity.Frequency:
		return scale{low: 20e3, high: 200e3, logarithmic: true}
	}
	top := band.High
	if math.IsInf(top, 0) {
		top = 2 * band.Low
	}
	high := 1.5 * top
	if kind == quantity.VolumeFraction || kind == quantity.MassFraction {
		high = min(high, max(1, top)) // nothing is more than itself
	}
	return scale{low: 0, high: high}
}

// gauge draws one scale. today is the tank's value, where there is one.
func (s *site) gauge(name string, l manual.Limit, tank string, today manual.Limit) (gauge, bool) {
	if !l.Set {
		return gauge{}, false
	}
	band := l.Range
	sc := scaleFor(band.Kind, band)
	g := gauge{Name: name, Value: s.both(band.In)}
	v, pointed := single(today)
	pointed = pointed && today.Kind == band.Kind
	if pointed && !band.Contains(v) {
		g.Outside = s.both(func(in quantity.System) string {
			return fmt.Sprintf(s.words.say("%s is outside: %s"), tank, today.In(in))
		})
	}
	ends := func(v float64, attributes string) string {
		own, other := end(v, band, s.system), end(v, band, s.otherSystem())
		if own == other {
			return svgText(attributes, "end", own)
		}
		return svgText(attributes, "end "+systemClass(s.system), own) + svgText(attributes, "end "+systemClass(s.otherSystem()), other)
	}
	g.Drawing = drawGauge(sc, band, ends(sc.low, `x="4" y="40"`)+ends(sc.high, fmt.Sprintf(`x="%g" y="40" text-anchor="end"`, gaugeWidth-4)), v, pointed)
	return g, true
}

func svgText(attributes, class, text string) string {
	return fmt.Sprintf(`<text class="%s" %s font-size="12">%s</text>`, class, attributes, template.HTMLEscapeString(text))
}

// end labels an end of a scale. Where a scale begins with nothing that end has no unit, for the other has it: two labels with both families' units, as of a strength in
// wt oz/US gal (g/L), find no room beneath one scale.
func end(v float64, band quantity.Range, system quantity.System) string {
	if band.Kind == quantity.PH || v == 0 && band.Kind != quantity.Temperature {
		return quantity.Decimal(v, 3)
	}
	if band.Unit.Suits(system) {
		return quantity.ShowIn(v, band.Unit)
	}
	return quantity.Show(v, band.Kind, system)
}

const gaugeWidth = 200.0

// drawGauge draws the scale as SVG: a line with labelled ends, the band, and the pointer, whose shape changes outside the band.
func drawGauge(sc scale, band quantity.Range, ends string, value float64, pointed bool) template.HTML {
	x := func(v float64) float64 { return 4 + (gaugeWidth-8)*sc.at(v) }
	left, right := x(math.Max(band.Low, sc.low)), x(math.Min(band.High, sc.high))
	if right-left < 4 {
		left, right = left-2, right+2
	}
	var b strings.Builder
	fmt.Fprintf(&b, `<svg viewBox="0 0 %g 44" aria-hidden="true" focusable="false">`, gaugeWidth)
	fmt.Fprintf(&b, `<line class="scale" x1="4" y1="21" x2="%g" y2="21" stroke-width="3"/>`, gaugeWidth-4)
	fmt.Fprintf(&b, `<rect class="band" x="%.1f" y="17" width="%.1f" height="8"/>`, left, right-left)
	if pointed {
		p := x(value)
		if band.Contains(value) {
			fmt.Fprintf(&b, `<path class="pointer" d="M%.1f 15l-6-11h12z"/>`, p)
		} else {
			fmt.Fprintf(&b, `<path class="pointer off" d="M%.1f 2l6 6-6 6-6-6z" fill-rule="evenodd"/>`, p)
		}
	}
	b.WriteString(ends)
	b.WriteString("</svg>")
	return template.HTML(b.String())
}
