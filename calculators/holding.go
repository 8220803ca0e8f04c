package calculators

import (
	"math"

	q "tankside/builder/quantity"
	"tankside/calculators/bath"
	"tankside/calculators/safety"
	"tankside/calculators/water"
)

var holding = Calculator{
	run: hold,

	Name:    "holding",
	Title:   "Holding a bath hot",
	Summary: "What it takes in power, energy, water and money to keep a bath hot.",
	Inputs: []*Input{
		&volumeInput, &lengthInput, &widthInput, &depthInput,
		{Name: "target", Label: "Temperature held", Required: true, Measures: []Measure{{q.Temperature, 1, 99, "°C", "°F"}}},
		{Name: "hours", Label: "For how long", Required: true, Measures: []Measure{{q.Time, 60, 366 * 24 * hour, "h", "h"}}},
		{Name: "heater", Label: "Heater power", Measures: []Measure{{q.Power, 1, 5e6, "kW", "kW"}}, Help: "To be told whether it is enough."},
		{Name: "ultrasonic-power", Label: "Ultrasonic power", Measures: []Measure{{q.Power, 0, 1e6, "kW", "kW"}}, Default: "0 W", Help: ultrasonicHelp},
		&dutyInput, &coolingInput,
		&lidInput, &insulationInput, &airInput, &humidityInput, &draughtInput, &altitudeInput, &ceilingInput, &flashInput,
		{Name: "price", Label: "Price of energy", Measures: []Measure{{q.EnergyPrice, 0, 1000 / kWh, "/kWh", "/kWh"}}, Help: "Per kWh, in any money."},
	},
	Readings: []Declared{
		{"power", "Heat to hold it"}, {"energy", "Energy"}, {"water-lost", "Water evaporated"}, {"level-fall", "Level falls by"}, {"cost", "Cost"},
		{"sound-heat", "Heat from the sound"}, {"drift-shut", "Heater off, sound on, lid shut: ends at"}, {"drift-open", "Heater off, sound on, lid off: ends at"},
		{"rise-shut", "Lid shut: in the first 15 min it rises by"}, {"rise-open", "Lid off: in the first 15 min it rises by"}, {"stop-at", "Stop the sound at"},
	},
	Example: []Written{{"volume", "120 L"}, {"target", "62 °C"}, {"hours", "16 h"}, {"heater", "6 kW"}, {"lid", "yes"}, {"insulation", "25 mm"}, {"price", "0.28 EUR/kWh"}},
	Limits: []string{
		"A water bath at rest, nothing cold put in. Losses are good to ±20 % from 40 to 60 °C, to ±35 % at 80 °C and to ±50 % near boiling, which at altitude comes sooner, and near the room's temperature; under a lid to ±40 % or no better than in the open.",
		"The energy is the heater's; what sound and pumps draw is not in it, but the heat of the sound is taken off.",
		"Rise and end under sound are those of a bath without parts, which take up heat and keep the lid off while they are put in.",
	},
	Sources: heatSources,
}

func hold(s *sum) {
	v := s.sizeOnly()
	t, span := s.si("target"), s.si("hours")
	if boiling := v.Boiling(); t > boiling {
		s.fail("target", "at this altitude the bath boils at {temperature}; the model ends a kelvin below.", boiling+1)
		return
	}
	loss := v.Loss(t)
	band := v.LossBand(t)
	us := s.si("ultrasonic-power") * s.si("duty")
	total := loss.Total()
	power := math.Max(0, total-bath.SoundToHeat*us)
	low := math.Max(0, total*(1-band)-bath.SoundToHeatHigh*us)
	high := math.Max(0, total*(1+band)-bath.SoundToHeatLow*us)
	s.losses(v, t, loss)
	if us > 0 {
		s.note(s.between("sound-heat", bath.SoundToHeat*us, bath.SoundToHeatLow*us, bath.SoundToHeatHigh*us, q.Power), "from memory; a calorimetric check tells your tank's own")
		s.step("the sound gives {power} × {share} of the time × {2} = {power}, so the heater must give {power}", s.si("ultrasonic-power"), s.si("duty"), bath.SoundToHeat, bath.SoundToHeat*us, power)
		s.underSound(s.drift())
	}
	s.between("power", power, low, high, q.Power)
	s.between("energy", power*span, low*span, high*span, q.Energy)
	s.step("energy = {power} × {time} = {energy}", power, span, power*span)
	lost := loss.Water * span / water.Density(20)
	s.between("water-lost", lost, lost*(1-band), lost*(1+band), q.Volume)
	fall := lost / v.Surface()
	s.between("level-fall", fall, fall*(1-band), fall*(1+band), q.Length)
	if s.has("price") {
		price := s.at("price")
		cost := power * span * price.SI
		r := s.between("cost", cost, low*span*price.SI, high*span*price.SI, q.Money)
		if symbol, ok := moneyOf(price.Unit.Symbol); ok {
			if u, ok := q.UnitNamed(symbol, q.Money); ok {
				r.Unit = u
			}
		}
		s.with(price.String(), r.String()).step("cost = {energy} × {price} = {cost}", power*span)
	}
	if heater := s.si("heater"); s.has("heater") && heater < power {
		w := copyOf(v)
		w.Power = heater + bath.SoundToHeat*us
		highest, _ := w.Highest()
		s.with(s.help()).verdict("The heater is too small: the bath falls to {temperature}{help}.", highest)
	}
	s.hot(t)
	if fall > v.Depth*safety.LevelFall {
		s.caution(Notice, "The level falls by {length} of {length} if nobody tops up: the heater or transducers can run dry and burn out. Fit a level cut-out, close the lid, top up.", fall, v.Depth)
	} else {
		s.dry()
	}
}

// moneyOf takes "EUR" from "EUR/kWh".
func moneyOf(price string) (string, bool) {
	for i := range len(price) {
		if price[i] == '/' {
			return price[:i], i > 0
		}
	}
	return "", false
}
