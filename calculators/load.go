package calculators

import (
	q "tankside/builder/quantity"
	"tankside/calculators/air"
	"tankside/calculators/safety"
	"tankside/calculators/water"
)

var load = Calculator{
	run: coolDown,

	Name:    "load",
	Title:   "Cold load",
	Summary: "How far a load of parts cools the bath, and how long until it is back.",
	Inputs: []*Input{
		{Name: "load-mass", Label: "Mass of parts and basket", Required: true, Measures: []Measure{{q.Mass, 1e-3, 1e5, "kg", "lb"}}},
		&materialInput,
		{Name: "volume", Label: "Volume of the bath", Required: true, Measures: []Measure{{q.Volume, 0.2 * litre, 100, "L", "US gal"}}},
		{Name: "bath-temperature", Label: "Temperature of the bath", Required: true, Measures: []Measure{{q.Temperature, 1, 95, "°C", "°F"}}},
		{Name: "part-temperature", Label: "Temperature of the parts", Required: true, Measures: []Measure{{q.Temperature, -40, 300, "°C", "°F"}}},
		{Name: "heater", Label: "Heater power", Measures: []Measure{{q.Power, 1, 5e6, "kW", "kW"}}, Help: "To be told how long it takes to recover."},
		&lidInput, &insulationInput, &airInput, &humidityInput, &altitudeInput,
		&insideInput, &widthInput, &freeboardInput,
	},
	Readings: []Declared{{"temperature-drop", "Bath cools by"}, {"recovery-time", "Back in"}, {"load-ratio", "Mass of parts to mass of water"}, {"displaced-volume", "The load displaces"}, {"level-rise", "Level rises by"}},
	Example:  []Written{{"load-mass", "12 kg"}, {"load-material", "brass"}, {"volume", "120 L"}, {"bath-temperature", "62 °C"}, {"part-temperature", "20 °C"}, {"heater", "6 kW"}},
	Limits: []string{
		"Bath and parts at one temperature at once; the tank's own steel, which softens the drop, is left out.",
		"What the load displaces counts solid parts. Hollow ones that keep their air displace more.",
		"Recovery counts the losses of a tank, where its size is not given of one as long and as wide as it is deep, ±20 % from 40 to 60 °C and less well outside, under a lid ±40 %.",
	},
	Sources: []string{
		"Heat balance of bath and load; specific heats and densities: F. P. Incropera, Fundamentals of Heat and Mass Transfer, 6th ed., tables A.1 and A.3; plastics and cast iron from memory",
		"At most 1 kg of dense parts for 10 L of bath, a tenth of its mass: common practice, no source; a third to a half of the water's mass as the outer limit: a 2013 guidebook on metal finishing",
	},
}

func coolDown(s *sum) {
	parts, volume, t, cold := s.si("load-mass"), s.si("volume"), s.si("bath-temperature"), s.si("part-temperature")
	heat := specificHeat(s.at("load-material").choice)
	mass := volume * water.Density(t)
	bathHeat, partHeat := mass*water.HeatCapacity(t), parts*heat
	drop := partHeat * (t - cold) / (bathHeat + partHeat)
	after := t - drop
	name := s.say(materialInput.label(s.at("load-material").choice))
	s.with(name).step("heat capacity of the parts = {mass} × {3} kJ/(kg·K) for {material} = {3} kJ/K; of the bath {3} kJ/K", parts, heat/1000, partHeat/1000, bathHeat/1000)
	s.step("drop = parts ÷ (parts + bath) × ({temperature} − {temperature}) = {kelvins}", t, cold, drop)
	s.give("temperature-drop", drop, q.TemperatureDifference)
	s.give("load-ratio", parts/mass, q.Fraction)
	s.step("mass of parts to mass of water = {mass} ÷ {mass} = {share}", parts, mass, parts/mass)
	if after > water.BoilingPoint(air.Pressure(s.si("altitude"))) {
		s.fail("part-temperature", "parts that hot boil the bath over.")
		return
	}
	if s.has("heater") && drop > 0 {
		s.recovery(after, t, partHeat)
	} else if drop <= 0 {
		s.verdict("The parts do not cool the bath.")
	}
	switch ratio := parts / mass; {
	case ratio > safety.LoadMost:
		s.caution(Notice, "The parts weigh more than half of the water: the sound cannot work between them. Make smaller loads.")
	case ratio > safety.LoadFrom:
		s.caution(Notice, "More than 1 kg of parts for 10 L: expect weaker sound inside the basket, and check with a foil test in it.")
	}
	if cold >= safety.HotParts {
		s.caution(Warning, "Hot parts make the bath spit and steam: lower them slowly, face shield and long gloves.")
	}
	s.displace(parts/densityOf(s.at("load-material").choice), volume)
	s.hot(t)
}

func (s *sum) recovery(from, to, partHeat float64) {
	v := s.sizeOnly()
	v.Power, v.Fixed = s.si("heater"), partHeat
	table := v.Tabulate(from, to)
	h, ok := v.HeatUpBy(table)
	if !ok {
		highest, _ := v.Highest()
		s.with(s.lidHelp()).verdict("With this heater the bath does not come back to {temperature}: it stops at {temperature}{help}.", to, highest)
		return
	}
	b := v.LossBand(to)
	slow, fast := copyOf(v), copyOf(v)
	slow.Scale, fast.Scale = 1+b, 1-b
	low, high := h.Time, inf
	if f, ok := fast.HeatUpBy(table); ok {
		low = f.Time
	}
	if l, ok := slow.HeatUpBy(table); ok {
		high = l.Time
	}
	s.between("recovery-time", h.Time, low, high, q.Time)
	s.step("recovery: {energy} to put back with {power} less the loss of {power} = {time}", h.Stored, v.Power, v.Loss(to).Total(), h.Time)
}

func (s *sum) lidHelp() string {
	if s.yes("lid") {
		return ""
	}
	return "; " + s.say("a closed lid saves most of the loss")
}

// displace gives how far the load lifts the level of a bath filled to its mark, and warns where that passes the rim.
func (s *sum) displace(displaced, volume float64) {
	s.give("displaced-volume", displaced, q.Volume)
	surface := s.si("length") * s.si("width")
	if surface > 0 {
		s.give("level-rise", displaced/surface, q.Length)
		s.step("level rises by {volume} ÷ ({length} × {length}) = {length}", displaced, s.si("length"), s.si("width"), displaced/surface)
	}
	switch room, known := s.room(); {
	case known && displaced > room:
		s.caution(Warning, "Filled to the mark, this load makes the tank run over: it displaces {volume}, and from the mark to the rim there is room for {volume}. Hot cleaner over the rim burns. Make smaller loads, or lower the level by {length} first and keep heater and transducers covered.", displaced, room, (displaced-room)/surface)
	case known:
	case displaced > volume*safety.LoadLevels:
		s.caution(Careful, "The parts lift the level; leave room for them, so that hot liquid does not run over. Not checked: how far it is from the mark to the rim.")
	}
}
