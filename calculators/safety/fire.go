package safety

import "math"

// FlashMargin is how far below its flash point a heated liquid has to stay, in K: 30 °F, 16.7 K. U.S. OSHA, 29 CFR 1910.106(a)(19)(iii) and
// (iv): a liquid "heated for use to within 30 °F (16.7 °C) of its flashpoint" is handled by the rules of the next more dangerous category.
//
// The margin is one of vapour. No margin covers mist: what sound throws up as fine drops can catch fire far below the flash point (common
// practice, no source), so that a flammable bath with sound wants a tank built and approved for it at any temperature.
const FlashMargin = 30 * 5. / 9

// BelowFlash is how hot, in °C, a liquid with a flash point may become: the margin below it, in whole degrees, which can be set.
func BelowFlash(flashPoint float64) float64 { return math.Floor(flashPoint - FlashMargin) }

// Flash points in °C at which the classes of liquids that can be lit part: UN GHS, table 2.6.1. H224 and H225 flash below the first, H226 from there
// to the second, H227 from there to the third.
const (
	HighlyFlammable = 23
	Flammable       = 60
	Combustible     = 93
)

// GasOil is the highest flash point in °C with which a liquid may still be classed with those of H226: gas oils, diesel and light heating oils. Regulation
// (EC) No 1272/2008 (CLP), Annex I, 2.6.2.1, table 2.6.1, note (from memory, to be confirmed by the safety officer).
const GasOil = 75

// EyeRinse is how long an eye is rinsed at the least, in min: ANSI/ISEA Z358.1 (as quoted in a safety journal).
const EyeRinse = 15

// Room is how warm, in °C, a vessel without heat may become: the upper end of a shop's air. It is our own limit.
const Room = 30
