// Package starter makes a new manual: the shop file from a few answers, and some short articles that are true of every shop, from which
// a trainer goes on. [ShopFields] and [TankFields] are what has to be known; [Shop.Files] gives the files.
package starter

import (
	"bytes"
	"embed"
	"fmt"
	"io/fs"
	"strings"
	"text/template"
	"time"
	"unicode"
	"unicode/utf8"

	"tankside/builder/quantity"
	"tankside/calculators"
)

// Shop is what a new manual knows of its shop, every quantity as written.
type Shop struct {
	Name     string
	US       bool
	Altitude string
	Hardness string // "" where nobody knows it
	Tanks    []Tank
}

// Tank is an ultrasonic tank. Heater is "" where it has none.
type Tank struct {
	ID, Name                         string
	Volume, Heater, Power, Frequency string
}

// System is the family of units that the shop writes.
func (s *Shop) System() quantity.System {
	if s.US {
		return quantity.US
	}
	return quantity.SI
}

// Field is one thing that has to be known of a T.
type Field[T any] struct {
	Name  string // as an option
	Ask   func(quantity.System) string
	Usual func(quantity.System) string // what no answer stands for; "" where an answer is needed
	Empty bool                         // no answer leaves it unknown

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
	{Name: "hardness", Ask: either("Hardness of the water, such as 260 mg/L (the supplier tells it)", "Hardness of the water, such as 15 gpg (the supplier tells it)"), Usual: plain(""), Empty: true, Set: func(s *Shop, answer string, system quantity.System) error {
		return setAmount(&s.Hardness, answer, system, "hardness", "hardness")
	}},
}

// TankFields are asked for each tank.
var TankFields = []Field[Tank]{
	{Name: "name", Ask: plain("Name of the tank"), Usual: plain(""), Set: func(t *Tank, answer string, _ quantity.System) error {
		return setName(&t.Name, answer)
	}},
	{Name: "volume", Ask: either("Volume, filled to the mark, such as 120 L", "Volume, filled to the mark, such as 32 US gal"), Usual: plain(""), Set: func(t *Tank, answer string, system quantity.System) error {
		return setAmount(&t.Volume, answer, system, "heat-up", "volume")
	}},
	{Name: "heater", Ask: plain("Heater, such as 6 kW, or none"), Usual: plain(""), Set: func(t *Tank, answer string, system quantity.System) error {
		if strings.EqualFold(answer, "none") {
			t.Heater = ""
			return nil
		}
		return setAmount(&t.Heater, answer, system, "heat-up", "heater")
	}},
	{Name: "ultrasonic power", Ask: plain("Electrical power of the ultrasonics, such as 1.2 kW"), Usual: plain(""), Set: func(t *Tank, answer string, system quantity.System) error {
		return setAmount(&t.Power, answer, system, "degas", "ultrasonic-power")
	}},
	{Name: "frequency", Ask: plain("Frequency of the ultrasonics, such as 40 kHz"), Usual: plain(""), Set: func(t *Tank, answer string, system quantity.System) error {
		return setAmount(&t.Frequency, answer, system, "degas", "frequency")
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
	c, ok := calculators.Named(calculator)
	if !ok {
		return calculators.Unknown(calculator)
	}
	in, ok := c.Input(input)
	if !ok || len(in.Measures) == 0 {
		return fmt.Errorf("the calculator %s has no input %s", calculator, input)
	}
	m := in.Measures[0]
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

//go:embed manual
var files embed.FS

// Files gives the files of a new manual by their paths in it. Nobody has approved its articles, and they are to be looked at again half a
// year after the day given, by when the shop will have made them its own.
func (s Shop) Files(today time.Time) (map[string][]byte, error) {
	if s.Name == "" || len(s.Tanks) == 0 {
		return nil, fmt.Errorf("a shop has a name and a tank at least")
	}
	data := struct {
		Shop
		ReviewBy string
		First    Tank
	}{s, today.AddDate(0, 6, 0).Format(time.DateOnly), Tank{}}
	data.Tanks = make([]Tank, len(s.Tanks))
	for i, t := range s.Tanks {
		t.ID = fmt.Sprintf("wash-%d", i+1)
		data.Tanks[i] = t
	}
	data.First = data.Tanks[0]
	made := make(map[string][]byte)
	err := fs.WalkDir(files, "manual", func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		text, err := files.ReadFile(path)
		if err != nil {
			return err
		}
		t, err := template.New(path).Funcs(template.FuncMap{"units": s.units, "quote": quote, "plain": plainly}).Parse(string(text))
		if err != nil {
			return err
		}
		var b bytes.Buffer
		if err := t.Execute(&b, data); err != nil {
			return err
		}
		made[strings.TrimPrefix(path, "manual/")] = b.Bytes()
		return nil
	})
	return made, err
}

// units picks the text in the shop's units.
func (s Shop) units(si, us string) string { return either(si, us)(s.System()) }

// quote writes a text as YAML does between double quotes; setName and quantity.Parse have seen to it that it is one line.
func quote(text string) string {
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(text) + `"`
}

// plainly writes a text into markdown so that every character stands for itself (CommonMark 0.31.2, section 2.4).
func plainly(text string) string {
	var b strings.Builder
	for _, r := range text {
		if strings.ContainsRune("\\`*_{}[]<>#&|~!", r) {
			b.WriteByte('\\')
		}
		b.WriteRune(r)
	}
	return b.String()
}
