package calculators

import (
	"math"
	"slices"
	"strings"
	"testing"

	"tankside/builder/quantity"
)

// promised are the names that articles and the command line use.
var promised = map[string]struct{ inputs, readings string }{
	"dilution":  {"volume strength density", "concentrate-volume concentrate-mass water-volume ratio"},
	"top-up":    {"volume below-mark strength-now strength volume-wanted tank-capacity density", "concentrate-volume water-volume drain-volume"},
	"titration": {"sample titrant-used titrant-normality factor", "alkalinity strength"},
	"heat-up": {"volume length width depth start target heater ultrasonic-power lid insulation air humidity draught vessel-mass load-mass load-material",
		"time energy highest-temperature loss-at-target evaporation"},
	"holding":   {"volume length width depth target heater ultrasonic-power lid insulation air humidity draught hours price", "power energy water-lost cost"},
	"degas":     {"volume temperature ultrasonic-power frequency depth altitude start-saturation target", "time dissolved-oxygen-start dissolved-oxygen-end"},
	"power":     {"volume rise time electrical-power", "acoustic-power density efficiency"},
	"load":      {"load-mass load-material volume bath-temperature part-temperature", "temperature-drop recovery-time load-ratio"},
	"rinse":     {"drag-out flow stages bath-strength limit", "rinse-ratio last-stage flow-needed water-per-day"},
	"spotting":  {"dissolved-solids hardness film-thickness", "residue verdict"},
	"hardness":  {"hardness", "class"},
	"scale":     {"temperature ph calcium alkalinity dissolved-solids", "saturation-index verdict"},
	"sound":     {"frequency temperature depth", "speed wavelength antinode-spacing resonant-radius"},
	"drying":    {"carry-off area air humidity flow", "time heat"},
	"particles": {"parts basis area part-volume b c d e f g h i j k blank-b blank-c blank-d blank-e blank-f blank-g blank-h blank-i blank-j blank-k", "code certain-code level class-b class-k"},
	"bath-life": {"volume soil-load loads limit soil-now skimmed drag-out hours let-out", "days loads-left steady-level soil-in"},
	"residue":   {"gained blank parts area balance repeatability limit level-allowed", "residue areal-residue level detection-limit"},
}

func TestPromisedNames(t *testing.T) {
	for _, c := range All() {
		if promised[c.Name].inputs == "" {
			t.Errorf("nothing is promised of %s: put the inputs and readings that articles may name into promised", c.Name)
		}
	}
	for name, want := range promised {
		c, ok := Named(name)
		if !ok {
			t.Errorf("no calculator %s", name)
			continue
		}
		for _, in := range strings.Fields(want.inputs) {
			if _, ok := c.Input(in); !ok {
				t.Errorf("%s has no input %s", name, in)
			}
		}
		for _, r := range strings.Fields(want.readings) {
			if !slices.ContainsFunc(c.Readings, func(d Declared) bool { return d.Name == r }) {
				t.Errorf("%s has no reading %s", name, r)
			}
		}
	}
}

// TestDeclarations: what a form, a help text and an error are made of is whole.
func TestDeclarations(t *testing.T) {
	for _, c := range All() {
		if c.Title == "" || c.Summary == "" || len(c.Limits) == 0 || len(c.Sources) == 0 || c.run == nil {
			t.Errorf("%s lacks a title, summary, limits, sources or its sum", c.Name)
		}
		seen := map[string]bool{}
		for _, in := range c.Inputs {
			where := c.Name + " " + in.Name
			if seen[in.Name] {
				t.Errorf("%s stands twice", where)
			}
			seen[in.Name] = true
			if in.Label == "" || len(in.Measures) == 0 == (len(in.Choices) == 0) {
				t.Errorf("%s has no label, or neither measures nor choices", where)
			}
			if in.Required && in.Default != "" {
				t.Errorf("%s is required and has a default", where)
			}
			for _, set := range in.Or {
				for _, name := range set {
					if _, ok := c.Input(name); !ok {
						t.Errorf("%s may be replaced by %s, which does not exist", where, name)
					}
				}
			}
			for _, m := range in.Measures {
				if !(m.Low < m.High) || math.IsInf(m.Low, 0) || math.IsInf(m.High, 0) {
					t.Errorf("%s accepts %g to %g", where, m.Low, m.High)
				}
				for system, symbol := range map[quantity.System]string{quantity.SI: m.Metric, quantity.US: m.Customary} {
					u, ok := quantity.UnitNamed(symbol, m.Kind)
					if !ok || m.Unit(system) != u {
						t.Errorf("%s is asked for in %q, which is no unit of %v", where, symbol, m.Kind)
					}
					if !slices.Contains(quantity.UnitsOf(m.Kind), u) {
						t.Errorf("%s is asked for in %q, which is not offered", where, symbol)
					}
				}
			}
			if in.Default == "" {
				continue
			}
			for _, system := range []quantity.System{quantity.SI, quantity.US} {
				for _, text := range []string{in.Default, in.DefaultIn(system)} {
					s := sum{calculator: c, answer: Answer{System: system}}
					if _, problem := s.readOne(in, text); problem != "" {
						t.Errorf("%s: its default: %s", where, problem)
					}
				}
			}
		}
	}
}

// faults lists what is wrong with the example of a calculator: an input that it
// has not, one that is given twice or as it is anyway, no answer in one of the
// two systems, or one that is another when the example is written in the other.
func faults(c *Calculator) []string {
	var list []string
	wrong := func(what string) { list = append(list, c.Name+" "+what) }
	if len(c.Example) == 0 {
		return []string{c.Name + " has no example"}
	}
	if len(c.ExampleInputs()) != len(c.Example) {
		wrong("gives an input twice in its example")
	}
	for _, e := range c.Example {
		if in, ok := c.Input(e.Name); !ok {
			wrong("has no input " + e.Name + ", which its example gives")
		} else if e.Text == in.Default {
			wrong("gives " + e.Name + " as it is without being given")
		}
	}
	if len(list) > 0 {
		return list
	}
	first, err := c.Run(c.ExampleInputs(), quantity.SI)
	if err != nil {
		return []string{c.Name + " does not answer to its example: " + err.Error()}
	}
	values := map[string]string{}
	for _, e := range c.ExampleIn(quantity.US) {
		values[e.Name] = e.Text
	}
	second, err := c.Run(values, quantity.US)
	if err != nil {
		return []string{c.Name + " does not answer to its example in US customary units: " + err.Error()}
	}
	for i, r := range first.Readings {
		u := second.Readings[i]
		if near := math.Abs(u.SI-r.SI) <= 0.02*math.Abs(r.SI); u.Name != r.Name || r.InWords() != u.InWords() || !r.InWords() && !near {
			wrong("answers otherwise to its example in US customary units: " + r.Name + " " + r.String() + ", " + u.String())
		}
	}
	return list
}

func TestEveryCalculatorHasAnExample(t *testing.T) {
	for _, c := range All() {
		for _, what := range faults(c) {
			t.Error(what)
		}
	}
}

// TestFaultsOfExamplesAreNamed: the check of the examples names the calculator
// and what is wrong.
func TestFaultsOfExamplesAreNamed(t *testing.T) {
	for _, tc := range []struct {
		example []Written
		want    string
	}{
		{nil, "hardness has no example"},
		{[]Written{{"hardness", "260 mg/L"}, {"softness", "1"}}, "hardness has no input softness, which its example gives"},
		{[]Written{{"hardness", "260 mg/L"}, {"hardness", "2 mg/L"}}, "hardness gives an input twice in its example"},
		{[]Written{{"hardness", "260 km"}}, "hardness does not answer to its example: "},
	} {
		c := hardness
		c.Example = tc.example
		if got := strings.Join(faults(&c), "; "); !strings.HasPrefix(got, tc.want) {
			t.Errorf("%v: %q, want %q", tc.example, got, tc.want)
		}
	}
}

// TestExplain: the help names every input, reading, range and default.
func TestExplain(t *testing.T) {
	for _, c := range All() {
		for _, system := range []quantity.System{quantity.SI, quantity.US} {
			text := c.Explain(system)
			for _, in := range c.Inputs {
				if !strings.Contains(text, "  "+in.Name+" ") || !strings.Contains(text, in.Accepted(system, nil)) || !strings.Contains(text, in.DefaultIn(system)) {
					t.Errorf("the help of %s in %v does not explain %s", c.Name, system, in.Name)
				}
			}
			for _, e := range c.ExampleIn(system) {
				if !strings.Contains(text, " "+e.Name+`="`+e.Text+`"`) {
					t.Errorf("the help of %s in %v has no %s in its example", c.Name, system, e.Name)
				}
			}
			for _, d := range c.Readings {
				if !strings.Contains(text, d.Name+" ") {
					t.Errorf("the help of %s does not name %s", c.Name, d.Name)
				}
			}
		}
	}
	text := heatUp.Explain(quantity.US)
	for _, want := range []string{"default 68\u00a0°F", "needed, or length, width and depth instead", "accepted: 34\u00a0°F to 210\u00a0°F", "default no"} {
		if !strings.Contains(text, want) {
			t.Errorf("the help of heat-up in US customary units lacks %q:\n%s", want, text)
		}
	}
}
