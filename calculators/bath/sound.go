package bath

import (
	"math"

	"tankside/calculators/water"
)

// Wavelength of sound in water in m, at a frequency in Hz and a temperature in
// °C. Pressure peaks of a standing wave lie half of it apart.
func Wavelength(frequency, t float64) float64 { return water.SpeedOfSound(t) / frequency }

// Polytropic exponents between which an air bubble's gas is squeezed.
const (
	Isothermal = 1.0
	Adiabatic  = 1.4
)

// ResonantRadius of an air bubble in water in m, at a frequency in Hz, a
// temperature in °C and a pressure in Pa, for gas of a polytropic exponent:
//
//	f = 1/(2πR)·√([3γ(p + 2σ/R) − 2σ/R]/ρ)
//
// M. Minnaert, Phil. Mag. 16 (1933) 235, with the surface tension σ of T. G.
// Leighton, The Acoustic Bubble (1994). It is the linear resonance; bubbles at
// cleaning amplitudes are smaller. An order of size.
func ResonantRadius(frequency, t, pressure, exponent float64) float64 {
	density, tension := water.Density(t), water.SurfaceTension(t)
	omega := 2 * math.Pi * frequency
	radius := math.Sqrt(3*exponent*pressure/density) / omega
	for range 30 { // converges at once: the surface's share is small
		p := 3*exponent*(pressure+2*tension/radius) - 2*tension/radius
		radius = math.Sqrt(p/density) / omega
	}
	return radius
}

// BoundaryLayer is the thickness in m of the layer of liquid that a surface
// holds still against the sound, √(ν/πf).
func BoundaryLayer(frequency, t float64) float64 {
	return math.Sqrt(water.Viscosity(t) / water.Density(t) / (math.Pi * frequency))
}

// Calorimetry is the power in W that warms a volume in m³ of water at a
// temperature in °C at a rate in K/s.
func Calorimetry(volume, t, rate float64) float64 {
	return volume * water.Density(t) * water.HeatCapacity(t) * rate
}
