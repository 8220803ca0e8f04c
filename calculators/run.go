package calculators

import (
	"math"
	"slices"
	"strings"

	"tankside/calculators/quantity"
)

// Run computes the answer for inputs written as people write them, by input
// name; an empty text counts as not given. system is the one in which readings
// and working are written. The error, if any, is an [Errors] with everything
// that is wrong.
func (c *Calculator) Run(values map[string]string, system quantity.System) (Answer, error) {
	s := sum{calculator: c, values: make([]value, len(c.Inputs))}
	s.answer = Answer{Calculator: c, System: system}
	s.read(values)
	if len(s.errs) == 0 {
		c.run(&s)
	}
	if len(s.errs) == 0 {
		s.check()
	}
	if len(s.errs) > 0 {
		return Answer{}, s.errs
	}
	return s.answer, nil
}

// Run finds the calculator and runs it. Besides an [Errors] the error may be
// an [Unknown].
func Run(name string, values map[string]string, system quantity.System) (Answer, error) {
	c, ok := Named(name)
	if !ok {
		return Answer{}, Unknown(name)
	}
	return c.Run(values, system)
}

// Unknown is the error for a calculator that does not exist: its name.
type Unknown string

// Error lists those that exist.
func (u Unknown) Error() string {
	names := make([]string, len(all))
	for i, c := range all {
		names[i] = c.Name
	}
	return "there is no calculator " + quoted(string(u)) + "; there are " + strings.Join(names, ", ")
}

// value is an input as read.
type value struct {
	quantity.Value
	choice string
	given  bool // or defaulted; false when there is nothing
}

// sum is one run of a calculator.
type sum struct {
	calculator *Calculator
	values     []value
	answer     Answer
	errs       Errors
}

// read takes every declared input from the texts.
func (s *sum) read(texts map[string]string) {
	for i, in := range s.calculator.Inputs {
		text := strings.TrimSpace(texts[in.Name])
		defaulted := text == "" && in.Default != ""
		if defaulted {
			text = in.Default
		}
		if text == "" {
			if in.Required && !s.instead(in, texts) {
				s.errs = append(s.errs, &InputError{Input: in.Name, Label: in.Label, Problem: missing(in, s.answer.System), Accepted: in.Accepted(s.answer.System), Missing: true})
			}
			continue
		}
		v, problem := in.read(text, s.answer.System)
		if problem != "" {
			s.errs = append(s.errs, &InputError{Input: in.Name, Label: in.Label, Given: text, Problem: problem, Accepted: in.Accepted(s.answer.System)})
			continue
		}
		s.values[i] = v
		shown := v.choice
		if shown == "" {
			shown = v.In(s.answer.System)
		} else if shown = in.label(shown); in.None && v.choice == "none" {
			shown = "none"
		}
		s.answer.Given = append(s.answer.Given, Given{in.Name, in.Label, shown, defaulted})
	}
	var strange []string
	for name := range texts {
		if s.calculator.index(name) < 0 {
			strange = append(strange, name)
		}
	}
	slices.Sort(strange)
	for _, name := range strange {
		names := make([]string, len(s.calculator.Inputs))
		for i, in := range s.calculator.Inputs {
			names[i] = in.Name
		}
		s.errs = append(s.errs, &InputError{Input: name, Given: texts[name], Problem: "there is no such input; " + s.calculator.Name + " has " + strings.Join(names, ", ")})
	}
}

// instead reports whether one of the sets that stand in for an input is given.
func (s *sum) instead(in Input, texts map[string]string) bool {
	for _, set := range in.Or {
		whole := true
		for _, name := range set {
			whole = whole && strings.TrimSpace(texts[name]) != ""
		}
		if whole {
			return true
		}
	}
	return false
}

func missing(in Input, system quantity.System) string {
	text := "this is needed"
	for _, set := range in.Or {
		text += ", or " + list(set) + " instead"
	}
	if len(in.Measures) > 0 {
		text += "; write " + in.Measures[0].Kind.String() + " such as " + in.example(system)
	}
	return text + "."
}

// example of the input as it would be written in a system.
func (in Input) example(system quantity.System) string {
	examples := strings.Split(in.Measures[0].Kind.Example(), " or ")
	if system == quantity.US {
		return examples[len(examples)-1]
	}
	return examples[0]
}

// list joins names as a sentence does.
func list(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	last := len(names) - 1
	return strings.Join(names[:last], ", ") + " and " + names[last]
}

// read reads one input's text; the problem is a sentence.
func (in Input) read(text string, system quantity.System) (value, string) {
	if len(in.Choices) > 0 {
		for _, c := range in.Choices {
			if strings.EqualFold(text, c.Value) || strings.EqualFold(text, c.Label) {
				return value{choice: c.Value, given: true}, ""
			}
		}
		return value{}, quoted(text) + " is none of " + in.Accepted(system) + "."
	}
	if in.None && (strings.EqualFold(text, "none") || text == "0") {
		return value{Value: quantity.Value{Kind: in.Measures[0].Kind, Unit: in.Measures[0].Unit(system)}, choice: "none", given: true}, ""
	}
	v, err := quantity.Parse(text, in.kinds()...)
	if err != nil {
		return value{}, err.Error() + "."
	}
	for _, m := range in.Measures {
		if m.Kind == v.Kind {
			if !(quantity.Range{Low: m.Low, High: m.High}).Contains(v.SI) {
				return value{}, v.String() + " is outside what is accepted, " + m.Accepted(v.Unit.System(system)) + "."
			}
			break
		}
	}
	return value{Value: v, given: true}, ""
}

// label of a choice.
func (in Input) label(choice string) string {
	for _, c := range in.Choices {
		if c.Value == choice {
			return c.Label
		}
	}
	return choice
}

func quoted(s string) string {
	const most = 60
	if len(s) > most {
		s = strings.ToValidUTF8(s[:most], "") + "…"
	}
	return "“" + s + "”"
}

// at is an input's value, nothing where the calculator has no such input.
func (s *sum) at(name string) value {
	if i := s.calculator.index(name); i >= 0 {
		return s.values[i]
	}
	return value{}
}

func (s *sum) has(name string) bool { return s.at(name).given }

// si is an input's amount in SI, 0 where it is not given.
func (s *sum) si(name string) float64 { return s.at(name).SI }

// yes reports whether a yes-or-no input says yes.
func (s *sum) yes(name string) bool { return s.at(name).choice == "yes" }

// fail refuses an input for a reason found while computing.
func (s *sum) fail(name, problem string) {
	i := s.calculator.index(name)
	in := s.calculator.Inputs[i]
	given := ""
	if v := s.values[i]; v.given {
		given = v.String()
	}
	s.errs = append(s.errs, &InputError{Input: name, Label: in.Label, Given: given, Problem: problem, Accepted: in.Accepted(s.answer.System)})
}

// show writes an amount in the reader's units.
func (s *sum) show(si float64, kind quantity.Kind) string {
	return quantity.Show(si, kind, s.answer.System)
}

// step adds a line of working.
func (s *sum) step(parts ...string) {
	s.answer.Working = append(s.answer.Working, strings.Join(parts, ""))
}

func (s *sum) caution(signal Signal, text string) {
	s.answer.Cautions = append(s.answer.Cautions, Caution{signal, text})
}

// give adds a reading that is certain.
func (s *sum) give(name string, si float64, kind quantity.Kind) *Reading {
	return s.between(name, si, si, si, kind)
}

// between adds a reading with a low and a high end, in the unit people of the
// system use for its size.
func (s *sum) between(name string, si, low, high float64, kind quantity.Kind) *Reading {
	return s.put(Reading{Name: name, SI: si, Low: math.Min(low, high), High: math.Max(low, high), Kind: kind, Unit: quantity.Preferred(si, kind, s.answer.System)})
}

// in adds a certain reading in a given unit.
func (s *sum) in(name string, si float64, kind quantity.Kind, symbol string) *Reading {
	u, ok := quantity.UnitNamed(symbol, kind)
	if !ok {
		u = quantity.Preferred(si, kind, s.answer.System)
	}
	return s.put(Reading{Name: name, SI: si, Low: si, High: si, Kind: kind, Unit: u})
}

// say adds a reading in words.
func (s *sum) say(name, text string) *Reading { return s.put(Reading{Name: name, Text: text}) }

func (s *sum) put(r Reading) *Reading {
	for _, d := range s.calculator.Readings {
		if d.Name == r.Name {
			r.Label = d.Label
		}
	}
	s.answer.Readings = append(s.answer.Readings, r)
	return &s.answer.Readings[len(s.answer.Readings)-1]
}

// check is the last guard: an answer that is not a number is refused with a
// sentence and not printed. It puts readings in the declaration's order and the
// gravest caution first.
func (s *sum) check() {
	for _, r := range s.answer.Readings {
		if r.Text == "" && (math.IsNaN(r.SI) || math.IsInf(r.SI, 0) || math.IsNaN(r.Low) || math.IsInf(r.Low, 0) || math.IsNaN(r.High)) {
			s.errs = append(s.errs, &InputError{Input: s.calculator.Inputs[0].Name, Label: s.calculator.Inputs[0].Label, Problem: "with these inputs together there is no " + r.Label + " that makes sense."})
			return
		}
	}
	order := func(r Reading) int {
		return slices.IndexFunc(s.calculator.Readings, func(d Declared) bool { return d.Name == r.Name })
	}
	slices.SortStableFunc(s.answer.Readings, func(a, b Reading) int { return order(a) - order(b) })
	slices.SortStableFunc(s.answer.Cautions, func(a, b Caution) int { return int(a.Signal) - int(b.Signal) })
}
