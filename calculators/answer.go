package calculators

import (
	"math"
	"strings"

	"tankside/builder/language"
	"tankside/builder/quantity"
)

// Answer is what a calculator found.
type Answer struct {
	Calculator *Calculator
	System     quantity.System
	Words      language.Words // in which it is written
	Given      []Given        // the inputs used, in the declaration's order
	Readings   []Reading      // in the declaration's order
	// Verdict is a sentence for people where numbers alone would mislead, such
	// as that a temperature is never reached. Often empty.
	Verdict  string
	Cautions []Caution
	Working  []string
	Curve    *Curve
}

// Given is an input as it was understood.
type Given struct {
	Name, Label, Text string
	Defaulted         bool // it was not given
}

// Reading is one result. Where physics is uncertain, Low and High are the ends
// of what is likely; otherwise both equal SI. High is +Inf where the slow case
// never gets there. A reading in words has Text and no number.
type Reading struct {
	Name, Label   string
	SI, Low, High float64 // in the SI unit of Kind
	Kind          quantity.Kind
	Unit          quantity.Unit // in which it is shown
	Text          string
	Note          string

	words language.Words // in which its bounds are written
}

// InWords reports whether the reading is a word and not a number.
func (r Reading) InWords() bool { return r.Text != "" }

// Bounded reports whether the reading has a low and a high end.
func (r Reading) Bounded() bool { return r.Text == "" && r.Low != r.High }

// Value is the number in the reading's unit.
func (r Reading) Value() float64 { return r.Unit.FromSI(r.SI) }

// String writes the reading as people read it, without its bounds.
func (r Reading) String() string {
	switch {
	case r.Text != "":
		return r.Text
	case r.Kind == quantity.Time:
		return quantity.Show(r.SI, r.Kind, quantity.SI)
	}
	return quantity.ShowIn(r.SI, r.Unit)
}

// Bounds writes the low and high end: "18 to 40 min"; it is empty for a
// reading without.
func (r Reading) Bounds() string {
	if !r.Bounded() {
		return ""
	}
	low, high := Reading{SI: r.Low, Kind: r.Kind, Unit: r.Unit}, Reading{SI: r.High, Kind: r.Kind, Unit: r.Unit}
	if math.IsInf(r.High, 1) {
		return r.words.Fill("{low} or more, perhaps never", low.String())
	}
	if low.String() == high.String() { // closer than one can read
		return ""
	}
	return r.words.Fill("{low} to {high}", low.String(), high.String())
}

// Reading finds a reading by name.
func (a *Answer) Reading(name string) (Reading, bool) {
	for _, r := range a.Readings {
		if r.Name == name {
			return r, true
		}
	}
	return Reading{}, false
}

// Signal is a signal word of ANSI Z535.6, the gravest first.
type Signal uint8

// The signal words.
const (
	Danger  Signal = iota // will kill or seriously injure
	Warning               // could kill or seriously injure
	Careful               // CAUTION: could injure
	Notice                // damage, no injury
)

// String is the word in capitals, as it is printed.
func (s Signal) String() string {
	return [...]string{"DANGER", "WARNING", "CAUTION", "NOTICE"}[s&3]
}

// Caution is a safety message.
type Caution struct {
	Signal Signal
	Text   string
}

// Curve is a drawing of the answer. Points are in SI units.
type Curve struct {
	Title, Description string
	X, Y               Axis
	Likely             []Point
	Low, High          []Point // the ends of the band, empty where there is none
	Levels             []Level
}

// Axis of a curve; its numbers are drawn in Unit.
type Axis struct {
	Label string
	Unit  quantity.Unit
}

// Point of a curve.
type Point struct{ X, Y float64 }

// Level is a horizontal line with a name, such as the target.
type Level struct {
	Label string
	Y     float64
}

// InputError says what is wrong with one input, in the language of the run.
type InputError struct {
	Input    string // name; also of inputs that do not exist
	Label    string
	Given    string
	Problem  string // a sentence
	Accepted string
	Missing  bool // a required input was not given
}

// Error names the input and says what is wrong.
func (e *InputError) Error() string { return e.Input + ": " + e.Problem }

// Errors are all things wrong with the inputs of one run.
type Errors []*InputError

// Error joins the sentences, one a line.
func (e Errors) Error() string {
	lines := make([]string, len(e))
	for i := range e {
		lines[i] = e[i].Error()
	}
	return strings.Join(lines, "\n")
}

// OnlyMissing reports whether nothing is wrong but that inputs were not given.
func (e Errors) OnlyMissing() bool {
	for _, one := range e {
		if !one.Missing {
			return false
		}
	}
	return len(e) > 0
}
