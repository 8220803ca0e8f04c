package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"

	"tankside/builder"
	"tankside/builder/finding"
	"tankside/builder/quantity"
	"tankside/builder/sums"
	"tankside/calculators"
)

var calculateCommand = command{
	name: "calculate",
	args: "[NAME [INPUT=VALUE…]]",
	does: "do a calculation, as the pages do it",
	more: `Without a name it lists the calculators; with a name alone it says what that one asks for and answers, with an example. Inputs are written as people write them:

  tankside calculate heat-up volume="120 L" start="12 °C" target="62 °C" heater="6 kW"
  tankside calculate heat-up --tank wash-1 target="140 °F"

--tank takes what the shop file knows of a tank; inputs that are given go first.`,
	setUp: func(o *options) action {
		var k calculation
		k.tank = o.text("tank", "ID", "a tank of the shop file", "")
		k.in = o.text("in", "MANUAL", "folder of the manual whose shop file is meant; without it “"+usualManual+"”", "")
		k.units = o.text("units", "SI|US", "units of the answer; without it those of the shop file, or SI", "")
		k.json = o.yes("json", "the answer for programs: calculator, inputs, readings, cautions, working, verdict")
		return k.run
	},
}

// calculation is what is asked on the command line.
type calculation struct {
	tank, in, units *string
	json            *bool
}

func (k calculation) run(ctx context.Context, c *console, args []string) error {
	system := quantity.SI
	if *k.units != "" {
		var known bool
		if system, known = quantity.SystemNamed(*k.units); !known {
			return fmt.Errorf("--units takes SI or US, not %q", *k.units)
		}
	}
	if len(args) == 0 {
		if *k.tank != "" || *k.in != "" {
			return errors.New("say which calculator, for example: tankside calculate heat-up --tank wash-1; without a name and options it lists them")
		}
		return c.listCalculators(*k.json)
	}
	calculator, known := calculators.Named(args[0])
	if !known {
		var names []string
		for _, one := range calculators.All() {
			names = append(names, one.Name)
		}
		return fmt.Errorf("%w%s", calculators.Unknown(args[0]), didYouMean(args[0], names))
	}
	given, err := inputs(calculator.Name, args[1:])
	if err != nil {
		return err
	}
	fromShop := *k.tank != "" || *k.in != ""
	if len(given) == 0 && !fromShop {
		return c.explain(calculator, system, *k.json)
	}
	if fromShop {
		if given, system, err = k.fill(ctx, c, calculator, given, system); err != nil {
			return err
		}
	}
	answer, err := calculator.Run(given, system)
	var wrong calculators.Errors
	if errors.As(err, &wrong) {
		for _, e := range wrong {
			c.note("%s", e)
		}
		c.note("See tankside calculate %s for what it asks for.", calculator.Name)
		return status(exitUnusable)
	}
	if err != nil {
		return err
	}
	if *k.json {
		return c.json(answerJSON(answer))
	}
	writeAnswer(c.out, answer, c.strong)
	return nil
}

// inputs reads NAME=VALUE arguments. An argument without = belongs to the value before it, so that a unit may stand apart.
func inputs(calculator string, args []string) (map[string]string, error) {
	given := make(map[string]string)
	last := ""
	for _, arg := range args {
		name, value, has := strings.Cut(arg, "=")
		switch name = strings.TrimSpace(name); {
		case has && name != "":
			if _, twice := given[name]; twice {
				return nil, fmt.Errorf("the input %s is given twice", name)
			}
			given[name], last = strings.TrimSpace(value), name
		case last != "" && !has:
			given[last] = strings.TrimSpace(given[last] + " " + arg)
		default:
			return nil, fmt.Errorf("inputs of %s are written INPUT=VALUE, and %q is not; see tankside calculate %s for their names", calculator, arg, calculator)
		}
	}
	return given, nil
}

// fill adds what the shop file knows to the inputs.
func (k calculation) fill(ctx context.Context, c *console, calculator *calculators.Calculator, given map[string]string, system quantity.System) (map[string]string, quantity.System, error) {
	folder := *k.in
	if folder == "" {
		folder = usualManual
	}
	now, err := c.now()
	if err != nil {
		return nil, system, err
	}
	m, findings, err := builder.Read(ctx, folder, now)
	if err != nil {
		return nil, system, err
	}
	if finding.Stopping(findings) > 0 {
		c.note("The manual has findings that stop its publication; what is reckoned here stands on it as it is. See tankside proof %s", quoted(folder))
	}
	if *k.units == "" {
		system = m.Shop.System()
	}
	if *k.tank != "" {
		given["tank"] = *k.tank
	}
	values, err := sums.Values(m, calculator.Name, given)
	return values, system, err
}

func (c *console) listCalculators(asJSON bool) error {
	all := calculators.All()
	if !asJSON {
		width := 0
		for _, one := range all {
			width = max(width, len(one.Name))
		}
		for _, one := range all {
			fmt.Fprintf(c.out, "%s  %s\n", c.strong(fmt.Sprintf("%-*s", width, one.Name)), one.Summary)
		}
		return nil
	}
	list := make([]calculatorJSON, len(all))
	for i, one := range all {
		list[i] = calculatorJSON{Calculator: one.Name, Title: one.Title, Summary: one.Summary}
	}
	return c.json(list)
}

func (c *console) explain(one *calculators.Calculator, system quantity.System, asJSON bool) error {
	if !asJSON {
		_, err := io.WriteString(c.out, one.Explain(system))
		return err
	}
	d := calculatorJSON{Calculator: one.Name, Title: one.Title, Summary: one.Summary, Limits: one.Limits, Sources: one.Sources}
	for _, e := range one.ExampleIn(system) {
		d.Example = append(d.Example, exampleJSON{e.Name, e.Text})
	}
	for _, in := range one.Inputs {
		d.Inputs = append(d.Inputs, inputJSON{in.Name, in.Label, in.Accepted(system, nil), in.DefaultIn(system), in.Required, in.Help})
	}
	for _, r := range one.Readings {
		d.Readings = append(d.Readings, nameJSON{r.Name, r.Label})
	}
	return c.json(d)
}

// What --json gives.
type (
	calculatorJSON struct {
		Calculator string        `json:"calculator"`
		Title      string        `json:"title"`
		Summary    string        `json:"summary"`
		Inputs     []inputJSON   `json:"inputs,omitempty"`
		Example    []exampleJSON `json:"example,omitempty"` // inputs for which it answers, by name
		Readings   []nameJSON    `json:"readings,omitempty"`
		Limits     []string      `json:"limits,omitempty"`
		Sources    []string      `json:"sources,omitempty"`
	}
	inputJSON struct {
		Name     string `json:"name"`
		Label    string `json:"label"`
		Accepted string `json:"accepted"`
		Default  string `json:"default"`
		Required bool   `json:"required"`
		Help     string `json:"help"`
	}
	exampleJSON struct {
		Name  string `json:"name"`
		Value string `json:"value"`
	}
	nameJSON struct {
		Name  string `json:"name"`
		Label string `json:"label"`
	}
	answeredJSON struct {
		Calculator string            `json:"calculator"`
		Inputs     map[string]string `json:"inputs"`  // as they were understood, by name
		Assumed    []string          `json:"assumed"` // the inputs that were not given and have their usual value
		Readings   []readingJSON     `json:"readings"`
		Cautions   []cautionJSON     `json:"cautions"`
		Working    []string          `json:"working"`
		Verdict    string            `json:"verdict"` // what the numbers alone would not say; mostly empty
	}
	readingJSON struct {
		Name  string   `json:"name"`
		Value any      `json:"value"` // a number in unit, or words
		Unit  string   `json:"unit"`
		SI    *float64 `json:"si"`   // value in SI; null for words
		Low   *float64 `json:"low"`  // in unit
		High  *float64 `json:"high"` // in unit; null where there is no high end
	}
	cautionJSON struct {
		Signal string `json:"signal"`
		Text   string `json:"text"`
	}
)

func answerJSON(a calculators.Answer) answeredJSON {
	out := answeredJSON{
		Calculator: a.Calculator.Name, Inputs: map[string]string{}, Assumed: []string{}, Readings: []readingJSON{}, Cautions: []cautionJSON{}, Working: orEmpty(a.Working), Verdict: a.Verdict,
	}
	for _, g := range a.Given {
		out.Inputs[g.Name] = g.Text
		if g.Defaulted {
			out.Assumed = append(out.Assumed, g.Name)
		}
	}
	for _, r := range a.Readings {
		one := readingJSON{Name: r.Name, Value: r.Text}
		if !r.InWords() {
			one.Value, one.Unit, one.SI = tidy(r.Value()), r.Unit.Symbol, tidy(r.SI)
			one.Low, one.High = tidy(r.Unit.FromSI(r.Low)), tidy(r.Unit.FromSI(r.High))
		}
		out.Readings = append(out.Readings, one)
	}
	for _, w := range a.Cautions {
		out.Cautions = append(out.Cautions, cautionJSON{w.Signal.String(), w.Text})
	}
	return out
}

// tidy is a number without the last digits, which the conversion of units leaves behind; nil where JSON has no such number.
func tidy(x float64) *float64 {
	if math.IsInf(x, 0) || math.IsNaN(x) {
		return nil
	}
	if rounded, err := strconv.ParseFloat(strconv.FormatFloat(x, 'g', 12, 64), 64); err == nil {
		x = rounded
	}
	return &x
}

// writeAnswer writes an answer for people: what counts first, then how it came about.
func writeAnswer(w io.Writer, a calculators.Answer, strong func(string) string) {
	fmt.Fprintf(w, "%s\n\n", strong(a.Calculator.Title))
	if a.Verdict != "" {
		fmt.Fprintf(w, "%s\n\n", strong(a.Verdict))
	}
	width := 0
	for _, r := range a.Readings {
		width = max(width, utf8.RuneCountInString(r.Label))
	}
	for _, r := range a.Readings {
		line := r.String()
		if b := r.Bounds(); b != "" {
			line += "  (" + b + ")"
		}
		if r.Note != "" {
			line += "  " + r.Note
		}
		fmt.Fprintf(w, "  %s  %s\n", padded(r.Label, width), strong(line))
	}
	for _, caution := range a.Cautions {
		fmt.Fprintf(w, "\n%s  %s\n", strong(caution.Signal.String()), caution.Text)
	}
	if len(a.Given) > 0 {
		fmt.Fprintf(w, "\nReckoned with\n")
		width = 0
		for _, g := range a.Given {
			width = max(width, utf8.RuneCountInString(g.Label))
		}
		for _, g := range a.Given {
			usual := ""
			if g.Defaulted {
				usual = "  (not given; usual value)"
			}
			fmt.Fprintf(w, "  %s  %s%s\n", padded(g.Label, width), g.Text, usual)
		}
	}
	for _, part := range []struct {
		heading string
		lines   []string
	}{
		{"Working", a.Working}, {"Holds for", a.Calculator.Limits}, {"Sources", a.Calculator.Sources},
	} {
		if len(part.lines) > 0 {
			fmt.Fprintf(w, "\n%s\n", part.heading)
		}
		for _, line := range part.lines {
			fmt.Fprintf(w, "  %s\n", line)
		}
	}
}
