package clean

import (
	"math"
	"testing"
)

// TestResidueLevels: A is 1 mg on 0.1 m², 10 mg/m²; A/2, A/5, A/10 its parts, B 2, C 3, D 4, E 5, F 7, G 10, H 15, J 25 mg (IEST-STD-CC1246,
// from memory). A residue just at the end is in the level, a little more is in the next.
func TestResidueLevels(t *testing.T) {
	for name, mg := range map[string]float64{
		"A/100": 0.01, "A/50": 0.02, "A/20": 0.05, "A/10": 0.1, "A/5": 0.2, "A/2": 0.5, "A": 1, "B": 2, "C": 3, "D": 4, "E": 5, "F": 7, "G": 10, "H": 15, "J": 25,
	} {
		at, over := ResidueLevelOf(mg*1e-6/0.1), ResidueLevelOf(mg*1.001*1e-6/0.1)
		if at < 0 || ResidueLevels[at].Name != name {
			t.Errorf("%g mg on 0.1 m² is level %d, not %s", mg, at, name)
		}
		if name == "J" && over != -1 || name != "J" && over != at+1 {
			t.Errorf("a little more than %g mg on 0.1 m² is level %d", mg, over)
		}
	}
}

// TestWeighingBand: a difference of two weighings by hand. Of a division of 0.1 mg alone, u = 0.1/√12 each, 2·√2·0.02887 = 0.08165 mg; with
// a repeatability of 0.3 mg, 2·√(2·(0.09 + 0.000833)) = 0.8525 mg.
func TestWeighingBand(t *testing.T) {
	for _, c := range []struct{ s, d, want float64 }{{0, 0.1, 0.081650}, {0.3, 0.1, 0.852447}} {
		if got := WeighingBand(2, c.s, c.d); math.Abs(got-c.want) > 1e-5 {
			t.Errorf("s %g, d %g: %g, want %g", c.s, c.d, got, c.want)
		}
	}
}

// TestLine: level 100 of the published line, 1785 (5 µm), 265 (15), 78 (25), 11 (50), 1 (100); the standard's own table rounds them to 1780,
// 264, 78, 11 and 1 (from memory).
func TestLine(t *testing.T) {
	for x, want := range map[float64]float64{5: 1785, 15: 265, 25: 78, 50: 11, 100: 1} {
		if got := onLine(100, x); math.Round(got) != want {
			t.Errorf("level 100 has %g of %g µm, want %g", got, x, want)
		}
		if got := LineThrough(want, x); math.Abs(got-100) > 1 {
			t.Errorf("%g of %g µm are level %g, want 100", want, x, got)
		}
		for _, l := range []float64{2, 25, 300, 1000} {
			if got := LineThrough(onLine(l, x), x); math.Abs(got-l) > 1e-6*l {
				t.Errorf("level %g comes back from %g µm as %g", l, x, got)
			}
		}
	}
	if LineThrough(0, 5) != 1 || LineThrough(1e-12, 5) != 1 {
		t.Error("below the lowest level there is none")
	}
}

// TestLevels: the ends of the levels of ISO 16232, from published explanations: 0 up to 1, 1 up to 2, 2 up to 4, 10 up to 1000, 11 up to 2000,
// 12 over 2000 up to 4000, 17 over 64 000 up to 130 000; 00 for none.
func TestLevels(t *testing.T) {
	for level, end := range map[int]float64{0: 1, 1: 2, 2: 4, 4: 16, 8: 250, 10: 1000, 11: 2000, 12: 4000, 14: 16000, 16: 64000, 17: 130000, 24: 16e6} {
		if LevelOf(end) != level || LevelOf(end*1.001) != level+1 {
			t.Errorf("%g particles are level %d, a little more level %d; want %d", end, LevelOf(end), LevelOf(end*1.001), level)
		}
	}
	if LevelOf(0) != NoneAllowed || LevelOf(64001) != 17 || LevelOf(2001) != 12 || LevelOf(1e12) != LastLevel+1 {
		t.Error("none, the small ends or the last level are wrong")
	}
}

// TestCountLimits: half of the quantiles of chi-square in the NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.4: upper 2.5 % of 2, 4,
// 22 and 100 degrees of freedom 7.378, 11.143, 36.781, 129.561; lower of 2, 20 and 100 0.051, 9.591, 74.222. A count n has the lower of 2·n and the
// upper of 2·n + 2 (Garwood 1936).
func TestCountLimits(t *testing.T) {
	for _, c := range []struct {
		count, low, high float64 // 0 where the table has none
	}{{0, 0, 7.378 / 2}, {1, 0.051 / 2, 11.143 / 2}, {10, 9.591 / 2, 36.781 / 2}, {49, 0, 129.561 / 2}, {50, 74.222 / 2, 0}} {
		low, high := CountLimits(c.count)
		if c.low > 0 && math.Abs(low-c.low) > 0.0005 || c.high > 0 && math.Abs(high-c.high) > 0.0005 || c.count == 0 && low != 0 {
			t.Errorf("a count of %g lies between %g and %g, want %g and %g", c.count, low, high, c.low, c.high)
		}
	}
	exactLow, exactHigh := meanFor(198, 1-tail), meanFor(199, tail)
	if low, high := wilsonHilferty(199, -1), wilsonHilferty(200, 1); math.Abs(low/exactLow-1) > 1e-4 || math.Abs(high/exactHigh-1) > 1e-4 {
		t.Errorf("where the two ways meet, %g to %g and exactly %g to %g", low, high, exactLow, exactHigh)
	}
}

// onLine is the number of particles of size x µm and more that level l allows on 0.1 m²: log₁₀N = 0.926·(log₁₀²L − log₁₀²x), IEST-STD-CC1246
// and MIL-STD-1246C before it.
func onLine(l, x float64) float64 {
	return math.Pow(10, slope*(math.Pow(math.Log10(l), 2)-math.Pow(math.Log10(x), 2)))
}
