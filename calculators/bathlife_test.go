package calculators

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"tankside/builder/quantity"
)

// TestLifeOfABath: by hand. 9 loads of 40 g a day, 40 % of it skimmed, are 216 g; 1.2 L/h for 8 h are 9.6 L a day: 22.5 g/L in the end, and 20 g/L after
// 12.5 d·ln(22.5/2.5) = 27.47 d. With both at their worst, 280.8 g into 6.4 L, 43.9 g/L and 18.75 d·ln(43.875/23.875) = 11.41 d; at their best, 166.2 g
// into 14.4 L, 11.5 g/L: never.
func TestLifeOfABath(t *testing.T) {
	a := mustRun(t, "bath-life", bathLife.ExampleInputs())
	days, _ := a.Reading("days")
	steady, _ := a.Reading("steady-level")
	if math.Abs(days.SI-27.465) > 0.01 || math.Abs(days.Low-11.41) > 0.01 || !math.IsInf(days.High, 1) || math.Abs(siOf(t, a, "loads-left")-9*27.465) > 0.1 {
		t.Errorf("%+v", days)
	}
	if math.Abs(steady.SI-22.5) > 1e-9 || math.Abs(steady.High-43.875) > 1e-9 || math.Abs(steady.Low-11.538) > 1e-3 {
		t.Errorf("%+v", steady)
	}
}

// TestLifeSays: each case has its sentence, and no time where there is none.
func TestLifeSays(t *testing.T) {
	in := bathLife.ExampleInputs()
	for _, c := range []struct {
		name   string
		inputs map[string]string
		says   string
		timed  bool
	}{
		{"likely, perhaps never", in, "27.5 working days, 11.4 at the soonest, and perhaps never", true},
		{"sure", with(in, "limit", "5 g/L"), "at the latest", true},
		{"likely never", with(in, "limit", "30 g/L"), "At the worst likely it may, after 21.6", false}, // 18.75·ln(43.875/13.875)
		{"never", with(in, "limit", "50 g/L"), "never reaches", false},
		{"nothing out", with(in, "drag-out", "0 L/h"), "11.1 working days", true}, // 120 L · 20 g/L ÷ 216 g
		{"all skimmed", with(in, "skimmed", "100 %"), "never reaches", false},
		{"skimmed by mass", with(in, "skimmed", "144 g"), "27.5 working days", true},
		{"let out", with(in, "let-out", "5 L"), "As is likely it never", false},
		{"there already", with(in, "soil-now", "20 g/L"), "reached already", false},
	} {
		a := mustRun(t, "bath-life", c.inputs)
		_, timed := a.Reading("days")
		if !strings.Contains(a.Verdict, c.says) || timed != c.timed {
			t.Errorf("%s: %q, a time %v", c.name, a.Verdict, timed)
		}
	}
	if _, err := Run("bath-life", with(in, "skimmed", "400 g"), quantity.SI); err == nil || !strings.Contains(err.Error(), "more than all loads") {
		t.Errorf("more skimmed than comes in: %v", err)
	}
}

// TestLifeProperties: more soil, less drag-out and a lower limit are never later, and the ends stand on their sides.
func TestLifeProperties(t *testing.T) {
	r := rand.New(rand.NewPCG(31, 32))
	latest := func(in map[string]string) float64 {
		a := mustRun(t, "bath-life", in)
		days, ok := a.Reading("days")
		if !ok {
			return inf
		}
		if days.Low > days.SI*(1+1e-9) || days.High < days.SI*(1-1e-9) {
			t.Fatalf("%v: %+v", in, days)
		}
		return days.SI
	}
	for range 300 {
		soil, drag, limit := between(r, 5, 200), between(r, 0.1, 5), between(r, 2, 40)
		in := map[string]string{"volume": number(between(r, 20, 500), "L"), "soil-load": number(soil, "g"), "loads": "7", "drag-out": number(drag, "L/h"), "limit": number(limit, "g/L")}
		at := latest(in) * (1 + 1e-9)
		if latest(with(in, "soil-load", number(soil*1.2, "g"))) > at || latest(with(in, "drag-out", number(drag/2, "L/h"))) > at || latest(with(in, "limit", number(limit*0.9, "g/L"))) > at {
			t.Fatalf("%v: dirtier is later", in)
		}
	}
}

// TestLifeKnowsTheTank: volume and drag-out are the tank's.
func TestLifeKnowsTheTank(t *testing.T) {
	values := Fill("bath-life", Tank{Volume: "120 L", DragOut: "1.2 L/h", Flow: "4 L/min"}, theShop, map[string]string{"loads": "9"})
	if values["volume"] != "120 L" || values["drag-out"] != "1.2 L/h" || len(values) != 3 {
		t.Errorf("%v", values)
	}
}
