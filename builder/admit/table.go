package admit

import (
	"tankside/calculators/quantity"
)

// What is asked for.
type What string

// What a bath, a material or a soil can ask for, in the order of a recipe.
const (
	PH          What = "ph"
	Strength    What = "strength"
	Temperature What = "temperature"
	Time        What = "time"
	Frequency   What = "frequency"
)

var everything = []What{PH, Strength, Temperature, Time, Frequency}

// Limit is what one of them asks for. A missing end is open.
type Limit struct {
	What What
	Kind quantity.Kind
	Low  *float64 // SI unit of Kind
	High *float64 // SI unit of Kind
	Unit string   // symbol of the unit it is written in
	Asks Sentence // "the window to lift wax is 65–75 °C"
	Place
	Rule string

	// Silicated tells for which baths the limit counts: "" for all, "yes" for those with silicate, "no" for the others.
	Silicated string
}

// Caution is a safety message of an article, with its signal word of ANSI Z535.6.
type Caution struct {
	Signal string `json:"signal"` // DANGER, WARNING, CAUTION, NOTICE
	Text   string `json:"text"`
	Place
}

// Item is a material or a soil.
type Item struct {
	Name     string
	Title    string
	Path     string
	Limits   []Limit
	Cautions []Caution
}

// Bath is a tank as it stands today, or a chemistry by itself.
type Bath struct {
	Name      string // id of the tank, or name of the chemistry
	Title     string // of the tank or chemistry
	Tank      bool
	Chemistry string // title
	Path      string // of the chemistry's article
	Silicated bool
	Limits    []Limit
	Today     map[What]quantity.Range // as it is set: single amounts
	Reasons   []Reason
	Cautions  []Caution
	Protect   []string // protective equipment

	// Materials holds by the name of a material the reasons for and against it in this bath.
	Materials map[string][]Reason
	// Soils holds by the name of a soil what this bath's chemistry does to it. A soil that is missing is not lifted.
	Soils map[string]Lift
}

// Lift is what a chemistry needs to lift a soil.
type Lift struct {
	Reasons []Reason
	Limits  []Limit
}

// Pair is a reason against having two materials in one bath.
type Pair struct {
	A      string
	B      string
	Reason Reason
}

// Table is all that is needed to answer.
type Table struct {
	System    string // SI or US: the units of the shop
	Materials []Item
	Soils     []Item
	Baths     []Bath
	Pairs     []Pair

	// SoilReasons holds by the name of a soil what stands against it in any bath.
	SoilReasons map[string][]Reason
	// MaterialReasons holds by the name of a material what stands against it in any bath.
	MaterialReasons map[string][]Reason
}

// Bath gives the bath with that name, or nil. Tanks come before chemistries.
func (t *Table) Bath(name string) *Bath {
	for i := range t.Baths {
		if t.Baths[i].Name == name {
			return &t.Baths[i]
		}
	}
	return nil
}
