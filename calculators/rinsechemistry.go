package calculators

import (
	"math"

	q "tankside/builder/quantity"
	"tankside/calculators/mix"
	"tankside/calculators/rinse"
	"tankside/calculators/safety"
	"tankside/calculators/water"
)

// bathTitration is what a bath may have of alkalinity or acidity: up to 4 mol/L.
var bathTitration = []Measure{{q.Alkalinity, 0, 200, "meq/L", "meq/L"}}

// cold is the temperature of a laboratory, in °C, at which a pH is told.
const cold = safety.Laboratory

// chemistry gives the temperature, the time to settle and, as far as it can be known, the pH of the rinses. It speaks of the first stage of each:
// there it is strongest.
func (s *sum) chemistry() {
	l, _ := s.row()
	stages, _ := l.Steady() // no overflow runs in a circle
	first := stages[0][0]
	if time := l.Settle(stages)[0][0]; !math.IsInf(time, 1) {
		s.note(s.give("settle-time", time, q.Time), "95 % of it, from clean water")
	}
	heat := s.si("temperature")
	if !s.has("temperature") {
		heat = first.Shares[0]*s.si("water-temperature") + first.Shares[dragged]*s.si("bath-temperature")
	}
	known := s.has("temperature") || s.has("water-temperature") && s.has("bath-temperature") && l.Rinses[0].Stages == 1 && len(l.Rinses[0].FedBy) == 0
	if known {
		s.give("rinse-temperature", heat, q.Temperature)
	}
	if !s.has("bath-ph") {
		return
	}
	waters := make([]water.Liquid, dragged)
	for i := range l.Rinses {
		waters[i] = s.water(basins[i].ph, basins[i].alkalinity)
	}
	bounds, likely := s.bath(false), s.bath(true)
	for i := range l.Rinses {
		name := basins[i].reading
		switch {
		case bounds == nil && s.highest() > neutral && !s.has("bath-alkalinity"):
			s.tell(name, "not known: the bath's total alkalinity is missing")
			continue
		case bounds == nil:
			s.tell(name, "not known: the bath's acidity is missing")
			continue
		case unknown(stages[i][0], waters):
			s.tell(name, "not known: pH and alkalinity of the water are missing")
			continue
		}
		mixture := func(by float64, bath water.Liquid) []water.Part { return parts(l, i, by, waters, bath) }
		low, high := water.Bounds(cold, mixture(1/dragBand, bounds))
		l2, h2 := water.Bounds(cold, mixture(dragBand, bounds))
		low, high = math.Min(low, l2), math.Max(high, h2)
		middle, _ := water.Bounds(cold, mixture(1, likely))
		s.note(s.between(name, middle, low, high, q.PH), "as a sample cooled to 25 °C reads")
		if i == 0 {
			s.balance(mixture(1, likely), middle, heat, known)
		}
		switch apart := high >= safety.WaterTo || low <= safety.PureFrom; {
		case !apart:
		case i == 0:
			s.caution(Notice, "The parts meet the rinse's pH, {ph} to {ph}, as well as the wash's: compare it with what they stand.", low, high)
		case i == 1:
			s.caution(Notice, "In the second rinse they meet pH {ph} to {ph}; compare that too.", low, high)
		default:
			s.caution(Notice, "In the third rinse they meet pH {ph} to {ph}; compare that too.", low, high)
		}
	}
}

// unknown reports whether a stage has water in it of which nothing is known.
func unknown(stage rinse.Stage, waters []water.Liquid) bool {
	for i, w := range waters {
		if w == nil && stage.Shares[i] > 0 {
			return true
		}
	}
	return false
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

// Limits of pH of what a titration tells: as in package line, a bath that may be on either side of neutral has to be known on both, and below the end
// point of total alkalinity there is none.
const (
	neutral  = safety.Neutral
	endPoint = safety.EndPoint
)

// lowest and highest are the ends of the bath's pH.
func (s *sum) lowest() float64 {
	if s.has("bath-ph-to") {
		return math.Min(s.si("bath-ph"), s.si("bath-ph-to"))
	}
	return s.si("bath-ph")
}

func (s *sum) highest() float64 { return math.Max(s.si("bath-ph"), s.si("bath-ph-to")) }

// bath is what is carried over; nil where a titration that its pH asks for is missing. likely is one solution of those it may be: carbonate, or
// acid that gives off all it has, at the end of the pH that is given first.
func (s *sum) bath(likely bool) water.Liquid {
	low, high := s.lowest(), s.highest()
	alkaline, acid := s.has("bath-alkalinity"), s.has("bath-acidity")
	switch {
	case high > neutral && !alkaline, low < endPoint && !acid, !alkaline && !acid:
		return nil
	case likely:
		low, high = s.si("bath-ph"), s.si("bath-ph")
		acid = acid && (low <= neutral || !alkaline)
		alkaline = alkaline && !acid
	}
	var l water.Liquid
	if acid && low <= neutral {
		l = append(l, water.Acidic(low, math.Min(high, neutral), s.si("bath-acidity")/mix.EquivalentCaCO3)...)
	}
	if alkaline {
		l = append(l, water.Alkaline(math.Max(low, endPoint), math.Max(high, endPoint), s.si("bath-alkalinity")/mix.EquivalentCaCO3, s.at("alkali").choice == "carbonate")...)
	}
	if likely {
		return l[:1]
	}
	return l
}

// parts are the shares of the liquids in a rinse's first stage, with the drag-out by a factor.
func parts(l *rinse.Line, i int, by float64, waters []water.Liquid, bath water.Liquid) []water.Part {
	scaled := *l
	scaled.Drags = nil
	for _, d := range l.Drags {
		d.Flow *= by
		scaled.Drags = append(scaled.Drags, d)
	}
	stages, _ := scaled.Steady()
	shares := stages[i][0].Shares
	mixture := []water.Part{{Share: shares[dragged], Liquid: bath}}
	for k, w := range waters {
		if shares[k] > 0 {
			mixture = append(mixture, water.Part{Share: shares[k], Liquid: w})
		}
	}
	for k := range mixture { // where the likely one is wanted there is one of each
		if len(bath) == 1 && len(mixture[k].Liquid) > 1 {
			mixture[k].Liquid = mixture[k].Liquid[:1]
		}
	}
	return mixture
}
