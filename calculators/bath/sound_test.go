package bath

import (
	"math"
	"testing"

	"tankside/calculators/air"
)

// TestWavelength: λ = c/f in mm with the speed of sound of IAPWS-95; at 60 °C
// twice the half-wave, which is rounded to 0.01 mm.
func TestWavelength(t *testing.T) {
	for _, c := range []struct{ kHz, t, want float64 }{
		{20, 20, 74.12}, {25, 20, 59.30}, {40, 20, 37.06}, {80, 20, 18.53}, {132, 20, 11.23},
		{25, 60, 2 * 31.02}, {40, 60, 2 * 19.39}, {80, 60, 2 * 9.69}, {132, 60, 2 * 5.88},
	} {
		if got := Wavelength(c.kHz*1000, c.t) * 1000; math.Abs(got-c.want) > 0.0201 {
			t.Errorf("%g kHz at %g °C: %.3f mm, want %.2f", c.kHz, c.t, got, c.want)
		}
	}
}

// TestMinnaert: f·R = 3.26 m/s is the textbook constant (Minnaert 1933; Leighton,
// The Acoustic Bubble, 1994), 3.286 by the formula at 20 °C and 101.325 kPa for
// adiabatic gas, 2.777 for isothermal. Surface tension adds 1 to 3 %.
func TestMinnaert(t *testing.T) {
	for _, c := range []struct{ kHz, textbook, adiabatic, isothermal float64 }{ // µm
		{20, 163, 164.9, 139.3}, {25, 130.4, 132.0, 111.6}, {40, 81.5, 82.7, 69.9}, {80, 40.8, 41.6, 35.2}, {132, 24.7, 25.4, 21.5},
	} {
		a := ResonantRadius(c.kHz*1000, 20, air.SeaLevel, Adiabatic) * 1e6
		i := ResonantRadius(c.kHz*1000, 20, air.SeaLevel, Isothermal) * 1e6
		if math.Abs(a-c.adiabatic) > 0.051 || math.Abs(i-c.isothermal) > 0.051 {
			t.Errorf("%g kHz: %.2f and %.2f µm, want %.1f and %.1f", c.kHz, a, i, c.adiabatic, c.isothermal)
		}
		if math.Abs(a-c.textbook) > 0.03*c.textbook {
			t.Errorf("%g kHz: %.2f µm, the constant gives %.1f", c.kHz, a, c.textbook)
		}
	}
}

// TestBoundaryLayer: the acoustic boundary layer √(ν/πf) with ν 1.0 mm²/s at
// 20 °C and 0.51 at 55 °C, rounded to a tenth of a micrometre.
func TestBoundaryLayer(t *testing.T) {
	for _, c := range []struct{ kHz, cold, warm float64 }{{25, 3.6, 2.5}, {40, 2.8, 2.0}, {80, 2.0, 1.4}, {132, 1.6, 1.1}} {
		if got := BoundaryLayer(c.kHz*1000, 20) * 1e6; math.Abs(got-c.cold) > 0.06 {
			t.Errorf("%g kHz, 20 °C: %.2f µm, want %.1f", c.kHz, got, c.cold)
		}
		if got := BoundaryLayer(c.kHz*1000, 55) * 1e6; math.Abs(got-c.warm) > 0.06 {
			t.Errorf("%g kHz, 55 °C: %.2f µm, want %.1f", c.kHz, got, c.warm)
		}
	}
}

// TestCalorimetry: M. Plattes et al., MethodsX 4 (2017) 274, method: P = m·cp·dT/dt.
// 1 kg of water at 1 K/min takes 69.73 W, 0.5 kg at 2.5 K in 180 s 29.06 W.
func TestCalorimetry(t *testing.T) {
	if got := Calorimetry(1/998.207, 20, 1./60); math.Abs(got-69.73) > 0.01 {
		t.Errorf("%.3f W, want 69.73", got)
	}
	if got := Calorimetry(0.5/998.207, 20, 2.5/180); math.Abs(got-29.06) > 0.01 {
		t.Errorf("%.3f W, want 29.06", got)
	}
	// The shop's rule, watts = 70 × litres × kelvin per minute: 20 L at 0.5 K/min, 700 W.
	if got := Calorimetry(0.020, 20, 0.5/60); math.Abs(got-700) > 0.01*700 {
		t.Errorf("%.1f W, the rule has 700", got)
	}
}
