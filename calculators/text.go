package calculators

import (
	"math"

	"tankside/calculators/internal/words"
	q "tankside/calculators/quantity"
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
}

// text fills numbers in SI into a sentence: "{temperature}" is written in the
// reader's units, "{3}" as a plain number of three significant digits.
func (s *sum) text(sentence string, numbers ...float64) string {
	var b words.Builder
	for {
		before, rest, found := words.Cut(sentence, "{")
		b.Add(before)
		if !found {
			return b.String()
		}
		word, after, _ := words.Cut(rest, "}")
		number := math.NaN()
		if len(numbers) > 0 {
			number, numbers = numbers[0], numbers[1:]
		}
		b.Add(s.written(word, number))
		sentence = after
	}
}

func (s *sum) written(word string, number float64) string {
	if len(word) == 1 {
		return q.Decimal(number, int(word[0]-'0'))
	}
	for i := range forms {
		if f := &forms[i]; f.word == word {
			if f.symbol == "" {
				return q.Show(number, f.kind, s.answer.System)
			}
			return q.ShowIn(number, unit(f.symbol, f.kind))
		}
	}
	return word
}

// unit of a symbol that the package itself writes.
func unit(symbol string, kind q.Kind) q.Unit {
	u, _ := q.UnitNamed(symbol, kind)
	return u
}
