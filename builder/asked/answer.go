package asked

import (
	"strings"

	"tankside/builder/decide/admit"
	"tankside/builder/decide/admit/markup"
	"tankside/builder/language"
	"tankside/builder/quantity"
	"tankside/calculators"
)

// Answer is one way to read a question, answered.
type Answer struct {
	Title   string   `json:"title"`             // of the calculator; what goes into which bath; the amount that is converted
	Verdict string   `json:"verdict,omitempty"` // of a load: yes, conditions, no
	Says    string   `json:"says"`              // the verdict in words, or what comes out
	Lines   []string `json:"lines,omitempty"`   // conditions or reasons, further readings, what was taken
	Signal  string   `json:"signal,omitempty"`  // the gravest signal word: DANGER, WARNING, CAUTION, NOTICE
	Caution string   `json:"caution,omitempty"` // what it warns of
	More    int      `json:"more,omitempty"`    // safety messages that are on the page alone
	Path    string   `json:"path,omitempty"`    // page with this question filled in, from the edition's root
}

// Result is a question with all its answers.
type Result struct {
	Answers []Answer `json:"answers"`
	Asks    []string `json:"asks,omitempty"` // what has to be said so that one answer is left
}

// Phrases are what is said here, beside what the calculators and the decision say.
var Phrases = []string{
	"A temperature or a difference? Kelvins can be either: write °C or °F.",
	"Ounces by weight have no volume without a density; these are fluid ounces. Which gallon's?",
	whichGallon,
	"Per cent of what? Write % v/v, by volume; % w/w, by mass; or % w/v, kilograms in 100 litres. The label or data sheet of the concentrate says which.",
	"How strong is the heater? Write its power behind it, such as 6 kW.",
	whichOne,
	"That name fits too many articles to say yes or no: name the material, the soil and the bath as the manual does.",
	"{amount} is", "heated as {tank} is", "Taken: {inputs}.", "Keep to: {conditions}.", "and {n} more on its page", "{n} more messages on its page.",
	"With these figures there is no answer.", "It goes against what the manual says of them.", "DANGER", "WARNING", "CAUTION", "NOTICE",
}

// Teller answers questions.
type Teller struct {
	Names *Names
	Sheet *markup.Sheet  // nil where there is no decision to ask
	Sums  language.Words // of the calculators
}

// Tell reads a text and answers it in a family of units; nothing where it is words to look for.
func (t *Teller) Tell(text string, units quantity.System) (list []Result) {
	for _, q := range t.Names.Read(text) {
		r := Result{Asks: q.Says}
		for i := range q.Readings {
			if a, ok := t.answer(&q.Readings[i], units); ok && !r.has(&a) {
				r.Answers = append(r.Answers, a)
			}
		}
		if len(r.Answers)+len(r.Asks) > 0 {
			list = append(list, r)
		}
	}
	return list
}

// has adds to an answer that says the same of the same, such as a hardness and an alkalinity in mg/L, and tells whether there is one.
func (r *Result) has(a *Answer) bool {
	for i := range r.Answers {
		if before := &r.Answers[i]; a.Verdict == "" && before.Title == a.Title && before.Says == a.Says {
			before.Lines = append(before.Lines, a.Lines...)
			return true
		}
	}
	return false
}

// answer answers one way to read a question; false where there is no such thing to ask.
func (t *Teller) answer(r *Reading, units quantity.System) (Answer, bool) {
	switch {
	case r.Calculator != "":
		return t.sum(r, units)
	case len(r.Load.Materials) > 0:
		return t.load(r.Load, units)
	}
	return t.converted(r), true
}

// converted writes an amount in another unit. Of a hardness the calculator has all units.
func (t *Teller) converted(r *Reading) Answer {
	a := Answer{Title: t.Names.Words.Fill("{amount} is", r.Amount.String()), Says: quantity.ShowIn(r.Amount.SI, r.Unit)}
	if r.Amount.Kind == quantity.Hardness {
		a.Path = t.address("hardness", []calculators.Written{{Name: "hardness", Text: written(r.Amount)}})
	}
	if r.Amount.Kind == quantity.Hardness || r.Amount.Kind == quantity.Alkalinity {
		a.Lines = []string{t.Sums.Say(r.Amount.Kind.String())}
	}
	return a
}

// How many readings of a sum are told beside the first, and how many of the inputs that it took by itself.
const (
	mostLines = 3
	mostTaken = 4
)

// sum asks a calculator.
func (t *Teller) sum(r *Reading, units quantity.System) (Answer, bool) {
	c, known := calculators.Named(r.Calculator)
	if !known {
		return Answer{}, false
	}
	inputs := make(map[string]string, len(r.Inputs))
	for _, in := range r.Inputs {
		inputs[in.Name] = in.Text
	}
	a := Answer{Title: t.Sums.Say(c.Title), Path: t.address(c.Name, r.Inputs)}
	done, err := c.RunIn(t.Sums, inputs, units)
	if err != nil {
		wrong, is := err.(calculators.Errors)
		if !is || len(wrong) == 0 {
			return a, false
		}
		a.Says, a.Lines = t.Names.Words.Say("With these figures there is no answer."), []string{wrong[0].Label + ": " + wrong[0].Problem}
		return a, true
	}
	var given, taken []string
	for _, g := range done.Given {
		switch text := g.Label + " " + g.Text; {
		case g.Defaulted:
			taken = append(taken, text)
		case g.Name == "volume" || g.Name == "strength" || g.Name == "start" || g.Name == "target" || g.Name == "heater":
			given = append(given, g.Text)
		}
	}
	a.Title += ": " + strings.Join(given, "; ")
	if r.Like != "" {
		a.Title += ", " + t.Names.Words.Fill("heated as {tank} is", r.Like)
	}
	for i, reading := range done.Readings {
		text := reading.Label + " " + reading.String()
		if b := reading.Bounds(); b != "" {
			text += " (" + b + ")"
		}
		switch {
		case i == 0:
			a.Says = text
		case i <= mostLines:
			a.Lines = append(a.Lines, text)
		}
	}
	if done.Verdict != "" {
		a.Lines = append([]string{a.Says}, a.Lines...)
		a.Says = done.Verdict
	}
	if more := len(taken) - mostTaken; more > 0 {
		taken = append(taken[:mostTaken], t.Names.Words.Fill("and {n} more on its page", quantity.Decimal(float64(more), 3)))
	}
	if len(taken) > 0 {
		a.Lines = append(a.Lines, t.Names.Words.Fill("Taken: {inputs}.", strings.Join(taken, "; ")))
	}
	if len(done.Cautions) > 0 { // the gravest comes first
		a.Signal, a.Caution, a.More = done.Cautions[0].Signal.String(), done.Cautions[0].Text, len(done.Cautions)-1
	}
	return a, true
}

// mostReasons is how many reasons of a no are told.
const mostReasons = 3

// load asks the decision.
func (t *Teller) load(q admit.Question, units quantity.System) (Answer, bool) {
	if t.Sheet == nil {
		return Answer{}, false
	}
	done, err := t.Sheet.Table.Answer(q)
	if err != nil {
		return Answer{}, false // a name that the table does not have: both are of one publication
	}
	w := t.Sheet.Words
	a := Answer{Title: t.Sheet.Asked(q), Verdict: string(done.Verdict), Says: w.Say(markup.Verdict(done.Verdict)), Path: markup.Ask(q)}
	for i := range done.Reasons {
		if r := &done.Reasons[i]; done.Verdict == admit.No && r.Verdict == admit.No && len(a.Lines) < mostReasons {
			a.Lines = append(a.Lines, r.Says.In(w, units))
		}
	}
	if brief := done.Brief(w, units); brief != "" {
		a.Lines = append(a.Lines, t.Names.Words.Fill("Keep to: {conditions}.", brief))
	}
	switch {
	case len(done.Cautions) > 0: // the gravest comes first
		a.Signal, a.Caution, a.More = done.Cautions[0].Signal, done.Cautions[0].Text, len(done.Cautions)-1
	case done.Verdict == admit.No:
		a.Signal, a.Caution = "NOTICE", t.Names.Words.Say("It goes against what the manual says of them.")
	}
	return a, true
}

// address is where a sum can be done with these inputs; "" where the manual has no such place.
func (t *Teller) address(calculator string, inputs []calculators.Written) string {
	at := t.Names.Sums[calculator]
	if at == "" {
		return ""
	}
	var b strings.Builder
	b.WriteString(at)
	sign := byte('?')
	for _, in := range inputs {
		b.WriteByte(sign)
		escape(&b, in.Name)
		b.WriteByte('=')
		escape(&b, in.Text)
		sign = '&'
	}
	return b.String()
}

// escape writes a text as part of an address (RFC 3986, 2.1 and 2.3).
func escape(b *strings.Builder, text string) {
	const digits = "0123456789ABCDEF"
	for i := range len(text) {
		switch c := text[i]; {
		case 'a' <= c|0x20 && c|0x20 <= 'z' || '0' <= c && c <= '9' || c == '-' || c == '.' || c == '_':
			b.WriteByte(c)
		default:
			b.WriteByte('%')
			b.WriteByte(digits[c>>4])
			b.WriteByte(digits[c&15])
		}
	}
}
