package record

import (
	"math"
	"slices"
	"strings"

	"tankside/builder/quantity"
)

// Quantity is what a column of numbers is about.
type Quantity struct {
	Name    string // as a head names it
	Title   string // as a heading of a page names it, in English
	Kinds   []quantity.Kind
	Example string // of a head
	Whole   bool   // counted, not measured

	// Low and High are what cannot be passed, by SI unit of each kind; Why says so.
	Low, High map[quantity.Kind]float64
	Why       string
}

func within(low, high float64, kinds ...quantity.Kind) (l, h map[quantity.Kind]float64) {
	l, h = map[quantity.Kind]float64{}, map[quantity.Kind]float64{}
	for _, k := range kinds {
		l[k], h[k] = low, high
	}
	return l, h
}

func of(name, title, example, why string, low, high float64, kinds ...quantity.Kind) Quantity {
	q := Quantity{Name: name, Title: title, Kinds: kinds, Example: example, Why: why}
	q.Low, q.High = within(low, high, kinds...)
	return q
}

func counted(name, title, why string, high float64) Quantity {
	q := of(name, title, name, why, 0, high, quantity.Number)
	q.Whole = true
	return q
}

// Quantities are those that a record can have, in the order in which they are shown. Their bounds are what cannot be, not what should be: they find slips
// of pen and unit. Sources: pH as elsewhere in the manual, 0–14; water is liquid between 0 and 100 °C; conductivity of the best conducting acids about
// 85 S/m, from memory; the others our own limits.
var Quantities = []Quantity{
	strength(),
	of("ph", "pH", "ph", "pH goes from 0 to 14 here", 0, 14, quantity.PH),
	of("temperature", "Temperature", "temperature (°C)", "a bath of water is between 0 and 100 °C", 0, 100, quantity.Temperature),
	of("conductivity", "Conductivity", "conductivity (µS/cm)", "no bath conducts less than nothing or more than 1000 mS/cm", 0, 100, quantity.Conductivity),
	of("level", "Level against the mark", "level (mm)", "the level is counted from the mark, below it with a minus sign, and no tank is 2 m deep", -2, 2, quantity.Length),
	of("titrant", "Titrant", "titrant (mL)", "a titration takes between 0 and 1000 mL", 0, 1e-3, quantity.Volume),
	ranged(counted("foil", "Marks on the foil", "marks on a foil are counted: a whole number, at least 0", 100_000), "foil (marks)"),
	counted("loads", "Loads", "loads are counted: a whole number from 0 to 10,000", 10_000),
	of("added", "Added", "added (L)", "what is added is between 0 and 10 m³", 0, 10, quantity.Volume),
}

// strength has bounds by kind: shares go to one, and no bath has more than two kilograms in a litre.
func strength() Quantity {
	q := of("strength", "Strength", "strength (% v/v)", "a strength is between 0 and 100 %, or 2 kg/L", 0, 1, quantity.VolumeFraction, quantity.MassFraction, quantity.MassConcentration)
	q.High[quantity.MassConcentration] = 2000
	return q
}

func ranged(q Quantity, example string) Quantity {
	q.Example = example
	return q
}

// possible tells whether an amount, in the SI unit of its kind, can be.
func (q Quantity) possible(si float64, kind quantity.Kind) bool {
	const slack = 1e-9
	return !math.IsNaN(si) && si >= q.Low[kind]-slack && si <= q.High[kind]+slack && (!q.Whole || si == math.Trunc(si))
}

// QuantityNamed finds one by the word of a head.
func QuantityNamed(name string) (Quantity, bool) {
	i := slices.IndexFunc(Quantities, func(q Quantity) bool { return q.Name == name })
	if i < 0 {
		return Quantity{}, false
	}
	return Quantities[i], true
}

// textColumns are the columns that hold no numbers. Their heads have no unit.
var textColumns = []string{whenColumn, workColumn, byColumn, noteColumn, replacesColumn, idColumn}

const (
	whenColumn     = "when"
	workColumn     = "work"
	byColumn       = "by"
	noteColumn     = "note"
	replacesColumn = "replaces"
	idColumn       = "id"
)

// Heads are the words that a head can have, for those who list them.
func Heads() []string {
	heads := slices.Clone(textColumns)
	for _, q := range Quantities {
		heads = append(heads, q.Name)
	}
	return heads
}

// head takes a head apart: “Strength (% v/v)” is strength and % v/v.
func head(text string) (name, unit string, hasUnit bool) {
	text = strings.TrimSpace(strings.ReplaceAll(text, "\u00a0", " "))
	open := strings.IndexAny(text, "([")
	if open > 0 && strings.HasSuffix(text, map[byte]string{'(': ")", '[': "]"}[text[open]]) {
		return key(text[:open]), strings.TrimSpace(text[open+1 : len(text)-1]), true
	}
	return key(text), "", false
}

// key is the name of a head without regard to capitals.
func key(text string) string { return strings.ToLower(strings.TrimSpace(text)) }
