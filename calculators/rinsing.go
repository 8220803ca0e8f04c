package calculators

import (
	"math"

	q "tankside/calculators/quantity"
	"tankside/calculators/rinse"
)

var rinsing = Calculator{
	run: rinseDown,

	Name:    "rinse",
	Title:   "Rinse flow and stages",
	Summary: "How much of the bath is left in the last rinse, and what flow it takes to get there.",
	Inputs: []*Input{
		{Name: "drag-out", Label: "Drag-out", Required: true, Measures: []Measure{{q.Flow, 1e-10, 1e-2, "L/h", "US gal/h"}}, Help: "What parts and basket carry over. Area an hour times film: upright, well drained 16 mL/m²; badly drained 80–160; cups and blind holes 300–1000."},
		{Name: "flow", Label: "Rinse flow", Required: true, Measures: []Measure{{q.Flow, 0, 1, "L/min", "US gal/min"}}},
		{Name: "stages", Label: "Stages", Measures: []Measure{{q.Number, 1, 10, "", ""}}, Required: true, Help: "Rinse tanks one after the other."},
		{Name: "feed", Label: "Water runs", Choices: []Choice{{"counter-flow", "through all stages, against the parts"}, {"separate", "into each stage by itself"}}, Default: "counter-flow"},
		{Name: "bath-strength", Label: "Strength of the bath", Measures: []Measure{{q.VolumeFraction, 1e-6, 1, "% v/v", "% v/v"}, {q.MassConcentration, 1e-3, 2000, "g/L", "oz/US gal"}, {q.MassFraction, 1e-6, 1, "% w/w", "% w/w"}}},
		{Name: "limit", Label: "Most in the last rinse", Default: "0.1 %", Measures: []Measure{{q.Fraction, 1e-9, 1, "%", "%"}, {q.MassConcentration, 1e-6, 2000, "mg/L", "mg/L"}, {q.VolumeFraction, 1e-9, 1, "% v/v", "% v/v"}, {q.MassFraction, 1e-9, 1, "% w/w", "% w/w"}},
			Help: "A share of the bath's strength, or a concentration if the bath's strength is given as one. 3 % is the usual limit for a first rinse, 0.1 % (1000:1) a start for a last one."},
		{Name: "hours", Label: "Rinse runs a day", Default: "8 h", Measures: []Measure{{q.Time, 60, 24 * hour, "h", "h"}}},
	},
	Readings: []Declared{{"rinse-ratio", "Bath to last rinse"}, {"last-stage", "Left in the last rinse"}, {"flow-needed", "Flow needed for the limit"}, {"water-per-day", "Water a day"}},
	Limits: []string{
		"Stages well stirred and at rest; parts stay long enough to exchange the film. Blind holes, laps and short-circuited flow rinse worse.",
		"Drag-out data are good to ±50 %; measure yours by the conductivity of a still rinse after so many loads.",
	},
	Sources: []string{
		"C₀/Cₙ = 1 + r + r² + … + rⁿ with r = flow ÷ drag-out, from the stages' balances; the guidebooks' rⁿ is its leading term",
		"Drag-out by drainage, cleaner rinse limit of 3 %: guidebooks on metal finishing (2012–13)",
	},
}

func rinseDown(s *sum) {
	drag, flow := s.si("drag-out"), s.si("flow")
	n := int(s.si("stages"))
	if float64(n) != s.si("stages") {
		s.fail("stages", "stages are counted in whole numbers.")
		return
	}
	separate := s.at("feed").choice == "separate"
	ratio := func(r float64) float64 { return rinse.Ratio(r, n) }
	if separate {
		ratio = func(r float64) float64 { return rinse.RatioSeparate(r, n) }
	}
	r := flow / drag
	got := ratio(r)
	s.note(s.give("rinse-ratio", got, q.Number), "to 1")
	s.step("r = flow ÷ drag-out = {flow} ÷ {flow} = {4}", flow, drag, r)
	if separate {
		s.step("bath to last rinse = (1 + r) to the power of {2} = {4}", float64(n), got)
	} else {
		s.step("bath to last rinse = 1 + r + … + r to the power of {2} = {4} (rule of thumb {4})", float64(n), got, math.Pow(r, float64(n)))
	}
	limit := s.at("limit")
	share := limit.SI
	bath := s.at("bath-strength")
	if bath.given {
		left := bath.SI / got
		s.put(Reading{Name: "last-stage", SI: left, Low: left / 1.5, High: left * 1.5, Kind: bath.Kind, Unit: smallUnit(left, bath.Value, s.answer.System)})
	} else {
		s.note(s.between("last-stage", 1/got, 1/got/1.5, 1/got*1.5, q.Fraction), "of the bath's strength")
	}
	if limit.Kind != q.Fraction {
		if !bath.given || bath.Kind != limit.Kind {
			s.with(limit.Unit.Symbol, s.say(limit.Kind.String())).fail("limit", "a limit in {unit} needs the bath's strength as {a quantity} too; or give the limit as a share of the bath's strength, such as 0.1 %.")
			return
		}
		share = limit.SI / bath.SI
	}
	needed := drag * rinse.FlowFor(math.Max(1, 1/share), ratio)
	s.between("flow-needed", needed, needed/1.5, needed*1.5, q.Flow)
	s.step("for 1:{4} the flow must be {4} times the drag-out, {flow} a feed", 1/share, needed/drag, needed)
	feeds := 1.
	if separate {
		feeds = float64(n)
	}
	day := flow * s.si("hours") * feeds
	s.give("water-per-day", day, q.Volume)
	s.step("water a day = {flow} × {time} = {volume}", flow*feeds, s.si("hours"), day)
	if got*share < 1 {
		s.verdict("The last rinse is too strong: it needs {flow}, or one stage more.", needed)
	} else {
		s.verdict("The last rinse is within the limit.")
	}
	s.caution(Notice, "Rinse water is waste water: it may leave the shop only by the route your permit allows.")
}

// smallUnit is the unit in which a small part of a strength reads well.
func smallUnit(si float64, of q.Value, system q.System) q.Unit {
	if of.Kind == q.MassConcentration {
		return q.Preferred(si, of.Kind, system)
	}
	if of.Unit.Symbol == "1:N" {
		return unit("% v/v", q.VolumeFraction)
	}
	return of.Unit
}
