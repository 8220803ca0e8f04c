package calculators

import (
	"math"

	q "tankside/builder/quantity"
	"tankside/calculators/bath"
	"tankside/calculators/water"
)

var heatSources = []string{
	"Evaporation: M. M. Shah, HVAC&R Research 8 (2002) 125, with the altitude by the diffusivity of vapour; within a fifth of open-tank tables to 80 °C (U.S. Department of Energy, Steam Tip Sheet 19)",
	"The band covers what others found, where they did: W. H. Carrier (1918), C. Rohwer (1931), P. J. Ryan, D. R. F. Harleman and K. D. Stolzenbach (1974), C. C. Smith, G. Löf and R. Jones (1998)",
	"Draught: ratio of W. H. Carrier's formula (ASHRAE Handbook HVAC Applications), 1 + 0.88·v",
	"Walls and surface: S. W. Churchill and H. H. S. Chu (1975); McAdams, in Incropera, Fundamentals of Heat and Mass Transfer, 6th ed.; radiation with emissivity 0.95 for water, 0.3 for bare stainless steel",
	"Lid 5 W/(m²·K), 5 % of the open evaporation past it; insulation 0.04 W/(m·K): from memory and common practice, no source, to be confirmed by the process engineer",
	"Share of the sound's electrical power that ends as heat in the bath, 0.6, between 0.4 and 0.8: from memory; generator and transducers keep the rest, and a calorimetric check tells",
	"Sound stopped 3 K above the set-point, or where the chemistry, its flash point or the parts end sooner: common practice, no source, to be confirmed by the process engineer",
	"Water: G. S. Kell (1975), IAPWS SR1-86(1992), fits to IAPWS-95",
	"Flash point less 30 °F (16.7 K): U.S. OSHA, 29 CFR 1910.106(a)(19), of liquids heated for use",
	"Scald times: A. R. Moritz and F. C. Henriques, Am. J. Pathol. 23 (1947) 695, from memory, to be confirmed by the safety officer",
}

var heatUp = Calculator{
	run: heat,

	Name:    "heat-up",
	Title:   "Heat-up time",
	Summary: "How long a bath takes to get hot, what it costs in energy, and how hot it can get at all.",
	Inputs: []*Input{
		&volumeInput, &lengthInput, &widthInput, &depthInput,
		{Name: "start", Label: "Temperature at the start", Required: true, Measures: []Measure{{q.Temperature, 0, 98, "°C", "°F"}}},
		{Name: "target", Label: "Temperature wanted", Required: true, Measures: []Measure{{q.Temperature, 1, 99, "°C", "°F"}}},
		{Name: "heater", Label: "Heater power", Required: true, Measures: []Measure{{q.Power, 1, 5e6, "kW", "kW"}}},
		{Name: "ultrasonic-power", Label: "Ultrasonic power", Measures: []Measure{{q.Power, 0, 1e6, "kW", "kW"}}, Default: "0 W", Help: ultrasonicHelp},
		&lidInput, &insulationInput, &airInput, &humidityInput, &draughtInput, &altitudeInput, &vesselInput, &loadMassInput, &materialInput, &ceilingInput, &flashInput,
	},
	Readings: []Declared{
		{"time", "Time to heat up"}, {"energy", "Energy used"}, {"highest-temperature", "Highest temperature it can reach"},
		{"loss-at-target", "Heat lost at the temperature wanted"}, {"evaporation", "Water evaporated at that temperature"},
	},
	Example: []Written{{"volume", "120 L"}, {"start", "12 °C"}, {"target", "62 °C"}, {"heater", "6 kW"}, {"lid", "yes"}, {"insulation", "25 mm"}, {"ceiling", "70 °C"}},
	Limits: []string{
		"A water bath, well mixed, with the heater on all the while. Losses are good to ±20 % from 40 to 60 °C, to ±35 % at 80 °C and to ±50 % near boiling, which at altitude comes sooner, and near the room's temperature; under a lid to ±40 % or no better than in the open; low and high show that. The heater is taken at its full rated power.",
		"Walls stand in the room's still air. A tank in a closed cabinet loses less.",
		"No boiling: the model ends a kelvin below the boiling point.",
	},
	Sources: heatSources,
}

func heat(s *sum) {
	start, target := s.si("start"), s.si("target")
	if target <= start {
		s.with(s.at("target").String(), s.at("start").String()).fail("target", "{given} is not above the start, {start}.")
		return
	}
	v := s.vessel()
	slow, fast := s.band(v, target)
	highest, boils := v.Highest()
	least, _ := slow.Highest()
	most, mostBoils := fast.Highest()
	loss := v.Loss(target)
	mass := v.Volume * water.Density(start)
	need := 0.
	for i := range 16 {
		need += v.HeatCapacity(mass, start+(target-start)*(float64(i)+0.5)/16) * (target - start) / 16
	}
	s.step("heat to store = ({mass} of bath × 4.18 kJ/(kg·K) + {3} kJ/K of tank and load) × {kelvins} = {energy}", mass, v.Fixed/1000, target-start, need)
	if us := s.si("ultrasonic-power"); us > 0 {
		s.step("power into the bath = heater {power} + sound {power} × {2} = {power}", s.si("heater"), us, bath.SoundToHeat, v.Power)
	}
	s.step("without losses that takes {time}", need/v.Power)
	s.losses(v, target, loss)

	table := v.Tabulate(start, target)
	h, ok := v.HeatUpBy(table)
	courses := [3][]bath.Moment{0: h.Course} // likely, slow, fast
	if ok {
		low, high := h.Time, inf
		if quick, ok := fast.HeatUpBy(table); ok {
			low = quick.Time
			courses[2] = quick.Course
		}
		if long, ok := slow.HeatUpBy(table); ok {
			high = long.Time
			courses[1] = long.Course
		}
		drawn := s.si("heater") + s.si("ultrasonic-power")
		s.between("time", h.Time, low, high, q.Time)
		s.between("energy", h.Time*drawn, low*drawn, high*drawn, q.Energy)
		s.step("with losses rising on the way, added up in 64 steps: {time}, in which {energy} are lost", h.Time, h.Lost)
		if math.IsInf(high, 1) {
			s.verdict("It is close: if the losses are at the high end of what is likely, the bath stops at {temperature}.", least)
		}
	} else {
		s.with(s.help()).verdict("This bath never gets to {temperature}. It stops at {temperature}, where it loses as much heat as goes in. To hold {temperature} it needs {power}, and more than that to get there{help}.", target, highest, target, loss.Total())
		if boils {
			s.verdict("{temperature} cannot be reached: at this altitude the bath boils at {temperature}.", target, highest+1)
		}
		s.step("loss at {temperature} is more than the {power} going in", target, v.Power)
	}
	r := s.between("highest-temperature", highest, least, most, q.Temperature)
	if boils {
		s.note(r, "it would boil")
	} else if mostBoils {
		s.note(r, "it may boil")
	}
	band := v.LossBand(target)
	s.between("loss-at-target", loss.Total(), loss.Total()*(1-band), loss.Total()*(1+band), q.Power)
	flow := loss.Water / water.Density(20)
	s.between("evaporation", flow, flow*(1-band), flow*(1+band), q.Flow)
	for i, vessel := range []*bath.Vessel{v, slow, fast} {
		if courses[i] == nil { // never there: draw it as far as it goes
			ceiling := []float64{highest, least, most}[i]
			part, _ := vessel.HeatUp(start, start+(min(ceiling, target)-start)*0.98)
			courses[i] = part.Course
		}
	}
	s.heatCurve(courses, start, target, highest)
	s.hot(target)
	if s.has("ceiling") && highest > s.si("ceiling") && target <= s.si("ceiling") {
		s.caution(Notice, "Unwatched, the heater takes this bath to {temperature}, above the {temperature} that the chemistry allows: set and test the over-temperature cut-out.", highest, s.si("ceiling"))
	}
	s.dry()
}

// band gives the vessel with the losses at their high end and the sound's heat
// at its low, and the other way round.
func (s *sum) band(v *bath.Vessel, t float64) (slow, fast *bath.Vessel) {
	b := v.LossBand(t)
	slow, fast = copyOf(v), copyOf(v)
	slow.Scale, fast.Scale = 1+b, 1-b
	us := s.si("ultrasonic-power")
	slow.Power += (bath.SoundToHeatLow - bath.SoundToHeat) * us
	fast.Power += (bath.SoundToHeatHigh - bath.SoundToHeat) * us
	return slow, fast
}

func copyOf(v *bath.Vessel) *bath.Vessel {
	c := *v
	return &c
}

// losses shows where the heat goes.
func (s *sum) losses(v *bath.Vessel, t float64, l bath.Loss) {
	if v.Lid {
		s.step("lost at {temperature}: evaporation past the lid {power}, through the lid {power}, walls {power}, bottom {power}; together {power}", t, l.Evaporation, l.Lid, l.Walls, l.Bottom, l.Total())
	} else {
		s.step("lost at {temperature}: evaporation {power}, convection {power}, radiation {power}, walls {power}, bottom {power}; together {power}", t, l.Evaporation, l.Convection, l.Radiation, l.Walls, l.Bottom, l.Total())
	}
}

// help says what would let the bath get hotter.
func (s *sum) help() string {
	switch {
	case !s.yes("lid"):
		return s.lidHelp()
	case s.si("insulation") == 0:
		return "; " + s.say("insulate the walls")
	}
	return ""
}

// heatCurve draws temperature over time.
func (s *sum) heatCurve(courses [3][]bath.Moment, start, target, highest float64) {
	c := Curve{
		Title:  s.say("Bath temperature while heating"),
		Y:      Axis{Label: s.say("Bath temperature"), Unit: q.Preferred(target, q.Temperature, s.answer.System)},
		Levels: []Level{{s.say("wanted"), target}},
	}
	c.X.Label = s.say("Time")
	for i, line := range []*[]Point{&c.Likely, &c.Low, &c.High} {
		for k := 0; k < len(courses[i]); k += 2 {
			*line = append(*line, Point{courses[i][k].Time, courses[i][k].Temperature})
		}
	}
	if highest < target {
		c.Levels = append(c.Levels, Level{s.say("highest it reaches"), highest})
	}
	if len(c.Likely) == 0 {
		return
	}
	last := c.Likely[len(c.Likely)-1]
	c.X.Unit = timeUnit(last.X)
	c.Description = s.text("From {temperature} the bath reaches {temperature} after {time}.", start, last.Y, last.X)
	s.answer.Curve = &c
}

// timeUnit is the unit for an axis of time that long.
func timeUnit(span float64) q.Unit {
	symbol := "min"
	if span > 4*hour {
		symbol = "h"
	} else if span < 3*minute {
		symbol = "s"
	}
	return unit(symbol, q.Time)
}
