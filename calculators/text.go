package calculators

import (
	"strings"

	q "tankside/builder/quantity"
)

// forms are the words in braces of a text and how their numbers are written.
// Where symbol is empty the unit goes by the size and the reader's system.
var forms = [...]struct {
	word   string
	kind   q.Kind
	symbol string
}{
	{"temperature", q.Temperature, ""},
	{"kelvins", q.TemperatureDifference, ""},
	{"volume", q.Volume, ""},
	{"mass", q.Mass, ""},
	{"length", q.Length, ""},
	{"area", q.Area, ""},
	{"time", q.Time, ""},
	{"power", q.Power, ""},
	{"energy", q.Energy, ""},
	{"frequency", q.Frequency, ""},
	{"density", q.Density, ""},
	{"power-density", q.PowerDensity, ""},
	{"pressure", q.Pressure, ""},
	{"speed", q.Speed, ""},
	{"flow", q.Flow, ""},
	{"concentration", q.MassConcentration, ""},
	{"conductivity", q.Conductivity, ""},
	{"residue", q.ArealMass, ""},
	{"film", q.Film, ""},
	{"share", q.Fraction, ""},
	{"ph", q.PH, ""},
	{"strength", q.VolumeFraction, "% v/v"},
	{"grams", q.MassConcentration, "g/L"},
	{"milligrams", q.MassConcentration, "mg/L"},
	{"hardness", q.Hardness, "mg/L"},
	{"millilitres", q.Volume, "mL"},
	{"normality", q.Normality, "N"},
	{"micrometres", q.Length, "µm"},
	{"weighed", q.Mass, "mg"},
}

// text says a sentence in the reader's language and fills numbers in SI into
// it: "{temperature}" is written in the reader's units, "{3}" as a plain number
// of three significant digits. Any other word in braces stands for the next of
// the texts of with.
func (s *sum) text(sentence string, numbers ...float64) string {
	var fill []string
	_, rest, found := strings.Cut(sentence, "{")
	for found {
		var word string
		word, rest, _ = strings.Cut(rest, "}")
		if form := formOf(word); form < 0 && len(word) > 1 {
			fill = append(fill, s.texts[0])
			s.texts = s.texts[1:]
		} else {
			fill = append(fill, s.written(word, form, numbers[0]))
			numbers = numbers[1:]
		}
		_, rest, found = strings.Cut(rest, "{")
	}
	return s.answer.Words.Fill(sentence, fill...)
}

// with gives the texts for the next sentence.
func (s *sum) with(texts ...string) *sum {
	s.texts = texts
	return s
}

// formOf is the index of a word's form, or -1.
func formOf(word string) int {
	for i := range forms {
		if forms[i].word == word {
			return i
		}
	}
	return -1
}

func (s *sum) written(word string, form int, number float64) string {
	if form < 0 {
		return q.Decimal(number, int(word[0]-'0'))
	}
	f := &forms[form]
	if f.symbol == "" {
		return q.Show(number, f.kind, s.answer.System)
	}
	return q.ShowIn(number, unit(f.symbol, f.kind))
}

// unit of a symbol that the package itself writes.
func unit(symbol string, kind q.Kind) q.Unit {
	u, _ := q.UnitNamed(symbol, kind)
	return u
}
