package calculators

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"tankside/builder/quantity"
	"tankside/calculators/bath"
	"tankside/calculators/water"
)

// smallTank is the invented shop's second tank: 500 W of sound on 28 L.
var smallTank = Tank{
	Volume: "28 L", Length: "400 mm", Width: "300 mm", Depth: "235 mm", Heater: "1.5 kW", UltrasonicPower: "500 W", Frequency: "80 kHz",
	Lid: "yes", Insulation: "none", Strength: "2 % v/v", Temperature: "48 °C", Ceiling: "65 °C",
}

// TestSoundOverheats: what an independent heat balance of the tank gives. 300 W of the 500 W end as heat; a lid of 0.12 m² with 5 W/(m²·K) and
// 28 K loses 17 W, bare walls of 0.329 m² at 7–9 W/(m²·K) some 75 W, so that about 200 W stay in 28 L, 117 kJ/K with the tank's steel 9 kJ/K:
// 1.4–1.6 K in a quarter of an hour, with 0.8 of the sound 2.2–2.5 K.
func TestSoundOverheats(t *testing.T) {
	d, err := DriftOf(smallTank, theShop)
	if err != nil {
		t.Fatal(err)
	}
	if d.Shut.Rise < 1.2 || d.Shut.Rise > 1.7 || d.Shut.RiseHigh < 2 || d.Shut.RiseHigh > 2.6 || d.Shut.End < 70 || d.SetPoint != 48 || d.StopAt != 51 {
		t.Errorf("%+v", d)
	}
	if d.Open.Rise > d.Shut.Rise || d.Open.End > d.Shut.End {
		t.Errorf("open it drifts further: %+v", d)
	}
	a := mustRun(t, "holding", Fill("holding", smallTank, theShop, map[string]string{"hours": "1 h"}))
	for name, want := range map[string]float64{"drift-shut": d.Shut.End, "drift-open": d.Open.End, "rise-shut": d.Shut.Rise, "rise-open": d.Open.Rise, "stop-at": d.StopAt, "sound-heat": 300} {
		if got := siOf(t, a, name); math.Abs(got-want) > 1e-9 {
			t.Errorf("holding gives %s %g, DriftOf %g", name, got, want)
		}
	}
	for _, says := range []string{"the lid", "past 48\u00a0°C", "in 15 minutes", "At 51\u00a0°C stop the sound"} {
		if !strings.Contains(a.Verdict, says) {
			t.Errorf("%q does not say %q", a.Verdict, says)
		}
	}
}

// TestDriftIsHelped: by a lower duty, by cooling, by a ceiling at which to stop.
func TestDriftIsHelped(t *testing.T) {
	full, _ := DriftOf(smallTank, theShop)
	paused, cooled, low := smallTank, smallTank, smallTank
	paused.Duty, cooled.Cooling, low.Ceiling = "20 %", "350 W", "50 °C"
	for name, tank := range map[string]Tank{"paused": paused, "cooled": cooled} {
		d, err := DriftOf(tank, theShop)
		if err != nil || d.Shut.Rise >= 0 || d.Shut.End >= 48 || d.Shut.End >= full.Shut.End {
			t.Errorf("%s: %+v, %v", name, d, err)
		}
		a := mustRun(t, "holding", Fill("holding", tank, theShop, map[string]string{"hours": "1 h"}))
		if strings.Contains(a.Verdict, "alone warms") {
			t.Errorf("%s: %q", name, a.Verdict)
		}
	}
	if d, _ := DriftOf(low, theShop); d.StopAt != 50 {
		t.Errorf("stop at %g °C under a ceiling of 50 °C", d.StopAt)
	}
	low.Ceiling, low.FlashPoint = "", "60 °C"
	if d, _ := DriftOf(low, theShop); d.StopAt != 43 {
		t.Errorf("stop at %g °C under a flash point of 60 °C", d.StopAt)
	}
	for _, missing := range []func(*Tank){func(t *Tank) { t.UltrasonicPower = "" }, func(t *Tank) { t.Temperature = "" }, func(t *Tank) { t.Volume, t.Length = "", "" }} {
		tank := smallTank
		missing(&tank)
		if _, err := DriftOf(tank, theShop); err == nil || !err.(Errors).OnlyMissing() {
			t.Errorf("%+v: %v", tank, err)
		}
	}
}

// TestDriftProperties: for any tank the ends stand in order, more sound never ends lower nor rises less, the lid never cools, and at its
// end a bath neither rises nor falls. The rise of a short time is that of the heat balance by hand.
func TestDriftProperties(t *testing.T) {
	r := rand.New(rand.NewPCG(23, 24))
	for range 150 {
		tank := Tank{
			Volume: number(between(r, 5, 300), "L"), UltrasonicPower: number(between(r, 50, 2000), "W"), Temperature: number(between(r, 25, 75), "°C"),
			Lid: "yes", Duty: number(between(r, 5, 90), "%"),
		}
		d, err := DriftOf(tank, theShop)
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range []Course{d.Shut, d.Open} {
			if c.EndLow > c.End+1e-3 || c.End > c.EndHigh+1e-3 || c.RiseLow > c.Rise || c.Rise > c.RiseHigh {
				t.Fatalf("%+v: %+v", tank, c)
			}
		}
		if d.Open.End > d.Shut.End+1e-3 || d.Open.Rise > d.Shut.Rise+1e-9 {
			t.Fatalf("%+v: the lid cools: %+v", tank, d)
		}
		more := tank
		more.Duty = "100 %"
		if m, _ := DriftOf(more, theShop); m.Shut.End < d.Shut.End-1e-3 || m.Shut.Rise < d.Shut.Rise {
			t.Fatalf("%+v: more sound ends lower", tank)
		}
		if d.Shut.Boils {
			continue
		}
		tank.Temperature = number(d.Shut.End, "°C")
		if at, _ := DriftOf(tank, theShop); math.Abs(at.Shut.Rise) > 0.01 {
			t.Fatalf("%+v: at its end it still rises by %g K", tank, at.Shut.Rise)
		}
	}
	v := bath.Vessel{Volume: 0.02, Length: 0.3, Width: 0.25, Depth: 0.267, Air: 20, Pressure: 101325, Power: 4000, Scale: 1e-9}
	if got, want := v.Rise(20, 300), 4000*300/(0.02*water.Density(20)*4183.); math.Abs(got-want) > 0.002*want {
		t.Errorf("4 kW for 5 min on 20 L without losses: %g K, want %g", got, want)
	}
}

// TestSoundIsWeighedOnce: heat-up, holding and drift take the same share of the sound.
func TestSoundIsWeighedOnce(t *testing.T) {
	in := map[string]string{"volume": "50 L", "target": "50 °C"}
	quiet := mustRun(t, "holding", with(in, "hours", "1 h"))
	loud := mustRun(t, "holding", with(with(in, "hours", "1 h"), "ultrasonic-power", "100 W"))
	if got := siOf(t, quiet, "power") - siOf(t, loud, "power"); math.Abs(got-100*bath.SoundToHeat) > 1e-6 {
		t.Errorf("100 W of sound spare the heater %g W", got)
	}
	half, err := Run("holding", with(with(with(in, "hours", "1 h"), "ultrasonic-power", "100 W"), "duty", "50 %"), quantity.SI)
	if err != nil {
		t.Fatal(err)
	}
	if got := siOf(t, quiet, "power") - siOf(t, half, "power"); math.Abs(got-50*bath.SoundToHeat) > 1e-6 {
		t.Errorf("100 W of sound half of the time spare the heater %g W", got)
	}
}
