package calculators

import (
	q "tankside/builder/quantity"
	"tankside/calculators/mix"
	"tankside/calculators/safety"
)

var densityInput = Input{
	Name: "density", Label: "Density of the concentrate", Default: "1 kg/L",
	Measures: []Measure{{q.Density, 500, 2500, "kg/L", "lb/US gal"}},
	Help:     "From its data sheet. Needed to weigh it, and where the strength is by mass.",
}

var dilution = Calculator{
	run: dilute,

	Name:    "dilution",
	Title:   "Dilution",
	Summary: "How much concentrate and how much water make a fresh bath.",
	Inputs: []*Input{
		{Name: "volume", Label: "Volume of the bath", Required: true, Measures: []Measure{{q.Volume, 1e-6, 100, "L", "US gal"}}, Help: "The filled volume, not the tank's brim."},
		{Name: "strength", Label: "Strength wanted", Required: true, Measures: []Measure{{q.VolumeFraction, 1e-5, 1, "% v/v", "% v/v"}, {q.MassFraction, 1e-5, 1, "% w/w", "% w/w"}, {q.MassConcentration, 0.01, 1000, "g/L", "wt oz/US gal"}}, Help: "1:N is one part of concentrate to N parts of water. Some labels mean 1 part in N: go by the per cent."},
		&densityInput, &capacityInput, &insideInput, &widthInput, &freeboardInput,
	},
	Readings: []Declared{
		{"concentrate-volume", "Concentrate"}, {"concentrate-mass", "or by mass"}, {"water-volume", "Water"}, {"ratio", "Ratio"}, {"strength", "Strength by volume"},
	},
	Example: []Written{{"volume", "120 L"}, {"strength", "4 % v/v"}, {"density", "1.08 kg/L"}},
	Limits: []string{
		"Volumes are taken to add up; concentrate and water may shrink by up to a per cent on mixing.",
		"Powders: weigh them. Their volume here is that of the substance, not of the heap.",
		"Check the finished bath by titration or refractometer.",
	},
	Sources: []string{
		"C₁V₁ = C₂V₂; % w/w = v·ρ ÷ (v·ρ + (100 − v)·ρ of water), ideal volumes",
		"Density of water 0.9982 kg/L at 20 °C: G. S. Kell, J. Chem. Eng. Data 20 (1975) 97",
		"Order of adding: common practice, no source",
	},
}

func dilute(s *sum) {
	volume, density := s.si("volume"), s.si("density")
	v, ok := s.byVolume("strength", density)
	if !ok || !s.fits("volume", volume) {
		return
	}
	concentrate := volume * v
	s.give("concentrate-volume", concentrate, q.Volume)
	s.give("concentrate-mass", concentrate*density, q.Mass)
	s.give("water-volume", volume-concentrate, q.Volume)
	s.note(s.in("ratio", v, q.VolumeFraction, "1:N"), "1 part of concentrate to so many of water")
	s.in("strength", v, q.VolumeFraction, "% v/v")
	s.step("concentrate = volume × strength = {volume} × {strength} = {volume}", volume, v, concentrate)
	s.step("by mass: {volume} × {density} = {mass}", concentrate, density, concentrate*density)
	s.step("water = {volume} − {volume} = {volume}", volume, concentrate, volume-concentrate)
	s.mixing(v)
	s.roomFor(volume)
}

// byVolume turns a strength in any measure into a fraction by volume and shows
// how. It refuses what is stronger than the concentrate itself.
func (s *sum) byVolume(name string, density float64) (v float64, ok bool) {
	given := s.at(name)
	switch given.Kind {
	case q.VolumeFraction:
		v = given.SI
		if given.Unit.Symbol == "1:N" {
			s.with(given.String()).step("{given} is 1 part in {6}, or {strength}", 1/v, v)
		}
	case q.MassFraction:
		v = mix.FromMassFraction(given.SI, density)
		s.with(given.String()).step("{given} of a concentrate of {density} is {strength}", density, v)
	case q.MassConcentration:
		v = mix.FromMassConcentration(given.SI, density)
		s.with(given.String()).step("{given} ÷ {density} is {strength}", density, v)
	}
	if v > 1+1e-9 {
		s.with(given.String()).fail(name, "{given} is more than the undiluted concentrate holds, {grams}.", density)
		return 0, false
	}
	return min(v, 1), true
}

// mixing is what to heed when concentrate meets water.
func (s *sum) mixing(strength float64) {
	s.caution(Warning, "Add the concentrate to the water, slowly and stirring; never pour water into acid or caustic: it can boil up and spray. Solid caustic goes into cold water in small lots. Goggles, face shield, gloves. Follow the safety data sheet, local codes and licensed practice.")
	if strength > safety.UnusualStrength {
		s.caution(Notice, "A bath of more than 30 % concentrate is unusual. Check that the strength is what the data sheet means.")
	}
}
