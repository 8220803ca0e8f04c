package calculators

import (
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"tankside/builder/quantity"
)

// TestTankIsTheMark: with a tank nothing is told that fills it above its mark. The cases are those of an article's table, by hand: 120 L at
// 5 % to 4 % is 120·(1 − 4/5) = 24 L out; 14 mL at 0.4 % each is 5.6 %, 120·(1 − 4/5.6) = 34.3 L out.
func TestTankIsTheMark(t *testing.T) {
	for _, c := range []struct {
		calculator   string
		given        map[string]string
		drain, water float64 // L
	}{
		{"top-up", map[string]string{"strength-now": "5 % v/v", "strength": "4 % v/v"}, 24, 24},
		{"top-up", map[string]string{"strength-now": "5 % v/v", "strength": "4 % v/v", "volume": "110 L"}, 14, 24},
		{"titration", map[string]string{"sample": "10 mL", "titrant-used": "14 mL", "titrant-normality": "0.1 N", "factor": "0.4"}, 120 * (1 - 4/5.6), 120 * (1 - 4/5.6)},
	} {
		a := mustRun(t, c.calculator, Fill(c.calculator, washTank, theShop, c.given))
		if d, w := siOf(t, a, "drain-volume")*1000, siOf(t, a, "water-volume")*1000; math.Abs(d-c.drain) > 1e-9 || math.Abs(w-c.water) > 1e-9 {
			t.Errorf("%s %v: let out %g L, add %g L of water; want %g and %g", c.calculator, c.given, d, w, c.drain, c.water)
		}
	}
	for calculator, given := range map[string]map[string]string{
		"dilution":  {"volume": "150 L"},
		"top-up":    {"strength-now": "3 % v/v", "volume-wanted": "121 L"},
		"titration": {"sample": "10 mL", "titrant-used": "8 mL", "titrant-normality": "0.1 N", "factor": "0.4", "volume": "130 L"},
	} {
		_, err := Run(calculator, Fill(calculator, washTank, theShop, given), quantity.SI)
		if err == nil || !strings.Contains(err.Error(), "more than the tank may hold") {
			t.Errorf("%s %v in a tank of 120 L: %v", calculator, given, err)
		}
	}
}

// TestOverfillSaysWhatItDoes: against the height of the rim. 600 × 450 × 50 mm are 13.5 L.
func TestOverfillSaysWhatItDoes(t *testing.T) {
	tank := washTank
	tank.Freeboard = "50 mm"
	for volume, says := range map[string]string{"130 L": "it takes 10\u00a0L of the 13.5\u00a0L", "140 L": "6.5\u00a0L would run over the rim"} {
		_, err := Run("dilution", Fill("dilution", tank, theShop, map[string]string{"volume": volume}), quantity.SI)
		if err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%s: %v, want %q", volume, err, says)
		}
	}
	// 15 kg of aluminium, 2702 kg/m³: 5.55 L, 20.6 mm; 40 kg: 14.8 L and over.
	for mass, over := range map[string]bool{"15 kg": false, "36 kg": false, "37 kg": true} {
		a := mustRun(t, "load", Fill("load", tank, theShop, map[string]string{"load-mass": mass, "load-material": "aluminium"}))
		found := false
		for _, c := range a.Cautions {
			found = found || c.Signal == Warning && strings.Contains(c.Text, "run over")
		}
		if found != over {
			t.Errorf("%s: %v", mass, a.Cautions)
		}
	}
	a := mustRun(t, "load", Fill("load", tank, theShop, map[string]string{"load-mass": "15 kg", "load-material": "aluminium"}))
	if d, r := siOf(t, a, "displaced-volume")*1000, siOf(t, a, "level-rise")*1000; math.Abs(d-15/2.702) > 1e-9 || math.Abs(r-15/2.702/0.27) > 1e-9 {
		t.Errorf("displaced %g L, %g mm", d, r)
	}
	a = mustRun(t, "load", Fill("load", tank, theShop, map[string]string{"load-mass": "15 kg", "volume": "60 L"}))
	if _, given := a.Reading("level-rise"); given {
		t.Error("the surface of the tank goes with another volume")
	}
}

// TestRoomNotChecked: where no mark is known that is said, and nowhere else.
func TestRoomNotChecked(t *testing.T) {
	for calculator, given := range map[string]map[string]string{
		"dilution":  {"volume": "100 L", "strength": "4 % v/v"},
		"top-up":    {"volume": "100 L", "strength-now": "5 % v/v", "strength": "4 % v/v"},
		"titration": {"sample": "10 mL", "titrant-used": "14 mL", "titrant-normality": "0.1 N", "factor": "0.4", "volume": "100 L", "strength": "4 % v/v"},
	} {
		for _, mark := range []string{"", "400 L"} {
			a := mustRun(t, calculator, with(given, "tank-capacity", mark))
			said := false
			for _, c := range a.Cautions {
				said = said || strings.Contains(c.Text, "Not checked: whether the tank has room")
			}
			if said != (mark == "") {
				t.Errorf("%s with the mark %q: %v", calculator, mark, a.Cautions)
			}
		}
	}
}

// TestNeverAboveTheMark: whatever is asked, after each of letting out, concentrate and water, in that order, the bath is at or below the
// mark, nothing is negative, and the strength comes out.
func TestNeverAboveTheMark(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 22))
	answers := 0
	for range 3000 {
		mark := between(r, 5, 500)
		volume := mark * between(r, 0.2, 1.02)
		now, wanted := between(r, 0, 12), between(r, 0.5, 12)
		in := map[string]string{"volume": number(volume, "L"), "tank-capacity": number(mark, "L"), "strength": number(wanted, "% v/v")}
		calculator := "top-up"
		if r.IntN(2) == 0 {
			calculator = "titration"
			in["sample"], in["titrant-used"], in["titrant-normality"], in["factor"] = "10 mL", number(now/0.4, "mL"), "0.1 N", "0.4"
		} else {
			in["strength-now"] = number(now, "% v/v")
			if r.IntN(3) == 0 {
				in["volume-wanted"] = number(mark*between(r, 0.5, 1.02), "L")
			}
		}
		a, err := Run(calculator, in, quantity.SI)
		if err != nil {
			if !strings.Contains(err.Error(), "more than the tank may hold") {
				t.Fatalf("%v: %v", in, err)
			}
			continue
		}
		answers++
		level, cleaner := volume, volume*now/100
		for _, move := range []struct {
			reading      string
			sign, neatly float64
		}{{"drain-volume", -1, now / 100}, {"concentrate-volume", 1, 1}, {"water-volume", 1, 0}} {
			by := siOf(t, a, move.reading) * 1000
			level, cleaner = level+move.sign*by, cleaner+move.sign*by*move.neatly
			if by < 0 || level > mark*(1+1e-9) {
				t.Fatalf("%v: %s of %g L brings it to %g L of %g", in, move.reading, by, level, mark)
			}
		}
		if got := cleaner / level * 100; math.Abs(got-wanted) > 1e-6 {
			t.Fatalf("%v: comes out at %s %%", in, strconv.FormatFloat(got, 'f', 6, 64))
		}
	}
	if answers < 2000 {
		t.Errorf("only %d answers", answers)
	}
}
