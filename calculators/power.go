package calculators

import (
	q "tankside/builder/quantity"
	"tankside/calculators/bath"
)

var power = Calculator{
	run: measurePower,

	Name:    "power",
	Title:   "Sound power from warming",
	Summary: "How much of the generator's power arrives in the liquid, from how fast the sound alone warms it.",
	Inputs: []*Input{
		{Name: "volume", Label: "Volume of water", Required: true, Measures: []Measure{{q.Volume, 0.05 * litre, 100, "L", "US gal"}}},
		{Name: "rise", Label: "Rise in temperature", Required: true, Measures: []Measure{{q.TemperatureDifference, 0.01, 60, "K", "°F"}}, Help: "With heater off, lid on, stirred; start 3–5 K below the room so that losses cancel."},
		{Name: "time", Label: "Time of the run", Required: true, Measures: []Measure{{q.Time, 5, 24 * hour, "min", "min"}}},
		{Name: "electrical-power", Label: "Electrical power", Measures: []Measure{{q.Power, 1, 1e6, "kW", "kW"}}, Help: "Drawn from the mains by the sound alone."},
		{Name: "temperature", Label: "Temperature of the run", Measures: []Measure{{q.Temperature, 1, 95, "°C", "°F"}}, Default: "20 °C"},
	},
	Readings: []Declared{{"acoustic-power", "Sound power in the liquid"}, {"density", "Power per volume"}, {"efficiency", "Share of the electrical power"}},
	Example:  []Written{{"volume", "120 L"}, {"rise", "1.5 K"}, {"time", "15 min"}, {"electrical-power", "1.2 kW"}},
	Limits: []string{
		"Plain water without parts. At best ±10 %; in practice it reads low by up to a fifth, for heat goes into the tank and the room. Use it for trend, not for claims.",
		"15 % below the commissioning value: look into it; 25 %: call service (common practice, no source).",
	},
	Sources: []string{
		"P = m·cp·dT/dt: M. Plattes et al., MethodsX 4 (2017) 274",
		"Water: G. S. Kell (1975); heat capacity fitted to IAPWS-95",
	},
}

func measurePower(s *sum) {
	volume, rise, time := s.si("volume"), s.si("rise"), s.si("time")
	p := bath.Calorimetry(volume, s.si("temperature"), rise/time)
	s.between("acoustic-power", p, p*0.9, p*1.25, q.Power)
	s.between("density", p/volume, p/volume*0.9, p/volume*1.25, q.PowerDensity)
	s.step("warming = {kelvins} in {time} = {kelvins} a minute", rise, time, rise/time*minute)
	s.step("power = mass × 4.18 kJ/(kg·K) × warming = {power} (rule: 70 × litres × kelvin per minute = {3} W)", p, 70*volume*1000*rise/time*minute)
	s.step("per volume: {power} ÷ {volume} = {power-density}", p, volume, p/volume)
	if s.has("electrical-power") {
		e := p / s.si("electrical-power")
		if e > 1.3 {
			s.fail("electrical-power", "more heat arrives ({power}) than that: was the heater on, or is the volume or the time wrong?", p)
			return
		}
		s.between("efficiency", e, e*0.9, e*1.25, q.Fraction)
		s.step("share = {power} ÷ {power} = {share}", p, s.si("electrical-power"), e)
		if e > 1 {
			s.verdict("More heat than the sound draws cannot be: was the heater on, or did the room warm the bath?")
		}
	}
	s.caution(Warning, "No hand, finger or hand-held tool in a running bath.")
	s.caution(Notice, "Sound only with the liquid above the mark: on an empty or low tank the transducers burn out.")
}
