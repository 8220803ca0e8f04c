package calculators

import (
	"math"

	q "tankside/builder/quantity"
	"tankside/calculators/bath"
	"tankside/calculators/safety"
)

var bathLife = Calculator{
	run: life,

	Name:    "bath-life",
	Title:   "Life of a bath",
	Summary: "When the soil that parts bring in reaches a limit, or where it steadies if it never does.",
	Inputs: []*Input{
		{Name: "volume", Label: "Volume of the bath", Required: true, Measures: volumeInput.Measures, Help: "The filled volume, which is kept."},
		{Name: "soil-load", Label: "Soil carried in by a load", Required: true, Measures: []Measure{{q.Mass, 0, 1000, "g", "oz"}}, Help: "Weigh a basket of parts before and after washing."},
		{Name: "loads", Label: "Loads a day", Required: true, Measures: []Measure{{q.Number, 0.01, 1e4, "", ""}}},
		{Name: "limit", Label: "Most soil in the bath", Required: true, Measures: []Measure{{q.MassConcentration, 1e-3, 500, "g/L", "wt oz/US gal"}}, Help: "At which your bath no longer cleans, or its data sheet's."},
		{Name: "soil-now", Label: "Soil in the bath now", Measures: []Measure{{q.MassConcentration, 0, 500, "g/L", "wt oz/US gal"}}, Default: "0 g/L"},
		{Name: "skimmed", Label: "Skimmed off", Measures: []Measure{{q.Fraction, 0, 1, "%", "%"}, {q.Mass, 0, 1e5, "g", "oz"}}, Default: "0 %", Help: "A share of what comes in, or the mass of oil a day."},
		{Name: "drag-out", Label: "Drag-out", Measures: []Measure{{q.Flow, 0, 1e-2, "L/h", "US gal/h"}}, Default: "0 L/h", Help: "What parts and basket carry over, which fresh bath replaces."},
		{Name: "hours", Label: "Parts run a day", Measures: []Measure{{q.Time, 60, 24 * hour, "h", "h"}}, Default: "8 h"},
		{Name: "let-out", Label: "Let out and replaced a day", Measures: []Measure{{q.Volume, 0, 100, "L", "US gal"}}, Default: "0 L", Help: "Evaporated water does not count: it leaves the soil behind."},
	},
	Readings: []Declared{{"days", "Working days to the limit"}, {"loads-left", "Loads to the limit"}, {"steady-level", "Steadies at"}, {"soil-in", "Soil that stays in, a day"}},
	Example: []Written{
		{"volume", "120 L"}, {"soil-load", "40 g"}, {"loads", "9"}, {"limit", "20 g/L"}, {"skimmed", "40 %"}, {"drag-out", "1.2 L/h"},
	},
	Limits: []string{
		"A bath well mixed, kept at its volume and worked alike every day. Soil that sinks or sticks to the tank is counted as in the bath.",
		"The band takes the soil of a load as good to a factor of 1.3 and drag-out to a factor of 1.5, both at their worst together (common practice, no source). Measured yourself they are better.",
		"It says when the soil reaches the limit, not whether the bath is good till then: strength, alkalinity and the dirty coupon decide.",
	},
	Sources: []string{"Balance of the soil, V·dc/dt = m − Q·c: c = m/Q + (c₀ − m/Q)·exp(−Q·t/V)", "Drag-out data good to ±50 %: guidebooks on metal finishing (2012–13)"},
}

// soilBand is the factor by which the soil of a load is good either way.
const soilBand = safety.SoilBand

func life(s *sum) {
	brought := s.si("soil-load") * s.si("loads")
	skimmed := s.at("skimmed")
	taken := skimmed.SI
	if skimmed.Kind == q.Fraction {
		taken *= brought
	}
	if taken > brought*(1+1e-9) {
		s.fail("skimmed", "this is more than all loads of a day carry in, {mass}.", brought)
		return
	}
	stays := math.Max(0, brought-taken)
	drag := s.si("drag-out") * s.si("hours")
	out := drag + s.si("let-out")
	limit := s.si("limit")
	b := bath.Soiling{Volume: s.si("volume"), In: stays, Out: out, Now: s.si("soil-now")}
	slow, fast := b, b
	slow.In, slow.Out = stays/soilBand, drag*dragBand+s.si("let-out")
	fast.In, fast.Out = stays*soilBand, drag/dragBand+s.si("let-out")
	if skimmed.Kind == q.Mass { // the skimmed oil was measured, not taken as a share
		slow.In, fast.In = math.Max(0, brought/soilBand-taken), math.Max(0, brought*soilBand-taken)
	}
	s.between("soil-in", b.In, slow.In, fast.In, q.Mass)
	s.step("in: {4} loads of {mass}, less {mass} skimmed: {mass} a day", s.si("loads"), s.si("soil-load"), taken, stays)
	s.step("out: {volume} of drag-out and {volume} let out a day, {share} of the bath", drag, s.si("let-out"), out/b.Volume)
	steady := b.Steady()
	switch {
	case math.IsInf(steady, 1):
		s.tell("steady-level", "never: nothing takes soil out")
	default:
		s.between("steady-level", steady, slow.Steady(), fast.Steady(), q.MassConcentration)
		s.step("steadies at {mass} ÷ {volume} = {grams}", stays, out, steady)
	}
	s.until(b, slow, fast, limit)
}

// until gives the days and loads till the limit, and says what is the case.
func (s *sum) until(b, slow, fast bath.Soiling, limit float64) {
	days, soonest := b.Until(limit), fast.Until(limit)
	if b.Now >= limit {
		s.verdict("The limit is reached already: change the bath, or let some out.")
		return
	}
	s.caution(Notice, "Spent bath and skimmed oil are waste: they leave the shop only by the route your permit allows.")
	if math.IsInf(days, 1) {
		if math.IsInf(soonest, 1) {
			s.verdict("It never reaches {grams}: drag-out, what is let out and what is skimmed hold it below, at the worst likely too.", limit)
		} else {
			s.verdict("As is likely it never reaches {grams}. At the worst likely it may, after {3} working days: measure soil and drag-out.", limit, soonest)
		}
		return
	}
	latest := slow.Until(limit)
	s.between("days", days, soonest, latest, q.Number)
	s.between("loads-left", days*s.si("loads"), soonest*s.si("loads"), latest*s.si("loads"), q.Number)
	s.step("{grams} to {grams} takes {3} days", b.Now, limit, days)
	if math.IsInf(latest, 1) {
		s.verdict("It reaches {grams} after about {3} working days, {3} at the soonest, and perhaps never.", limit, days, soonest)
		return
	}
	s.verdict("It reaches {grams} after about {3} working days, {3} at the soonest, {3} at the latest.", limit, days, soonest, latest)
}
