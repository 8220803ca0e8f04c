package calculators

import (
	"math"

	q "tankside/builder/quantity"
	"tankside/calculators/air"
	"tankside/calculators/rinse"
	"tankside/calculators/safety"
	"tankside/calculators/water"
)

var drying = Calculator{
	run: dry,

	Name:    "drying",
	Title:   "Drying time",
	Summary: "How long warm air needs for the water that parts bring along.",
	Inputs: []*Input{
		{Name: "carry-off", Label: "Water on the parts", Required: true, Measures: []Measure{{q.Film, 1e-8, 2e-3, "µm", "mil"}, {q.ArealMass, 1e-5, 2, "g/m²", "g/m²"}, {q.Mass, 1e-6, 1000, "g", "oz"}}, Help: "As a film (upright, well drained 16 µm; cups 300–1000), or the whole mass."},
		{Name: "area", Label: "Wetted area", Required: true, Measures: []Measure{{q.Area, 1e-6, 1e4, "m²", "ft²"}}},
		{Name: "air", Label: "Temperature of the drying air", Required: true, Measures: []Measure{{q.Temperature, 5, 180, "°C", "°F"}}},
		{Name: "humidity", Label: "Relative humidity of the room", Default: "50 %", Measures: []Measure{{q.Fraction, 0, 1, "%", "%"}}},
		{Name: "room", Label: "Temperature of the room", Default: "20 °C", Measures: []Measure{{q.Temperature, -10, 50, "°C", "°F"}}, Help: "Where the dryer takes its air."},
		{Name: "flow", Label: "Fresh air through the dryer", Required: true, Measures: []Measure{{q.Flow, 1e-6, 100, "m³/h", "ft³/min"}}},
		{Name: "movement", Label: "Air at the parts", Default: "circulated", Choices: []Choice{{"still", "still oven"}, {"circulated", "circulated by a fan"}, {"knife", "blown from a nozzle or air knife"}}},
		&altitudeInput,
	},
	Readings: []Declared{{"time", "Time to dry"}, {"heat", "Heat for it"}, {"water", "Water to carry off"}, {"wet-bulb", "Temperature of the wet surface"}, {"air-needed", "Fresh air needed to keep up"}},
	Example:  []Written{{"carry-off", "16 mL/m²"}, {"area", "1.5 m²"}, {"air", "80 °C"}, {"flow", "150 m³/h"}},
	Limits: []string{
		"An open, even film. Blind holes, threads and laps dry much later: not dry until looked at.",
		"±40 %: the air's movement at the part decides, and is not known better.",
		"Parts still hot from the rinse dry faster: steel 1 mm thick that cools by 21 K dries its own film.",
	},
	Sources: []string{
		"Constant-rate period, h·(t − wet bulb) ÷ latent heat; wet bulb and humidity: ASHRAE Handbook Fundamentals (2017) chapter 1",
		"h = 7.5 (5–10) still oven, 25 (15–40) circulated, 100 W/(m²·K) air knife: from memory",
	},
}

func dry(s *sum) {
	t, room := s.si("air"), s.si("room")
	pressure := air.Pressure(s.si("altitude"))
	humidity := air.HumidityRatio(air.Vapour(room, s.si("humidity")), pressure)
	if t < room {
		s.with(s.at("air").String(), s.at("room").String()).fail("air", "{given} is colder than the room the air comes from, {room}.")
		return
	}
	var transfer float64
	switch s.at("movement").choice {
	case "still":
		transfer = 7.5
	case "knife":
		transfer = 100
	default:
		transfer = 25
	}
	area := s.si("area")
	film := s.si("carry-off") / area // of the whole mass
	switch s.at("carry-off").Kind {
	case q.Film:
		film = s.si("carry-off") * water.Density(20)
	case q.ArealMass:
		film = s.si("carry-off")
	}
	total := film * area
	d := rinse.Dry(t, humidity, pressure, transfer)
	if d.Rate <= 1e-9 || d.Capacity <= 1e-9 {
		s.verdict("This air takes up no water: it is as moist as the wet surface. Warm it, or take drier air.")
		s.give("water", total, q.Mass)
		s.give("wet-bulb", d.WetBulb, q.Temperature)
		return
	}
	byHeat := film / d.Rate
	dryAir := s.si("flow") * air.DryDensity(room, air.Vapour(room, s.si("humidity")), pressure)
	byAir := total / (dryAir * d.Capacity)
	time := math.Max(byHeat, byAir)
	s.step("the room's air holds {3} g of water a kg; at {temperature} a wet surface stays at {temperature}", humidity*1000, t, d.WetBulb)
	s.step("water = {mass} on {area}, {3} g/m²", total, area, film*1000)
	s.step("drying rate = {3} W/(m²·K) × ({temperature} − {temperature}) ÷ {4} kJ/kg = {3} g/(m²·s), which takes {time}", transfer, t, d.WetBulb, d.Latent/1000, d.Rate*1000, byHeat)
	s.step("the fresh air can carry off {3} g/s, which takes {time}", dryAir*d.Capacity*1000, byAir)
	s.between("time", time, time*0.6, time*1.4, q.Time)
	heat := total * (water.HeatCapacity(d.WetBulb)*math.Max(0, d.WetBulb-room) + d.Latent)
	s.give("heat", heat, q.Energy)
	s.give("water", total, q.Mass)
	s.give("wet-bulb", d.WetBulb, q.Temperature)
	needed := d.Rate * area / d.Capacity / air.DryDensity(room, air.Vapour(room, s.si("humidity")), pressure)
	s.give("air-needed", needed, q.Flow)
	if byAir > byHeat {
		s.verdict("The fresh air is the bottleneck: with {flow} it would take {time}.", needed, byHeat)
	}
	if t >= safety.HotParts {
		s.caution(Careful, "Parts and racks come out at up to {temperature}: gloves. Check that plastics, seals and bonds stand it.", t)
	}
	s.caution(Warning, "No solvent- or oil-wet parts in a hot dryer: the vapour can catch fire.")
}
