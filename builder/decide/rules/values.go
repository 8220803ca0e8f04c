package rules

import (
	"fmt"
	"strconv"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/quantity"
)

// value is an amount of a header or of the shop file, with what it belongs to.
type value struct {
	key   string // of the header or the shop file
	limit manual.Limit
	of    string // whose it is: an article's path, or the id of a tank, rinse or dryer; "" for the shop itself
	label string // the same in a sentence
	part  string // of several of a sort in one header: the chemistry that lifts a soil, the number of a wash; "" otherwise
}

// valuesOf gives the amounts of an article's header that are given.
func valuesOf(a *manual.Article) []value {
	var list []value
	part := ""
	add := func(key string, l manual.Limit) {
		if l.Set {
			list = append(list, value{key, l, a.Path, a.Head.Title, part})
		}
	}
	window := func(w manual.Window) {
		add("strength", w.Strength)
		add("temperature", w.Temperature)
		add("time", w.Time)
		add("frequency", w.Frequency)
	}
	switch {
	case a.Chemistry != nil:
		c := a.Chemistry
		add("ph", c.PH)
		window(c.Window)
		add("ceiling", c.Ceiling)
		add("cloud-point", c.CloudPoint)
		add("flash-point", c.FlashPoint)
		add("density", c.Density)
	case a.Material != nil:
		f := a.Material
		add("ph", f.PH)
		add("ph-silicated", f.PHSilicated)
		window(manual.Window{Temperature: f.Temperature, Time: f.Time, Frequency: f.Frequency})
	case a.Soil != nil:
		for _, r := range a.Soil.RemovedBy {
			part = r.Chemistry.Name
			window(r.Window)
		}
	case a.Part != nil:
		for i, s := range a.Part.Steps {
			part = strconv.Itoa(i)
			window(s.Window)
		}
	case a.Procedure != nil:
		add("time", a.Procedure.Time)
	case a.Lesson != nil:
		add("duration", a.Lesson.Duration)
	}
	return list
}

// valuesOfShop gives the amounts of the shop file.
func valuesOfShop(s *manual.Shop) []value {
	var list []value
	of, label := "", "the shop"
	add := func(key string, l manual.Limit) {
		if l.Set {
			list = append(list, value{key: key, limit: l, of: of, label: label})
		}
	}
	add("altitude", s.Altitude)
	label = "the shop's air"
	add("temperature", s.Air.Temperature)
	add("humidity", s.Air.Humidity)
	label = "the shop's water"
	add("temperature", s.Water.Temperature)
	add("hardness", s.Water.Hardness)
	add("dissolved-solids", s.Water.DissolvedSolids)
	add("conductivity", s.Water.Conductivity)
	add("ph", s.Water.PH)
	add("alkalinity", s.Water.Alkalinity)
	for i := range s.Tanks {
		t := &s.Tanks[i]
		of, label = t.ID, t.Name
		add("volume", t.Volume)
		add("length", t.Length)
		add("width", t.Width)
		add("depth", t.Depth)
		add("heater", t.Heater)
		if t.Power.High > 0 || t.Power.Unit.Symbol != "" { // none has no unit
			add("ultrasonic-power", t.Power)
		}
		add("frequency", t.Frequency)
		if t.Insulation.High > 0 {
			add("insulation", t.Insulation)
		}
		add("strength", t.Strength)
		add("temperature", t.Temperature)
	}
	for i := range s.Rinses {
		r := &s.Rinses[i]
		of, label = r.ID, r.Name
		add("volume", r.Volume)
		add("flow", r.Flow)
		add("temperature", r.Temperature)
		add("conductivity", r.Conductivity)
	}
	of, label = s.Dryer.ID, s.Dryer.Name
	add("temperature", s.Dryer.Temperature)
	return list
}

// sort is what a value can be compared with: strengths of every measure are one sort.
func (v value) sort() string {
	switch v.limit.Kind {
	case quantity.VolumeFraction, quantity.MassFraction, quantity.MassConcentration:
		return "strength"
	}
	return v.limit.Kind.String()
}

// written is key and value as the file has them.
func (v value) written() string { return fmt.Sprintf("%s: %s", v.key, v.limit.Range) }

// at is where the value stands.
func (v value) at() finding.Place { return v.limit.At }
