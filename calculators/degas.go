package calculators

import (
	"math"

	q "tankside/builder/quantity"
	"tankside/calculators/air"
	"tankside/calculators/bath"
)

var degas = Calculator{
	run: expel,

	Name:    "degas",
	Title:   "Degassing time",
	Summary: "How long the sound must run before a fresh bath has lost its air and cavitates well.",
	Inputs: []*Input{
		{Name: "volume", Label: "Volume of the bath", Required: true, Measures: []Measure{{q.Volume, 0.2 * litre, 100, "L", "US gal"}}},
		{Name: "temperature", Label: "Temperature of the bath", Required: true, Measures: []Measure{{q.Temperature, 1, 95, "°C", "°F"}}},
		{Name: "ultrasonic-power", Label: "Ultrasonic power", Required: true, Measures: []Measure{{q.Power, 1, 1e6, "kW", "kW"}}, Help: "Electrical power of the generator."},
		{Name: "frequency", Label: "Frequency", Default: "40 kHz", Measures: []Measure{{q.Frequency, 15e3, 2e6, "kHz", "kHz"}}},
		{Name: "depth", Label: "Depth of the liquid", Measures: []Measure{{q.Length, 0.02, 10, "mm", "in"}}, Help: "For how soon a still bath takes up air again."},
		&altitudeInput,
		{Name: "start-saturation", Label: "Air in the bath at the start", Default: "100 %", Measures: []Measure{{q.Fraction, 0.05, 3, "%", "%"}}, Help: "Share of what water at that temperature holds; just heated up from the cold tap it can be 150 %."},
		{Name: "target", Label: "Dissolved oxygen wanted", Help: "Without it: 95 % of the way to where degassing stops.",
			Measures: []Measure{{q.MassConcentration, 1e-5, 0.02, "mg/L", "mg/L"}, {q.Fraction, 0.01, 1, "%", "%"}}},
	},
	Readings: []Declared{
		{"time", "Time to degas"}, {"dissolved-oxygen-start", "Dissolved oxygen at the start"}, {"dissolved-oxygen-end", "Dissolved oxygen at the end"},
		{"saturation", "Oxygen the water can hold at most"}, {"power-density", "Power per volume"}, {"regassing", "Half of the air is back after"},
	},
	Example: []Written{{"volume", "120 L"}, {"temperature", "62 °C"}, {"ultrasonic-power", "1.2 kW"}, {"depth", "445 mm"}},
	Limits: []string{
		"There is no published rate that fits every tank. The band comes from memory and experience; calibrate it with one reading of a dissolved-oxygen meter, or by the end of the rising strings of bubbles.",
		"Sound at full power, no parts, lid ajar. Pulsing it lets bubbles rise and is quicker.",
		"Above 50 kHz there is no figure to go by, and the band is wider still.",
		"Wetting agents, oil and salts change both rate and end.",
	},
	Sources: []string{
		"Oxygen in water to 40 °C: B. B. Benson and D. Krause, Limnol. Oceanogr. 29 (1984) 620 (U.S. Geological Survey, Office of Water Quality Technical Memorandum 2011.03); above: IUPAC Solubility Data Series vol. 7 (1981)",
		"Course: exponential towards a level below saturation, O. A. Kapustina in L. D. Rozenberg ed., Physical Principles of Ultrasonic Technology (1973)",
		"Rate 0.02–0.3 per minute at 5–30 W/L, level 0.4–0.8 of saturation, still-surface film coefficient 1e−5 m/s: from memory, engineering estimates",
	},
}

func expel(s *sum) {
	volume, t, electrical := s.si("volume"), s.si("temperature"), s.si("ultrasonic-power")
	pressure := air.Pressure(s.si("altitude"))
	saturation := bath.Saturation(t, pressure)
	if saturation < 1e-6 {
		s.fail("temperature", "at this altitude water boils near that temperature and holds no air.")
		return
	}
	density := electrical / volume
	if density > 500e3 {
		s.fail("ultrasonic-power", "{power-density} is more than any tank has: check volume and power.", density)
		return
	}
	start := saturation * s.si("start-saturation")
	slow, likely, fast := bath.Band(density, t, s.si("frequency"))
	s.step("power per volume = {power} ÷ {volume} = {power-density}", electrical, volume, density)
	s.step("water at {temperature} and {pressure} holds {milligrams} of oxygen; the bath starts at {milligrams}", t, pressure, saturation, start)
	s.step("degassing stops at {milligrams} ({milligrams} to {milligrams}); the rest falls to half every {time} ({time} to {time})", likely.Floor*saturation, fast.Floor*saturation, slow.Floor*saturation, math.Ln2/likely.Rate, math.Ln2/fast.Rate, math.Ln2/slow.Rate)

	target := s.at("target")
	goal := func(d bath.Degassing) float64 {
		switch {
		case !target.given:
			floor := d.Floor * saturation
			return math.Max(floor, floor+0.05*(start-floor))
		case target.Kind == q.Fraction:
			return target.SI * saturation
		}
		return target.SI
	}
	if target.given && goal(likely) > saturation {
		s.with(target.String()).fail("target", "{given} is more than water at that temperature holds, {milligrams}.", saturation)
		return
	}
	end := goal(likely)
	time, ok := likely.Time(start, end, saturation)
	if ok {
		low, high := time, inf
		if v, ok := fast.Time(start, goal(fast), saturation); ok {
			low = v
		}
		if v, ok := slow.Time(start, goal(slow), saturation); ok {
			high = v
		}
		r := s.between("time", time, min(low, time), max(high, time), q.Time)
		if r.Unit.Symbol == "s" && time == 0 {
			r.Unit = timeUnit(10 * minute)
		}
		if time == 0 {
			end = start
			s.verdict("The bath holds no more air than that already.")
		}
		s.step("time = ln[({milligrams} − {milligrams}) ÷ ({milligrams} − {milligrams})] ÷ rate = {time}", start, likely.Floor*saturation, end, likely.Floor*saturation, time)
		s.between("dissolved-oxygen-end", end, min(end, goal(fast)), max(end, goal(slow)), q.MassConcentration)
	} else {
		s.verdict("Sound does not bring this bath down to {milligrams} of oxygen: it likely stops at {milligrams}, and at best at {milligrams}.", end, likely.Floor*saturation, fast.Floor*saturation)
		end = likely.Floor * saturation
		s.between("dissolved-oxygen-end", end, fast.Floor*saturation, slow.Floor*saturation, q.MassConcentration)
	}
	s.give("dissolved-oxygen-start", start, q.MassConcentration)
	s.give("saturation", saturation, q.MassConcentration)
	s.give("power-density", density, q.PowerDensity)
	depth := s.si("depth")
	if !s.has("depth") {
		_, _, depth = bath.Cube(volume)
	}
	back := bath.Regassing(depth)
	s.note(s.between("regassing", back, back/3, back*3, q.Time), "still bath, sound off")
	s.degasCurve(slow, likely, fast, start, saturation, end, time)
	s.hot(t)
	s.caution(Warning, "No hand, finger or hand-held tool in a running bath.")
	s.caution(Notice, "Sound only with the liquid above the mark: on an empty or low tank the transducers burn out.")
}

func (s *sum) degasCurve(slow, likely, fast bath.Degassing, start, saturation, end, time float64) {
	span := math.Max(3/likely.Rate, time*1.1)
	c := Curve{
		Title:       s.say("Dissolved oxygen while degassing"),
		Description: s.text("From {milligrams} dissolved oxygen falls towards {milligrams}; after {time} it is at {milligrams}.", start, likely.Floor*saturation, span/3, likely.After(span/3, start, saturation)),
		X:           Axis{s.say("Time"), timeUnit(span)},
		Y:           Axis{s.say("Dissolved oxygen"), unit("mg/L", q.MassConcentration)},
		Levels:      []Level{{s.say("saturated"), saturation}, {s.say("end"), end}},
	}
	for i := range 33 {
		at := span * float64(i) / 32
		c.Likely = append(c.Likely, Point{at, likely.After(at, start, saturation)})
		c.Low = append(c.Low, Point{at, fast.After(at, start, saturation)})
		c.High = append(c.High, Point{at, slow.After(at, start, saturation)})
	}
	s.answer.Curve = &c
}
