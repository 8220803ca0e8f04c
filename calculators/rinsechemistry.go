package calculators

import (
	"math"

	q "tankside/builder/quantity"
	"tankside/calculators/mix"
	"tankside/calculators/rinse"
	"tankside/calculators/water"
)

// bathTitration is what a bath may have of alkalinity or acidity: up to 4 mol/L.
var bathTitration = []Measure{{q.Alkalinity, 0, 200, "meq/L", "meq/L"}}

// cold is the temperature of a laboratory, in °C, at which a pH is told.
const cold = 25.

// The liquids of a line with one bath.
const (
	firstWater = iota
	secondWater
	dragged
	liquids
)

// chemistry gives the temperature, the time to settle and, as far as it can be known, the pH of the rinses. It speaks of the first stage of each:
// there it is strongest.
func (s *sum) chemistry(separate bool) {
	l := rinse.Line{Liquids: liquids, Rinses: []rinse.Tank{{
		Volume: s.si("volume"), Stages: int(s.si("stages")), Separate: separate, Feeds: []rinse.Feed{{Liquid: firstWater, Flow: s.si("flow")}},
	}}, Drags: []rinse.Drag{{Flow: s.si("drag-out"), Liquid: dragged, From: -1}}}
	if s.has("second-flow") {
		l.Rinses = append(l.Rinses, rinse.Tank{Stages: int(s.si("second-stages")), Feeds: []rinse.Feed{{Liquid: secondWater, Flow: s.si("second-flow")}}})
		l.Drags = append(l.Drags, rinse.Drag{Flow: s.si("drag-out"), From: 0, To: 1})
	}
	stages, _ := l.Steady() // no overflow runs into another rinse
	first := stages[0][0]
	if time := l.Settle(stages)[0][0]; !math.IsInf(time, 1) {
		s.note(s.give("settle-time", time, q.Time), "95 % of it, from clean water")
	}
	heat := s.si("temperature")
	if !s.has("temperature") {
		heat = first.Shares[firstWater]*s.si("water-temperature") + first.Shares[dragged]*s.si("bath-temperature")
	}
	known := s.has("temperature") || s.has("water-temperature") && s.has("bath-temperature") && l.Rinses[0].Stages == 1
	if known {
		s.give("rinse-temperature", heat, q.Temperature)
	}
	if !s.has("bath-ph") {
		return
	}
	waters := [2]water.Liquid{s.water("water-ph", "water-alkalinity"), s.water("second-ph", "second-alkalinity")}
	bounds, likely := s.bath(false), s.bath(true)
	for i, name := range []string{"ph", "second-ph"} {
		switch {
		case i == len(stages):
			return
		case bounds == nil && s.si("bath-ph") > 7:
			s.tell(name, "not known: the bath's total alkalinity is missing")
			continue
		case bounds == nil:
			s.tell(name, "not known: the bath's acidity is missing")
			continue
		case waters[0] == nil || i == 1 && waters[1] == nil:
			s.tell(name, "not known: pH and alkalinity of the water are missing")
			continue
		}
		mixture := func(by float64, bath water.Liquid) []water.Part { return parts(&l, i, by, waters, bath) }
		low, high := water.Bounds(cold, mixture(1/dragBand, bounds))
		l2, h2 := water.Bounds(cold, mixture(dragBand, bounds))
		low, high = math.Min(low, l2), math.Max(high, h2)
		middle, _ := water.Bounds(cold, mixture(1, likely))
		s.note(s.between(name, middle, low, high, q.PH), "as a sample cooled to 25 °C reads")
		if i == 0 {
			s.balance(mixture(1, likely), middle, heat, known)
		}
		switch apart := high >= 8.5 || low <= 6; {
		case apart && i == 0:
			s.caution(Notice, "The parts meet the rinse's pH, {ph} to {ph}, as well as the wash's: compare it with what they stand.", low, high)
		case apart:
			s.caution(Notice, "In the second rinse they meet pH {ph} to {ph}; compare that too.", low, high)
		}
	}
}

// balance shows what the pH of the first rinse comes from.
func (s *sum) balance(mixture []water.Part, ph, heat float64, known bool) {
	var alkalinity, carbon float64
	for _, p := range mixture {
		alkalinity += p.Share * p.Liquid[0].Alkalinity
		carbon += p.Share * p.Liquid[0].Carbon
	}
	s.give("rinse-alkalinity", math.Max(0, alkalinity*mix.EquivalentCaCO3), q.Alkalinity)
	s.step("in the rinse {3} meq/L of alkalinity stand against {3} mmol/L of dissolved carbon dioxide in all its forms: pH {ph}", alkalinity, carbon, ph)
	if known && heat != cold {
		hot, _ := water.Bounds(heat, mixture)
		s.step("at {temperature} itself it is pH {ph}", heat, hot)
	}
}

// water is a feed's water; nil where it is not known. Without alkalinity it is deionised.
func (s *sum) water(ph, alkalinity string) water.Liquid {
	switch {
	case s.has(alkalinity) && s.si(alkalinity) == 0:
		return water.Pure()
	case s.has(alkalinity) && s.has(ph):
		t := cold
		if s.has("water-temperature") {
			t = s.si("water-temperature")
		}
		return water.Natural(t, s.si(ph), s.si(alkalinity)/mix.EquivalentCaCO3)
	}
	return nil
}

// bath is what is carried over; nil where the titration that its pH asks for is missing. likely is one solution of those it may be: carbonate, or
// acid that gives off all it has.
func (s *sum) bath(likely bool) water.Liquid {
	ph := s.si("bath-ph")
	var l water.Liquid
	switch {
	case ph > 7 && s.has("bath-alkalinity"):
		l = water.Alkaline(ph, ph, s.si("bath-alkalinity")/mix.EquivalentCaCO3, s.at("alkali").choice == "carbonate")
	case ph <= 7 && s.has("bath-acidity"):
		l = water.Acidic(ph, ph, s.si("bath-acidity")/mix.EquivalentCaCO3)
	case ph >= 4.5 && ph <= 7 && s.has("bath-alkalinity"):
		l = water.Alkaline(ph, ph, s.si("bath-alkalinity")/mix.EquivalentCaCO3, false)
	}
	if likely && l != nil {
		return l[:1]
	}
	return l
}

// parts are the shares of the liquids in a rinse's first stage, with the drag-out by a factor.
func parts(l *rinse.Line, i int, by float64, waters [2]water.Liquid, bath water.Liquid) []water.Part {
	scaled := *l
	scaled.Drags = nil
	for _, d := range l.Drags {
		d.Flow *= by
		scaled.Drags = append(scaled.Drags, d)
	}
	stages, _ := scaled.Steady()
	shares := stages[i][0].Shares
	mixture := []water.Part{{Share: shares[firstWater], Liquid: waters[0]}, {Share: shares[dragged], Liquid: bath}}
	if shares[secondWater] > 0 {
		mixture = append(mixture, water.Part{Share: shares[secondWater], Liquid: waters[1]})
	}
	for k := range mixture { // where the likely one is wanted there is one of each
		if len(bath) == 1 && len(mixture[k].Liquid) > 1 {
			mixture[k].Liquid = mixture[k].Liquid[:1]
		}
	}
	return mixture
}
