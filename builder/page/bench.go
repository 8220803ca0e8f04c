package page

import (
	"html/template"
	"strings"

	"tankside/builder/manual"
	"tankside/builder/sums"
	"tankside/calculators/markup"
)

// bench is the first part of a tank's page: what is in it, what was found today and what to pour, when it is hot, what to write on the whiteboard.
type bench struct {
	Now   []nowValue
	Found template.HTML // the top-up by what was found today; empty for a tank that holds no strength
	Wear  string        // protective equipment for the bath
	On    *switchedOn   // nil for a tank without a heater
	Board template.HTML // what stands on the whiteboard before anything was found
}

// nowValue is a set-point with what the chemistry allows.
type nowValue struct {
	Name         string
	Value, Limit template.HTML
}

// switchedOn is what the clock starts from.
type switchedOn struct {
	Start    string // temperature of the shop's water, a number in Unit; empty where it is not known
	Unit     string
	Degasses bool
}

// bench fills it.
func (s *site) bench(t *manual.Tank) (*bench, error) {
	b := &bench{Now: s.now(t)}
	if a := s.Manual.Named(manual.Chemistry, t.Chemistry.Name); a != nil {
		b.Wear = strings.Join(s.local(a).Chemistry.ProtectiveEquipment, ", ")
	}
	values, err := sums.Known(s.Manual, "top-up", t.ID)
	if err != nil {
		return nil, err
	}
	if values["strength"] != "" { // a neat liquid has none to be brought back to
		html, err := markup.FoundIn(s.sums, "sum-top-up", "top-up", values, s.system, "strength-now", "below-mark")
		if err != nil {
			return nil, err
		}
		b.Found = template.HTML(html) // the package escapes every text
	}
	if sums.For(t, "heat-up") && t.Heater.Set && t.Heater.High > 0 && t.Temperature.Set {
		b.On = &switchedOn{Unit: "°C", Degasses: sums.For(t, "degas")}
		if w := s.Manual.Shop.Water.Temperature; w.Set && w.Low == w.High {
			b.On.Unit = w.Unit.Symbol
			b.On.Start = markup.Number(w.Low, w.Unit)
		}
	}
	b.Board = s.board(t)
	return b, nil
}

// now are the set-points of a tank with what its chemistry allows beside them.
func (s *site) now(t *manual.Tank) []nowValue {
	var allowed manual.ChemistryFacts
	if a := s.Manual.Named(manual.Chemistry, t.Chemistry.Name); a != nil {
		allowed = *a.Chemistry
	}
	var list []nowValue
	add := func(name string, value, limit manual.Limit) {
		if value.Set {
			list = append(list, nowValue{name, s.shown(value), s.shown(limit)})
		}
	}
	add(s.words.say("Strength"), t.Strength, allowed.Strength)
	add(s.words.say("Temperature"), t.Temperature, allowed.Temperature)
	add(s.words.say("pH"), allowed.PH, manual.Limit{})
	return list
}

// board is the first line for a whiteboard: what is in the tank, and what a fresh fill takes.
func (s *site) board(t *manual.Tank) template.HTML {
	parts := []string{}
	if a := s.Manual.Named(manual.Chemistry, t.Chemistry.Name); a != nil {
		parts = append(parts, template.HTMLEscapeString(s.local(a).Head.Title))
	}
	for _, l := range []manual.Limit{t.Volume, t.Strength, t.Temperature, t.Frequency} {
		if l.Set {
			parts = append(parts, string(s.shown(l)))
		}
	}
	return template.HTML(template.HTMLEscapeString(t.Name) + ": " + strings.Join(parts, ", ")) // what people wrote is escaped above
}
