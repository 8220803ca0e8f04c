package page

import (
	"html/template"

	"tankside/builder/manual"
	"tankside/builder/sums"
	"tankside/calculators"
	"tankside/calculators/markup"
)

// sum renders a calculator, prefilled and answered at publishing time. id is its address within the page.
func (s *site) sum(id, calculator string, inputs []manual.Input) (string, error) {
	values, err := sums.Values(s.Manual, calculator, sums.Given(inputs))
	if err != nil {
		return "", err
	}
	return markup.SumAs(id, calculator, values, s.system)
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
		values, err := sums.Values(s.Manual, ask.calculator, map[string]string{"tank": t.ID})
		if err != nil {
			return nil, err
		}
		a, err := calculators.Run(ask.calculator, values, s.system)
		if err != nil {
			continue // the shop file does not tell enough of the tank for this sum; its page says what is missing
		}
		if r, ok := a.Reading(ask.reading); ok {
			text := r.String()
			if b := r.Bounds(); b != "" {
				text = b
			}
			if start := s.show(s.Manual.Shop.Water.Temperature); ask.calculator == "heat-up" && start != "" {
				text += " " + s.words.say("from") + " " + start
			}
			facts = append(facts, fact{s.words.say(ask.name), template.HTML(template.HTMLEscapeString(text))})
		}
	}
	return facts, nil
}
