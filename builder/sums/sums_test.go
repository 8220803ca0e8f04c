package sums

import (
	"context"
	"math"
	"os"
	"strings"
	"testing"

	"tankside/builder/decide/line"
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/calculators"
)

func demo(t *testing.T) *manual.Manual {
	t.Helper()
	m, _, err := manual.Read(context.Background(), os.DirFS("../../content"))
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func run(t *testing.T, m *manual.Manual, calculator string, given map[string]string) calculators.Answer {
	t.Helper()
	values, err := Values(m, calculator, given)
	if err != nil {
		t.Fatal(err)
	}
	a, err := calculators.Run(calculator, values, quantity.SI)
	if err != nil {
		t.Fatalf("%s %v: %v", calculator, values, err)
	}
	return a
}

// TestRinseOfTheShop: with a wash alone the calculator does the shop's own line, with two feeds and two flows, and comes to the same rinses as
// package line does for a line into which nothing else is dragged.
func TestRinseOfTheShop(t *testing.T) {
	m := demo(t)
	m.Shop.Tanks = m.Shop.Tanks[:1]
	a := run(t, m, "rinse", map[string]string{"tank": "wash-1"})
	states := line.Of(m)
	for i, reading := range []string{"ph", "second-ph"} {
		r, ok := a.Reading(reading)
		span, known := states[i].Cold()
		if !ok || !known || r.InWords() {
			t.Fatalf("%s: %+v, %+v", reading, r, states[i])
		}
		// The calculator widens by half of the drag-out either way and knows only one end of the bath's pH.
		if r.High < span.High-1e-6 || r.High > span.High+0.6 || r.Low > r.SI || r.SI > r.High {
			t.Errorf("%s is %g (%g to %g), the line's %+v", reading, r.SI, r.Low, r.High, span)
		}
	}
	for reading, want := range map[string]float64{"first-rinse": 0.04 * 1.2 / 241.2, "last-stage": 0.04 * 1.2 / 241.2 * 1.2 / 61.2, "rinse-temperature": 40, "rinse-alkalinity": 0.220*240/241.2 + 200*0.05004345*1.2/241.2} {
		if r, _ := a.Reading(reading); math.Abs(r.SI-want) > 1e-3*want {
			t.Errorf("%s is %g, want %g", reading, r.SI, want)
		}
	}
	if r, _ := a.Reading("ph"); math.Abs(r.SI-8.9) > 0.1 {
		t.Errorf("pH %g, want about 8.9: see the test of package line", r.SI)
	}
}

// TestTankIsHandedOver: what the shop file knows of a tank reaches the sums.
func TestTankIsHandedOver(t *testing.T) {
	m := demo(t)
	a := run(t, m, "holding", map[string]string{"tank": "wash-2", "hours": "1 h"})
	if !strings.Contains(a.Verdict, "The sound alone") && !strings.Contains(a.Verdict, "the sound alone") {
		t.Errorf("half a kilowatt on 28 L under a lid: %q", a.Verdict)
	}
	some, err := calculators.DriftOf(Tank(m, m.Shop.Tank("wash-2")), Shop(m))
	if err != nil || some.Shut.RiseHigh > 1.5 {
		t.Errorf("at a duty of 40 %%: %+v, %v", some, err)
	}
	always := *m.Shop.Tank("wash-2")
	always.Duty = manual.Limit{}
	if d, err := calculators.DriftOf(Tank(m, &always), Shop(m)); err != nil || d.Shut.RiseHigh < 2 {
		t.Errorf("without a duty: %+v, %v", d, err)
	}
	a = run(t, m, "top-up", map[string]string{"tank": "wash-1", "strength-now": "5 % v/v", "strength": "4 % v/v"})
	if r, _ := a.Reading("drain-volume"); math.Abs(r.SI-0.024) > 1e-9 {
		t.Errorf("let out %v, want 24 L", r)
	}
	values, err := Values(m, "load", map[string]string{"tank": "wash-1", "load-mass": "10 kg"})
	if err != nil || values["freeboard"] == "" {
		t.Errorf("%v, %v", values, err)
	}
	values, _ = Values(m, "rinse", map[string]string{"tank": "rinse-2"})
	if values["water-alkalinity"] != "0 mg/L" || values["bath-temperature"] != "" || values["flow"] == "" {
		t.Errorf("%v", values)
	}
	if _, err := Values(m, "rinse", map[string]string{"tank": "wash-9"}); err == nil {
		t.Error("a tank that is not there")
	}
}

// TestBathLifeOfTheShop: a tank's own volume and drag-out, and of a drag-out that is a range the end that keeps the bath dirtier: 216 g a day into 1.2 L/h
// for 8 h steady at 22.5 g/L, into 0.6 L/h at 45.
func TestBathLifeOfTheShop(t *testing.T) {
	given := map[string]string{"tank": "wash-1", "soil-load": "40 g", "loads": "9", "skimmed": "40 %", "limit": "20 g/L"}
	m := demo(t)
	for _, want := range []float64{22.5, 45} {
		a := run(t, m, "bath-life", given)
		if r, _ := a.Reading("steady-level"); math.Abs(r.SI-want) > 1e-6 {
			t.Errorf("steadies at %v, want %g g/L", r, want)
		}
		tank := m.Shop.Tank("wash-1")
		tank.DragOut.Low = tank.DragOut.High / 2
	}
}

// TestRinseCoversTheLine: for each wash alone, with parts that go one way, the calculator's range of pH, with a drag-out good to a half either way, covers what package line has for
// the figures as they are given, at both ends.
func TestRinseCoversTheLine(t *testing.T) {
	for i, name := range []string{"wash-1", "wash-2"} {
		m := demo(t)
		m.Shop.Tanks = m.Shop.Tanks[i : i+1]
		straight(m)
		a := run(t, m, "rinse", map[string]string{"tank": name})
		states := line.Of(m)
		for k, reading := range []string{"ph", "second-ph"} {
			r, _ := a.Reading(reading)
			if span, known := states[k].Cold(); !known || r.Low > span.Low+0.02 || r.High < span.High-0.02 {
				t.Errorf("%s, %s: from %g to %g, the line from %g to %g", name, reading, r.Low, r.High, span.Low, span.High)
			}
		}
	}
}

// TestRinsesInARow: a third rinse is handed over; one into which another's overflow runs needs no water of its own; and a rinse that other baths are
// dragged into says so.
func TestRinsesInARow(t *testing.T) {
	m := demo(t)
	third := m.Shop.Rinses[1]
	third.ID, third.Name = "rinse-3", "Third"
	m.Shop.Rinses = append(m.Shop.Rinses, third)
	m.Shop.Rinses[0].Flow, m.Shop.Rinses[0].FedBy.Name = manual.Limit{}, "rinse-2"
	for _, a := range m.Articles {
		if a.Kind == manual.Part && len(a.Part.Rinse) == 2 {
			ref := a.Part.Rinse[1]
			ref.Name = "rinse-3"
			a.Part.Rinse = append(a.Part.Rinse, ref)
		}
	}
	values, err := Values(m, "rinse", map[string]string{"tank": "wash-1"})
	if err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]string{"flow": "0 L/min", "second-flow": "1 L/min", "second-runs-on": "yes", "third-flow": "1 L/min", "third-runs-on": "", "third-alkalinity": "0 mg/L", "other-ways": "yes"} {
		if strings.ReplaceAll(values[name], "\u00a0", " ") != want {
			t.Errorf("%s is %q, want %q", name, values[name], want)
		}
	}
	a := run(t, m, "rinse", map[string]string{"tank": "wash-1"})
	if r, _ := a.Reading("rinse-ratio"); math.Abs(r.SI-(1+50+2500)*51) > 0.1 { // 60 L/h on 1.2 L/h: two stages of one water, then one more
		t.Errorf("thinned %g times", r.SI)
	}
	said := false
	for _, c := range a.Cautions {
		said = said || strings.Contains(c.Text, "Another bath, or parts that come another way")
	}
	if !said {
		t.Errorf("nothing of the other bath: %v", a.Cautions)
	}
	m.Shop.Tanks = m.Shop.Tanks[:1]
	if values, _ := Values(m, "rinse", map[string]string{"tank": "wash-1"}); values["other-ways"] != "" {
		t.Error("there is no other bath")
	}
	if values, _ := Values(demo(t), "rinse", map[string]string{"tank": "wash-2"}); values["other-ways"] != "yes" {
		t.Error("there is another bath, and a window that goes to the last rinse at once")
	}
}

// straight takes out the sheets whose parts do not begin with the first rinse.
func straight(m *manual.Manual) {
	for _, a := range m.Articles {
		if a.Kind == manual.Part && len(a.Part.Rinse) > 0 && a.Part.Rinse[0].Name != "rinse-1" {
			a.Part.Rinse = nil
		}
	}
}
