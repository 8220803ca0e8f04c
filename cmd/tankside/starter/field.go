package starter

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"tankside/builder/quantity"
	"tankside/calculators"
)

// Unnamed is what a shop is called that nobody has named.
const Unnamed = "Our shop"

// unknown is the answer of whoever does not know.
const unknown = "unknown"

// Shop is what a new manual knows of its shop, every quantity as written.
type Shop struct {
	Name     string
	US       bool
	Altitude string
	Water    Water
	Tanks    []Tank
	Rinses   []Rinse
	Dryer    *Dryer
}

// Water is the water that tanks are filled with; "" where nobody knows it.
type Water struct{ Hardness, PH, Alkalinity, Conductivity string }

// Known tells whether anything of the water is known.
func (w Water) Known() bool { return w != Water{} }

// Tank is an ultrasonic tank. Heater and Power are "" where it has none or nobody knows, which NoHeater and NoSound tell apart; Frequency is ""
// where nobody knows it.
type Tank struct {
	ID, Name                         string
	Volume, Heater, Power, Frequency string
	NoHeater, NoSound                bool
}

// Jar tells whether it has neither heat nor sound.
func (t Tank) Jar() bool { return t.NoHeater && t.NoSound }

// Swept tells whether the frequency is a range.
func (t Tank) Swept() bool {
	r, err := quantity.ParseRange(t.Frequency, quantity.Frequency)
	return err == nil && r.Low != r.High
}

// Rinse is a rinse tank.
type Rinse struct {
	ID, Name, Volume, Water, Stages, Flow string
}

// Dryer is the dryer.
type Dryer struct{ Name, Temperature, Kind string }

// System is the family of units that the shop writes.
func (s *Shop) System() quantity.System {
	if s.US {
		return quantity.US
	}
	return quantity.SI
}

// Field is one thing that has to be known of a T.
type Field[T any] struct {
	Name  string   // as an option, and as the shop file's key
	Also  []string // other words for it, as type plates have them
	Ask   func(quantity.System) string
	Usual func(quantity.System) string // what no answer stands for; "" where an answer is needed
	Empty bool                         // no answer leaves it unknown
	Words bool                         // any words will do

	// Set reads the answer. The error is a sentence that says what is accepted.
	Set func(to *T, answer string, system quantity.System) error
}

// ShopFields are asked once.
var ShopFields = []Field[Shop]{
	{Name: "name", Ask: plain("Name of the shop"), Usual: plain(""), Set: func(s *Shop, answer string, _ quantity.System) error {
		return setName(&s.Name, answer)
	}},
	{Name: "units", Ask: plain("Units that stand first, SI or US"), Usual: plain("SI"), Set: func(s *Shop, answer string, _ quantity.System) error {
		system, known := quantity.SystemNamed(answer)
		if !known {
			return fmt.Errorf("units are SI or US, not “%s”", answer)
		}
		s.US = system == quantity.US
		return nil
	}},
	{Name: "altitude", Ask: either("Height of the shop above the sea, such as 240 m", "Height of the shop above the sea, such as 800 ft"), Usual: either("0 m", "0 ft"), Set: func(s *Shop, answer string, system quantity.System) error {
		return setAmount(&s.Altitude, answer, system, "heat-up", "altitude")
	}},
}

// WaterFields are asked once. The supplier of the water tells them.
var WaterFields = []Field[Water]{
	{Name: "hardness", Ask: either("Hardness of the water, such as 260 mg/L (the supplier tells it)", "Hardness of the water, such as 15 gpg (the supplier tells it)"), Usual: plain(""), Empty: true, Set: func(w *Water, answer string, system quantity.System) error {
		return setAmount(&w.Hardness, answer, system, "hardness", "hardness")
	}},
	{Name: "ph", Ask: plain("pH of the water, such as 7.6"), Usual: plain(""), Empty: true, Set: func(w *Water, answer string, _ quantity.System) error {
		return setKind(&w.PH, answer, quantity.PH)
	}},
	{Name: "alkalinity", Ask: plain("Alkalinity of the water, as calcium carbonate, such as 220 mg/L"), Usual: plain(""), Empty: true, Set: func(w *Water, answer string, _ quantity.System) error {
		return setKind(&w.Alkalinity, answer, quantity.Alkalinity)
	}},
	{Name: "conductivity", Ask: plain("Conductivity of the water, such as 640 µS/cm"), Usual: plain(""), Empty: true, Set: func(w *Water, answer string, _ quantity.System) error {
		return setKind(&w.Conductivity, answer, quantity.Conductivity)
	}},
}

// TankFields are asked for each tank. What a type plate does not say stays unknown.
var TankFields = []Field[Tank]{
	{Name: "name", Words: true, Ask: plain("Name of the tank"), Usual: plain(""), Set: func(t *Tank, answer string, _ quantity.System) error {
		return setName(&t.Name, answer)
	}},
	{Name: "volume", Also: []string{"capacity", "contents"}, Ask: either("Volume, filled to the mark, such as 120 L", "Volume, filled to the mark, such as 32 US gal"), Usual: plain(""), Set: func(t *Tank, answer string, system quantity.System) error {
		return setAmount(&t.Volume, answer, system, "heat-up", "volume")
	}},
	{Name: "heater", Also: []string{"heating", "heat"}, Ask: plain("Heater, such as 6 kW, or none, or unknown"), Usual: plain(""), Set: func(t *Tank, answer string, system quantity.System) error {
		t.Heater, t.NoHeater = "", strings.EqualFold(answer, "none")
		if t.NoHeater || strings.EqualFold(answer, unknown) {
			return nil
		}
		return setAmount(&t.Heater, answer, system, "heat-up", "heater")
	}},
	{Name: "ultrasonic-power", Also: []string{"ultrasonic power", "ultrasonics", "ultrasonic", "ultrasound", "sound"}, Ask: plain("Electrical power of the ultrasonics, such as 1.2 kW, or none, or unknown"), Usual: plain(""), Set: func(t *Tank, answer string, system quantity.System) error {
		t.Power, t.NoSound = "", strings.EqualFold(answer, "none")
		if t.NoSound || strings.EqualFold(answer, unknown) {
			return nil
		}
		return setAmount(&t.Power, answer, system, "degas", "ultrasonic-power")
	}},
	{Name: "frequency", Ask: plain("Frequency of the ultrasonics, such as 40 kHz, or 37–45 kHz where it sweeps, or unknown"), Usual: plain(""), Set: func(t *Tank, answer string, system quantity.System) error {
		if t.Frequency = ""; strings.EqualFold(answer, unknown) {
			return nil
		}
		return setAmounts(&t.Frequency, answer, system, "degas", "frequency")
	}},
}

// waters are what rinses are fed with; of any other the shop file wants to know more.
var waters = []string{"mains", "deionised", "demineralised", "distilled", "reverse osmosis"}

// RinseFields are asked for each rinse, in the order of the line.
var RinseFields = []Field[Rinse]{
	{Name: "name", Words: true, Ask: plain("Name of the rinse"), Usual: plain(""), Set: func(r *Rinse, answer string, _ quantity.System) error {
		return setName(&r.Name, answer)
	}},
	{Name: "volume", Ask: either("Volume of one stage, such as 90 L", "Volume of one stage, such as 24 US gal"), Usual: plain(""), Set: func(r *Rinse, answer string, system quantity.System) error {
		return setAmount(&r.Volume, answer, system, "heat-up", "volume")
	}},
	{Name: "water", Ask: plain("Its water: " + strings.Join(waters, ", ")), Usual: plain("mains"), Set: func(r *Rinse, answer string, _ quantity.System) error {
		for _, w := range waters {
			if strings.EqualFold(w, answer) {
				r.Water = w
				return nil
			}
		}
		return fmt.Errorf("the water of a rinse is one of %s; of any other write its pH and alkalinity into the shop file afterwards", strings.Join(waters, ", "))
	}},
	{Name: "stages", Also: []string{"stage"}, Ask: plain("Number of stages in counterflow"), Usual: plain("1"), Set: func(r *Rinse, answer string, _ quantity.System) error {
		n, err := strconv.Atoi(answer)
		if err != nil || n < 1 || n > 9 {
			return fmt.Errorf("the number of stages is a whole number from 1 to 9")
		}
		r.Stages = answer
		return nil
	}},
	{Name: "flow", Ask: either("Flow of fresh water, such as 4 L/min", "Flow of fresh water, such as 1 US gal/min"), Usual: plain(""), Empty: true, Set: func(r *Rinse, answer string, system quantity.System) error {
		return setAmount(&r.Flow, answer, system, "rinse", "flow")
	}},
}

// DryerFields are asked once, where there is a dryer.
var DryerFields = []Field[Dryer]{
	{Name: "name", Words: true, Ask: plain("Name of the dryer"), Usual: plain("Dryer"), Set: func(d *Dryer, answer string, _ quantity.System) error {
		return setName(&d.Name, answer)
	}},
	{Name: "temperature", Ask: either("Temperature of its air, such as 80 °C", "Temperature of its air, such as 176 °F"), Usual: plain(""), Empty: true, Set: func(d *Dryer, answer string, _ quantity.System) error {
		return setKind(&d.Temperature, answer, quantity.Temperature)
	}},
	{Name: "kind", Words: true, Ask: plain("How it dries, such as recirculated hot air"), Usual: plain(""), Empty: true, Set: func(d *Dryer, answer string, _ quantity.System) error {
		return setName(&d.Kind, answer)
	}},
}

func plain(text string) func(quantity.System) string {
	return func(quantity.System) string { return text }
}

func either(si, us string) func(quantity.System) string {
	return func(system quantity.System) string {
		if system == quantity.US {
			return us
		}
		return si
	}
}

// longestName is how many letters a name may have; the shop file allows as many.
const longestName = 80

func setName(to *string, answer string) error {
	switch {
	case !utf8.ValidString(answer), strings.ContainsFunc(answer, unicode.IsControl):
		return fmt.Errorf("a name is a line of letters, figures and signs")
	case !strings.ContainsFunc(answer, func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }):
		return fmt.Errorf("a name has at least one letter or figure")
	case utf8.RuneCountInString(answer) > longestName:
		return fmt.Errorf("a name has %d letters at most", longestName)
	}
	*to = answer
	return nil
}

// setAmount reads an amount and holds it against the range that the calculator accepts for its input, so that no sum in the new
// manual is without a result.
func setAmount(to *string, answer string, system quantity.System, calculator, input string) error {
	m, err := measureOf(calculator, input)
	if err != nil {
		return err
	}
	v, err := quantity.Parse(answer, m.Kind)
	if err != nil {
		return err
	}
	if v.Loose && system != quantity.US {
		us, imperial := v.BothGallons()
		return fmt.Errorf("US or imperial measure? Write %s or %s", us, imperial)
	}
	if v.SI < m.Low || v.SI > m.High {
		return fmt.Errorf("%s is outside what is accepted, %s", v, m.Accepted(system, nil))
	}
	*to = answer
	return nil
}

// measureOf is what a calculator accepts for an input.
func measureOf(calculator, input string) (calculators.Measure, error) {
	c, ok := calculators.Named(calculator)
	if !ok {
		return calculators.Measure{}, calculators.Unknown(calculator)
	}
	in, ok := c.Input(input)
	if !ok || len(in.Measures) == 0 {
		return calculators.Measure{}, fmt.Errorf("the calculator %s has no input %s", calculator, input)
	}
	return in.Measures[0], nil
}

// setAmounts is setAmount for an amount or a range, each end of which has to be accepted.
func setAmounts(to *string, answer string, system quantity.System, calculator, input string) error {
	m, err := measureOf(calculator, input)
	if err != nil {
		return err
	}
	r, err := quantity.ParseRange(answer, m.Kind)
	if err != nil {
		return err
	}
	if r.Low < m.Low || r.High > m.High {
		return fmt.Errorf("%s is outside what is accepted, %s", answer, m.Accepted(system, nil))
	}
	*to = answer
	return nil
}

// setKind reads an amount of a kind, as the shop file takes it.
func setKind(to *string, answer string, kind quantity.Kind) error {
	r, err := quantity.ParseRange(answer, kind)
	if err != nil {
		return err
	}
	if kind == quantity.PH && (r.Low < 0 || r.High > 14) {
		return fmt.Errorf("pH goes from 0 to 14")
	}
	*to = answer
	return nil
}
