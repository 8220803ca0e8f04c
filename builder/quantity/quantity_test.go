package quantity

import (
	"math"
	"strings"
	"testing"
)

func near(got, want, relative float64) bool {
	return math.Abs(got-want) <= relative*math.Abs(want)
}

// TestFactors compares unit factors with NIST Special Publication 811 (2008),
// appendix B.8, which prints seven digits; hence 1e-6.
func TestFactors(t *testing.T) {
	for _, c := range []struct {
		symbol string
		kind   Kind
		si     float64
	}{
		{"US gal", Volume, 3.785412e-3}, {"US qt", Volume, 9.463529e-4}, {"US fl oz", Volume, 2.957353e-5},
		{"imp gal", Volume, 4.54609e-3}, {"imp fl oz", Volume, 2.841306e-5}, {"ft³", Volume, 2.831685e-2}, {"in³", Volume, 1.638706e-5},
		{"lb", Mass, 4.535924e-1}, {"oz", Mass, 2.834952e-2},
		{"in", Length, 2.54e-2}, {"ft", Length, 3.048e-1}, {"mil", Length, 2.54e-5},
		{"ft²", Area, 9.290304e-2}, {"in²", Area, 6.4516e-4},
		{"Btu", Energy, 1.055056e3}, {"kcal", Energy, 4.1868e3}, {"kWh", Energy, 3.6e6},
		{"Btu/h", Power, 2.930711e-1}, {"hp", Power, 7.456999e2}, {"kcal/h", Power, 1.163},
		{"psi", Pressure, 6.894757e3}, {"mmHg", Pressure, 1.333224e2}, {"inHg", Pressure, 3.386389e3}, {"atm", Pressure, 1.01325e5},
		{"ft/min", Speed, 5.08e-3}, {"mph", Speed, 4.4704e-1}, {"km/h", Speed, 2.777778e-1},
		{"US gal/min", Flow, 6.309020e-5}, {"US gal/d", Flow, 4.381264e-8}, {"ft³/min", Flow, 4.719474e-4},
		{"wt oz/US gal", MassConcentration, 7.489152}, {"wt oz/imp gal", MassConcentration, 6.236023}, {"imp fl oz/imp gal", VolumeFraction, 0.00625}, {"lb/US gal", MassConcentration, 1.198264e2}, {"lb/ft³", Density, 1.601846e1},
	} {
		u, ok := UnitNamed(c.symbol, c.kind)
		if !ok {
			t.Errorf("no unit %q of %v", c.symbol, c.kind)
			continue
		}
		if got := u.ToSI(1); !near(got, c.si, 1e-6) {
			t.Errorf("1 %s = %g, SP 811 has %g", c.symbol, got, c.si)
		}
	}
}

// TestHardnessUnits: grain per US gallon from NIST SP 811 appendix B.8
// (1.711 806e-2 kg/m³); the degrees computed by GNU units 2.22 with molar masses
// CaCO3 100.0869 and CaO 56.0774; the row of rounded values is the usual
// handbook conversion table (1 gr/US gal = 1.20 °e = 1.72 °fH = 0.96 °dH).
func TestHardnessUnits(t *testing.T) {
	for symbol, milligrams := range map[string]float64{
		"gr/US gal": 17.11806, "°e": 14.2538, "°dH": 17.8480, "°fH": 10, "mmol/L": 100.0869, "meq/L": 50.0435, "mg/L Ca": 2.4973,
	} {
		u, ok := UnitNamed(symbol, Hardness)
		if got := u.ToSI(1) * 1000; !ok || !near(got, milligrams, 1e-5) {
			t.Errorf("1 %s = %g mg/L, want %g", symbol, got, milligrams)
		}
	}
	v, err := Parse("1 gpg", Hardness)
	if err != nil {
		t.Fatal(err)
	}
	for symbol, want := range map[string]float64{"°e": 1.20, "°fH": 1.71, "°dH": 0.96} {
		u, _ := UnitNamed(symbol, Hardness)
		if got := u.FromSI(v.SI); math.Abs(got-want) > 0.01 {
			t.Errorf("1 gr/US gal = %g %s, the table has %g", got, symbol, want)
		}
	}
}

func TestParse(t *testing.T) {
	strengths := []Kind{VolumeFraction, MassFraction, MassConcentration}
	for _, c := range []struct {
		text  string
		kinds []Kind
		si    float64
		shown string
	}{
		{"60C", []Kind{Temperature}, 60, "60 °C"},
		{"60 degC", []Kind{Temperature}, 60, "60 °C"},
		{"60 deg C", []Kind{Temperature}, 60, "60 °C"},
		{"60 ℃", []Kind{Temperature}, 60, "60 °C"},
		{"60º C", []Kind{Temperature}, 60, "60 °C"},
		{"140F", []Kind{Temperature}, 60, "140 °F"},
		{"140 °f", []Kind{Temperature}, 60, "140 °F"},
		{"333.15 K", []Kind{Temperature}, 60, "333.15 K"},
		{"−5 °C", []Kind{Temperature}, -5, "−5 °C"},
		{"-5°C", []Kind{Temperature}, -5, "−5 °C"},
		{"9 °F", []Kind{TemperatureDifference}, 5, "9 °F"},
		{"5 K", []Kind{TemperatureDifference}, 5, "5 K"},
		{"120 L", []Kind{Volume}, 0.120, "120 L"},
		{"120l", []Kind{Volume}, 0.120, "120 L"},
		{"1 200 mL", []Kind{Volume}, 0.0012, "1200 mL"},
		{"32 gal", []Kind{Volume}, 0.121133177088, "32 US gal"},
		{"32 imp gal", []Kind{Volume}, 0.14547488, "32 imp gal"},
		{"6 fl. oz.", []Kind{Volume}, 6 * 2.95735295625e-5, "6 US fl oz"},
		{"0.5 m3", []Kind{Volume}, 0.5, "0.5 m³"},
		{"0.5 m^3", []Kind{Volume}, 0.5, "0.5 m³"},
		{"6 kW", []Kind{Power}, 6000, "6 kW"},
		{"6KW", []Kind{Power}, 6000, "6 kW"},
		{"20 min", []Kind{Time}, 1200, "20 min"},
		{"1 h 20 min", []Kind{Time}, 4800, "1.333333333 h"},
		{"1h20min30s", []Kind{Time}, 4830, "1.341666667 h"},
		{"2 ft 3 in", []Kind{Length}, 0.6858, "2.25 ft"},
		{"5 lb 3 oz", []Kind{Mass}, 5.1875 * 0.45359237, "5.1875 lb"},
		{"25 mm", []Kind{Length}, 0.025, "25 mm"},
		{"40 kHz", []Kind{Frequency}, 40e3, "40 kHz"},
		{"40khz", []Kind{Frequency}, 40e3, "40 kHz"},
		{"640 μS/cm", []Kind{Conductivity}, 0.064, "640 µS/cm"},
		{"640 uS/cm", []Kind{Conductivity}, 0.064, "640 µS/cm"},
		{"640 µS / cm", []Kind{Conductivity}, 0.064, "640 µS/cm"},
		{"9.5", []Kind{PH}, 9.5, "9.5"},
		{"pH 9.5", []Kind{PH}, 9.5, "9.5"},
		{"3 % v/v", strengths, 0.03, "3 % v/v"},
		{"3%v/v", strengths, 0.03, "3 % v/v"},
		{"3 %", []Kind{VolumeFraction}, 0.03, "3 % v/v"},
		{"1:40", strengths, 1. / 41, "1:40"},
		{"1 : 40", strengths, 1. / 41, "1:40"},
		{"2:80", strengths, 1. / 41, "1:40"},
		{"1+40", strengths, 1. / 41, "1:40"},
		{"1 + 40", strengths, 1. / 41, "1:40"},
		{"6 fl oz/US gal", strengths, 6. / 128, "6 fl oz/US gal"},
		{"6 fl oz/gal", strengths, 6. / 128, "6 fl oz/gal"},
		{"6 fl oz/imp gal", strengths, 6. / 160, "6 imp fl oz/imp gal"},
		{"8 oz wt/gal", strengths, 8 * 0.45359237 / 16 / 3.785411784e-3, "8 wt oz/US gal"},
		{"5 % w/w", strengths, 0.05, "5 % w/w"},
		{"4 % w/v", strengths, 40, "4 % w/v"},
		{"40 g/L", strengths, 40, "40 g/L"},
		{"5.3 wt oz/gal", strengths, 39.69250405, "5.3 wt oz/US gal"},
		{"50 %", []Kind{Fraction}, 0.5, "50 %"},
		{"50 %", []Kind{MassConcentration, Fraction}, 0.5, "50 %"},
		{"5 % w/v", []Kind{MassConcentration, Fraction}, 50, "5 % w/v"},
		{"260 mg/L", []Kind{Hardness}, 0.26, "260 mg/L"},
		{"260 ppm", []Kind{Hardness}, 0.26, "260 mg/L"},
		{"16 mL/m²", []Kind{Film}, 16e-6, "16 mL/m²"},
		{"0.4 gal/1000 ft2", []Kind{Film}, 16.3e-6, "0.4 US gal/1000 ft²"},
		{"0.1 N", []Kind{Normality}, 100, "0.1 N"},
		{"0.28 EUR/kWh", []Kind{EnergyPrice}, 0.28 / 3.6e6, "0.28 EUR/kWh"},
		{"0.28", []Kind{EnergyPrice}, 0.28 / 3.6e6, "0.28/kWh"},
		{"1e3 L", []Kind{Volume}, 1, "1000 L"},
		{".5 L", []Kind{Volume}, 0.0005, "0.5 L"},
		{"+5", nil, 5, "5"},
		{"\t120\u202fL\n", []Kind{Volume}, 0.12, "120 L"},
	} {
		v, err := Parse(c.text, c.kinds...)
		if err != nil {
			t.Errorf("%q: %v", c.text, err)
			continue
		}
		tolerance := 1e-9
		if c.kinds != nil && c.kinds[0] == Film {
			tolerance = 1e-3 // the table rounds 40.746 mL/m² per gal/1000 ft²
		}
		if !near(v.SI, c.si, tolerance) {
			t.Errorf("%q = %v, want %v", c.text, v.SI, c.si)
		}
		if got := strings.ReplaceAll(v.String(), nbsp, " "); got != c.shown {
			t.Errorf("%q is written %q, want %q", c.text, got, c.shown)
		}
	}
}

func TestParseRefuses(t *testing.T) {
	for _, c := range []struct {
		text   string
		kinds  []Kind
		offset int
		says   string
	}{
		{"", []Kind{Volume}, 0, "nothing is given"},
		{"   ", []Kind{Volume}, 0, "nothing is given"},
		{"1,5 L", []Kind{Volume}, 1, "comma"},
		{"1,500 L", []Kind{Volume}, 1, "comma"},
		{"120", []Kind{Volume}, 3, "the unit is missing; write a volume, for example 120 L or 32 US gal"},
		{"120 h", []Kind{Volume}, 4, "“h” is a unit of time"},
		{"8 oz", []Kind{Volume}, 2, "“oz” is a unit of mass"},
		{"120 glas", []Kind{Volume}, 4, "“glas” is not a unit"},
		{"120 L of water", []Kind{Volume}, 6, "“of” is left over"},
		{"warm", []Kind{Temperature}, 0, "a number should stand where “warm” stands"},
		{"-300 °C", []Kind{Temperature}, 0, "below absolute zero"},
		{"3 %", []Kind{VolumeFraction, MassFraction}, 2, "per cent of what"},
		{"1:40", []Kind{Volume}, 0, "a ratio does not fit here"},
		{"0:40", []Kind{VolumeFraction}, 0, "one part of concentrate first"},
		{"NaN L", []Kind{Volume}, 0, "a number should stand"},
		{"Inf L", []Kind{Volume}, 0, "a number should stand"},
		{"1e999 L", []Kind{Volume}, 0, "too large"},
		{"1e13 L", []Kind{Volume}, 0, "too large"},
		{"60 °C to", []Kind{Temperature}, 7, "left over"},
		{"°C", []Kind{Temperature}, 0, "a number should stand"},
		{"60 °C", []Kind{Volume, Mass}, 3, "write a volume or a mass, for example 120 L or 32 US gal or 8 kg or 18 lb"},
		{"\xff\xfe", []Kind{Volume}, 0, "not readable text"},
		{strings.Repeat("9", 200), []Kind{Volume}, 0, "too long"},
	} {
		v, err := Parse(c.text, c.kinds...)
		e, ok := err.(*Error)
		if !ok {
			t.Errorf("%q was read as %v, want an error", c.text, v)
			continue
		}
		if e.Offset != c.offset {
			t.Errorf("%q: offset %d, want %d", c.text, e.Offset, c.offset)
		}
		if !strings.Contains(e.Error(), c.says) {
			t.Errorf("%q: %q does not say %q", c.text, e, c.says)
		}
	}
}

func TestParseRange(t *testing.T) {
	inf := math.Inf(1)
	for _, c := range []struct {
		text      string
		kind      Kind
		low, high float64
		shown     string
	}{
		{"50–65 °C", Temperature, 50, 65, "50–65 °C"},
		{"50-65°C", Temperature, 50, 65, "50–65 °C"},
		{"50 - 65 °C", Temperature, 50, 65, "50–65 °C"},
		{"50 °C – 65 °C", Temperature, 50, 65, "50–65 °C"},
		{"50 to 65 °C", Temperature, 50, 65, "50–65 °C"},
		{"50…65 °C", Temperature, 50, 65, "50–65 °C"},
		{"120–150 °F", Temperature, 48.88888888888889, 65.55555555555556, "120–150 °F"},
		{"-10–5 °C", Temperature, -10, 5, "−10–5 °C"},
		{"-10--5 °C", Temperature, -10, -5, "−10–−5 °C"},
		{"≤ 60 °C", Temperature, -inf, 60, "≤ 60 °C"},
		{"<= 60 °C", Temperature, -inf, 60, "≤ 60 °C"},
		{">= 40 kHz", Frequency, 40e3, inf, "≥ 40 kHz"},
		{"at least 40 kHz", Frequency, 40e3, inf, "≥ 40 kHz"},
		{"up to 8 min", Time, -inf, 480, "≤ 8 min"},
		{"Up to 8 min", Time, -inf, 480, "≤ 8 min"},
		{"3–10 min", Time, 180, 600, "3–10 min"},
		{"30 s – 2 min", Time, 30, 120, "0.5–2 min"},
		{"1 h 20 min to 2 h", Time, 4800, 7200, "1.333333333–2 h"},
		{"40 kHz", Frequency, 40e3, 40e3, "40 kHz"},
		{"25–80 kHz", Frequency, 25e3, 80e3, "25–80 kHz"},
		{"9.5–10.5", PH, 9.5, 10.5, "9.5–10.5"},
		{"2–5 % v/v", VolumeFraction, 0.02, 0.05, "2–5 % v/v"},
		{"1:20–1:40", VolumeFraction, 1. / 41, 1. / 21, "1:40–1:20"},
		{"1:20–40", VolumeFraction, 1. / 41, 1. / 21, "1:40–1:20"},
		{"30–90 g/L", MassConcentration, 30, 90, "30–90 g/L"},
		{"3–8 % w/v", MassConcentration, 30, 80, "3–8 % w/v"},
	} {
		r, err := ParseRange(c.text, c.kind)
		if err != nil {
			t.Errorf("%q: %v", c.text, err)
			continue
		}
		same := func(got, want float64) bool { return got == want || math.Abs(got-want) <= 1e-9*(1+math.Abs(want)) }
		if !same(r.Low, c.low) || !same(r.High, c.high) {
			t.Errorf("%q = %v to %v, want %v to %v", c.text, r.Low, r.High, c.low, c.high)
		}
		if got := strings.ReplaceAll(r.String(), nbsp, " "); got != c.shown {
			t.Errorf("%q is written %q, want %q", c.text, got, c.shown)
		}
		again, err := ParseRange(r.String(), c.kind)
		if err != nil || !same(again.Low, r.Low) && !near(again.Low, r.Low, 1e-9) || !same(again.High, r.High) {
			t.Errorf("%q written as %q reads as %v, %v", c.text, r, again, err)
		}
	}
	for _, c := range []struct{ text, says string }{
		{"65–50 °C", "backwards"},
		{"50–65", "the unit is missing"},
		{"50 °C – 2 h", "“h” is a unit of time"},
		{"≤ 60", "the unit is missing"},
		{"≤", "a number is missing"},
		{"50–", "a number is missing"},
		{"50–60–70 °C", "left over"},
	} {
		if r, err := ParseRange(c.text, Temperature); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%q: %v, %v; want an error that says %q", c.text, r, err, c.says)
		}
	}
}

func TestRangeSets(t *testing.T) {
	read := func(s string) Range {
		r, err := ParseRange(s, Temperature)
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	window, tank := read("50–65 °C"), read("60 °C")
	if !window.Contains(65) || !window.Contains(50) || window.Contains(65.1) || window.Contains(49.9) {
		t.Error("the ends of a range belong to it, and nothing beyond")
	}
	if !tank.Within(window) || window.Within(tank) || !read("≤ 60 °C").Within(read("≤ 60 °C")) {
		t.Error("within")
	}
	if common, ok := window.Intersect(read("≤ 60 °C")); !ok || common.Low != 50 || common.High != 60 {
		t.Errorf("50–65 and ≤ 60 have %v in common, %v", common, ok)
	}
	if _, ok := window.Intersect(read("70–80 °C")); ok {
		t.Error("50–65 and 70–80 have nothing in common")
	}
}

func TestIn(t *testing.T) {
	for _, c := range []struct {
		text   string
		kind   Kind
		system System
		want   string
	}{
		{"60 °C", Temperature, US, "140 °F"},
		{"62.5 °C", Temperature, SI, "62.5 °C"},
		{"62 °C", Temperature, US, "144 °F"},
		{"140 °F", Temperature, SI, "60 °C"},
		{"120 L", Volume, US, "31.7 US gal"},
		{"32 gal", Volume, SI, "121.1 L"},
		{"0.5 gal", Volume, SI, "1.89 L"},
		{"50 mL", Volume, US, "1.69 US fl oz"},
		{"8 kg", Mass, US, "17.6 lb"},
		{"600 mm", Length, US, "23.6 in"},
		{"6 kW", Power, US, "6 kW"},
		{"10 W/L", PowerDensity, US, "37.9 W/US gal"},
		{"4 L/min", Flow, US, "1.06 US gal/min"},
		{"20 min", Time, US, "20 min"},
	} {
		v, err := Parse(c.text, c.kind)
		if err != nil {
			t.Fatal(err)
		}
		if got := strings.ReplaceAll(v.In(c.system), nbsp, " "); got != c.want {
			t.Errorf("%s in %v is %q, want %q", c.text, c.system, got, c.want)
		}
	}
	r, _ := ParseRange("50–65 °C", Temperature)
	if got := r.In(US); got != "122–149\u00a0°F" {
		t.Errorf("50–65 °C is %q", got)
	}
	if got := Show(6488, Time, SI); got != "108\u00a0min" {
		t.Errorf("6488 s is %q", got)
	}
	if got := Show(9000, Time, US); got != "2\u00a0h\u00a030\u00a0min" {
		t.Errorf("9000 s is %q", got)
	}
}

// TestEveryUnit: each unit of each kind reads back what it writes, in every
// spelling, and every kind has a unit in both systems.
func TestEveryUnit(t *testing.T) {
	for kind := Kind(0); kind < kinds; kind++ {
		offered := UnitsOf(kind)
		for _, system := range []System{SI, US} {
			found := false
			for _, u := range offered {
				found = found || u.Suits(system)
			}
			if !found {
				t.Errorf("%v has no unit in %v", kind, system)
			}
			if p := Preferred(1, kind, system); p.Kind != kind {
				t.Errorf("%v has no preferred unit in %v", kind, system)
			}
		}
		for _, example := range strings.Split(kind.Example(), " or ") {
			if _, err := Parse(example, kind); err != nil {
				t.Errorf("%v: its own example: %v", kind, err)
			}
		}
	}
	for i := range units {
		u := unitAt(i)
		for _, spelling := range append(strings.Split(units[i].other, "|"), u.Symbol) {
			if u.Symbol == ratio || spelling == "" || spelling == "pH" {
				continue
			}
			got, ok := UnitNamed(spelling, u.Kind)
			if !ok || got.ToSI(7) != u.ToSI(7) {
				t.Errorf("%q of %v is read as %q", spelling, u.Kind, got.Symbol)
			}
			if v, err := Parse("7"+spelling, u.Kind); err != nil || !near(v.SI, u.ToSI(7), 1e-12) {
				t.Errorf("7%s: %v %v", spelling, v, err)
			}
		}
		for _, number := range []float64{0, 0.125, 1, 40, 1234.5} {
			si := u.ToSI(number)
			if back := u.FromSI(si); math.Abs(back-number) > 1e-9*(1+number) {
				t.Errorf("%g %s → %g → %g", number, u.Symbol, si, back)
			}
			written := Format(si, u)
			v, err := Parse(written, u.Kind)
			if err != nil || math.Abs(v.SI-si) > 1e-9*math.Abs(si)+1e-9*math.Abs(units[i].offset) {
				t.Errorf("%q reads as %v (%v), want %v", written, v.SI, err, si)
			}
		}
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"60 °C", "1:40", "50–65 °C", "≤ 60 °C", "1 h 20 min", "3 % v/v", "1,5 L", "-10--5 °C", "0C-1C", "℃", ":", "1:", "5 e", "1e5", "\xff", "up to 8 min", "9 999 999 L"} {
		f.Add(s)
	}
	all := everyKind()
	f.Fuzz(func(t *testing.T, s string) {
		for k := range all {
			kind := all[k]
			if v, err := Parse(s, kind); err == nil {
				if math.IsNaN(v.SI) || math.IsInf(v.SI, 0) {
					t.Fatalf("%q gives %v", s, v.SI)
				}
				again, err := Parse(v.String(), kind)
				if err != nil || math.Abs(again.SI-v.SI) > 1e-8*math.Abs(v.SI)+1e-8*math.Abs(v.Unit.row().offset)+1e-300 {
					t.Fatalf("%q is written %q and reads %v, %v; was %v", s, v.String(), again.SI, err, v.SI)
				}
			} else if e := err.(*Error); e.Offset < 0 || e.Offset > len(s) || e.Problem(nil) == "" || e.Accepted(nil) == "" {
				t.Fatalf("%q: %+v", s, e)
			}
		}
		if r, err := ParseRange(s, all...); err == nil {
			if math.IsNaN(r.Low) || math.IsNaN(r.High) || r.Low > r.High {
				t.Fatalf("%q gives %v to %v", s, r.Low, r.High)
			}
			if _, err := ParseRange(r.String(), all...); err != nil {
				t.Fatalf("%q is written %q: %v", s, r.String(), err)
			}
		}
	})
}

func BenchmarkParse(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Parse("1 h 20 min", Time); err != nil {
			b.Fatal(err)
		}
	}
}
