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
	What What          `json:"what"`
	Kind quantity.Kind `json:"kind"`
	Low  *float64      `json:"low,omitempty"`  // SI unit of Kind
	High *float64      `json:"high,omitempty"` // SI unit of Kind
	Unit string        `json:"unit"`           // symbol of the unit it is written in
	Asks string        `json:"asks"`           // "the window to lift wax is 65–75 °C"
	Place
	Rule string `json:"rule,omitempty"`

	// Silicated tells for which baths the limit counts: "" for all, "yes" for those with silicate, "no" for the others.
	Silicated string `json:"silicated,omitempty"`
}

// Caution is a safety message of an article, with its signal word of ANSI Z535.6.
type Caution struct {
	Signal string `json:"signal"` // DANGER, WARNING, CAUTION, NOTICE
	Text   string `json:"text"`
	Place
}

// Item is a material or a soil.
type Item struct {
	Name     string    `json:"name"`
	Title    string    `json:"title"`
	Path     string    `json:"path"`
	Limits   []Limit   `json:"limits,omitempty"`
	Cautions []Caution `json:"cautions,omitempty"`
}

// Bath is a tank as it stands today, or a chemistry by itself.
type Bath struct {
	Name      string           `json:"name"`  // id of the tank, or name of the chemistry
	Title     string           `json:"title"` // of the tank or chemistry
	Tank      bool             `json:"tank,omitempty"`
	Chemistry string           `json:"chemistry"` // title
	Path      string           `json:"path"`      // of the chemistry's article
	Silicated bool             `json:"silicated,omitempty"`
	Limits    []Limit          `json:"limits,omitempty"`
	Today     map[What]float64 `json:"today,omitempty"` // as it is set, SI
	Reasons   []Reason         `json:"reasons,omitempty"`
	Cautions  []Caution        `json:"cautions,omitempty"`
	Protect   []string         `json:"protect,omitempty"` // protective equipment

	// Materials holds by the name of a material the reasons for and against it in this bath.
	Materials map[string][]Reason `json:"materials,omitempty"`
	// Soils holds by the name of a soil what this bath's chemistry does to it. A soil that is missing is not lifted.
	Soils map[string]Lift `json:"soils,omitempty"`
}

// Lift is what a chemistry needs to lift a soil.
type Lift struct {
	Reasons []Reason `json:"reasons,omitempty"`
	Limits  []Limit  `json:"limits,omitempty"`
}

// Pair is a reason against having two materials in one bath.
type Pair struct {
	A      string `json:"a"`
	B      string `json:"b"`
	Reason Reason `json:"reason"`
}

// Table is all that is needed to answer.
type Table struct {
	System    string `json:"system"` // SI or US: the units in which a recipe is written
	Materials []Item `json:"materials"`
	Soils     []Item `json:"soils"`
	Baths     []Bath `json:"baths"`
	Pairs     []Pair `json:"pairs,omitempty"`

	// SoilReasons holds by the name of a soil what stands against it in any bath.
	SoilReasons map[string][]Reason `json:"soil-reasons,omitempty"`
	// MaterialReasons holds by the name of a material what stands against it in any bath.
	MaterialReasons map[string][]Reason `json:"material-reasons,omitempty"`
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
