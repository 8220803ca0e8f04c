package rinse

import (
	"math"
	"testing"

	"tankside/calculators/air"
)

func near(got, want, tolerance float64) bool {
	return math.Abs(got-want) <= tolerance*math.Max(1e-300, math.Abs(want))
}

// TestRatio: worked examples of surface-finishing guidebooks: 1 gal/h drag-in
// and 99 gal/h of rinse give 100:1; 1 and 2000 gal/h give 2001:1, so that 10
// oz/gal become 0.005 oz/gal; the rest from the geometric series.
func TestRatio(t *testing.T) {
	for _, c := range []struct {
		r    float64
		n    int
		want float64
	}{{99, 1, 100}, {2000, 1, 2001}, {999, 1, 1000}, {99, 2, 9901}, {10, 1, 11}, {10, 2, 111}, {10, 3, 1111}, {1, 3, 4}, {0, 5, 1}} {
		if got := Ratio(c.r, c.n); !near(got, c.want, 1e-12) {
			t.Errorf("r %g, %d stages: %g, want %g", c.r, c.n, got, c.want)
		}
	}
	if got := 10 / Ratio(2000, 1); math.Abs(got-0.005) > 0.00001 {
		t.Errorf("10 oz/gal become %g", got)
	}
	if got := RatioSeparate(10, 3); !near(got, 1331, 1e-12) {
		t.Errorf("separate feeds: %g", got)
	}
}

// TestRatioBalances compares the closed form with the stages' balances solved
// as a linear system: D·c(i−1) + R·c(i+1) = (D + R)·c(i), the last fed with
// clean water.
func TestRatioBalances(t *testing.T) {
	for n := 1; n <= 6; n++ {
		for _, r := range []float64{0.5, 1, 10, 99, 2000} {
			// backward from the last stage: c(n) = 1, c(n+1) = 0
			next, c := 0., 1.
			for range n {
				c, next = (1+r)*c-r*next, c
			}
			if got := Ratio(r, n); !near(got, c, 1e-9) {
				t.Errorf("r %g, %d stages: %g, balances give %g", r, n, got, c)
			}
			if back := FlowFor(c, func(r float64) float64 { return Ratio(r, n) }); !near(back, r, 1e-9) {
				t.Errorf("flow for %g in %d stages: %g, want %g", c, n, back, r)
			}
		}
	}
}

// TestFlowRule: the shop's table of flow over drag-out for 1000:1 in one, two
// and three counter-flow stages, 1000 / 32 / 10, by the rule r = ratio^(1/n);
// exact sums come out 4 % lower at most.
func TestFlowRule(t *testing.T) {
	for n, want := range map[int]float64{1: 1000, 2: 31.6, 3: 10} {
		if got := FlowFor(1000, func(r float64) float64 { return Ratio(r, n) }); got > want || got < want*0.96 {
			t.Errorf("%d stages: %g, the rule has %g", n, got, want)
		}
	}
}

// TestResidue: mg/m² = mg/L × µm / 1000, films from the drag-out table of the
// Metal Finishing guidebook 2012-13 (0.4 and 2.0 gal/1000 ft²).
func TestResidue(t *testing.T) {
	for _, c := range []struct{ solids, film, want float64 }{{300, 16.3, 4.89}, {500, 81.5, 40.75}, {2, 16.3, 0.0326}, {50, 16.3, 0.815}} {
		if got := Residue(c.solids/1000, c.film/1e6) * 1e6; !near(got, c.want, 1e-9) {
			t.Errorf("%g mg/L, %g µm: %g mg/m², want %g", c.solids, c.film, got, c.want)
		}
	}
}

// TestDry: wet bulbs by psychrolib 1.1.1 at a dew point of 10 °C, rates and
// times for 16.3 g/m² at h = 25 W/(m²·K) worked from them by hand.
func TestDry(t *testing.T) {
	for _, c := range []struct{ t, wet, rate, time float64 }{{60, 26.285, 0.3456, 47.2}, {80, 30.684, 0.5077, 32.1}, {100, 34.384, 0.6780, 24.0}, {120, 37.566, 0.8545, 19.1}} {
		d := Dry(c.t, 0.0076301, air.SeaLevel, 25)
		if math.Abs(d.WetBulb-c.wet) > 0.02 || !near(d.Rate*1000, c.rate, 0.005) || math.Abs(0.0163/d.Rate-c.time) > 0.005*c.time {
			t.Errorf("%g °C: %+v, %.1f s; want %+v", c.t, d, 0.0163/d.Rate, c)
		}
	}
}
