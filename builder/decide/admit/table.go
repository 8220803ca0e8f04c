package admit

import (
	"tankside/builder/decide/fact"
	"tankside/builder/finding"
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

// Caution is a safety message of an article, with its signal word of ANSI Z535.6.
type Caution struct {
	Signal string `json:"signal"` // DANGER, WARNING, CAUTION, NOTICE
	Text   string `json:"text"`
	Place
}

// gravest is the signal word of its gravest safety message.
func (i *Item) gravest() string {
	if list := gravestFirst(i.Cautions); len(list) > 0 {
		return list[0].Signal
	}
	return ""
}

// Item is an article: what it is called, and what it warns of.
type Item struct {
	Name     string
	Title    string
	Path     string
	Cautions []Caution
}

func (i *Item) title() string { return i.Title }

// Material is a material at risk.
type Material struct {
	Item
	fact.Material
}

// Soil is what comes off.
type Soil struct {
	Item
	fact.Soil
}

// Chemistry is what a bath is made of.
type Chemistry struct {
	Item
	fact.Chemistry
}

// PartSheet is a part with its process sheet.
type PartSheet struct {
	Item
	fact.Part
}

// Tank is a vessel of the line as this edition has it.
type Tank struct {
	fact.Tank
	Drift  Drift
	Rinses []string // ids of the rinses that parts go through after it, in their order
}

// Drift is where the sound alone takes the temperature of a tank, with the lid shut and the heater off.
type Drift struct {
	Known bool
	Ends  float64 // °C at which losses are as large as what the sound gives, wherever the heater stands
	Least float64 // °C, the same at the low end of what is likely
}

// WarmsItself tells whether a tank's own sound takes it past its set-point.
func (t *Tank) WarmsItself() bool { return t.Drift.Known && t.Drift.Ends > t.Temperature.High }

// Rinse is a rinse of the line with what follows from what is carried into it.
type Rinse struct {
	fact.Rinse
	RunsPH  fact.Limit // while parts run; where something is missing for it, the furthest that it can be
	Plain   fact.Limit // pH of its water alone
	RunsAt  fact.Limit // temperature while parts run
	Missing Sentence   // what keeps the pH from being known; empty where it is
}

// Table is all that is needed to decide. Materials and soils are in the order in which they are offered; tanks, chemistries and rinses in
// that of the manual.
type Table struct {
	System      string // SI or US: the units of the shop
	Materials   []Material
	Soils       []Soil
	Chemistries []Chemistry
	Tanks       []Tank
	Rinses      []Rinse
	Dryer       fact.Dryer
	Parts       []PartSheet
}

// Bath is what parts meet: a chemistry in a tank as this edition has it or as a process sheet runs it, or a chemistry by itself.
type Bath struct {
	Name        string // id of the tank, or name of the chemistry
	Title       string // of the tank or chemistry
	Tank        *Tank  // nil for a chemistry by itself
	Chemistry   *Chemistry
	fact.Window               // the values at which it is; those that are not set are open
	Sheet       bool          // the values are those of a process sheet, which are run and not set for a load
	At          finding.Place // where the sheet names it
}

// Baths gives the tanks that hold a chemistry which the manual knows, as this edition has them, then each chemistry by itself.
func (t *Table) Baths() []Bath {
	var list []Bath
	for i := range t.Tanks {
		if b, known := t.inTank(&t.Tanks[i]); known {
			list = append(list, b)
		}
	}
	for i := range t.Chemistries {
		c := &t.Chemistries[i]
		list = append(list, Bath{Name: c.Name, Title: c.Title, Chemistry: c})
	}
	return list
}

// inTank is the bath of a tank as this edition has it; false where it names no chemistry that the manual knows.
func (t *Table) inTank(tank *Tank) (Bath, bool) {
	c := named(t.Chemistries, tank.Chemistry.Name)
	return Bath{
		Name: tank.ID, Title: tank.Name, Tank: tank, Chemistry: c,
		Window: fact.Window{Strength: tank.Strength, Temperature: tank.Temperature, Frequency: tank.Frequency},
	}, c != nil
}

// Bath gives the bath with that name, or nil. Tanks come before chemistries.
func (t *Table) Bath(name string) *Bath {
	for i := range t.Tanks {
		if t.Tanks[i].ID == name {
			if b, known := t.inTank(&t.Tanks[i]); known {
				return &b
			}
		}
	}
	if c := named(t.Chemistries, name); c != nil {
		return &Bath{Name: c.Name, Title: c.Title, Chemistry: c}
	}
	return nil
}

// InStep is the bath of one wash of a process sheet. Where the sheet does not say how strong or hot, the tank does, if it holds that
// chemistry today; and where it does not say at what frequency. It is false where the manual knows no such chemistry.
func (t *Table) InStep(s *fact.Step) (Bath, bool) {
	b := Bath{Name: s.Chemistry.Name, Chemistry: named(t.Chemistries, s.Chemistry.Name), Window: s.Window, Sheet: true, At: s.Chemistry.At}
	if b.Chemistry == nil {
		return b, false
	}
	b.Title = b.Chemistry.Title
	for i := range t.Tanks {
		if t.Tanks[i].ID == s.Tank.Name {
			b.Tank = &t.Tanks[i]
			break
		}
	}
	if b.Tank == nil {
		return b, true
	}
	b.Title = b.Tank.Name
	if b.Tank.Chemistry.Name == s.Chemistry.Name {
		if !b.Strength.Set {
			b.Strength = b.Tank.Strength
		}
		if !b.Temperature.Set {
			b.Temperature = b.Tank.Temperature
		}
	}
	if !b.Frequency.Set {
		b.Frequency = b.Tank.Frequency
	}
	return b, true
}

// value is what a bath has of something, and where that is written: in the tank, in the sheet, or in the chemistry's own window.
func (b *Bath) value(what What) fact.Limit {
	set, own := b.Window, b.Chemistry.Window
	pick := func(set, own fact.Limit) fact.Limit {
		if set.Set {
			return set
		}
		return own
	}
	switch what {
	case PH:
		return b.Chemistry.PH
	case Strength:
		return pick(set.Strength, own.Strength)
	case Temperature:
		return pick(set.Temperature, own.Temperature)
	case Time:
		return pick(set.Time, own.Time)
	}
	return pick(set.Frequency, own.Frequency)
}

// has tells whether a bath has something that a limit can be of: what has no water has no pH, whatever materials ask for.
func (b *Bath) has(what What) bool { return what != PH || !b.Chemistry.NoWater }

// Silicated tells whether there is silicate in the bath.
func (b *Bath) Silicated() bool {
	_, has := b.Contains("silicate")
	return has
}

// Sounds tells whether the bath can have sound: its tank can. A chemistry by itself has none until somebody puts it into a tank.
func (b *Bath) Sounds() bool { return b.Tank != nil && b.Tank.Sounds() }

// withoutSound tells whether nobody may, or can, have sound in the bath: its tank has none, or what can be lit has no tank yet and may only stand in a jar.
func (b *Bath) withoutSound() bool {
	if b.Tank != nil {
		return !b.Tank.Sounds()
	}
	_, is := b.Chemistry.Flammable()
	return is && b.Chemistry.coldOnly()
}

// named finds an article by its name.
func named[T any, P interface {
	*T
	name() string
}](items []T, name string) P {
	for i := range items {
		if P(&items[i]).name() == name {
			return &items[i]
		}
	}
	return nil
}

func (i *Item) name() string { return i.Name }

// ofTank gives what the tank asks for, where the bath is in one.
func (b *Bath) ofTank() []Limit {
	if b.Tank == nil {
		return nil
	}
	return OfTank(b.Tank)
}

// MaterialItems gives the materials as articles.
func (t *Table) MaterialItems() []Item {
	return itemsOf(t.Materials, func(m *Material) *Item { return &m.Item })
}

// SoilItems gives the soils as articles.
func (t *Table) SoilItems() []Item {
	return itemsOf(t.Soils, func(s *Soil) *Item { return &s.Item })
}

// PartItems gives the parts as articles.
func (t *Table) PartItems() []Item {
	return itemsOf(t.Parts, func(p *PartSheet) *Item { return &p.Item })
}

// BathItems gives the tanks and chemistries by their names and titles.
func (t *Table) BathItems() []Item {
	return itemsOf(t.Baths(), func(b *Bath) *Item { return &Item{Name: b.Name, Title: b.Title, Path: b.Chemistry.Path} })
}

func itemsOf[T any](list []T, item func(*T) *Item) []Item {
	items := make([]Item, len(list))
	for i := range list {
		items[i] = *item(&list[i])
	}
	return items
}
