// Package sums joins a manual to the calculators: what the shop file knows of a tank, a rinse and the shop itself becomes what a
// calculator is asked with. The pages, the proof-reader and the command line all ask through it, so they ask the same.
package sums

import (
	"fmt"
	"math"
	"strings"

	"tankside/builder/decide/line"
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/calculators"
)

// UnknownTank says that the shop file has no tank of that name.
type UnknownTank struct {
	Name string
	Has  []string // the names that it has
}

func (e *UnknownTank) Error() string {
	return fmt.Sprintf("the shop file has no tank %q; it has %s", e.Name, strings.Join(e.Has, ", "))
}

// Values gives the inputs of a calculator: those given, and what the shop file knows beside them. The input "tank" names a tank or a
// rinse of the shop file and is replaced by what is known of it. The error is an *UnknownTank.
func Values(m *manual.Manual, calculator string, given map[string]string) (map[string]string, error) {
	rest := make(map[string]string, len(given))
	var t calculators.Tank
	for name, value := range given {
		if name != "tank" {
			rest[name] = value
			continue
		}
		var err error
		if t, err = tank(m, strings.TrimSpace(value)); err != nil {
			return nil, err
		}
		switch id := strings.TrimSpace(value); calculator {
		case "rinse":
			carries(m, id, &t)
		case "bath-life":
			if tank := m.Shop.Tank(id); tank != nil {
				t.DragOut = lower(tank.DragOut)
			}
		}
	}
	return calculators.Fill(calculator, t, Shop(m), rest), nil
}

// Given makes a mapping of the input values written in an article.
func Given(inputs []manual.Input) map[string]string {
	values := make(map[string]string, len(inputs))
	for _, in := range inputs {
		values[in.Name] = in.Value
	}
	return values
}

// System is the family of units that stands first in the shop.
func System(m *manual.Manual) quantity.System {
	if m.Shop.US {
		return quantity.US
	}
	return quantity.SI
}

func tank(m *manual.Manual, name string) (calculators.Tank, error) {
	for i := range m.Shop.Tanks {
		if t := &m.Shop.Tanks[i]; t.ID == name {
			return Tank(m, t), nil
		}
	}
	for i := range m.Shop.Rinses {
		if r := &m.Shop.Rinses[i]; r.ID == name {
			return rinse(m, r), nil
		}
	}
	e := &UnknownTank{Name: name}
	for _, t := range m.Shop.Tanks {
		e.Has = append(e.Has, t.ID)
	}
	for _, r := range m.Shop.Rinses {
		e.Has = append(e.Has, r.ID)
	}
	return calculators.Tank{}, e
}

// Tank is a tank of the shop file as the calculators know tanks, with what matters of the chemistry in it.
func Tank(m *manual.Manual, t *manual.Tank) calculators.Tank {
	c := calculators.Tank{
		Volume: text(t.Volume), Freeboard: text(t.Freeboard), Length: text(t.Length), Width: text(t.Width), Depth: text(t.Depth),
		Heater: text(t.Heater), UltrasonicPower: text(t.Power), Frequency: text(t.Frequency),
		Duty: text(t.Duty), Cooling: text(t.Cooling),
		Lid: "no", Insulation: text(t.Insulation),
		Strength: text(t.Strength), Temperature: text(t.Temperature),
	}
	if t.Lid {
		c.Lid = "yes"
	}
	if t.Power.Set && t.Power.High == 0 {
		c.UltrasonicPower = "" // there is none to reckon with
	}
	if t.Insulation.Set && t.Insulation.High == 0 {
		c.Insulation = "none"
	}
	if a := m.Named(manual.Chemistry, t.Chemistry.Name); a != nil {
		c.Density, c.Ceiling, c.FlashPoint = text(a.Chemistry.Density), text(highest(a.Chemistry)), text(a.Chemistry.FlashPoint)
	}
	return c
}

// highest is the temperature that a chemistry must not pass: its ceiling, or its cloud point where that is lower. The decision goes by both.
func highest(c *manual.ChemistryFacts) manual.Limit {
	if c.CloudPoint.Set && (!c.Ceiling.Set || c.CloudPoint.Low < c.Ceiling.Low) {
		return c.CloudPoint
	}
	return c.Ceiling
}

// carries adds what the rinse calculator wants to know of a wash: its bath's titration, what is dragged out of it, and the rinses behind it. It
// asks for the process sheets, that is for every article, which no other sum does.
func carries(m *manual.Manual, name string, c *calculators.Tank) {
	t := m.Shop.Tank(name)
	if t == nil {
		return
	}
	c.DragOut = upper(t.DragOut)
	route := line.Route(m, t)
	for i, r := range route {
		next := rinse(m, r)
		if next.Stages == "" {
			next.Stages = "1"
		}
		if i > 0 && route[i-1].FedBy.Name == r.ID {
			next.RunsOn = "yes"
		}
		c.Rinses = append(c.Rinses, next)
	}
	if line.Shared(m, t) {
		c.OtherWays = "yes"
	}
	a := m.Named(manual.Chemistry, t.Chemistry.Name)
	if a == nil || !a.Chemistry.PH.Set {
		return
	}
	c.PH, c.PHTo = upper(a.Chemistry.PH), lower(a.Chemistry.PH)
	if a.Chemistry.PH.High <= 7 {
		c.PH, c.PHTo = c.PHTo, c.PH
	}
	alkalinity, acidity, carbonates, ok := line.Titration(m, t)
	if !ok {
		return
	}
	c.Alkalinity, c.Acidity = titration(a.Chemistry.Alkalinity, alkalinity), titration(a.Chemistry.Acidity, acidity)
	if carbonates {
		c.Alkali = "carbonate"
	}
}

// titration writes an alkalinity in the unit of a limit; nothing where the limit is not set.
func titration(l manual.Limit, si float64) string {
	if !l.Set {
		return ""
	}
	r := l.Range
	r.Low, r.High = si, si
	return r.String()
}

// lower writes the lower end of a limit, or nothing where there is none: what is dragged out keeps a bath clean, so that less of it is the safe side.
func lower(l manual.Limit) string {
	l.High = l.Low
	if math.IsInf(l.Low, 0) {
		return ""
	}
	return text(l)
}

// upper writes the upper end of a limit, or nothing where there is none.
func upper(l manual.Limit) string {
	l.Low = l.High
	if math.IsInf(l.High, 0) {
		return ""
	}
	return text(l)
}

func rinse(m *manual.Manual, r *manual.Rinse) calculators.Tank {
	c := calculators.Tank{Volume: text(r.Volume), Temperature: text(r.Temperature), Flow: text(r.Flow), Conductivity: text(r.Conductivity)}
	if r.Stages > 0 {
		c.Stages = fmt.Sprint(r.Stages)
	}
	ph, alkalinity, pure := line.Water(m, r)
	c.WaterPH, c.WaterAlkalinity = text(ph), text(alkalinity)
	if pure {
		c.WaterAlkalinity = "0 mg/L"
	}
	return c
}

// Shop is what the shop file knows of the shop itself.
func Shop(m *manual.Manual) calculators.Shop {
	s, w := &m.Shop, &m.Shop.Water
	c := calculators.Shop{
		Air: text(s.Air.Temperature), Humidity: text(s.Air.Humidity), Altitude: text(s.Altitude),
		WaterTemperature: text(w.Temperature), Hardness: text(w.Hardness), DissolvedSolids: text(w.DissolvedSolids), WaterConductivity: text(w.Conductivity),
		PH: text(w.PH), Alkalinity: text(w.Alkalinity), Dryer: text(s.Dryer.Temperature),
	}
	if s.EnergyPrice > 0 {
		c.EnergyPrice = strings.TrimSpace(fmt.Sprintf("%g %s/kWh", s.EnergyPrice, s.Currency))
	}
	return c
}

// text writes a limit as a calculator reads it; one that is not set, or is a range, is unknown to it.
func text(l manual.Limit) string {
	if !l.Set || l.Low != l.High {
		return ""
	}
	return l.Range.String()
}
