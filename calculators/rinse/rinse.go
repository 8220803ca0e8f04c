// Package rinse holds the sums of rinsing and drying: how much of the bath is
// left after so many stages, what a film of water leaves behind, and how long
// it takes to dry.
package rinse

import (
	"math"

	"tankside/calculators/air"
	"tankside/calculators/water"
)

// Ratio is the strength of the bath over that of the last rinse in n
// counter-flow stages, for r = rinse flow over drag-out:
//
//	1 + r + r² + … + rⁿ
//
// exact for well-stirred stages at rest; the shop's rule is rⁿ.
func Ratio(r float64, n int) float64 {
	sum := 1.
	for range n {
		sum = sum*r + 1
	}
	return sum
}

// RatioSeparate is the same where each stage has its own fresh flow: (1 + r)ⁿ.
func RatioSeparate(r float64, n int) float64 { return math.Pow(1+r, float64(n)) }

// FlowFor finds the rinse flow over drag-out at which a ratio function of it
// reaches a wanted ratio of at least 1.
func FlowFor(wanted float64, ratio func(r float64) float64) float64 {
	low, high := 0., 1.
	for ratio(high) < wanted && high < 1e15 {
		high *= 2
	}
	for range 80 {
		if middle := (low + high) / 2; ratio(middle) < wanted {
			low = middle
		} else {
			high = middle
		}
	}
	return (low + high) / 2
}

// Residue in kg/m² that a film of water of a thickness in m leaves when it
// dries, for dissolved solids in kg/m³.
func Residue(solids, film float64) float64 { return solids * film }

// Drying is a film of water in a stream of air.
type Drying struct {
	WetBulb  float64 // °C, at which the film sits
	Rate     float64 // kg/(m²·s) while the film covers
	Capacity float64 // kg of water that a kg of dry air can take up
	Latent   float64 // J/kg at the wet bulb
}

// Dry computes the constant-rate period: heat flows from air at t °C with a
// humidity ratio to a film at the wet-bulb temperature, ṁ″ = h·(t − t_wb)/h_fg
// (any textbook on drying). transfer is h in W/(m²·K).
func Dry(t, humidityRatio, pressure, transfer float64) Drying {
	wet := air.WetBulb(t, humidityRatio, pressure)
	latent := water.LatentHeat(wet)
	return Drying{
		WetBulb:  wet,
		Rate:     math.Max(0, transfer*(t-wet)/latent),
		Capacity: math.Max(0, air.HumidityRatio(water.VapourPressure(wet), pressure)-humidityRatio),
		Latent:   latent,
	}
}
