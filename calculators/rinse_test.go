package calculators

import (
	"math"
	"strings"
	"testing"
)

// shopLine is a wash with a bath of 200 mmol/L, a rinse of mains water and one of deionised water with another flow.
var shopLine = map[string]string{
	"drag-out": "1.2 L/h", "flow": "4 L/min", "stages": "1", "bath-strength": "4 % v/v", "bath-ph": "11", "bath-alkalinity": "200 meq/L", "alkali": "carbonate", "bath-temperature": "62 °C",
	"water-ph": "7.6", "water-alkalinity": "220 mg/L", "water-temperature": "12 °C", "volume": "90 L", "second-flow": "1 L/min", "second-alkalinity": "0 mg/L",
}

// TestTwoRinses by hand: 1 + 240/1.2 = 201, 1 + 60/1.2 = 51; 95 % of the way in 3.00·90 L/241.2 L/h; 12 °C and half a per cent of 62 °C; the
// pH as package line has it.
func TestTwoRinses(t *testing.T) {
	a := mustRun(t, "rinse", shopLine)
	for name, want := range map[string]float64{
		"rinse-ratio": 201 * 51, "first-rinse": 0.04 / 201, "last-stage": 0.04 / (201 * 51), "water-per-day": 2.4, "ph": 8.84, "rinse-temperature": 12 + 50*1.2/241.2,
	} {
		if got := siOf(t, a, name); math.Abs(got-want) > 2e-3*want {
			t.Errorf("%s is %g, want %g", name, got, want)
		}
	}
	if got, want := siOf(t, a, "settle-time"), 2.9957*90/241.2*3600; got < want || got > 1.04*want {
		t.Errorf("settles in %g s, want %g", got, want)
	}
	if !strings.Contains(a.Verdict, "within the limit") {
		t.Error(a.Verdict)
	}
	weak := mustRun(t, "rinse", with(shopLine, "limit", "0.001 %"))
	if needed := siOf(t, weak, "flow-needed"); !strings.Contains(weak.Verdict, "the second rinse needs") || math.Abs(201*(1+needed*3.6e6/1.2)-1e5) > 10 {
		t.Errorf("%q, %g", weak.Verdict, needed)
	}
}

// TestNoPHOutOfNothing: a pH of the bath alone gives no pH of the rinse, but says what is missing.
func TestNoPHOutOfNothing(t *testing.T) {
	for _, c := range []struct{ without, ph, says string }{
		{"bath-alkalinity", "11", "the bath's total alkalinity is missing"}, {"bath-alkalinity", "2", "the bath's acidity is missing"},
		{"water-alkalinity", "11", "pH and alkalinity of the water are missing"}, {"water-ph", "11", "pH and alkalinity of the water are missing"},
	} {
		a := mustRun(t, "rinse", with(with(shopLine, c.without, ""), "bath-ph", c.ph))
		for _, name := range []string{"ph", "second-ph"} {
			if r, ok := a.Reading(name); !ok || !strings.Contains(r.Text, c.says) {
				t.Errorf("without %s at pH %s: %s is %v, want %q", c.without, c.ph, name, r, c.says)
			}
		}
	}
	a := mustRun(t, "rinse", with(shopLine, "bath-ph", ""))
	if _, ok := a.Reading("ph"); ok {
		t.Error("a pH of the rinse without one of the bath")
	}
	acid := mustRun(t, "rinse", with(with(shopLine, "bath-ph", "1.5"), "bath-acidity", "800 meq/L"))
	if r, _ := acid.Reading("ph"); r.Low > 5.2 || r.High > 7.6 || r.SI < r.Low || r.SI > r.High {
		t.Errorf("1.2 L/h with 800 mmol/L of acid into 240 L/h with 4.4: %v %g to %g", r, r.Low, r.High)
	}
	unknown := mustRun(t, "rinse", with(shopLine, "alkali", "unknown"))
	u, _ := unknown.Reading("ph")
	known := mustRun(t, "rinse", shopLine)
	k, _ := known.Reading("ph")
	if u.High < k.High+0.1 || u.Low > k.Low {
		t.Errorf("an unknown alkali is known no better: %g to %g, carbonate %g to %g", u.Low, u.High, k.Low, k.High)
	}
}
