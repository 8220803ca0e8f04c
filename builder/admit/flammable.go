package admit

import (
	"math"

	"tankside/builder/fact"
	"tankside/builder/finding"
	"tankside/calculators/quantity"
)

// flashOf is the highest flash point in °C that each class of flammable liquid has: UN GHS, table 2.6.1 (H224 and H225 below 23 °C, H226 up
// to 60 °C).
var flashOf = map[string]float64{"H224": 23, "H225": 23, "H226": 60}

// Room is how warm, in °C, a vessel without heat may become: the upper end of a shop's air. It is our own limit.
const Room = 30

// Flammable tells whether a chemistry can be lit as a liquid, and which fact says so: its hazard, whatever its flash point says, or a flash
// point of 93 °C or less (UN GHS, chapter 2.6).
func (c *Chemistry) Flammable() (finding.Place, bool) {
	if h, has := fact.One(c.Hazards, "H224", "H225", "H226"); has {
		return h.At, true
	}
	return c.FlashPoint.At, c.FlashPoint.Set && c.FlashPoint.Low <= 93
}

// Flash is the flash point that counts: the one that the article gives, or that of the hazard's class where it gives none or a higher one.
func (c *Chemistry) Flash() fact.Limit {
	l := c.FlashPoint
	for _, h := range c.Hazards {
		most, is := flashOf[h.Is()]
		if is && (!l.Set || l.Low > most) {
			unit, _ := quantity.UnitNamed("°C", quantity.Temperature)
			l = fact.Limit{Range: quantity.Range{Low: most, High: most, Kind: quantity.Temperature, Unit: unit}, At: h.At, Set: true}
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
