package calculators

import (
	"math"
	"strings"

	"tankside/builder/language"
	"tankside/builder/quantity"
)

// Run computes the answer for inputs written as people write them, by input
// name; an empty text counts as not given. system is the one in which readings
// and working are written. The error, if any, is an [Errors] with everything
// that is wrong.
func (c *Calculator) Run(values map[string]string, system quantity.System) (Answer, error) {
	return c.RunIn(nil, values, system)
}

// RunIn is Run in a language: answer and errors are written in it.
func (c *Calculator) RunIn(w language.Words, values map[string]string, system quantity.System) (Answer, error) {
	s := sum{calculator: c, values: make([]value, len(c.Inputs))}
	s.answer = Answer{Calculator: c, System: system, Words: w}
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
	texts      []string // see with
}

// say says a phrase in the reader's language.
func (s *sum) say(phrase string) string { return s.answer.Words.Say(phrase) }

// wrong is what is to be said of an input, but for the problem.
func (s *sum) wrong(in *Input) *InputError {
	return &InputError{Input: in.Name, Label: s.say(in.Label), Accepted: in.Accepted(s.answer.System, s.answer.Words)}
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
				e := s.wrong(in)
				e.Problem, e.Missing = s.missing(in), true
				s.errs = append(s.errs, e)
			}
			continue
		}
		v, problem := s.readOne(in, text)
		if problem != "" {
			e := s.wrong(in)
			e.Given, e.Problem = text, problem
			s.errs = append(s.errs, e)
			continue
		}
		s.values[i] = v
		shown := v.choice
		if shown == "" {
			shown = v.In(s.answer.System)
		} else {
			shown = s.say(in.label(shown))
		}
		s.answer.Given = append(s.answer.Given, Given{in.Name, s.say(in.Label), shown, defaulted})
	}
	s.gallons()
	known := len(s.errs)
	for name, text := range texts {
		if s.calculator.index(name) < 0 {
			s.strange(known, name, text)
		}
	}
}

// gallons refuses an amount in a gallon, quart or fluid ounce that may be of either country. Only where US units stand first it is taken for the US
// one, and even there not where another input is in imperial ones.
func (s *sum) gallons() {
	for i := range s.values {
		v, name := s.values[i], s.calculator.Inputs[i].Name
		if !v.Loose {
			continue
		}
		us, imperial := v.BothGallons()
		other := len(s.values) - 1
		for other >= 0 && !s.values[other].Unit.Imperial() {
			other--
		}
		switch {
		case other >= 0:
			s.with(s.called([]string{s.calculator.Inputs[other].Name})[0], us, imperial).fail(name, "in which gallon? {input} is in imperial measure, so write {amount} or {amount}.")
		case s.answer.System != quantity.US:
			s.with(us, imperial).fail(name, "US or imperial measure? Write {amount} or {amount}.")
		}
	}
}

// strange refuses an input that the calculator has not. Such errors stand after
// the first known ones in alphabetical order, for a map has none.
func (s *sum) strange(known int, name, text string) {
	names := make([]string, len(s.calculator.Inputs))
	for i, in := range s.calculator.Inputs {
		names[i] = in.Name
	}
	s.errs = append(s.errs, &InputError{Input: name, Given: text, Problem: "there is no such input; " + s.calculator.Name + " has " + strings.Join(names, ", ") + "."})
	for i := len(s.errs) - 1; i > known && s.errs[i].Input < s.errs[i-1].Input; i-- {
		s.errs[i], s.errs[i-1] = s.errs[i-1], s.errs[i]
	}
}

// instead reports whether one of the sets that stand in for an input is given.
func (s *sum) instead(in *Input, texts map[string]string) bool {
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

// missing says that an input is needed, or which others instead, and how it is
// written.
func (s *sum) missing(in *Input) string {
	text := s.say("this is needed")
	for _, set := range in.Or {
		text += ", " + s.answer.Words.Fill("or {inputs} instead", list(s.answer.Words, s.called(set)))
	}
	if len(in.Measures) > 0 {
		text += "; " + s.answer.Words.Fill("write {a quantity} such as {amount}", s.say(in.Measures[0].Kind.String()), in.example(s.answer.System))
	}
	return text + "."
}

// called gives inputs as people call them: by their names, which are English,
// or in another language by their labels.
func (s *sum) called(names []string) []string {
	if s.answer.Words == nil {
		return names
	}
	labels := make([]string, len(names))
	for i, name := range names {
		labels[i] = "“" + s.say(s.calculator.Inputs[s.calculator.index(name)].Label) + "”"
	}
	return labels
}

// example of the input as it would be written in a system: the kind's own where
// the input is asked for in the same unit, otherwise ten of its unit.
func (in *Input) example(system quantity.System) string {
	m := in.Measures[0]
	u := m.Unit(system)
	for _, text := range strings.Split(m.Kind.Example(), " or ") {
		if v, err := quantity.Parse(text, m.Kind); err == nil && v.Unit == u && v.SI >= m.Low && v.SI <= m.High {
			return text
		}
	}
	return quantity.Format(u.ToSI(10), u)
}

// list joins names as a sentence does.
func list(w language.Words, names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	last := len(names) - 1
	return strings.Join(names[:last], ", ") + " " + w.Say("and") + " " + names[last]
}

// readOne reads one input's text; the problem is a sentence.
func (s *sum) readOne(in *Input, text string) (v value, problem string) {
	w, system := s.answer.Words, s.answer.System
	if len(in.Choices) > 0 {
		for _, c := range in.Choices {
			if Alike(text, c.Value) || Alike(text, c.Label) {
				return value{choice: c.Value, given: true}, ""
			}
		}
		return v, w.Fill("{text} is none of {choices}.", quoted(text), in.Accepted(system, w))
	}
	if in.None && (Alike(text, none) || Alike(text, w.Say(none)) || text == "0") {
		return value{Value: quantity.Value{Kind: in.Measures[0].Kind, Unit: in.Measures[0].Unit(system)}, choice: none, given: true}, ""
	}
	amount, err := quantity.Parse(text, in.kinds()...)
	if err != nil {
		fault, _ := err.(*quantity.Error) // Parse gives no other
		return v, fault.In(w) + "."
	}
	for _, m := range in.Measures {
		if m.Kind == amount.Kind {
			if !(quantity.Range{Low: m.Low, High: m.High}).Contains(amount.SI) {
				return v, w.Fill("{amount} is outside what is accepted, {range}.", amount.String(), m.Accepted(amount.Unit.System(system), w))
			}
			break
		}
	}
	return value{Value: amount, given: true}, ""
}

// none is the word for nothing, of inputs that may be nothing.
const none = "none"

// label of a choice.
func (in *Input) label(choice string) string { return label(in.Choices, choice) }

func label(choices []Choice, choice string) string {
	for _, c := range choices {
		if c.Value == choice {
			return c.Label
		}
	}
	return choice
}

// Alike compares two words without regard to the case of their letters A to Z.
func Alike(a, b string) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range len(a) {
		x, y := a[i], b[i]
		if x != y && (x|0x20 != y|0x20 || x|0x20 < 'a' || x|0x20 > 'z') {
			return false
		}
	}
	return true
}

func quoted(s string) string {
	const most = 60
	if len(s) > most {
		s = string([]rune(s[:most])) + "…"
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

// fail refuses an input for a reason found while computing; see text.
func (s *sum) fail(name, sentence string, numbers ...float64) {
	i := s.calculator.index(name)
	e := s.wrong(s.calculator.Inputs[i])
	if v := s.values[i]; v.given {
		e.Given = v.String()
	}
	e.Problem = s.text(sentence, numbers...)
	s.errs = append(s.errs, e)
}

// step adds a line of working; see text.
func (s *sum) step(sentence string, numbers ...float64) {
	s.answer.Working = append(s.answer.Working, s.text(sentence, numbers...))
}

// caution adds a safety message; see text.
func (s *sum) caution(signal Signal, sentence string, numbers ...float64) {
	s.answer.Cautions = append(s.answer.Cautions, Caution{signal, s.text(sentence, numbers...)})
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
	return s.put(Reading{Name: name, SI: si, Low: si, High: si, Kind: kind, Unit: unit(symbol, kind)})
}

// tell adds a reading in words; see text.
func (s *sum) tell(name, sentence string) *Reading {
	return s.put(Reading{Name: name, Text: s.text(sentence)})
}

// note adds a remark to a reading; see text.
func (s *sum) note(r *Reading, sentence string, numbers ...float64) {
	r.Note = s.text(sentence, numbers...)
}

// verdict sets what the answer says in a sentence; see text.
func (s *sum) verdict(sentence string, numbers ...float64) {
	s.answer.Verdict = s.text(sentence, numbers...)
}

func (s *sum) put(r Reading) *Reading {
	for _, d := range s.calculator.Readings {
		if d.Name == r.Name {
			r.Label = s.say(d.Label)
		}
	}
	r.words = s.answer.Words
	s.answer.Readings = append(s.answer.Readings, r)
	return &s.answer.Readings[len(s.answer.Readings)-1]
}

// check is the last guard: an answer that is not a number is refused with a
// sentence and not printed. It puts readings in the declaration's order and the
// gravest caution first.
func (s *sum) check() {
	for i := range s.answer.Readings {
		r := &s.answer.Readings[i]
		if r.Text == "" && (math.IsNaN(r.SI) || math.IsInf(r.SI, 0) || math.IsNaN(r.Low) || math.IsInf(r.Low, 0) || math.IsNaN(r.High)) {
			e := s.wrong(s.calculator.Inputs[0])
			e.Accepted, e.Problem = "", s.with(r.Label).text("with these inputs together there is no value of “{reading}” that makes sense.")
			s.errs = append(s.errs, e)
			return
		}
	}
	readings := s.answer.Readings
	s.answer.Readings = make([]Reading, 0, len(readings))
	for _, d := range s.calculator.Readings {
		for i := range readings {
			if readings[i].Name == d.Name {
				s.answer.Readings = append(s.answer.Readings, readings[i])
			}
		}
	}
	cautions := s.answer.Cautions
	s.answer.Cautions = make([]Caution, 0, len(cautions))
	for signal := Danger; signal <= Notice; signal++ {
		for _, c := range cautions {
			if c.Signal == signal {
				s.answer.Cautions = append(s.answer.Cautions, c)
			}
		}
	}
}
