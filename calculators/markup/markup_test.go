package markup

import (
	"encoding/xml"
	"errors"
	"io"
	"slices"
	"strings"
	"testing"

	"tankside/builder/inboth"
	"tankside/builder/quantity"
	"tankside/calculators"
)

// filled are the inputs of the calculator's example.
func filled(name string) map[string]string {
	c, ok := calculators.Named(name)
	if !ok {
		return nil
	}
	return c.ExampleInputs()
}

// element is a start tag as met in the HTML.
type element struct {
	name  string
	attrs map[string]string
}

// parse reads HTML with a lenient XML reader, which still finds tags that do
// not match, bare ampersands and attributes that stand twice.
func parse(t *testing.T, html string) (elements []element, text string) {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(html))
	d.Strict, d.AutoClose, d.Entity = false, xml.HTMLAutoClose, xml.HTMLEntity
	var open []string
	for {
		token, err := d.RawToken()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatalf("%v in %s", err, html)
		}
		switch token := token.(type) {
		case xml.StartElement:
			e := element{token.Name.Local, map[string]string{}}
			for _, a := range token.Attr {
				if _, twice := e.attrs[a.Name.Local]; twice {
					t.Errorf("<%s> has %s twice", e.name, a.Name.Local)
				}
				e.attrs[a.Name.Local] = a.Value
			}
			elements = append(elements, e)
			if e.name != "input" {
				open = append(open, e.name)
			}
		case xml.EndElement:
			if len(open) == 0 || open[len(open)-1] != token.Name.Local {
				t.Fatalf("</%s> closes %v in\n%s", token.Name.Local, open, html)
			}
			open = open[:len(open)-1]
		case xml.CharData:
			text += string(token)
		}
	}
	if len(open) > 0 {
		t.Fatalf("left open: %v", open)
	}
	return elements, text
}

// check holds for all that the package writes.
func check(t *testing.T, elements []element) {
	t.Helper()
	ids := map[string]bool{}
	for _, e := range elements {
		for name := range e.attrs {
			if name == "style" || strings.HasPrefix(name, "on") {
				t.Errorf("<%s> has %s, which a strict policy forbids", e.name, name)
			}
		}
		if id, ok := e.attrs["id"]; ok {
			if ids[id] {
				t.Errorf("id %q stands twice", id)
			}
			ids[id] = true
		}
	}
	for _, e := range elements {
		for _, name := range []string{"for", "aria-describedby", "aria-labelledby"} {
			for _, id := range strings.Fields(e.attrs[name]) {
				if !ids[id] {
					t.Errorf("%s of <%s> names %q, which is not there", name, e.name, id)
				}
			}
		}
		if e.name == "svg" && (e.attrs["role"] != "img" || e.attrs["aria-label"] == "" || e.attrs["viewBox"] == "") {
			t.Errorf("a drawing without role, name or view box: %v", e.attrs)
		}
		if e.name == "script" || e.name == "style" || e.name == "a" {
			t.Errorf("there is a <%s>", e.name)
		}
	}
}

func TestSum(t *testing.T) {
	for _, c := range calculators.All() {
		for _, system := range []quantity.System{quantity.SI, quantity.US} {
			html, err := block(c.Name, filled(c.Name), system)
			if err != nil {
				t.Errorf("%s: %v", c.Name, err)
				continue
			}
			elements, text := parse(t, html)
			check(t, elements)
			labelled := map[string]bool{}
			fields := map[string]element{}
			for _, e := range elements {
				switch {
				case e.name == "label":
					labelled[e.attrs["for"]] = true
				case (e.name == "input" || e.name == "select") && e.attrs["id"] != "":
					fields[e.attrs["name"]] = e
				case e.name == "select" && e.attrs["aria-label"] == "":
					t.Errorf("%s: a choice of units without a name", c.Name)
				}
			}
			a, _ := c.Run(filled(c.Name), system)
			for _, in := range c.Inputs {
				f, ok := fields[in.Name]
				if !ok || !labelled[f.attrs["id"]] || f.attrs["aria-describedby"] == "" {
					t.Errorf("%s: no labelled and described field for %s", c.Name, in.Name)
				}
				if !strings.Contains(text, in.Label) {
					t.Errorf("%s does not name %s", c.Name, in.Label)
				}
			}
			for _, r := range a.Readings {
				if !strings.Contains(text, r.Label) || !strings.Contains(text, r.String()) {
					t.Errorf("%s does not show %s %s", c.Name, r.Label, r)
				}
			}
			for _, lines := range [][]string{a.Working, c.Sources, c.Limits} {
				for _, l := range lines {
					if !strings.Contains(text, l) {
						t.Errorf("%s does not show %q", c.Name, l)
					}
				}
			}
			for _, caution := range a.Cautions {
				if !strings.Contains(html, `<p class="signal">`+caution.Signal.String()+"</p>") || !strings.Contains(text, caution.Text) {
					t.Errorf("%s does not show %v", c.Name, caution)
				}
			}
			again, _ := block(c.Name, filled(c.Name), system)
			if again != html {
				t.Errorf("%s is written in two ways", c.Name)
			}
		}
	}
}

// TestFields: the shop's own units stand first, amounts as they were given, and
// a default in the shop's units.
func TestFields(t *testing.T) {
	html, err := block("heat-up", map[string]string{"volume": "32 US gal", "start": "12 °C", "target": "140 °F", "heater": "8 hp"}, quantity.US)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		`name="volume" aria-describedby="sum-heat-up-volume-help sum-heat-up-volume-error"><select name="volume unit" aria-label="Unit of “Volume of the bath”" data-si="L" data-us="US gal"`,
		`value="32" id="sum-heat-up-volume"`, `<option value="US gal" selected>US gal</option><option value="mL">`,
		`value="12" id="sum-heat-up-start"`, `<option value="°F">°F</option><option value="°C" selected>°C</option>`,
		`value="140" id="sum-heat-up-target"`, `<option value="hp" selected>hp</option><option value="W">W</option>`,
		`value="68" id="sum-heat-up-air"`, `data-default="68 °F"`, `data-default="none"`, `<option value="no" selected>no</option>`,
	} {
		if !strings.Contains(html, want) {
			t.Errorf("the form lacks %s", want)
		}
	}
	html, err = SumIn(nil, "two", "dilution", map[string]string{"volume": "10 L", "strength": "1:40"}, quantity.SI)
	if err != nil || !strings.Contains(html, `id="two" data-sum="dilution" data-system="SI"`) || !strings.Contains(html, `value="40" id="two-strength"`) || !strings.Contains(html, `<option value="1:N" selected>`) {
		t.Errorf("%v\n%s", err, html)
	}
}

// TestWrongInputs: what is missing leaves the answer open, what is wrong is an
// error.
func TestWrongInputs(t *testing.T) {
	html, err := block("titration", map[string]string{"strength": "4 % v/v"}, quantity.SI)
	if err != nil || !strings.Contains(html, "For an answer, fill in: sample of the bath, titrant used, strength of the titrant, factor.") {
		t.Errorf("%v\n%s", err, html)
	}
	check(t, first(parse(t, html)))
	var wrong calculators.Errors
	if html, err := block("dilution", map[string]string{"volume": "10", "strength": "4 % v/v"}, quantity.SI); html != "" || !errors.As(err, &wrong) || wrong[0].Input != "volume" {
		t.Errorf("%q, %v", html, err)
	}
	var unknown calculators.Unknown
	if html, err := block("fortune", nil, quantity.SI); html != "" || !errors.As(err, &unknown) {
		t.Errorf("%q, %v", html, err)
	}
}

func first(elements []element, _ string) []element { return elements }

// TestEscape: text from people never becomes markup.
func TestEscape(t *testing.T) {
	const evil = `"><script>alert('x')</script>&amp;` + "\x00"
	var w writer
	w.Put(`<p title="{}">{}</p>`, evil, evil)
	elements, text := parse(t, strings.ReplaceAll(w.String(), "\uFFFD", ""))
	if len(elements) != 1 || elements[0].attrs["title"] != strings.TrimSuffix(evil, "\x00") || text != strings.TrimSuffix(evil, "\x00") {
		t.Errorf("%v %q", elements, text)
	}
	html, err := SumIn(nil, evil[:20], "hardness", map[string]string{"hardness": "1 °dH"}, quantity.SI)
	if err != nil || strings.Contains(html, "<script") {
		t.Errorf("%v %s", err, html)
	}
	reply := Reply(nil, strings.Join([]string{"dilution", "SI", "volume", evil, "strength", "4 % v/v"}, Separator))
	if fields := strings.Split(reply, Separator); len(fields) != 5 || fields[3] != "volume" || strings.Contains(fields[0], "script") {
		t.Errorf("%q", fields)
	}
}

func TestReply(t *testing.T) {
	for _, c := range calculators.All() {
		for _, system := range []quantity.System{quantity.SI, quantity.US} {
			request := []string{c.Name, system.String()}
			for _, in := range c.Inputs {
				if text := filled(c.Name)[in.Name]; text != "" {
					request = append(request, in.Name, text)
				}
			}
			fields := strings.Split(Reply(nil, strings.Join(request, Separator)), Separator)
			whole, err := block(c.Name, filled(c.Name), system)
			if err != nil || len(fields) != 3 || fields[1] == "" || fields[2] == "" || !strings.Contains(string(inboth.HTML([]byte(whole))), `<div class="sum-answer">`+"\n"+fields[0]+"</div>") {
				t.Errorf("%s: the page's answer is not the published one", c.Name)
			}
			a, _ := c.Run(filled(c.Name), system)
			for _, r := range a.Readings {
				if !strings.Contains(fields[2], inboth.Text(r.Label+": "+r.String(), system)) {
					t.Errorf("%s: the text lacks %s:\n%s", c.Name, r.Label, fields[2])
				}
			}
		}
	}
	wrong := strings.Split(Reply(nil, strings.Join([]string{"dilution", "SI", "volume", "10"}, Separator)), Separator)
	if !slices.Contains(wrong, "volume") || !slices.Contains(wrong, "strength") || wrong[1] != "" || !strings.Contains(wrong[0], "something is wrong with an input") {
		t.Errorf("%q", wrong)
	}
	for _, request := range []string{"", "dilution", "nothing" + Separator + "SI", "dilution" + Separator + "SI" + Separator + "volume"} {
		if fields := strings.Split(Reply(nil, request), Separator); len(fields) != 5 || fields[0] != "" {
			t.Errorf("%q: %q", request, fields)
		}
	}
}

func TestConvert(t *testing.T) {
	for _, c := range []struct{ calculator, input, amount, unit, want string }{
		{"dilution", "volume", "120 L", "US gal", "31.7"},
		{"dilution", "volume", "32 gal", "L", "121.1"},
		{"dilution", "strength", "4 % v/v", "1:N", "24"},
		{"dilution", "strength", "1:24", "% v/v", "4"},
		{"dilution", "strength", "4 % v/v", "g/L", ""}, // another sort of quantity
		{"heat-up", "start", "-5 °C", "°F", "23"},
		{"heat-up", "start", "14 °F", "°C", "-10"},
		{"heat-up", "start", "warm", "°C", ""},
		{"heat-up", "insulation", "none", "in", ""},
		{"degas", "target", "4 mg/L", "g/L", "0.004"},
		{"holding", "hours", "1 h 30 min", "min", "90"},
		{"fortune", "start", "1 °C", "°C", ""},
		{"heat-up", "fortune", "1 °C", "°C", ""},
	} {
		if got := Convert(strings.Join([]string{c.calculator, c.input, c.amount, c.unit}, Separator)); got != c.want {
			t.Errorf("%s of %s, %s in %s: %q, want %q", c.input, c.calculator, c.amount, c.unit, got, c.want)
		}
	}
	if got := Convert("x"); got != "" {
		t.Errorf("%q", got)
	}
}

// TestCurve: axes with units and ticks, the band, the levels; every coordinate
// inside the drawing.
func TestCurve(t *testing.T) {
	for _, name := range []string{"heat-up", "degas"} {
		html, err := block(name, filled(name), quantity.SI)
		if err != nil {
			t.Fatal(err)
		}
		elements, text := parse(t, html)
		classes := map[string]int{}
		for _, e := range elements {
			classes[e.attrs["class"]]++
			if e.name == "text" && e.attrs["x"] != "" {
				within(t, e.attrs["x"], wide)
				within(t, e.attrs["y"], tall)
			}
		}
		for class, least := range map[string]int{"curve-line": 1, "curve-level": 1, "curve-axis": 1, "curve-grid": 4, "curve-tick": 3} {
			if classes[class] < least {
				t.Errorf("%s: %d of %s", name, classes[class], class)
			}
		}
		// Where the ends of what is likely lie so near that nobody would see a band, there is none, and none is spoken of.
		if banded := classes["curve-band"] == 1; banded != (name == "degas") || banded != strings.Contains(text, "the shaded band") {
			t.Errorf("%s: %d bands, and the words under it are %q", name, classes["curve-band"], text)
		}
		if !strings.Contains(text, "Time in min") || strings.Contains(html, "NaN") || strings.Contains(html, "Inf") {
			t.Errorf("%s: no axis of time, or no number", name)
		}
	}
}

func within(t *testing.T, coordinate string, most float64) {
	t.Helper()
	v, err := quantity.Parse(coordinate)
	if err != nil || v.SI < 0 || v.SI > most {
		t.Errorf("%q lies outside the drawing", coordinate)
	}
}

func TestTicks(t *testing.T) {
	for _, c := range []struct {
		low, high float64
		minutes   bool
		want      []float64
	}{
		{0, 76, true, []float64{0, 30, 60, 90}},
		{0, 28, true, []float64{0, 10, 20, 30}},
		{12, 62, false, []float64{10, 20, 30, 40, 50, 60, 70}},
		{0, 1, false, []float64{0, 0.2, 0.4, 0.6, 0.8, 1}},
		{5, 5, false, []float64{5, 5.2, 5.4, 5.6, 5.8, 6}},
	} {
		got := ticks(c.low, c.high, 5, c.minutes)
		same := len(got) == len(c.want)
		for i := range got {
			same = same && i < len(c.want) && got[i]-c.want[i] < 1e-9 && c.want[i]-got[i] < 1e-9
		}
		if !same {
			t.Errorf("%g to %g: %v, want %v", c.low, c.high, got, c.want)
		}
	}
}

func FuzzReply(f *testing.F) {
	for _, c := range calculators.All() {
		request := []string{c.Name, "SI"}
		for _, in := range c.Inputs {
			request = append(request, in.Name, filled(c.Name)[in.Name])
		}
		f.Add(strings.Join(request, Separator))
	}
	f.Fuzz(func(t *testing.T, request string) {
		fields := strings.Split(Reply(nil, request), Separator)
		if len(fields) < 3 || len(fields)%2 == 0 {
			t.Fatalf("%q: %q", request, fields)
		}
		check(t, first(parse(t, fields[0])))
		Convert(request)
	})
}

func BenchmarkReply(b *testing.B) {
	for _, c := range calculators.All() {
		request := []string{c.Name, "SI"}
		for name, text := range filled(c.Name) {
			request = append(request, name, text)
		}
		joined := strings.Join(request, Separator)
		b.Run(c.Name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				Reply(nil, joined)
			}
		})
	}
}

// block is a calculator's block in English.
func block(name string, values map[string]string, system quantity.System) (string, error) {
	return SumIn(nil, "sum-"+name, name, values, system)
}
