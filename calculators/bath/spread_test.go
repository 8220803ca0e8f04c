package bath

import (
	"math"
	"testing"

	"tankside/calculators/air"
	"tankside/calculators/water"
)

// TestBandCoversOtherCorrelations: Carrier's formula at still air, 0.089 W/m² for each Pa (ASHRAE Handbook HVAC Applications), lies within the band
// below Shah's, and halfway from it to a Lewis analogy with Stefan's flow within the band above, within a twentieth, to 2,000 m of altitude and to where the vapour has three
// quarters of the air's pressure, 92 °C at sea level and 85 °C at 2,000 m.
func TestBandCoversOtherCorrelations(t *testing.T) {
	widest := 0.
	for _, altitude := range []float64{0, 500, 1000, 2000} {
		p := air.Pressure(altitude)
		for temperature := 40.; water.VapourPressure(temperature) < 0.75*p; temperature++ {
			shah := EvaporationRate(temperature, 20, 0.5, p) * water.LatentHeat(temperature)
			carrier := 0.089 * (water.VapourPressure(temperature) - air.Vapour(20, 0.5))
			halfway := (carrier + lewis(temperature, 20, 0.5, p)*water.LatentHeat(temperature)) / 2
			v := Vessel{Pressure: p}
			band := v.LossBand(temperature)
			widest = math.Max(widest, band)
			if carrier < shah*(1-band)*0.95 || halfway > shah*(1+band)*1.05 {
				t.Errorf("%g °C at %g m: Shah %.0f W/m² ±%.0f %%, Carrier %.0f, halfway to Lewis %.0f", temperature, altitude, shah, 100*band, carrier, halfway)
			}
		}
	}
	if widest < 0.45 || widest > 0.5 {
		t.Errorf("the widest band is %g", widest)
	}
	if v := (Vessel{Pressure: 101325}); v.LossBand(60) != 0.2 || v.LossBand(80) < 0.3 || v.LossBand(80) > 0.32 {
		t.Errorf("%g at 60 °C, %g at 80 °C", v.LossBand(60), v.LossBand(80))
	}
}

// lewis is the evaporation in kg/(m²·s) by free convection over 0.12 m with the analogy of heat and mass and Stefan's flow (any textbook on mass
// transfer); diffusivity of vapour 2.26e-5·(T/273.15)^1.81 m²/s.
func lewis(t, room, humidity, pressure float64) float64 {
	const length = 0.12
	film, pw, pr := (t+room)/2, water.VapourPressure(t), air.Vapour(room, humidity)
	surface, away := air.Density(t, pw, pressure), air.Density(room, pr, pressure)
	k := air.Conductivity(film)
	ra := rayleigh((away-surface)/away, length, film, pressure, k)
	capacity := air.DryDensity(film, 0, pressure) * air.HeatCapacity
	h := math.Max(0.54*math.Pow(ra, 0.25), 0.15*math.Cbrt(ra)) * k / length
	diffusivity := 2.26e-5 * math.Pow((film+water.Kelvin)/water.Kelvin, 1.81) * 101325 / pressure
	return h / capacity * math.Pow(diffusivity*capacity/k, 2./3) * pressure * water.MolarMass / (8.314462 * (film + water.Kelvin)) * math.Log((pressure-pr)/(pressure-pw))
}
