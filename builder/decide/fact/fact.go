// Package fact holds what the headers of a manual and its shop file say that decides about a load: chemistries, materials, soils, parts,
// tanks, rinses and the dryer, each value with its place.
//
// It is plain data and imports little, so that the decision (package admit) is the same code where an edition is made, in the terminal and
// in the reader's browser. Package manual fills it.
package fact

import (
	"slices"

	"tankside/builder/finding"
	"tankside/builder/quantity"
)

// Ref is a word of a header, or the name of an article, with its place.
type Ref struct {
	Name string
	At   finding.Place

	// As is for a word of the shop's own vocabulary the word of the program's that it counts as. Unchecked tells that there is none: nothing
	// is known of what the word means, so nothing that it bears on is checked.
	As        string
	Unchecked bool
	Means     string // what the shop says of it
}

// Is gives the word that decides: of the program's own vocabulary, or the name.
func (r Ref) Is() string {
	if r.As != "" {
		return r.As
	}
	return r.Name
}

// One finds the first reference that is one of the words.
func One(refs []Ref, words ...string) (Ref, bool) {
	for _, r := range refs {
		if slices.Contains(words, r.Is()) {
			return r, true
		}
	}
	return Ref{}, false
}

// Rest says on what values of a header, or of a vessel in the shop file, rest.
type Rest struct {
	Source Ref   // of an article: one of its sources, by so many of its words as no other has
	Keys   []Ref // whose values rest on it
}

// Limit is a quantity range with its place. Set is false where nobody gives it. An open end is an infinity.
type Limit struct {
	quantity.Range
	At  finding.Place
	Set bool
}

// Window is a process: how strong, how hot, how long, at what frequency.
type Window struct {
	Strength, Temperature, Time, Frequency Limit
}

// Soil is what the model knows of a soil.
type Soil struct {
	Nature     string
	MayContain []Ref
	RemovedBy  []Removal
}

// Removal is a chemistry that lifts a soil, with the window in which it does.
type Removal struct {
	Chemistry Ref
	Window
}

// Chemistry is what the model knows of a chemistry. Temperatures are the bath's.
type Chemistry struct {
	PH                  Limit
	NoWater             bool  // ph: none
	Alkalinity, Acidity Limit // of the bath at the upper end of its strength, in kg/m³ as CaCO₃
	Window
	Ceiling, CloudPoint, FlashPoint Limit // single values
	Density                         Limit // of the concentrate
	Contains                        []Ref
	Removes                         []Ref
	Hazards                         []Ref // GHS codes
	ProtectiveEquipment             []string
	NeverWith                       []Ref // chemistry names, words of Contains, or acid, alkali
	ControlTest                     Ref
	Rinses                          string // easy, fair, hard, stays-on, dries-off
}

// Material is what the model knows of a material at risk.
type Material struct {
	MadeOf, Features             []Ref
	PH, PHSilicated, Temperature Limit
	Frequency, Time              Limit
	NoSound                      bool // frequency: none
	AttackedBy                   []Ref
	Damage                       []string
	Concessions                  []Concession
}

// Concession is what a named role lives with: a rule that would refuse a chemistry, within limits and for a reason.
// The word is that of ISO 9000:2015, 3.12.5.
type Concession struct {
	Chemistry Ref
	Rules     []Ref
	By        string // role
	Reason    string
	Window    // within which it holds
	At        finding.Place
}

// Part is a part's process sheet.
type Part struct {
	Materials, Features, Soils []Ref
	Steps                      []Step
	Rinse                      []Ref
	Dry                        Ref
	MustNotSpot                bool
	Next                       string
	Concessions                []Concession
}

// Step is one visit of a part to a tank.
type Step struct {
	Tank, Chemistry Ref
	Window
	At   finding.Place
	Keys Keyed // of a wash below steps
}

// Keyed gives the place of each key that an item of a list, or a mapping, has: a key that is there with the value no is not one that is not there.
type Keyed map[string]finding.Place

// Note notes a key.
func (k *Keyed) Note(key string, at finding.Place) {
	if *k == nil {
		*k = make(Keyed)
	}
	(*k)[key] = at
}

// Given are the keys that were given of a wash.
func (s *Step) Given() *Keyed { return &s.Keys }

// Given are the keys that were given of a tank.
func (t *Tank) Given() *Keyed { return &t.Keys }

// Given are the keys that were given of a rinse.
func (r *Rinse) Given() *Keyed { return &r.Keys }

// Given are the keys that were given of the dryer.
func (d *Dryer) Given() *Keyed { return &d.Keys }

// Tank is a vessel of the line as this edition has it: a tank with ultrasonics, or a jar.
type Tank struct {
	ID, Name                     string
	Vessel                       string // Jar, or "" for a tank
	Volume, Length, Width, Depth Limit  // filled to the mark
	Freeboard                    Limit  // from the mark to the rim
	Heater, Power, Frequency     Limit
	Duty, Cooling                Limit // share of the time that the sound runs; power of a cooling coil
	DragOut                      Limit // film that parts carry into the first rinse, while they run
	Lid, Flammables, Ventilated  bool
	Insulation                   Limit // thickness; zero: none
	Chemistry                    Ref
	Strength, Temperature        Limit
	RestsOn                      []Rest
	At                           finding.Place
	Keys                         Keyed
}

// Jar is the vessel that has neither heat nor sound: a covered jar or can in which parts are dipped cold.
const Jar = "jar"

// Sounds tells whether there can be sound in a tank. Where nothing is said of it, there can be.
func (t *Tank) Sounds() bool {
	return t.Vessel != Jar && !(t.Power.Set && t.Power.High == 0 && !t.Frequency.Set)
}

// Rinse is a rinse tank.
type Rinse struct {
	ID, Name, Water string
	Volume, Flow    Limit
	Stages          int
	Temperature     Limit
	Conductivity    Limit
	PH, Alkalinity  Limit // of its own water, where the shop's does not say it
	FedBy           Ref   // rinse whose overflow runs into it
	RestsOn         []Rest
	At              finding.Place
	Keys            Keyed
}

// Dryer is the dryer at the end of the line.
type Dryer struct {
	ID, Name, Means string
	Temperature     Limit
	RestsOn         []Rest
	At              finding.Place
	Keys            Keyed
}
