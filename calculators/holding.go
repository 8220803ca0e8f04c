package calculators

import (
	"math"

	q "tankside/calculators/quantity"
	"tankside/calculators/water"
)

var holding = Calculator{
	Name:    "holding",
	Title:   "Holding a bath hot",
	Summary: "What it takes in power, energy, water and money to keep a bath hot.",
	Inputs: []Input{
		volumeInput, lengthInput, widthInput, depthInput,
		{Name: "target", Label: "Temperature held", Required: true, Measures: temperature(1, 99)},
		{Name: "hours", Label: "For how long", Required: true, Measures: []Measure{{q.Time, 60, 366 * 24 * hour, "h", "h"}}},
		{Name: "heater", Label: "Heater power", Measures: watts(1, 5e6), Help: "To be told whether it is enough."},
		{Name: "ultrasonic-power", Label: "Ultrasonic power", Measures: watts(0, 1e6), Default: "0 W", Help: ultrasonicHelp},
		lidInput, insulationInput, airInput, humidityInput, draughtInput, altitudeInput, ceilingInput, flashInput,
		{Name: "price", Label: "Price of energy", Measures: []Measure{{q.EnergyPrice, 0, 1000 / kWh, "/kWh", "/kWh"}}, Help: "Per kWh, in any money."},
	},
	Readings: []Declared{
		{"power", "Heat to hold it"}, {"energy", "Energy"}, {"water-lost", "Water evaporated"}, {"level-fall", "Level falls by"}, {"cost", "Cost"},
	},
	Limits: []string{
		"A water bath at rest, nothing cold put in. Losses are good to ±20 %, above 80 °C to ±30 %, under a lid to ±40 %.",
		"The energy is the heater's; what sound and pumps draw is not in it, but the heat of the sound is taken off.",
	},
	Sources: heatSources,
}

func init() { holding.run = hold }

func hold(s *sum) {
	v := s.sizeOnly()
	t, span := s.si("target"), s.si("hours")
	if boiling := v.Boiling(); t > boiling {
		s.fail("target", "at this altitude the bath boils at "+s.show(boiling+1, q.Temperature)+"; the model ends a kelvin below.")
		return
	}
	loss := v.Loss(t)
	band := lossBand(t, v.Lid)
	us := s.si("ultrasonic-power")
	total := loss.Total()
	power := math.Max(0, total-soundToHeat*us)
	low := math.Max(0, total*(1-band)-soundToHeatHigh*us)
	high := math.Max(0, total*(1+band)-soundToHeatLow*us)
	s.losses(v, t, loss)
	if us > 0 {
		s.step("the sound gives ", s.show(us, q.Power), " × 0.6 = ", s.show(soundToHeat*us, q.Power), ", so the heater must give ", s.show(power, q.Power))
	}
	s.between("power", power, low, high, q.Power)
	s.between("energy", power*span, low*span, high*span, q.Energy)
	s.step("energy = ", s.show(power, q.Power), " × ", s.show(span, q.Time), " = ", s.show(power*span, q.Energy))
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
		s.step("cost = ", s.show(power*span, q.Energy), " × ", price.String(), " = ", r.String())
	}
	if us > 0 && soundToHeat*us > total {
		w := v
		w.Power = soundToHeat * us
		hottest, _ := w.Highest()
		s.answer.Verdict = "The sound alone warms this bath beyond " + s.show(t, q.Temperature) + ", to about " + s.show(hottest, q.Temperature) + ": it needs cooling or pauses."
	}
	if heater := s.si("heater"); s.has("heater") && heater < power {
		w := v
		w.Power = heater + soundToHeat*us
		highest, _ := w.Highest()
		s.answer.Verdict = "The heater is too small: the bath falls to " + s.show(highest, q.Temperature) + s.help() + "."
	}
	s.hot(t)
	if fall > v.Depth/10 {
		s.caution(Notice, "The level falls by "+s.show(fall, q.Length)+" of "+s.show(v.Depth, q.Length)+" if nobody tops up: the heater or transducers can run dry and burn out. Fit a level cut-out, close the lid, top up.")
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
