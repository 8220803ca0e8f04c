package calculators

import (
	"math"
	"strings"
	"testing"

	"tankside/builder/quantity"
)

// TestWorkedExamples runs calculators on examples worked elsewhere; the source
// stands with each. want is in the unit named.
func TestWorkedExamples(t *testing.T) {
	type wanted struct {
		reading   string
		number    float64
		unit      string
		tolerance float64 // relative
	}
	for _, c := range []struct {
		source     string
		calculator string
		inputs     map[string]string
		want       []wanted
	}{
		{"C₁V₁ = C₂V₂, by hand", "dilution", map[string]string{"volume": "200 L", "strength": "4 % v/v", "density": "1.2 kg/L"},
			[]wanted{{"concentrate-volume", 8, "L", 1e-9}, {"concentrate-mass", 9.6, "kg", 1e-9}, {"water-volume", 192, "L", 1e-9}, {"ratio", 24, "1:N", 1e-9}}},
		{"1:19 is 5.0000 % as parts, not 5.2632 %: both usages in print; by hand", "dilution", map[string]string{"volume": "100 L", "strength": "1:19"},
			[]wanted{{"strength", 5, "% v/v", 1e-9}, {"concentrate-volume", 5, "L", 1e-9}}},
		{"g/L = 10·(% v/v)·ρ, by hand", "dilution", map[string]string{"volume": "10 L", "strength": "60 g/L", "density": "1.2 kg/L"},
			[]wanted{{"concentrate-volume", 0.5, "L", 1e-9}, {"concentrate-mass", 600, "g", 1e-9}}},
		{"5.9518 % w/w of ρ 1.2 is 5 % v/v, by hand", "dilution", map[string]string{"volume": "100 L", "strength": "5.9518 % w/w", "density": "1.2 kg/L"},
			[]wanted{{"concentrate-volume", 5, "L", 3e-4}}}, // water taken as 0.998 there
		{"US units: 32 US gal at 4 oz/US gal is 128 oz, 8 lb; by hand", "dilution", map[string]string{"volume": "32 US gal", "strength": "4 wt oz/US gal"},
			[]wanted{{"concentrate-mass", 8, "lb", 1e-9}}},
		{"200 L from 2 to 4 %, growing, by hand", "top-up", map[string]string{"volume": "200 L", "strength-now": "2 % v/v", "strength": "4 % v/v"},
			[]wanted{{"concentrate-volume", 4.1667, "L", 1e-4}, {"water-volume", 0, "L", 0}, {"drain-volume", 0, "L", 0}, {"volume-after", 204.1667, "L", 1e-5}}},
		{"200 L from 2 to 4 %, full tank, by hand", "top-up", map[string]string{"volume": "200 L", "strength-now": "2 % v/v", "strength": "4 % v/v", "tank-capacity": "200 L"},
			[]wanted{{"drain-volume", 4.0816, "L", 1e-4}, {"concentrate-volume", 4.0816, "L", 1e-4}}},
		{"150 L at 3 % to 200 L at 4 %, by hand", "top-up", map[string]string{"volume": "150 L", "strength-now": "3 % v/v", "strength": "4 % v/v", "volume-wanted": "200 L"},
			[]wanted{{"concentrate-volume", 3.5, "L", 1e-9}, {"water-volume", 46.5, "L", 1e-9}}},
		{"Standard Methods 2320 B: 5.0 mL of 0.1 N on 10 mL, 2502 mg/L as CaCO₃; 2.00 g/L as NaOH", "titration",
			map[string]string{"sample": "10 mL", "titrant-used": "5 mL", "titrant-normality": "0.1 N", "factor": "0.4"},
			[]wanted{{"alkalinity", 2502, "mg/L", 2e-4}, {"as-caustic", 2.00, "g/L", 1e-3}, {"strength", 2, "% v/v", 1e-9}}},
		{"Standard Methods 2320 B: 20 mL of 0.02 N on 50 mL, 400.3 mg/L as CaCO₃", "titration",
			map[string]string{"sample": "50 mL", "titrant-used": "20 mL", "titrant-normality": "0.02 N", "factor": "0.2"},
			[]wanted{{"alkalinity", 400.3, "mg/L", 2e-4}}},
		{"M. Plattes et al., MethodsX 4 (2017) 274, method: 1 kg at 1 K/min is 69.73 W", "power", map[string]string{"volume": "1.0017962 L", "rise": "1 K", "time": "1 min", "electrical-power": "139.46 W"},
			[]wanted{{"acoustic-power", 69.73, "W", 2e-4}, {"efficiency", 50, "%", 3e-4}}},
		{"guidebook on surface finishing: 1 gal/h against 99 gal/h is 100:1", "rinse", map[string]string{"drag-out": "1 US gal/h", "flow": "99 US gal/h", "stages": "1", "bath-strength": "10 wt oz/US gal", "limit": "1 %"},
			[]wanted{{"rinse-ratio", 100, "", 1e-9}, {"last-stage", 0.1, "wt oz/US gal", 1e-9}, {"flow-needed", 99, "US gal/h", 1e-9}}},
		{"guidebook on surface finishing: 1 and 2000 gal/h bring 10 oz/gal to 0.005 oz/gal", "rinse", map[string]string{"drag-out": "1 US gal/h", "flow": "2000 US gal/h", "stages": "1", "bath-strength": "10 wt oz/US gal"},
			[]wanted{{"rinse-ratio", 2001, "", 1e-9}, {"last-stage", 0.005, "wt oz/US gal", 1e-3}}},
		{"two counter-flow stages at 99:1, 9901:1 by the stages' balances", "rinse", map[string]string{"drag-out": "1 L/h", "flow": "99 L/h", "stages": "2"},
			[]wanted{{"rinse-ratio", 9901, "", 1e-9}, {"water-per-day", 792, "L", 1e-9}}},
		{"guidebook on metal finishing: cleaner rinse at most 3 % of the cleaner, 30 g/L to 0.9 g/L", "rinse", map[string]string{"drag-out": "1 L/h", "flow": "32.333333333 L/h", "stages": "1", "bath-strength": "30 g/L", "limit": "900 mg/L"},
			[]wanted{{"last-stage", 0.9, "g/L", 1e-6}, {"flow-needed", 32.333333333, "L/h", 1e-6}}},
		{"mg/m² = mg/L × µm / 1000, 300 mg/L on a handbook's 16.3 mL/m²", "spotting", map[string]string{"dissolved-solids": "300 mg/L", "film-thickness": "16.3 mL/m²"},
			[]wanted{{"residue", 4.89, "mg/m²", 1e-9}}},
		{"usual handbook row: 1 °dH = 1.25 °e = 1.79 °fH = 1.04 grains per US gallon = 17.9 mg/L, rounded there", "hardness", map[string]string{"hardness": "1 °dH"},
			[]wanted{{"english-degrees", 1.25, "°e", 5e-3}, {"french-degrees", 1.79, "°fH", 5e-3}, {"grains-per-us-gallon", 1.04, "gr/US gal", 5e-3}, {"calcium-carbonate", 17.9, "mg/L", 5e-3}, {"millimoles", 0.1783, "mmol/L", 1e-3}}},
		{"usual worked example of the Langelier index: 25 °C, pH 7.5, Ca 240, alkalinity 196, solids 400: +0.22", "scale", map[string]string{"temperature": "25 °C", "ph": "7.5", "calcium": "240 mg/L", "alkalinity": "196 mg/L", "dissolved-solids": "400 mg/L"},
			[]wanted{{"saturation-index", 0.22, "", 0.05}, {"saturation-ph", 7.276, "", 1e-3}, {"stability-index", 2*7.276 - 7.5, "", 1e-3}}},
		{"total hardness of 320 as calcium of 240; carbonic acid by hand: 4.4 mmol/L at pH 7.6 and 12 °C, pK₁ 6.44, are 4.71 of carbon, of which pK₁ 6.29 at 60 °C makes pH 7.4", "scale",
			map[string]string{"temperature": "60 °C", "ph": "7.6", "sample-temperature": "12 °C", "hardness": "320 mg/L", "alkalinity": "220 mg/L", "dissolved-solids": "400 mg/L"},
			[]wanted{{"hot-ph", 7.4, "", 0.01}, {"saturation-index", 7.43 - (9.3 + 0.16 + 1.456 - (2.3802 - 0.4) - 2.3424), "", 0.05}}},
		{"IAPWS-95: 1482.35 m/s at 20 °C; λ = c/f; Minnaert with surface tension", "sound", map[string]string{"frequency": "40 kHz"},
			[]wanted{{"speed", 1482.35, "m/s", 1e-4}, {"wavelength", 37.06, "mm", 3e-4}, {"antinode-spacing", 18.53, "mm", 3e-4}, {"resonant-radius", 82.7, "µm", 1e-3}}},
		{"psychrolib wet bulb 30.68 °C at 80 °C and dew point 10 °C (20 °C, 52.46 %); h 25 W/(m²·K); 16.3 g/m² in 32.1 s", "drying", map[string]string{"carry-off": "16.3 g/m²", "area": "1 m²", "air": "80 °C", "room": "20 °C", "humidity": "52.46 %", "flow": "1000 m³/h"},
			[]wanted{{"time", 32.1, "s", 5e-3}, {"wet-bulb", 30.684, "°C", 1e-3}}},
		{"heat balance by hand: 10 kg of steel at 20 °C in 60 °C water of 98.32 kg", "load", map[string]string{"load-mass": "10 kg", "volume": "100 L", "bath-temperature": "60 °C", "part-temperature": "20 °C"},
			[]wanted{{"temperature-drop", 40 * 4340 / (4340 + 98.3196*4184.95), "K", 1e-4}, {"load-ratio", 10.171, "%", 1e-3}}},
		{"separately integrated tank, see package bath: 100 L, 0.6 × 0.4 m, 3 kW, 25 kg; here with a bottom that loses too, so a little slower than 108.13 min", "heat-up",
			map[string]string{"volume": "100 L", "length": "600 mm", "width": "400 mm", "start": "20 °C", "target": "60 °C", "heater": "3 kW", "vessel-mass": "25 kg"},
			[]wanted{{"time", 109, "min", 0.015}, {"loss-at-target", 885, "W", 0.03}}},
		{"kW = L·ΔT/(860·h) without losses: 100 L from 20 to 60 °C in one hour, 4.651 kW; big heater, closed and insulated", "heat-up",
			map[string]string{"volume": "100 L", "start": "20 °C", "target": "60 °C", "heater": "465.1 kW", "vessel-mass": "0 kg", "lid": "yes", "insulation": "100 mm"},
			[]wanted{{"time", 36, "s", 0.005}}},
		{"U.S. Geological Survey, DOTABLES: 8.26 mg/L at 25 °C; 95 % of the way to 0.6 of it", "degas", map[string]string{"volume": "10 L", "temperature": "25 °C", "ultrasonic-power": "200 W"},
			[]wanted{{"saturation", 8.26, "mg/L", 1e-3}, {"dissolved-oxygen-start", 8.26, "mg/L", 1e-3}, {"dissolved-oxygen-end", 8.26 * 0.62, "mg/L", 1e-3}, {"power-density", 20, "W/L", 1e-9}}},
	} {
		a, err := Run(c.calculator, c.inputs, quantity.SI)
		if err != nil {
			t.Errorf("%s: %v", c.source, err)
			continue
		}
		for _, w := range c.want {
			r, ok := a.Reading(w.reading)
			u, known := quantity.UnitNamed(w.unit, r.Kind)
			if !ok || !known {
				t.Errorf("%s: no %s in %q", c.source, w.reading, w.unit)
				continue
			}
			if got := u.FromSI(r.SI); math.Abs(got-w.number) > w.tolerance*math.Abs(w.number)+1e-12 {
				t.Errorf("%s: %s is %.6g %s, want %.6g", c.source, w.reading, got, w.unit, w.number)
			}
		}
	}
}

// TestSeparateFeeds: own fresh water for each stage, (1 + r)ⁿ.
func TestSeparateFeeds(t *testing.T) {
	a := mustRun(t, "rinse", map[string]string{"drag-out": "1 L/h", "flow": "9 L/h", "stages": "3", "feed": "separate", "hours": "10 h"})
	if got := siOf(t, a, "rinse-ratio"); math.Abs(got-1000) > 1e-9 {
		t.Errorf("%g", got)
	}
	if got := siOf(t, a, "water-per-day"); math.Abs(got-0.27) > 1e-9 {
		t.Errorf("%g m³ a day", got)
	}
}

// TestFilmTaken: the film that is taken where none is given, 16 µm, is that of
// the drag-out table for upright, well-drained parts, and within a factor of two
// the mean film on a draining sheet, two thirds of √(νL/gτ), for ordinary heights
// and times: H. Jeffreys, Proc. Camb. Phil. Soc. 26 (1930) 204.
func TestFilmTaken(t *testing.T) {
	a := mustRun(t, "spotting", map[string]string{"dissolved-solids": "1000 mg/L"})
	film := siOf(t, a, "residue")
	for _, c := range []struct{ height, time float64 }{{0.05, 10}, {0.05, 30}, {0.1, 10}, {0.1, 30}, {0.3, 30}, {0.3, 60}} {
		sheet := 2. / 3 * math.Sqrt(1.0034e-6*c.height/(9.80665*c.time))
		if film < sheet/2 || film > sheet*2 {
			t.Errorf("%g m drained for %g s holds %.1f µm, taken are %.1f", c.height, c.time, sheet*1e6, film*1e6)
		}
	}
}

// TestCautions: what can hurt is said, and with the right word.
func TestCautions(t *testing.T) {
	for _, c := range []struct {
		calculator string
		inputs     map[string]string
		signal     Signal
		says       string
	}{
		{"dilution", map[string]string{"volume": "10 L", "strength": "5 % v/v"}, Warning, "never pour water into acid"},
		{"top-up", map[string]string{"volume": "10 L", "strength-now": "7 % v/v", "strength": "5 % v/v", "tank-capacity": "10 L"}, Warning, "waste"},
		{"titration", map[string]string{"sample": "10 mL", "titrant-used": "5 mL", "titrant-normality": "0.1 N", "factor": "0.4"}, Careful, "goggles"},
		{"heat-up", map[string]string{"volume": "10 L", "start": "20 °C", "target": "60 °C", "heater": "1 kW"}, Warning, "scalds"},
		{"heat-up", map[string]string{"volume": "10 L", "start": "20 °C", "target": "46 °C", "heater": "1 kW"}, Careful, "scalds"},
		{"heat-up", map[string]string{"volume": "10 L", "start": "20 °C", "target": "60 °C", "heater": "1 kW", "flash-point": "65 °C"}, Danger, "flash point"},
		{"heat-up", map[string]string{"volume": "10 L", "start": "20 °C", "target": "40 °C", "heater": "1 kW", "flash-point": "93 °C"}, Warning, "flash point"},
		{"heat-up", map[string]string{"volume": "10 L", "start": "20 °C", "target": "75 °C", "heater": "1 kW", "ceiling": "70 °C"}, Warning, "above what the chemistry allows"},
		{"heat-up", map[string]string{"volume": "10 L", "start": "20 °C", "target": "60 °C", "heater": "2 kW", "lid": "yes", "ceiling": "70 °C"}, Notice, "over-temperature cut-out"},
		{"heat-up", map[string]string{"volume": "10 L", "start": "20 °C", "target": "40 °C", "heater": "1 kW"}, Notice, "running dry"},
		{"holding", map[string]string{"volume": "100 L", "target": "80 °C", "hours": "72 h"}, Notice, "level falls by"},
		{"degas", map[string]string{"volume": "10 L", "temperature": "40 °C", "ultrasonic-power": "200 W"}, Notice, "empty"},
		{"degas", map[string]string{"volume": "10 L", "temperature": "40 °C", "ultrasonic-power": "200 W"}, Warning, "No hand"},
		{"power", map[string]string{"volume": "10 L", "rise": "1 K", "time": "5 min"}, Notice, "empty"},
		{"load", map[string]string{"load-mass": "6 kg", "volume": "10 L", "bath-temperature": "60 °C", "part-temperature": "20 °C"}, Notice, "half of the water"},
		{"load", map[string]string{"load-mass": "1 kg", "volume": "10 L", "bath-temperature": "60 °C", "part-temperature": "200 °C"}, Warning, "spit"},
		{"sound", map[string]string{"frequency": "25 kHz"}, Notice, "pits"},
		{"scale", map[string]string{"temperature": "60 °C", "ph": "8", "calcium": "300 mg/L", "alkalinity": "250 mg/L", "dissolved-solids": "500 mg/L"}, Notice, "heater"},
		{"drying", map[string]string{"carry-off": "16 µm", "area": "1 m²", "air": "80 °C", "flow": "100 m³/h"}, Warning, "catch fire"},
	} {
		a := mustRun(t, c.calculator, c.inputs)
		found := false
		last := Danger
		for _, caution := range a.Cautions {
			found = found || caution.Signal == c.signal && strings.Contains(caution.Text, c.says)
			if caution.Signal < last {
				t.Errorf("%s: the gravest caution does not stand first", c.calculator)
			}
			last = caution.Signal
		}
		if !found {
			t.Errorf("%s %v: no %v that says %q in %v", c.calculator, c.inputs, c.signal, c.says, a.Cautions)
		}
	}
}

// TestVerdicts: where a number would mislead, a sentence says what is the case.
func TestVerdicts(t *testing.T) {
	for _, c := range []struct {
		calculator string
		inputs     map[string]string
		says       string
		not        string // a reading that must not be given
	}{
		{"heat-up", map[string]string{"volume": "100 L", "start": "20 °C", "target": "90 °C", "heater": "1 kW"}, "never gets to 90\u00a0°C. It stops at 6", "time"},
		{"heat-up", map[string]string{"volume": "100 L", "start": "20 °C", "target": "95 °C", "heater": "30 kW", "altitude": "3000 m"}, "boils at 90\u00a0°C", "time"},
		{"holding", map[string]string{"volume": "100 L", "target": "80 °C", "hours": "1 h", "heater": "500 W"}, "The heater is too small: the bath falls to 49", ""},
		{"holding", map[string]string{"volume": "10 L", "target": "40 °C", "hours": "1 h", "ultrasonic-power": "500 W"}, "The sound alone warms", ""},
		{"degas", map[string]string{"volume": "10 L", "temperature": "40 °C", "ultrasonic-power": "200 W", "target": "1 mg/L"}, "stops at 3.85\u00a0mg/L, and at best at 2.57", "time"},
		{"degas", map[string]string{"volume": "10 L", "temperature": "40 °C", "ultrasonic-power": "200 W", "start-saturation": "50 %", "target": "60 %"}, "no more air than that already", ""},
		{"rinse", map[string]string{"drag-out": "1 L/h", "flow": "10 L/h", "stages": "1"}, "too strong: it needs 16.7\u00a0L/min", ""},
		{"spotting", map[string]string{"dissolved-solids": "2 mg/L"}, "good enough", ""},
		{"load", map[string]string{"load-mass": "1 kg", "volume": "10 L", "bath-temperature": "60 °C", "part-temperature": "60 °C", "heater": "1 kW"}, "do not cool", "recovery-time"},
		{"load", map[string]string{"load-mass": "10 kg", "volume": "100 L", "bath-temperature": "90 °C", "part-temperature": "20 °C", "heater": "1 kW"}, "does not come back", "recovery-time"},
		{"drying", map[string]string{"carry-off": "16 µm", "area": "1 m²", "air": "20 °C", "humidity": "100 %", "flow": "100 m³/h"}, "takes up no water", "time"},
		{"top-up", map[string]string{"volume": "10 L", "strength-now": "2 % v/v", "strength": "4 % v/v", "tank-capacity": "10 L"}, "without letting", ""},
	} {
		a := mustRun(t, c.calculator, c.inputs)
		if !strings.Contains(a.Verdict, c.says) {
			t.Errorf("%s %v: %q does not say %q", c.calculator, c.inputs, a.Verdict, c.says)
		}
		if _, given := a.Reading(c.not); given {
			t.Errorf("%s %v: %s is given all the same", c.calculator, c.inputs, c.not)
		}
	}
}

// TestInputErrors: each names the input, what was given and what is accepted.
func TestInputErrors(t *testing.T) {
	ok := map[string]map[string]string{
		"dilution":  {"volume": "10 L", "strength": "5 % v/v"},
		"heat-up":   {"volume": "10 L", "start": "20 °C", "target": "60 °C", "heater": "1 kW"},
		"titration": {},
		"top-up":    {"volume": "10 L", "strength-now": "2 % v/v", "strength": "4 % v/v"},
		"rinse":     {"drag-out": "1 L/h", "flow": "10 L/h", "stages": "1"},
		"degas":     {"volume": "10 L", "temperature": "40 °C", "ultrasonic-power": "200 W"},
		"power":     {"volume": "10 L", "rise": "1 K", "time": "5 min"},
		"drying":    {"carry-off": "16 µm", "area": "1 m²", "air": "80 °C", "flow": "100 m³/h"},
		"load":      {"load-mass": "1 kg", "volume": "10 L", "bath-temperature": "60 °C", "part-temperature": "20 °C"},
	}
	for _, c := range []struct{ calculator, input, text, says string }{
		{"dilution", "volume", "", "this is needed; write a volume such as 120 L"},
		{"titration", "sample", "", "write a volume such as 10\u00a0mL"},
		{"dilution", "volume", "120", "the unit is missing"},
		{"dilution", "volume", "1,5 L", "comma"},
		{"dilution", "volume", "0 L", "0\u00a0L is outside what is accepted, 0.001\u00a0L to 100\u202f000\u00a0L"},
		{"dilution", "volume", "-5 US gal", "−5\u00a0US gal is outside what is accepted, 0.000264\u00a0US gal to 26\u202f420\u00a0US gal"},
		{"dilution", "strength", "3 %", "per cent of what"},
		{"dilution", "strength", "2000 g/L", "is outside what is accepted, 0.01\u00a0g/L to 1000\u00a0g/L"},
		{"dilution", "strength", "900 g/L", ""},
		{"dilution", "colour", "red", "there is no such input; dilution has volume, strength, density"},
		{"heat-up", "volume", "", "this is needed, or length, width and depth instead"},
		{"heat-up", "target", "10 °C", "10\u00a0°C is not above the start, 20\u00a0°C"},
		{"heat-up", "target", "150 °C", "outside what is accepted, 1\u00a0°C to 99\u00a0°C"},
		{"heat-up", "target", "1000 °F", "outside what is accepted, 34\u00a0°F to 210\u00a0°F"},
		{"heat-up", "lid", "maybe", "“maybe” is none of yes, or no"},
		{"heat-up", "load-material", "cheese", "is none of steel, or stainless-steel"},
		{"heat-up", "insulation", "none", ""},
		{"heat-up", "insulation", "NONE", ""},
		{"heat-up", "insulation", "yes", "a number should stand"},
		{"heat-up", "humidity", "150 %", "outside what is accepted, 0\u00a0% to 100\u00a0%"},
		{"top-up", "tank-capacity", "5 L", "more than the tank may hold"},
		{"top-up", "volume", "0 L", "an empty tank needs the volume wanted"},
		{"rinse", "stages", "1.5", "whole numbers"},
		{"rinse", "limit", "5 mg/L", "needs the bath's strength"},
		{"degas", "target", "19 mg/L", "more than water at that temperature holds"},
		{"degas", "ultrasonic-power", "900 kW", "more than any tank has"},
		{"power", "electrical-power", "10 W", "more heat arrives"},
		{"drying", "air", "10 °C", "colder than the room"},
		{"load", "part-temperature", "300 °C", ""},
	} {
		values := map[string]string{}
		for name, text := range ok[c.calculator] {
			values[name] = text
		}
		values[c.input] = c.text
		_, err := Run(c.calculator, values, quantity.SI)
		if c.says == "" {
			if err != nil {
				t.Errorf("%s %s=%q: %v", c.calculator, c.input, c.text, err)
			}
			continue
		}
		wrong, _ := err.(Errors)
		if len(wrong) == 0 {
			t.Errorf("%s %s=%q is accepted", c.calculator, c.input, c.text)
			continue
		}
		found := false
		for _, e := range wrong {
			found = found || strings.Contains(e.Problem, c.says) && (e.Input == c.input || c.calculator == "top-up")
			if e.Problem == "" || !strings.HasSuffix(e.Problem, ".") && !strings.HasSuffix(e.Problem, "?") {
				t.Errorf("%q is no sentence", e.Problem)
			}
		}
		if !found {
			t.Errorf("%s %s=%q: %v, want %q", c.calculator, c.input, c.text, err, c.says)
		}
	}
	if _, err := Run("fortune", nil, quantity.SI); err == nil || !strings.Contains(err.Error(), "there are dilution, top-up") {
		t.Errorf("an unknown calculator: %v", err)
	}
	_, err := Run("dilution", nil, quantity.SI)
	if wrong, _ := err.(Errors); len(wrong) != 2 || !wrong.OnlyMissing() {
		t.Errorf("without inputs: %v", err)
	}
	_, err = Run("dilution", map[string]string{"b": "", "a": "1", "volume": "x"}, quantity.SI)
	if wrong, _ := err.(Errors); len(wrong) != 4 || wrong.OnlyMissing() || wrong[2].Input != "a" || wrong[3].Input != "b" {
		t.Errorf("in no fixed order: %v", err)
	}
}
