package calculators

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"tankside/builder/quantity"
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

// TestThreeRinses by hand: 1 + 240/1.2 = 201, 51, and 1 + 30/1.2 = 26 with the third at 0.5 L/min, each with its own dilution and pH; the third
// has what its own water says.
func TestThreeRinses(t *testing.T) {
	a := mustRun(t, "rinse", with(with(shopLine, "third-flow", "0.5 L/min"), "third-alkalinity", "0 mg/L"))
	for name, want := range map[string]float64{"first-rinse": 0.04 / 201, "second-rinse": 0.04 / (201 * 51), "last-stage": 0.04 / (201 * 51 * 26), "water-per-day": 2.64} {
		if got := siOf(t, a, name); math.Abs(got-want) > 1e-9*want {
			t.Errorf("%s is %g, want %g", name, got, want)
		}
	}
	before := 14.
	for _, name := range []string{"ph", "second-ph", "third-ph"} {
		r, ok := a.Reading(name)
		if !ok || r.InWords() || r.SI > before || r.Low > r.SI || r.High < r.SI {
			t.Errorf("%s: %+v after %g", name, r, before)
		}
		before = r.SI
	}
	for _, c := range []struct{ name, text, input, says string }{
		{"second-flow", "", "third-flow", "comes after a second"}, {"third-stages", "1.5", "third-stages", "whole numbers"},
	} {
		_, err := Run("rinse", with(with(shopLine, "third-flow", "0.5 L/min"), c.name, c.text), quantity.SI)
		if wrong, _ := err.(Errors); len(wrong) != 1 || wrong[0].Input != c.input || !strings.Contains(wrong[0].Problem, c.says) {
			t.Errorf("%s %q: %v", c.name, c.text, err)
		}
	}
	unknown := mustRun(t, "rinse", with(shopLine, "third-flow", "0.5 L/min"))
	if r, _ := unknown.Reading("third-ph"); !strings.Contains(r.Text, "pH and alkalinity of the water are missing") {
		t.Errorf("water of which nothing is known: %+v", r)
	}
	if r, _ := unknown.Reading("second-ph"); r.InWords() {
		t.Errorf("the second needs nothing of the third: %+v", r)
	}
}

// TestOverflowRunsOn: rinses in a row through which one water runs are the stages of one counter-flow rinse, 1 + r + r² + r³; a second water of its
// own in the first is more than without, and by hand: c₁(D + W₁ + W₂) = D + W₂c₂ and c₂(D + W₂) = D·c₁.
func TestOverflowRunsOn(t *testing.T) {
	row := map[string]string{"drag-out": "1 L/h", "flow": "0 L/min", "stages": "1", "second-flow": "0 L/min", "second-runs-on": "yes", "third-flow": "50 L/h", "third-runs-on": "yes"}
	a := mustRun(t, "rinse", row)
	one := mustRun(t, "rinse", map[string]string{"drag-out": "1 L/h", "flow": "50 L/h", "stages": "3"})
	for _, name := range []string{"rinse-ratio", "flow-needed", "water-per-day"} {
		if x, y := siOf(t, a, name), siOf(t, one, name); math.Abs(x-y) > 1e-6*y {
			t.Errorf("%s is %g in a row, %g in stages", name, x, y)
		}
	}
	two := map[string]string{"drag-out": "1 L/h", "flow": "20 L/h", "stages": "1", "second-flow": "50 L/h", "second-runs-on": "yes"}
	if got, want := siOf(t, mustRun(t, "rinse", two), "first-rinse"), 1/(1+70-50./51); math.Abs(got-want) > 1e-9 {
		t.Errorf("%g left in the first rinse, want %g", got, want)
	}
	if _, err := Run("rinse", with(two, "feed", "separate"), quantity.SI); err == nil || !strings.Contains(err.Error(), "against the parts") {
		t.Error(err)
	}
	// Without water of its own the first rinse needs none to be known.
	ph := mustRun(t, "rinse", map[string]string{"drag-out": "1 L/h", "flow": "0 L/min", "stages": "1", "second-flow": "50 L/h", "second-runs-on": "yes", "second-alkalinity": "0 mg/L",
		"bath-ph": "11", "bath-alkalinity": "200 meq/L"})
	if r, _ := ph.Reading("ph"); r.InWords() || r.SI < 9 {
		t.Errorf("a fiftieth of the bath in pure water: %+v", r)
	}
}

// TestMoreWaterIsNeverLessRinsing in any of three rinses, whether their overflows run on or not.
func TestMoreWaterIsNeverLessRinsing(t *testing.T) {
	r := rand.New(rand.NewPCG(23, 24))
	for range 200 {
		in := map[string]string{"drag-out": number(between(r, 0.1, 5), "L/h"), "stages": []string{"1", "2", "3"}[r.IntN(3)],
			"second-runs-on": []string{"yes", "no"}[r.IntN(2)], "third-runs-on": []string{"yes", "no"}[r.IntN(2)]}
		flows := map[string]float64{}
		for _, name := range []string{"flow", "second-flow", "third-flow"} {
			flows[name] = between(r, 0, 10)
			in[name] = number(flows[name], "L/min")
		}
		a := mustRun(t, "rinse", in)
		for name, flow := range flows {
			if more := mustRun(t, "rinse", with(in, name, number(flow*1.5, "L/min"))); siOf(t, more, "rinse-ratio") < siOf(t, a, "rinse-ratio")*(1-1e-9) {
				t.Fatalf("%v: more %s rinses less", in, name)
			}
		}
	}
}

// TestBothEndsOfTheBathsPH: the range of the rinse's pH grows by the other end of the bath's, and a bath on both sides of neutral has to be known on both.
func TestBothEndsOfTheBathsPH(t *testing.T) {
	one, _ := ptr(mustRun(t, "rinse", shopLine)).Reading("ph")
	both, _ := ptr(mustRun(t, "rinse", with(shopLine, "bath-ph-to", "9"))).Reading("ph")
	if both.Low > one.Low || both.High < one.High || both.Low == one.Low {
		t.Errorf("from %g to %g, with one end from %g to %g", both.Low, both.High, one.Low, one.High)
	}
	for to, says := range map[string]string{"4": "acidity is missing", "6": ""} {
		if r, _ := ptr(mustRun(t, "rinse", with(shopLine, "bath-ph-to", to))).Reading("ph"); !strings.Contains(r.Text, says) || (says == "") != (r.Text == "") {
			t.Errorf("down to pH %s: %+v", to, r)
		}
	}
}

func ptr(a Answer) *Answer { return &a }
