// Package calculators holds the sums of an ultrasonic cleaning line: dilution,
// heat-up, degassing, rinsing and the rest. A [Calculator] declares its inputs
// and readings once; the form in a page, the help on the command line, the
// error texts and the sum itself all come from that declaration.
//
// [Calculator.Run] takes inputs as people write them ("120 L", "140 °F", "1:40")
// and gives an [Answer]: readings with bounds where physics is uncertain,
// cautions, the working step by step, often a curve, and the sources and limits
// of what was used. It is a pure function: no clock, no files, no state. It
// refuses what it cannot answer with [Errors] that name the input, what was
// given and what is accepted; nothing is clamped, and no input makes it panic.
// [Calculator.RunIn] does the same in another language: the numbers are those
// of Run, and every sentence is said with the words it is given.
//
// The models are in the packages below: water and air for properties, bath for
// heat, gas and sound, mix for strengths, rinse for rinsing and drying. Their
// tests compare them with published tables. All numbers inside are SI;
// quantity reads and writes them.
//
// [Fill] takes from a shop's tank what a calculator wants to know, so that a
// page, the command line and a rule ask with the same numbers. [HeatOf] answers
// for such a tank how hot it gets, [DriftOf] where its sound takes it.
//
// The package avoids fmt and everything that pulls in much code, because the
// same package is what a page loads as WASM.
package calculators

import (
	"strings"

	"tankside/builder/language"
	"tankside/builder/quantity"
)

// Calculator is one calculator's declaration. Its texts are phrases of package
// language.
type Calculator struct {
	Name     string // as articles and the command line call it: heat-up
	Title    string // as a heading: Heat-up time
	Summary  string // one sentence: what it answers
	Inputs   []*Input
	Readings []Declared
	Example  []Written // inputs for which it answers
	Limits   []string  // where its answer holds
	Sources  []string  // of the formulas and constants

	run func(*sum)
}

// Declared is a reading that a calculator may give.
type Declared struct{ Name, Label string }

// Written is an input as somebody writes it: "120 L".
type Written struct{ Name, Text string }

// ExampleInputs are those of the example, by name, as [Calculator.Run] takes
// them. The command's help shows them; whoever tries out every calculator tries
// them with these.
func (c *Calculator) ExampleInputs() map[string]string {
	values := make(map[string]string, len(c.Example))
	for _, e := range c.Example {
		values[e.Name] = e.Text
	}
	return values
}

// Input declares one input.
type Input struct {
	Name  string
	Label string
	Help  string

	// Measures are the quantities accepted, the usual one first. An input
	// with Choices has none.
	Measures []Measure
	Choices  []Choice

	Default string // as written; empty where there is none
	// Required inputs must be given, unless all of one set of Or are.
	Required bool
	Or       [][]string
	// None says that the word "none" is accepted and stands for nothing.
	None bool
}

// Measure is a kind of quantity with its accepted range in SI and the units in
// which it is asked for.
type Measure struct {
	Kind      quantity.Kind
	Low, High float64
	Metric    string // unit symbol
	Customary string // unit symbol in US customary
}

// Unit is the unit in which the measure is asked for.
func (m Measure) Unit(system quantity.System) quantity.Unit {
	symbol := m.Metric
	if system == quantity.US {
		symbol = m.Customary
	}
	u, ok := quantity.UnitNamed(symbol, m.Kind)
	if !ok { // tests go through every declaration
		return quantity.Preferred(m.High, m.Kind, system)
	}
	return u
}

// Accepted writes the range that is accepted.
func (m Measure) Accepted(system quantity.System, w language.Words) string {
	u := m.Unit(system)
	low, high := quantity.ShowIn(m.Low, u), quantity.ShowIn(m.High, u)
	if u.FromSI(m.Low) > u.FromSI(m.High) { // 1:N
		low, high = high, low
	}
	return w.Fill("{low} to {high}", low, high)
}

// Choice is one of the words an input takes.
type Choice struct{ Value, Label string }

// Accepted says in a few words what the input takes.
func (in *Input) Accepted(system quantity.System, w language.Words) string {
	var parts []string
	for _, m := range in.Measures {
		parts = append(parts, m.Accepted(system, w))
	}
	for _, c := range in.Choices {
		parts = append(parts, c.Value)
	}
	if in.None {
		parts = append(parts, w.Say("none"))
	}
	return strings.Join(parts, ", "+w.Say("or")+" ")
}

// kinds lists the quantities of the measures.
func (in *Input) kinds() []quantity.Kind {
	k := make([]quantity.Kind, len(in.Measures))
	for i, m := range in.Measures {
		k[i] = m.Kind
	}
	return k
}

var all = []*Calculator{
	&dilution, &topUp, &titration, &heatUp, &holding, &degas, &power, &load,
	&rinsing, &spotting, &hardness, &scale, &sound, &drying, &residue, &particles, &bathLife,
}

// All lists the calculators in the order in which a shop meets them. They must
// not be changed.
func All() []*Calculator { return all }

// Named finds a calculator.
func Named(name string) (*Calculator, bool) {
	for _, c := range all {
		if c.Name == name {
			return c, true
		}
	}
	return nil, false
}

// Input finds an input by name.
func (c *Calculator) Input(name string) (in *Input, ok bool) {
	if i := c.index(name); i >= 0 {
		return c.Inputs[i], true
	}
	return nil, false
}

func (c *Calculator) index(name string) int {
	for i := range c.Inputs {
		if c.Inputs[i].Name == name {
			return i
		}
	}
	return -1
}
