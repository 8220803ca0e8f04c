package calculators

import (
	"tankside/calculators/mix"
	q "tankside/calculators/quantity"
)

var topUp = Calculator{
	run: bringBack,

	Name:    "top-up",
	Title:   "Top-up",
	Summary: "What to add to, or let out of, a bath that is too weak, too strong or too low.",
	Inputs: []*Input{
		{Name: "volume", Label: "Volume now", Required: true, Measures: []Measure{{q.Volume, 0, 100, "L", "US gal"}}, Help: "0 L for an empty tank."},
		{Name: "strength-now", Label: "Strength now", Required: true, Measures: []Measure{{q.VolumeFraction, 0, 1, "% v/v", "% v/v"}, {q.MassFraction, 0, 1, "% w/w", "% w/w"}, {q.MassConcentration, 0, 1000, "g/L", "oz/US gal"}}, Help: "From a titration or refractometer."},
		{Name: "strength", Label: "Strength wanted", Required: true, Measures: []Measure{{q.VolumeFraction, 1e-5, 0.99, "% v/v", "% v/v"}, {q.MassFraction, 1e-5, 0.99, "% w/w", "% w/w"}, {q.MassConcentration, 0.01, 990, "g/L", "oz/US gal"}}},
		{Name: "volume-wanted", Label: "Volume wanted", Measures: []Measure{{q.Volume, 0.1 * litre, 100, "L", "US gal"}}, Help: "Without it the bath grows by what is added, as far as the tank holds it."},
		{Name: "tank-capacity", Label: "Most the tank may hold", Measures: []Measure{{q.Volume, 0.1 * litre, 100, "L", "US gal"}}},
		&densityInput,
	},
	Readings: []Declared{
		{"drain-volume", "Let out first"}, {"concentrate-volume", "Add concentrate"}, {"concentrate-mass", "or by mass"}, {"water-volume", "Add water"}, {"volume-after", "Volume afterwards"},
	},
	Limits: []string{
		"Volumes are taken to add up, and the bath to be well mixed. Titrate again after half an hour of mixing.",
		"It brings back the strength, not the age: soil, oil and dissolved metal stay.",
	},
	Sources: []string{"Balance of volume and of concentrate, (V − d)·c + x = W·t and (V − d) + x + w = W"},
}

func bringBack(s *sum) {
	density := s.si("density")
	now, ok := s.byVolume("strength-now", density)
	wanted, ok2 := s.byVolume("strength", density)
	if !ok || !ok2 {
		return
	}
	if wanted >= 1 {
		s.fail("strength", "an undiluted bath cannot be made by topping up.")
		return
	}
	volume := s.si("volume")
	capacity := s.si("tank-capacity")
	if s.has("tank-capacity") && volume > capacity*(1+1e-9) {
		s.fail("volume", "{volume} is more than the tank may hold, {volume}.", volume, capacity)
		return
	}
	target := s.si("volume-wanted")
	switch {
	case s.has("volume-wanted") && s.has("tank-capacity") && target > capacity*(1+1e-9):
		s.fail("volume-wanted", "{volume} is more than the tank may hold, {volume}.", target, capacity)
		return
	case !s.has("volume-wanted"):
		if volume <= 0 {
			s.fail("volume-wanted", "an empty tank needs the volume wanted.")
			return
		}
		target = mix.Natural(volume, now, wanted)
		s.step("with nothing let out the bath comes to {volume}", target)
		if s.has("tank-capacity") && target > capacity {
			target = capacity
			s.step("the tank holds no more than {volume}, so some of the bath must go", capacity)
		}
	}
	a := mix.Adjust(volume, now, target, wanted)
	s.give("drain-volume", a.Drain, q.Volume)
	s.give("concentrate-volume", a.Concentrate, q.Volume)
	s.give("concentrate-mass", a.Concentrate*density, q.Mass)
	s.give("water-volume", a.Water, q.Volume)
	s.give("volume-after", a.Volume, q.Volume)
	kept := volume - a.Drain
	if a.Drain > 0 {
		s.step("let out {volume}, which leaves {volume}", a.Drain, kept)
		s.verdict("It cannot be done without letting {volume} of the bath out first.", a.Drain)
		s.caution(Warning, "The bath let out is waste: collect it, and let it go only by the route your permit allows.")
	}
	s.step("concentrate = {volume} × {strength} − {volume} × {strength} = {volume}", target, wanted, kept, now, a.Concentrate)
	s.step("water = {volume} − {volume} − {volume} = {volume}", target, kept, a.Concentrate, a.Water)
	if a.Concentrate > 0 {
		s.mixing(wanted)
		s.caution(Warning, "Concentrate or cold water in a hot bath can spit: sound and heater off, pour slowly, face shield on.")
	}
}
