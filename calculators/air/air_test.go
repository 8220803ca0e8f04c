package air

import (
	"math"
	"testing"

	"tankside/calculators/water"
)

// TestPressure: psychrolib 1.1.1, GetStandardAtmPressure, in kPa.
func TestPressure(t *testing.T) {
	for altitude, want := range map[float64]float64{0: 101.325, 500: 95.461, 1000: 89.875, 1500: 84.556, 2000: 79.495, 3000: 70.108} {
		if got := Pressure(altitude) / 1000; math.Abs(got-want) > 0.002 {
			t.Errorf("at %g m %.4f kPa, want %.3f", altitude, got, want)
		}
	}
}

// TestHumidity: psychrolib 1.1.1 at 101.325 kPa. The library uses ASHRAE's own
// vapour-pressure formula, 0.03 % off IAPWS, hence 0.05 % and 0.02 K.
func TestHumidity(t *testing.T) {
	w := HumidityRatio(Vapour(20, 0.5), SeaLevel)
	if math.Abs(w-0.0072617) > 0.0005*0.0072617 {
		t.Errorf("humidity ratio at 20 °C, 50 %% is %.7f", w)
	}
	if got := WetBulb(20, w, SeaLevel); math.Abs(got-13.783) > 0.02 {
		t.Errorf("wet bulb at 20 °C, 50 %% is %.3f, want 13.783", got)
	}
	const dew10 = 0.0076301 // humidity ratio at a dew point of 10 °C
	if got := HumidityRatio(water.VapourPressure(10), SeaLevel); math.Abs(got-dew10) > 0.0005*dew10 {
		t.Errorf("humidity ratio at dew point 10 °C is %.7f", got)
	}
	for hot, want := range map[float64]float64{60: 26.285, 80: 30.684, 100: 34.384, 120: 37.566} {
		if got := WetBulb(hot, dew10, SeaLevel); math.Abs(got-want) > 0.02 {
			t.Errorf("wet bulb at %g °C is %.3f, want %.3f", hot, got, want)
		}
	}
}

// TestTransport: air at 300 K in Incropera, Fundamentals of Heat and Mass
// Transfer (6th ed. 2007), table A.4: viscosity 184.6e-7 Pa·s, conductivity
// 26.3e-3 W/(m·K), density 1.1614 kg/m³; 0.3 % for the rounding of the table.
func TestTransport(t *testing.T) {
	for _, c := range []struct{ got, want float64 }{
		{Viscosity(300 - water.Kelvin), 184.6e-7},
		{Conductivity(300 - water.Kelvin), 26.3e-3},
		{Density(300-water.Kelvin, 0, 1e5), 1.1614}, // the table's density is that at 1 bar
	} {
		if math.Abs(c.got-c.want) > 0.003*c.want {
			t.Errorf("%g, want %g", c.got, c.want)
		}
	}
}
