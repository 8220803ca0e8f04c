package calculators

import (
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"tankside/builder/quantity"
)

func number(x float64, unit string) string { return strconv.FormatFloat(x, 'f', -1, 64) + " " + unit }

func between(r *rand.Rand, low, high float64) float64 { return low + (high-low)*r.Float64() }

// bathInputs are those of any tank.
func bathInputs(r *rand.Rand) map[string]string {
	yes := []string{"yes", "no"}
	in := map[string]string{
		"volume": number(between(r, 2, 800), "L"), "start": number(between(r, 5, 30), "°C"), "target": number(between(r, 31, 90), "°C"),
		"heater": number(math.Pow(10, between(r, -1.5, 1)), "kW"), "lid": yes[r.IntN(2)], "air": number(between(r, 5, 35), "°C"),
		"humidity": number(between(r, 10, 90), "%"), "draught": number(between(r, 0, 0.6), "m/s"), "altitude": number(between(r, 0, 2500), "m"),
	}
	if r.IntN(2) == 0 {
		in["insulation"] = number(between(r, 5, 80), "mm")
	}
	if r.IntN(2) == 0 {
		in["depth"] = number(between(r, 150, 900), "mm")
	}
	if r.IntN(3) == 0 {
		in["load-mass"], in["load-material"] = number(between(r, 1, 50), "kg"), "aluminium"
	}
	if r.IntN(3) == 0 {
		in["ultrasonic-power"] = number(between(r, 0.1, 2), "kW")
	}
	return in
}

func with(in map[string]string, name, text string) map[string]string {
	out := map[string]string{name: text}
	for k, v := range in {
		if k != name {
			out[k] = v
		}
	}
	return out
}

// TestHeatUpProperties: more heater is never slower, a lid never loses more,
// bounds stand on their sides, and where there is no time a sentence names the
// temperature at which it stops.
func TestHeatUpProperties(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	reached, stopped := 0, 0
	for range 300 {
		in := bathInputs(r)
		a := mustRun(t, "heat-up", in)
		watts, _ := strconv.ParseFloat(strings.TrimSuffix(in["heater"], " kW"), 64)
		stronger := mustRun(t, "heat-up", with(in, "heater", number(watts*1.3, "kW")))
		lid := mustRun(t, "heat-up", with(in, "lid", "yes"))
		open := mustRun(t, "heat-up", with(in, "lid", "no"))
		if siOf(t, lid, "loss-at-target") > siOf(t, open, "loss-at-target")*(1+1e-9) {
			t.Fatalf("%v: a lid loses more", in)
		}
		highest := siOf(t, a, "highest-temperature")
		if siOf(t, stronger, "highest-temperature") < highest-1e-4 {
			t.Fatalf("%v: more heater ends lower", in)
		}
		for _, reading := range a.Readings {
			if reading.Low > reading.SI*(1+1e-9) || reading.High < reading.SI*(1-1e-9) {
				t.Fatalf("%v: %s is %g, between %g and %g", in, reading.Name, reading.SI, reading.Low, reading.High)
			}
		}
		target, _ := strconv.ParseFloat(strings.TrimSuffix(in["target"], " °C"), 64)
		time, ok := a.Reading("time")
		if ok != (target < highest) {
			t.Fatalf("%v: a time %v, target %g, highest %g", in, ok, target, highest)
		}
		if !ok {
			stopped++
			if !strings.Contains(a.Verdict, quantity.Show(highest, quantity.Temperature, quantity.SI)) && !strings.Contains(a.Verdict, "boils") {
				t.Fatalf("%v: %q does not name %.1f °C", in, a.Verdict, highest)
			}
			continue
		}
		reached++
		if faster, ok := stronger.Reading("time"); !ok || faster.SI > time.SI*(1+1e-9) {
			t.Fatalf("%v: more heater is slower", in)
		}
		if time.SI <= 0 || siOf(t, a, "energy") <= 0 {
			t.Fatalf("%v: no time or energy", in)
		}
	}
	if reached < 50 || stopped < 50 {
		t.Errorf("%d reached, %d stopped: the cases are lopsided", reached, stopped)
	}
}

// TestHoldingAgrees: the heat that holding takes is the loss that heat-up names.
func TestHoldingAgrees(t *testing.T) {
	r := rand.New(rand.NewPCG(13, 14))
	for range 100 {
		in := bathInputs(r)
		delete(in, "ultrasonic-power")
		up := mustRun(t, "heat-up", in)
		for _, name := range []string{"start", "load-mass", "load-material", "heater"} {
			delete(in, name)
		}
		in["hours"] = "10 h"
		a, err := Run("holding", in, quantity.SI)
		if err != nil {
			if strings.Contains(err.Error(), "boils") {
				continue
			}
			t.Fatal(err)
		}
		power, loss := siOf(t, a, "power"), siOf(t, up, "loss-at-target")
		if math.Abs(power-loss) > 1e-9*loss || math.Abs(siOf(t, a, "energy")-power*36000) > 1e-6*power*36000 {
			t.Fatalf("%v: holding takes %g W, heat-up loses %g W", in, power, loss)
		}
	}
}

// TestDegasNeverEndsAboveSaturation for any bath.
func TestDegasNeverEndsAboveSaturation(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 16))
	for range 500 {
		in := map[string]string{
			"volume": number(between(r, 10, 500), "L"), "temperature": number(between(r, 5, 85), "°C"), "ultrasonic-power": number(between(r, 20, 5000), "W"),
			"frequency": number(between(r, 20, 130), "kHz"), "altitude": number(between(r, 0, 2500), "m"), "start-saturation": number(between(r, 20, 250), "%"),
		}
		if r.IntN(2) == 0 {
			in["target"] = number(between(r, 5, 100), "%")
		}
		a := mustRun(t, "degas", in)
		saturation, start := siOf(t, a, "saturation"), siOf(t, a, "dissolved-oxygen-start")
		end, _ := a.Reading("dissolved-oxygen-end")
		if end.SI > saturation*(1+1e-9) {
			t.Fatalf("%v ends at %g above saturation %g", in, end.SI, saturation)
		}
		if end.SI > math.Max(start, 0.8*saturation)*(1+1e-9) {
			t.Fatalf("%v: degassing adds oxygen, %g to %g", in, start, end.SI)
		}
		if time, ok := a.Reading("time"); ok && (time.SI < 0 || time.Low > time.SI || time.High < time.SI) {
			t.Fatalf("%v: %+v", in, time)
		}
	}
}

// TestDilutionThenTitration: a bath made up by dilution, titrated with the
// factor of a fresh bath, shows its strength; a top-up then has nothing to do.
func TestDilutionThenTitration(t *testing.T) {
	r := rand.New(rand.NewPCG(17, 18))
	for range 200 {
		strength := between(r, 0.5, 20)
		made := mustRun(t, "dilution", map[string]string{"volume": "100 L", "strength": number(strength, "% v/v")})
		share := siOf(t, made, "concentrate-volume") / 0.1
		// One mL of concentrate in 100 mL takes `perPercent` mL of acid.
		perPercent := between(r, 0.5, 4)
		acid := share * 100 * perPercent
		found := mustRun(t, "titration", map[string]string{
			"sample": "10 mL", "titrant-used": number(acid, "mL"), "titrant-normality": "0.1 N", "factor": strconv.FormatFloat(1/perPercent, 'f', -1, 64),
			"volume": "100 L", "strength": number(strength, "% v/v"),
		})
		if got := 100 * siOf(t, found, "strength"); math.Abs(got-strength) > 1e-9*strength {
			t.Fatalf("made %g %%, titrated %g %%", strength, got)
		}
		if add := siOf(t, found, "concentrate-volume"); add > 1e-9 {
			t.Fatalf("a fresh bath needs %g m³ more", add)
		}
	}
}

// TestUnitsDoNotMatter: the same bath in US customary units and in SI.
func TestUnitsDoNotMatter(t *testing.T) {
	a := mustRun(t, "heat-up", map[string]string{"volume": "32 US gal", "start": "50 °F", "target": "140 °F", "heater": "20473 Btu/h", "air": "68 °F", "draught": "60 ft/min", "depth": "18 in"})
	b := mustRun(t, "heat-up", map[string]string{"volume": "121.133177088 L", "start": "10 °C", "target": "60 °C", "heater": "6.000044048 kW", "air": "20 °C", "draught": "0.3048 m/s", "depth": "457.2 mm"})
	for i := range a.Readings {
		if x, y := a.Readings[i], b.Readings[i]; math.Abs(x.SI-y.SI) > 1e-6*math.Abs(y.SI) {
			t.Errorf("%s: %g and %g", x.Name, x.SI, y.SI)
		}
	}
}

// hostile are texts that nobody should write, and some that are only odd.
var hostile = []string{
	"", " ", "0", "-0", "NaN", "Inf", "-Inf °C", "1e308 L", "1e-308 L", "0 L", "-1 L", "0 °C", "100 °C", "-273.15 °C", "1:0", "1:1e11", "0 % v/v", "100 % v/v", "99 % v/v",
	"1e-9 mg/L", "1 L", "120 L", "1e5 L", "0.2 L", "0 W", "1 W", "5000 kW", "6 kW", "20 °C", "60 °C", "98 °C", "99 °C", "1 °C", "180 °C", "yes", "no", "none", "0 %", "100 %", "1e-9 %",
	"5 mL", "1 mL", "0.1 N", "0.4", "7.5", "1", "10", "1000", "40 kHz", "15 kHz", "1 s", "1 min", "8 h", "366 d", "1 µm", "16 µm", "2 mm", "20 mm", "20 m", "1 g", "1 kg", "100000 kg", "1 m²", "1 cm²",
	"1 m³/h", "1 L/h", "1e-7 L/h", "1 kg/L", "0.28 EUR/kWh", "300 mg/L", "0 mg/L", "1 µS/cm", "4000 m", "0 m/s", "5 m/s", "1 K", "60 K", "0.01 K", "steel", "plastic", "separate", "still", "knife", "<script>", "“”&\x00\xff",
}

func sane(t *testing.T, a Answer, values map[string]string) {
	t.Helper()
	for _, r := range a.Readings {
		if r.Text != "" {
			continue
		}
		for _, x := range []float64{r.SI, r.Low, r.Value()} {
			if math.IsNaN(x) || math.IsInf(x, 0) {
				t.Fatalf("%s %v: %s is %v (%v to %v)", a.Calculator.Name, values, r.Name, r.SI, r.Low, r.High)
			}
		}
		if math.IsNaN(r.High) || math.IsInf(r.High, -1) || r.Label == "" {
			t.Fatalf("%s %v: %+v", a.Calculator.Name, values, r)
		}
	}
	for _, text := range append(append([]string{a.Verdict}, a.Working...), func() (s []string) {
		for _, c := range a.Cautions {
			s = append(s, c.Text)
		}
		return s
	}()...) {
		if strings.ContainsAny(text, "{}") || strings.Contains(text, "not a number") || strings.Contains(text, "∞") || strings.Contains(text, "no time") {
			t.Fatalf("%s %v: %q", a.Calculator.Name, values, text)
		}
	}
	if c := a.Curve; c != nil {
		for _, line := range [][]Point{c.Likely, c.Low, c.High} {
			for _, p := range line {
				if math.IsNaN(p.X+p.Y) || math.IsInf(p.X+p.Y, 0) {
					t.Fatalf("%s %v: a curve through %v", a.Calculator.Name, values, p)
				}
			}
		}
	}
}

// TestHostileInputs: whatever stands in the fields, there is an answer of
// numbers or a sentence, the same each time.
func TestHostileInputs(t *testing.T) {
	r := rand.New(rand.NewPCG(19, 20))
	answers := 0
	for _, c := range All() {
		for range 1500 {
			values := map[string]string{}
			for _, in := range c.Inputs {
				if !in.Required && r.IntN(2) == 0 {
					continue
				}
				values[in.Name] = plausible(r, in)
				if r.IntN(25) == 0 {
					values[in.Name] = hostile[r.IntN(len(hostile))]
				}
			}
			a, err := c.Run(values, quantity.System(r.IntN(2)))
			if err != nil {
				if wrong, ok := err.(Errors); !ok || len(wrong) == 0 || strings.ContainsAny(err.Error(), "{}") {
					t.Fatalf("%s %v: %v", c.Name, values, err)
				}
				continue
			}
			answers++
			sane(t, a, values)
		}
	}
	if answers < 5000 {
		t.Errorf("only %d answers: the inputs are too hostile to test them", answers)
	}
}

// plausible is an amount that an input accepts: often an end of its range.
func plausible(r *rand.Rand, in *Input) string {
	if len(in.Choices) > 0 {
		return in.Choices[r.IntN(len(in.Choices))].Value
	}
	m := in.Measures[r.IntN(len(in.Measures))]
	u := m.Unit(quantity.System(r.IntN(2)))
	si := m.Low + (m.High-m.Low)*r.Float64()
	switch r.IntN(5) {
	case 0:
		si = m.Low
	case 1:
		si = m.High
	case 2, 3:
		if m.Low > 0 {
			si = m.Low * math.Pow(m.High/m.Low, r.Float64())
		}
	}
	if u.Symbol == "" {
		return strconv.FormatFloat(u.FromSI(si), 'g', 10, 64)
	}
	return strconv.FormatFloat(u.FromSI(si), 'g', 10, 64) + " " + u.Symbol
}

func FuzzRun(f *testing.F) {
	for i, c := range All() {
		values := asked(c)
		var texts []string
		for _, in := range c.Inputs {
			texts = append(texts, values[in.Name])
		}
		f.Add(uint8(i), strings.Join(texts, "|"))
	}
	f.Fuzz(func(t *testing.T, which uint8, texts string) {
		c := All()[int(which)%len(All())]
		values := map[string]string{}
		for i, text := range strings.Split(texts, "|") {
			if i < len(c.Inputs) {
				values[c.Inputs[i].Name] = text
			}
		}
		a, err := c.Run(values, quantity.System(which>>7))
		if err == nil {
			sane(t, a, values)
		} else if wrong, ok := err.(Errors); !ok || len(wrong) == 0 {
			t.Fatal(err)
		}
	})
}

func BenchmarkRun(b *testing.B) {
	for _, c := range All() {
		values := asked(c)
		b.Run(c.Name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := c.Run(values, quantity.SI); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
