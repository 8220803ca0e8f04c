package calculators

import (
	"math"

	q "tankside/builder/quantity"
	"tankside/calculators/mix"
)

var topUp = Calculator{
	run: bringBack,

	Name:    "top-up",
	Title:   "Top-up",
	Summary: "What to add to, or let out of, a bath that is too weak, too strong or too low.",
	Inputs: []*Input{
		{Name: "volume", Label: "Volume now", Required: true, Or: [][]string{{"below-mark", "tank-capacity", "length", "width"}}, Measures: []Measure{{q.Volume, 0, 100, "L", "US gal"}}, Help: "0 L for an empty tank."},
		{Name: "strength-now", Label: "Strength now", Required: true, Measures: []Measure{{q.VolumeFraction, 0, 1, "% v/v", "% v/v"}, {q.MassFraction, 0, 1, "% w/w", "% w/w"}, {q.MassConcentration, 0, 1000, "g/L", "wt oz/US gal"}}, Help: "From a titration or refractometer."},
		{Name: "strength", Label: "Strength wanted", Required: true, Measures: []Measure{{q.VolumeFraction, 1e-5, 0.99, "% v/v", "% v/v"}, {q.MassFraction, 1e-5, 0.99, "% w/w", "% w/w"}, {q.MassConcentration, 0.01, 990, "g/L", "wt oz/US gal"}}},
		{Name: "volume-wanted", Label: "Volume wanted", Measures: []Measure{{q.Volume, 0.1 * litre, 100, "L", "US gal"}}, Help: "Without it the bath grows by what is added, as far as the tank holds it."},
		{Name: "below-mark", Label: "Below the mark", Measures: []Measure{{q.Length, 0, 10, "mm", "in"}}, Help: "In place of the volume now: 0 at the mark. The tank is then filled to the mark."},
		&capacityInput, &densityInput, &insideInput, &widthInput, &freeboardInput,
	},
	Readings: []Declared{
		{"drain-volume", "Let out first"}, {"concentrate-volume", "Add concentrate"}, {"concentrate-mass", "or by mass"}, {"water-volume", "Add water"}, {"volume-after", "Volume afterwards"},
	},
	Example: []Written{{"volume", "120 L"}, {"strength-now", "3.2 % v/v"}, {"strength", "4 % v/v"}, {"tank-capacity", "120 L"}, {"density", "1.08 kg/L"}},
	Limits: []string{
		"Volumes are taken to add up, and the bath to be well mixed. Titrate again after half an hour of mixing.",
		"The mark counts at working temperature: a bath filled cold to the mark stands 1–2 % higher when it is hot.",
		"A level is read with no parts in the bath, and counts where the walls are upright.",
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
	volume, ok := s.volumeNow()
	if !ok {
		return
	}
	target := s.si("volume-wanted")
	switch {
	case !s.fits("volume", volume) || s.has("volume-wanted") && !s.fits("volume-wanted", target):
		return
	case s.has("volume-wanted"):
	case s.has("below-mark"):
		target = s.si("tank-capacity")
	case volume <= 0:
		s.fail("volume-wanted", "an empty tank needs the volume wanted.")
		return
	default:
		target = s.grown(volume, now, wanted)
	}
	a := s.bringTo(volume, now, target, wanted)
	s.give("concentrate-mass", a.Concentrate*density, q.Mass)
	s.give("volume-after", a.Volume, q.Volume)
	kept := volume - a.Drain
	if a.Drain > 0 {
		s.step("let out {volume}, which leaves {volume}", a.Drain, kept)
		s.verdict("It cannot be done without letting {volume} of the bath out first.", a.Drain)
	}
	s.step("concentrate = {volume} × {strength} − {volume} × {strength} = {volume}", target, wanted, kept, now, a.Concentrate)
	s.step("water = {volume} − {volume} − {volume} = {volume}", target, kept, a.Concentrate, a.Water)
}

// volumeNow is what is in the tank, as it was given or by its level: what is missing is as long and as wide as the tank is inside, which read has seen to. ok is false for a level
// that is deeper than the tank, and where volume and level are given together, for one of them would be left unheard.
func (s *sum) volumeNow() (volume float64, ok bool) {
	if !s.has("below-mark") {
		return s.si("volume"), true
	}
	if s.has("volume") {
		s.fail("below-mark", "give the volume now or the level, not both.")
		return 0, false
	}
	below, length, width, capacity := s.si("below-mark"), s.si("length"), s.si("width"), s.si("tank-capacity")
	missing := below * length * width
	if missing > capacity*(1+1e-9) {
		s.fail("below-mark", "{length} is deeper than the tank: over its surface that is {volume}, and the tank holds {volume}.", below, missing, capacity)
		return 0, false
	}
	s.step("missing below the mark: {length} × {length} × {length} = {volume}; in the tank are {volume}", below, length, width, missing, capacity-missing)
	return max(capacity-missing, 0), true
}

// grown is the volume that a bath comes to when it is brought to a strength with nothing let out, or the mark where that is less.
func (s *sum) grown(volume, now, wanted float64) float64 {
	target := mix.Natural(volume, now, wanted)
	s.step("with nothing let out the bath comes to {volume}", target)
	if capacity := s.si("tank-capacity"); s.has("tank-capacity") && target > capacity {
		s.step("the tank holds no more than {volume}, so some of the bath must go", capacity)
		return capacity
	}
	return target
}

// bringTo gives what to let out, then what concentrate and then what water to add. In that order the tank is never fuller than at the start or
// in the end, and neither is above its mark: see fits.
func (s *sum) bringTo(volume, now, target, wanted float64) mix.TopUp {
	a := mix.Adjust(volume, now, target, wanted)
	s.give("drain-volume", a.Drain, q.Volume)
	s.give("concentrate-volume", a.Concentrate, q.Volume)
	s.give("water-volume", a.Water, q.Volume)
	if a.Drain > 0 {
		s.caution(Warning, "The bath let out is waste: collect it, and let it go only by the route your permit allows.")
	}
	if a.Concentrate > 0 {
		s.mixing(wanted)
	}
	if a.Concentrate > 0 || a.Water > 0 {
		s.caution(Warning, "Concentrate or cold water in a hot bath can spit: sound and heater off, pour slowly, face shield on.")
	}
	s.roomFor(math.Max(volume-a.Drain, target))
	return a
}
