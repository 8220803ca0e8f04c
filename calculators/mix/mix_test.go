package mix

import (
	"math"
	"math/rand/v2"
	"testing"
)

func near(got, want, tolerance float64) bool {
	return math.Abs(got-want) <= tolerance*math.Max(1e-12, math.Abs(want))
}

// TestStrengths: % v/v to % w/w for a concentrate of 1.2 kg/L in water of
// 0.998 kg/L, worked by hand from % w/w = v·ρ/(v·ρ + (100 − v)·0.998), and g/L
// = 10·(% v/v)·ρ.
func TestStrengths(t *testing.T) {
	for _, c := range []struct{ v, w, grams float64 }{{2, 2.3951, 24}, {5, 5.9518, 60}, {10, 11.7855, 120}} {
		if got := 100 * ToMassFraction(c.v/100, 1200); !near(got, c.w, 1e-3) {
			t.Errorf("%g %% v/v is %.4f %% w/w, want %.4f", c.v, got, c.w)
		}
		if got := 100 * FromMassFraction(c.w/100, 1200); !near(got, c.v, 1e-3) {
			t.Errorf("%g %% w/w is %.4f %% v/v, want %g", c.w, got, c.v)
		}
		if got := ToMassConcentration(c.v/100, 1200); !near(got, c.grams, 1e-9) {
			t.Errorf("%g %% v/v is %g g/L, want %g", c.v, got, c.grams)
		}
		if got := 100 * FromMassConcentration(c.grams, 1200); !near(got, c.v, 1e-9) {
			t.Errorf("%g g/L is %g %% v/v, want %g", c.grams, got, c.v)
		}
	}
}

// TestAdjust: cases worked by hand with C₁V₁ = C₂V₂. Litres.
func TestAdjust(t *testing.T) {
	for _, c := range []struct {
		what                        string
		volume, now, volume2, want  float64
		drain, concentrate, waterIn float64
	}{
		{"fresh, 200 L at 4 %", 0, 0, 200, .04, 0, 8, 192},
		{"strengthened, it grows", 200, .02, Natural(200, .02, .04), .04, 0, 4.1667, 0},
		{"strengthened at constant volume", 200, .02, 200, .04, 4.0816, 4.0816, 0},
		{"refilled", 150, .03, 200, .04, 0, 3.5, 46.5},
		{"room in the tank, 3.2 to 5 % in 100 L", 100, .032, Natural(100, .032, .05), .05, 0, 1.8947, 0},
		{"full tank, 3.2 to 5 % in 100 L", 100, .032, 100, .05, 1.8595, 1.8595, 0},
		{"too strong, 7 to 5 % in 100 L", 100, .07, 100, .05, 28.5714, 0, 28.5714},
		{"too strong with room", 100, .07, Natural(100, .07, .05), .05, 0, 0, 40},
	} {
		got := Adjust(c.volume, c.now, c.volume2, c.want)
		if math.Abs(got.Drain-c.drain) > 1e-3 || math.Abs(got.Concentrate-c.concentrate) > 1e-3 || math.Abs(got.Water-c.waterIn) > 1e-3 {
			t.Errorf("%s: %+v, want drain %g, concentrate %g, water %g", c.what, got, c.drain, c.concentrate, c.waterIn)
		}
	}
}

// TestAdjustProperties: the strength comes out, nothing is negative, and no
// less could have been drained.
func TestAdjustProperties(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for range 5000 {
		volume, now := 500*r.Float64(), r.Float64()
		wantedVolume, wanted := 1+500*r.Float64(), 0.001+0.99*r.Float64()
		a := Adjust(volume, now, wantedVolume, wanted)
		kept := volume - a.Drain
		if a.Drain < -1e-9 || a.Concentrate < 0 || a.Water < 0 || kept < -1e-9 {
			t.Fatalf("negative: %+v", a)
		}
		if total := kept + a.Concentrate + a.Water; !near(total, wantedVolume, 1e-9) {
			t.Fatalf("the volume is %g, want %g", total, wantedVolume)
		}
		if strength := (kept*now + a.Concentrate) / wantedVolume; !near(strength, wanted, 1e-9) {
			t.Fatalf("the strength is %g, want %g: %+v", strength, wanted, a)
		}
		if more := kept * 1.001; a.Drain > 1e-6 && more <= volume {
			x := wantedVolume*wanted - more*now
			if w := wantedVolume - more - x; x >= 0 && w >= 0 {
				t.Fatalf("less could be drained: %+v", a)
			}
		}
	}
}

// TestAlkalinity: Standard Methods 2320 B, mg/L CaCO₃ = A·N·50 000/mL (50 043
// with exact molar masses): 5.0 mL of 0.1 N on 10 mL 2502, 20 mL of 0.02 N on
// 50 mL 400.3; as NaOH 2.00 g/L.
func TestAlkalinity(t *testing.T) {
	for _, c := range []struct{ used, normality, sample, want float64 }{{5, 0.1, 10, 2502}, {20, 0.02, 50, 400.3}} {
		got := Alkalinity(c.used*1e-6, c.normality*1000, c.sample*1e-6) * EquivalentCaCO3 * 1000
		if !near(got, c.want, 2e-4) {
			t.Errorf("%g mL: %.1f mg/L, want %g", c.used, got, c.want)
		}
	}
	if got := Alkalinity(5e-6, 100, 10e-6) * EquivalentNaOH; !near(got, 2.00, 1e-3) {
		t.Errorf("%.4f g/L NaOH, want 2.00", got)
	}
}

// TestSplit: the five rows of Standard Methods 2320 B, table of alkalinity relationships, with its example P 50, T 80: hydroxide 20, carbonate 60;
// and PHREEQC's titration of 0.05 mol NaOH with 0.02 mol Na2CO3: 69.82 and 89.67, within a hundredth.
func TestSplit(t *testing.T) {
	for _, c := range [][5]float64{{0, 80, 0, 0, 80}, {20, 80, 0, 40, 40}, {40, 80, 0, 80, 0}, {50, 80, 20, 60, 0}, {80, 80, 80, 0, 0}} {
		if h, k, b := Split(c[0], c[1]); h != c[2] || k != c[3] || b != c[4] {
			t.Errorf("P %g, T %g: %g, %g, %g, want %v", c[0], c[1], h, k, b, c[2:])
		}
	}
	if h, k, b := Split(69.82, 89.67); !near(h, 50, 0.01) || !near(k, 40, 0.01) || b != 0 {
		t.Errorf("%g, %g, %g", h, k, b)
	}
}

// TestTakenUp: by the equations. 100 of hydroxide that take up 20 of carbon dioxide are 60 of hydroxide and 20 mol of carbonate: P 80, T 100. 50 mol
// of carbonate (P 50, T 100, ratio 2) that take up 10 are 40 and 20 mol of bicarbonate: P 40, T 100.
func TestTakenUp(t *testing.T) {
	if got := TakenUp(80, 100, 1); !near(got, 20, 1e-12) {
		t.Error(got)
	}
	if got := TakenUp(40, 100, 2); !near(got, 10, 1e-12) {
		t.Error(got)
	}
	if got := TakenUp(50, 100, 2); got != 0 {
		t.Error(got)
	}
}
