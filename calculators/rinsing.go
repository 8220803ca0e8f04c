package calculators

import (
	"math"

	q "tankside/builder/quantity"
	"tankside/calculators/rinse"
	"tankside/calculators/safety"
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
		{Name: "bath-strength", Label: "Strength of the bath", Measures: []Measure{{q.VolumeFraction, 1e-6, 1, "% v/v", "% v/v"}, {q.MassConcentration, 1e-3, 2000, "g/L", "wt oz/US gal"}, {q.MassFraction, 1e-6, 1, "% w/w", "% w/w"}}},
		{Name: "limit", Label: "Most in the last rinse", Default: "0.1 %", Measures: []Measure{{q.Fraction, 1e-9, 1, "%", "%"}, {q.MassConcentration, 1e-6, 2000, "mg/L", "mg/L"}, {q.VolumeFraction, 1e-9, 1, "% v/v", "% v/v"}, {q.MassFraction, 1e-9, 1, "% w/w", "% w/w"}},
			Help: "A share of the bath's strength, or a concentration if the bath's strength is given as one. 3 % is the usual limit for a first rinse, 0.1 % (1000:1) a start for a last one."},
		{Name: "bath-ph", Label: "pH of the bath", Measures: []Measure{{q.PH, 0, 14, "", ""}}, Help: "With the water's: to be told the pH of the rinse. Where it is a range, the end further from 7."},
		{Name: "bath-ph-to", Label: "Other end of the bath's pH", Measures: []Measure{{q.PH, 0, 14, "", ""}}, Help: "Where it is a range."},
		{Name: "bath-alkalinity", Label: "Total alkalinity of the bath", Measures: bathTitration, Help: "At its strength, by titration to pH 4.5."},
		{Name: "bath-acidity", Label: "Acidity of the bath", Measures: bathTitration, Help: "Of an acid bath, by titration to pH 8.3."},
		{Name: "alkali", Label: "Alkali of the bath", Choices: []Choice{{"carbonate", "carbonate or phosphate alone"}, {"unknown", "another, or not known"}}, Default: "unknown"},
		{Name: "bath-temperature", Label: "Temperature of the bath", Measures: []Measure{{q.Temperature, 1, 99, "°C", "°F"}}},
		{Name: "water-ph", Label: "pH of the water", Measures: []Measure{{q.PH, 4, 11, "", ""}}},
		{Name: "water-alkalinity", Label: "Alkalinity of the water", Measures: []Measure{{q.Alkalinity, 0, 5, "mg/L", "mg/L"}}, Help: "0 mg/L for deionised water."},
		{Name: "water-temperature", Label: "Temperature of the water", Measures: []Measure{{q.Temperature, 0.1, 90, "°C", "°F"}}},
		{Name: "temperature", Label: "Rinse held at", Measures: []Measure{{q.Temperature, 0.1, 90, "°C", "°F"}}, Help: "Where it is heated."},
		{Name: "volume", Label: "Volume of a stage", Measures: []Measure{{q.Volume, 1e-4, 100, "L", "US gal"}}, Help: "To be told how soon it is as dirty as it gets."},
		{Name: "second-flow", Label: "Flow of a second rinse", Measures: []Measure{{q.Flow, 0, 1, "L/min", "US gal/min"}}, Help: "Of a rinse with water of its own, after the first."},
		{Name: "second-stages", Label: "Stages of the second rinse", Measures: []Measure{{q.Number, 1, 10, "", ""}}, Default: "1"},
		{Name: "second-ph", Label: "pH of its water", Measures: []Measure{{q.PH, 4, 11, "", ""}}},
		{Name: "second-alkalinity", Label: "Alkalinity of its water", Measures: []Measure{{q.Alkalinity, 0, 5, "mg/L", "mg/L"}}, Help: "0 mg/L for deionised water."},
		{Name: "second-runs-on", Label: "Its overflow runs into the first rinse", Choices: yesNo, Default: "no"},
		{Name: "third-flow", Label: "Flow of a third rinse", Measures: []Measure{{q.Flow, 0, 1, "L/min", "US gal/min"}}},
		{Name: "third-stages", Label: "Stages of the third rinse", Measures: []Measure{{q.Number, 1, 10, "", ""}}, Default: "1"},
		{Name: "third-ph", Label: "pH of its water", Measures: []Measure{{q.PH, 4, 11, "", ""}}},
		{Name: "third-alkalinity", Label: "Alkalinity of its water", Measures: []Measure{{q.Alkalinity, 0, 5, "mg/L", "mg/L"}}, Help: "0 mg/L for deionised water."},
		{Name: "third-runs-on", Label: "Its overflow runs into the second rinse", Choices: yesNo, Default: "no"},
		{Name: "other-ways", Label: "Something else is dragged into these rinses", Choices: yesNo, Default: "no"},
		{Name: "hours", Label: "Rinse runs a day", Default: "8 h", Measures: []Measure{{q.Time, 60, 24 * hour, "h", "h"}}},
	},
	Readings: []Declared{
		{"rinse-ratio", "Bath to last rinse"}, {"last-stage", "Left in the last rinse"}, {"first-rinse", "Left in the first rinse"}, {"second-rinse", "Left in the second rinse"}, {"flow-needed", "Flow needed for the limit"}, {"water-per-day", "Water a day"},
		{"ph", "pH of the rinse"}, {"second-ph", "pH of the second rinse"}, {"third-ph", "pH of the third rinse"}, {"rinse-alkalinity", "Alkalinity of the rinse"}, {"rinse-temperature", "Temperature of the rinse"}, {"settle-time", "As dirty as it gets after"},
	},
	Example: []Written{{"drag-out", "1.2 L/h"}, {"flow", "4 L/min"}, {"stages", "2"}, {"bath-strength", "4 % v/v"}},
	Limits: []string{
		"Stages well stirred and at rest; parts stay long enough to exchange the film. Blind holes, laps and short-circuited flow rinse worse.",
		"Drag-out data are good to ±50 %; measure yours by the conductivity of a still rinse after so many loads.",
		"At most three rinses one after the other. A rinse without a flow thins nothing for long and is left out.",
		"The pH is that of a closed vessel: carbon dioxide from the air brings an alkaline rinse down within hours, a deionised one most, and heat drives it out of tap water. Lime that falls out and the salts' own effect, about 0.1, are left out.",
	},
	Sources: []string{
		"pH: balance of charges with carbonic acid after L. N. Plummer and E. Busenberg, Geochim. Cosmochim. Acta 46 (1982) 1011; its low and high end are those of a bath whose alkali or acid is of any sort",
		"C₀/Cₙ = 1 + r + r² + … + rⁿ with r = flow ÷ drag-out, from the stages' balances; the guidebooks' rⁿ is its leading term",
		"Drag-out by drainage, cleaner rinse limit of 3 %: guidebooks on metal finishing (2012–13)",
	},
}

func rinseDown(s *sum) {
	l, ok := s.row()
	if !ok {
		return
	}
	drag, flow, n := s.si("drag-out"), s.si("flow"), l.Rinses[0].Stages
	left := thinned(l)
	last := len(left) - 1
	r := flow / drag
	switch {
	case len(l.Rinses[0].FedBy) > 0:
		s.step("at rest each rinse holds the mean of what runs in: of the bath 1 part in {4} in the first", left[0])
	case l.Rinses[0].Separate:
		s.step("r = flow ÷ drag-out = {flow} ÷ {flow} = {4}", flow, drag, r)
		s.step("bath to last rinse = (1 + r) to the power of {2} = {4}", float64(n), left[0])
	default:
		s.step("r = flow ÷ drag-out = {flow} ÷ {flow} = {4}", flow, drag, r)
		s.step("bath to last rinse = 1 + r + … + r to the power of {2} = {4} (rule of thumb {4})", float64(n), left[0], math.Pow(r, float64(n)))
	}
	for i := range last {
		s.left(basins[i].left, left[i])
		s.step("the next rinse thins that {4} times again, to 1 part in {4}", left[i+1]/left[i], left[i+1])
	}
	got := left[last]
	s.note(s.give("rinse-ratio", got, q.Number), "to 1")
	s.left("last-stage", got)
	limit := s.at("limit")
	share := limit.SI
	if bath := s.at("bath-strength"); limit.Kind != q.Fraction {
		if !bath.given || bath.Kind != limit.Kind {
			s.with(limit.Unit.Symbol, s.say(limit.Kind.String())).fail("limit", "a limit in {unit} needs the bath's strength as {a quantity} too; or give the limit as a share of the bath's strength, such as 0.1 %.")
			return
		}
		share = limit.SI / bath.SI
	}
	for i := range l.Rinses { // what thins is the flow beside the drag-out
		l.Rinses[i].Feeds[0].Flow /= drag
		l.Drags[i].Flow = 1
	}
	needed := drag * rinse.FlowFor(math.Max(1, 1/share), func(r float64) float64 {
		l.Rinses[last].Feeds[0].Flow = r
		return thinned(l)[last]
	})
	s.between("flow-needed", needed, needed/dragBand, needed*dragBand, q.Flow)
	s.step("for 1:{4} the flow must be {4} times the drag-out, {flow} a feed", 1/share, needed/drag, needed)
	all := flow + s.si("second-flow") + s.si("third-flow")
	if l.Rinses[0].Separate {
		all += flow * float64(n-1)
	}
	day := all * s.si("hours")
	s.give("water-per-day", day, q.Volume)
	s.step("water a day = {flow} × {time} = {volume}", all, s.si("hours"), day)
	switch {
	case got*share >= 1:
		s.verdict("The last rinse is within the limit.")
	case last == 0:
		s.verdict("The last rinse is too strong: it needs {flow}, or one stage more.", needed)
	case last == 1:
		s.verdict("The last rinse is too strong: the second rinse needs {flow}, or one stage more.", needed)
	default:
		s.verdict("The last rinse is too strong: the third rinse needs {flow}, or one stage more.", needed)
	}
	s.chemistry()
	if s.yes("other-ways") {
		s.caution(Notice, "Another bath, or parts that come another way, are dragged into these rinses too: what is left and the pH are told of this way alone.")
	}
	s.caution(Notice, "Rinse water is waste water: it may leave the shop only by the route your permit allows.")
}

// dragBand is the factor by which drag-out data are good either way.
const dragBand = safety.DragBand

// left gives what is left of the bath after it is thinned, as a strength where the bath's is known and otherwise as a share of it.
func (s *sum) left(reading string, ratio float64) {
	bath := s.at("bath-strength")
	if !bath.given {
		s.note(s.between(reading, 1/ratio, 1/ratio/dragBand, 1/ratio*dragBand, q.Fraction), "of the bath's strength")
		return
	}
	left := bath.SI / ratio
	s.put(Reading{Name: reading, SI: left, Low: left / dragBand, High: left * dragBand, Kind: bath.Kind, Unit: smallUnit(left, bath.Value, s.answer.System)})
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
