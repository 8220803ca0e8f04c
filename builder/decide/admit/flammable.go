package admit

import (
	"math"

	"tankside/builder/decide/fact"
	"tankside/builder/finding"
	"tankside/builder/quantity"
	"tankside/calculators/safety"
)

// classes are the flash points in °C of each class of liquid that can be lit: UN GHS, table 2.6.1 (H224 and H225 below 23 °C, H226 from there to
// 60 °C, H227 from there to 93 °C). Where an article gives none, the low end counts: of H224 and H225 the upper, which refuses any warmth already.
var classes = map[string]struct{ low, high float64 }{
	"H224": {safety.HighlyFlammable, safety.HighlyFlammable}, "H225": {safety.HighlyFlammable, safety.HighlyFlammable},
	"H226": {safety.HighlyFlammable, safety.Flammable}, "H227": {safety.Flammable, safety.Combustible},
}

// Room is how warm, in °C, a vessel without heat may become.
const Room = safety.Room

// Flammable tells whether a chemistry can be lit as a liquid, and which fact says so: its hazard, whatever its flash point says, or a flash
// point of 93 °C or less (UN GHS, chapter 2.6).
func (c *Chemistry) Flammable() (finding.Place, bool) {
	if h, has := fact.One(c.Hazards, "H224", "H225", "H226", "H227"); has {
		return h.At, true
	}
	return c.FlashPoint.At, c.FlashPoint.Set && c.FlashPoint.Low <= safety.Combustible
}

// Flash is the flash point that counts: the one that the article gives, but no higher than its hazard allows; without one, the low end of what
// its hazard allows.
func (c *Chemistry) Flash() fact.Limit {
	l := c.FlashPoint
	for _, h := range c.Hazards {
		class, is := classes[h.Is()]
		at := class.high
		if !c.FlashPoint.Set {
			at = class.low
		}
		if is && (!l.Set || l.Low > at) {
			unit, _ := quantity.UnitNamed("°C", quantity.Temperature)
			l = fact.Limit{Range: quantity.Range{Low: at, High: at, Kind: quantity.Temperature, Unit: unit}, At: h.At, Set: true}
		}
	}
	return l
}

// coldOnly tells whether a chemistry cannot be warmed at all: the margin to its flash point lies below the air of the room.
func (c *Chemistry) coldOnly() bool {
	flash := c.Flash()
	return flash.Set && flash.Low-FlashMargin < Room
}

// cold tells whether a bath is not warmed: by what it is set to, or by its chemistry's window. One that nobody has set is not warmed in a jar.
func (b *Bath) cold() bool {
	t := b.value(Temperature)
	if !t.Set {
		return b.Tank != nil && b.Tank.Vessel == fact.Jar
	}
	return t.High <= Room && !math.IsInf(t.High, 0)
}
