package page

import (
	"html/template"

	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sums"
	"tankside/calculators"
	"tankside/calculators/markup"
)

// sum renders a calculator, prefilled and answered at publishing time; on paper its answer alone. id is its address within the page.
func (s *site) sum(id, calculator string, inputs []manual.Input) (string, error) {
	values, err := sums.Values(s.Manual, calculator, sums.Given(inputs))
	if err != nil {
		return "", err
	}
	if s.paper != nil {
		return markup.OnPaper(s.sums, s.anchor(id), calculator, values, s.system)
	}
	return markup.SumIn(s.sums, id, calculator, values, s.system)
}

// tankSums are the sums on the page of each tank.
var tankSums = []struct{ calculator, title string }{
	{"dilution", "Make-up"}, {"heat-up", "Heating up"}, {"degas", "Degassing"}, {"holding", "Keeping it hot"},
}

// tankAnswers gives the results of sums that the card of a tank shows.
func (s *site) tankAnswers(t *manual.Tank) ([]fact, error) {
	var facts []fact
	for _, ask := range []struct{ calculator, reading, name string }{
		{"dilution", "concentrate-volume", "Concentrate for a fill"},
		{"heat-up", "time", "Heats up in"},
		{"degas", "time", "Degas after filling"},
	} {
		text, err := s.reading(ask.calculator, ask.reading, map[string]string{"tank": t.ID})
		if err != nil {
			return nil, err
		}
		if text == "" {
			continue
		}
		if start := s.shown(s.Manual.Shop.Water.Temperature); ask.calculator == "heat-up" && start != "" {
			text += template.HTML(template.HTMLEscapeString(" "+s.words.say("from")+" ")) + start
		}
		facts = append(facts, fact{s.words.say(ask.name), text})
	}
	return facts, nil
}

// reading gives one result of a calculator, as its bounds where it has some, in both families of units; or "" where the shop file does not
// tell enough of the tank for this sum, whose page says what is missing.
func (s *site) reading(calculator, reading string, given map[string]string) (template.HTML, error) {
	values, err := sums.Values(s.Manual, calculator, given)
	if err != nil {
		return "", err
	}
	c, known := calculators.Named(calculator)
	if !known {
		return "", calculators.Unknown(calculator)
	}
	return s.both(func(in quantity.System) string {
		a, err := c.RunIn(s.sums, values, in)
		if err != nil {
			return ""
		}
		r, ok := a.Reading(reading)
		if !ok {
			return ""
		}
		if b := r.Bounds(); b != "" {
			return b
		}
		return r.String()
	}), nil
}
