package bath

import (
	"math"
	"math/rand/v2"
	"testing"

	"tankside/calculators/air"
)

// TestOxygenTable: U.S. Geological Survey, DOTABLES, dissolved oxygen in mg/L
// in fresh water at 760 mmHg, and at 20 °C over pressure. To the printed
// hundredth.
func TestOxygenTable(t *testing.T) {
	for at, want := range map[float64]float64{0: 14.62, 5: 12.77, 10: 11.29, 15: 10.08, 20: 9.09, 22: 8.74, 25: 8.26, 28: 7.83, 30: 7.56, 35: 6.95, 40: 6.41} {
		if got := Saturation(at, air.SeaLevel) * 1000; math.Abs(got-want) > 0.0051 {
			t.Errorf("%g °C: %.4f mg/L, the table has %.2f", at, got, want)
		}
	}
	// An instrument handbook's table at 20 °C over barometric pressure, older
	// and up to 0.1 mg/L high.
	for mmHg, want := range map[float64]float64{775: 9.3, 760: 9.2, 725: 8.7, 700: 8.4, 675: 8.1, 650: 7.8, 625: 7.5} {
		if got := Saturation(20, mmHg*133.322387415) * 1000; math.Abs(got-want) > 0.16 {
			t.Errorf("%g mmHg: %.3f mg/L, the table has %.1f", mmHg, got, want)
		}
	}
}

// TestOxygenLibrary: the Gibbs SeaWater toolbox (Debian python3-gsw 3.6.16,
// Garcia and Gordon 1992), fresh water; 0.1 %.
func TestOxygenLibrary(t *testing.T) {
	for at, want := range map[float64]float64{5: 12.770, 20: 9.091, 30: 7.558} {
		if got := Saturation(at, air.SeaLevel) * 1000; math.Abs(got-want) > 0.001*want {
			t.Errorf("%g °C: %.4f mg/L, gsw has %.3f", at, got, want)
		}
	}
}

// TestHotOxygen: IAPWS G7-04 (python3-iapws 1.5.3) and PHREEQC (USGS,
// phreeqc.dat), mg/L at 1 atm of moist air. They differ from each other by up
// to 4 % at 70 °C and 6 % at 90 °C; ours must lie within the tolerance of both.
func TestHotOxygen(t *testing.T) {
	for _, c := range []struct{ t, iapws, phreeqc, tolerance float64 }{
		{40, 6.485, 6.388, 0.015}, {50, 5.541, 5.426, 0.02}, {60, 4.686, 4.562, 0.03}, {70, 3.814, 3.694, 0.045}, {80, 2.823, 2.721, 0.06}, {90, 1.596, 1.532, 0.085},
	} {
		got := Saturation(c.t, air.SeaLevel) * 1000
		for _, want := range []float64{c.iapws, c.phreeqc} {
			if math.Abs(got-want) > c.tolerance*want {
				t.Errorf("%g °C: %.3f mg/L, want %.3f", c.t, got, want)
			}
		}
	}
	if a, b := Saturation(40, air.SeaLevel), Saturation(40.0001, air.SeaLevel); math.Abs(a-b) > 1e-4*a {
		t.Errorf("a jump at 40 °C, %g to %g", a, b)
	}
	if got := Saturation(100.1, air.SeaLevel); got != 0 {
		t.Errorf("boiling water holds %g", got)
	}
}

// TestOxygenAltitude: the same equation through the standard atmosphere as
// published in psychrolib 1.1.1; mg/L at 20 °C.
func TestOxygenAltitude(t *testing.T) {
	for altitude, want := range map[float64]float64{0: 9.09, 500: 8.55, 1000: 8.04, 1500: 7.55, 2000: 7.09, 3000: 6.23} {
		if got := Saturation(20, air.Pressure(altitude)) * 1000; math.Abs(got-want) > 0.0051 {
			t.Errorf("%g m: %.3f mg/L, want %.2f", altitude, got, want)
		}
	}
}

// TestDegassing: values of the exponential worked by hand, C₀ 8.26, C∞ 5.00
// mg/L, k 0.1 per minute.
func TestDegassing(t *testing.T) {
	d := Degassing{Rate: 0.1 / 60, Floor: 5.00 / 8.26}
	for minutes, want := range map[float64]float64{10: 6.1993, 30: 5.1623} {
		if got := d.After(minutes*60, 8.26, 8.26); math.Abs(got-want) > 1e-4 {
			t.Errorf("after %g min %.4f, want %.4f", minutes, got, want)
		}
	}
	for target, want := range map[float64]float64{6.0: 11.817, 5.5: 18.749, 6.63: 6.931} {
		if got, ok := d.Time(8.26, target, 8.26); !ok || math.Abs(got/60-want) > 1e-3 {
			t.Errorf("to %g in %.3f min, want %.3f", target, got/60, want)
		}
	}
	if _, ok := d.Time(8.26, 5, 8.26); ok {
		t.Error("it never gets to the floor")
	}
	if got, ok := d.Time(5.5, 6, 8.26); !ok || got != 0 {
		t.Error("it is there already")
	}
	slow, _, _ := Band(5e3, 40, 40e3)
	_, _, fast := Band(30e3, 40, 40e3)
	if math.Abs(slow.Rate*60-0.02) > 1e-9 || math.Abs(fast.Rate*60-0.3) > 1e-9 {
		t.Errorf("the band runs from %g to %g per minute, want 0.02 to 0.3", slow.Rate*60, fast.Rate*60)
	}
}

// TestDegassingProperties: it never ends above saturation, more power is never
// slower, time and concentration are each other's inverse.
func TestDegassingProperties(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 2000 {
		temperature, density := 5+85*r.Float64(), 500+60e3*r.Float64()
		saturation := Saturation(temperature, air.Pressure(3000*r.Float64()))
		start := saturation * (0.3 + 1.7*r.Float64())
		target := saturation * r.Float64()
		slow, likely, fast := Band(density, temperature, 20e3+100e3*r.Float64())
		last := math.Inf(1)
		for _, d := range []Degassing{slow, likely, fast} {
			time, ok := d.Time(start, target, saturation)
			if !ok {
				if target > d.Floor*saturation*(1+1e-12) {
					t.Fatal("no time to a target above the floor")
				}
				continue
			}
			if time > last {
				t.Fatal("the faster course is slower")
			}
			last = time
			end := d.After(time, start, saturation)
			if end > saturation*(1+1e-9) {
				if start > target {
					t.Fatalf("ends at %g above saturation %g", end, saturation)
				}
			}
			if start > target && math.Abs(end-target) > 1e-9*saturation {
				t.Fatalf("after the time to %g it is %g", target, end)
			}
			if stronger, _, _ := Band(density*1.5, temperature, 40e3); time > 0 {
				if weaker, _, _ := Band(density, temperature, 40e3); stronger.Rate < weaker.Rate {
					t.Fatal("more sound is slower")
				}
			}
		}
	}
}
