package bath

import (
	"math"

	"tankside/calculators/air"
	"tankside/calculators/water"
)

const (
	oxygenInAir = 0.20946
	oxygenMass  = 31.9988e-3 // kg/mol
)

// Saturation is the oxygen that fresh water holds in contact with air, in
// kg/m³, at a temperature in °C and a pressure in Pa.
//
// To 40 °C: B. B. Benson and D. Krause, Limnol. Oceanogr. 29 (1984) 620, the
// form that the U.S. Geological Survey uses (Office of Water Quality Technical
// Memorandum 2011.03); its tables are met to the last digit. It runs away when
// extrapolated, so above 40 °C the IUPAC Solubility Data Series equation for
// oxygen (R. Battino, vol. 7, 1981, as in the CRC Handbook) takes over, scaled
// by 0.3 % to meet it at 40 °C. Sources differ there by 3 % at 60 °C and 7 % at
// 90 °C. At the boiling point it is nothing.
func Saturation(t, pressure float64) float64 {
	const join = 40
	if t <= join {
		return bensonKrause(t, pressure)
	}
	return battino(t, pressure) * bensonKrause(join, air.SeaLevel) / battino(join, air.SeaLevel)
}

func bensonKrause(t, pressure float64) float64 {
	k := t + water.Kelvin
	atm := pressure / air.SeaLevel
	ln := -139.34411 + (1.575701e5+(-6.642308e7+(1.243800e10-8.621949e11/k)/k)/k)/k
	theta := 0.000975 + t*(-1.426e-5+t*6.436e-8)
	u := math.Exp(11.8571 - 3840.70/k - 216961/(k*k))
	return 1e-3 * math.Exp(ln) * (atm - u) * (1 - theta*atm) / ((1 - u) * (1 - theta))
}

func battino(t, pressure float64) float64 {
	q := (t + water.Kelvin) / 100
	x := math.Exp(-66.7354 + 87.4755/q + 24.4526*math.Log(q)) // mole fraction at 1 atm of oxygen
	dry := math.Max(0, pressure-water.VapourPressure(t)) / air.SeaLevel
	return x * oxygenInAir * dry / water.MolarMass * water.Density(t) * oxygenMass
}

// Degassing is the loss of dissolved oxygen (which stands for air) under
// ultrasound:
//
//	C(τ) = C∞ + (C₀ − C∞)·e^(−kτ)
//
// Sound drives bubbles that carry gas out, the surface takes some in again, and
// both meet at a level C∞ below saturation (O. A. Kapustina in L. D. Rozenberg
// ed., Physical Principles of Ultrasonic Technology vol. 1, Plenum 1973, calls
// it quasi-equilibrium; oxygen in an open 28 kHz reactor moves to a common
// level from above and from below, Ultrason. Sonochem. 2022). There is no
// published rate that fits every tank: k and C∞ are bands, and only a reading
// with a dissolved-oxygen meter narrows them.
type Degassing struct {
	Rate  float64 // k, 1/s
	Floor float64 // C∞ as a share of saturation
}

// Band gives the slow, the likely and the fast course for a power density of
// ultrasound (electrical) in W/m³, a temperature in °C and a frequency in Hz.
//
// The band is an engineering estimate from memory: at 20–40 kHz k runs from
// 0.02 to 0.3 per minute between 5 and 30 W/L, and C∞ from 0.4 to 0.8 of
// saturation. It is laid out as k in proportion to power density within a
// factor of 1.6 either way, which meets both ends; above 50 kHz, for which
// there is no figure, the factor is 3. With temperature k follows the square
// root of oxygen's diffusivity (penetration theory; Stokes–Einstein), 1 at
// 40 °C.
func Band(density, t, frequency float64) (slow, likely, fast Degassing) {
	const perMinute = 1. / 60
	middle := math.Sqrt(0.02*0.3) * perMinute * density / (math.Sqrt(5*30) * 1000)
	middle *= math.Sqrt((t + water.Kelvin) / (40 + water.Kelvin) * water.Viscosity(40) / water.Viscosity(t))
	spread := math.Sqrt(0.3/0.02) / math.Sqrt(30./5)
	if frequency > 50e3 {
		spread = 3
	}
	return Degassing{middle / spread, 0.8}, Degassing{middle, 0.6}, Degassing{middle * spread, 0.4}
}

// After is the concentration after a time in s, from start, both in the unit of
// saturation.
func (d Degassing) After(time, start, saturation float64) float64 {
	floor := d.Floor * saturation
	return floor + (start-floor)*math.Exp(-d.Rate*time)
}

// Time until the concentration has fallen from start to target. ok is false
// when the target is at or below the level at which degassing stops. A bath
// that is already there takes no time.
func (d Degassing) Time(start, target, saturation float64) (time float64, ok bool) {
	floor := d.Floor * saturation
	switch {
	case start <= target:
		return 0, true
	case target <= floor || d.Rate <= 0:
		return 0, false
	}
	return math.Log((start-floor)/(target-floor)) / d.Rate, true
}

// Regassing is the time in s in which a still bath of a depth in m takes up
// half of the air it lacks once the sound is off: ln 2·depth/k_L with a film
// coefficient of 1e-5 m/s for a still surface (from memory, within a factor of
// three).
func Regassing(depth float64) float64 { return math.Ln2 * depth / 1e-5 }
