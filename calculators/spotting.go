package calculators

import (
	q "tankside/builder/quantity"
	"tankside/calculators/rinse"
)

var spotting = Calculator{
	run: spots,

	Name:    "spotting",
	Title:   "Spots from the last rinse",
	Summary: "What a drying film of rinse water leaves on the part, and how pure the water must be.",
	Inputs: []*Input{
		{Name: "dissolved-solids", Label: "Dissolved solids", Required: true, Or: [][]string{{"hardness"}, {"conductivity"}}, Measures: []Measure{{q.MassConcentration, 0, 50, "mg/L", "mg/L"}}, Help: "Of the water in the last rinse."},
		{Name: "hardness", Label: "or hardness", Measures: []Measure{{q.Hardness, 0, 5, "mg/L", "gr/US gal"}}, Help: "Other salts leave spots too: dissolved solids are at least the hardness."},
		{Name: "conductivity", Label: "or conductivity", Measures: []Measure{{q.Conductivity, 0, 10, "µS/cm", "µS/cm"}}, Help: "At 25 °C."},
		{Name: "film-thickness", Label: "Film left to dry", Default: "16 µm", Measures: []Measure{{q.Film, 1e-8, 2e-3, "µm", "mil"}}, Help: "Upright, well drained 16 µm; level 33; badly drained 80–160; cups 300–1000. Blown off: 1–3 (guess)."},
		{Name: "residue-wanted", Label: "Residue wanted at most", Default: "0.5 mg/m²", Measures: []Measure{{q.ArealMass, 1e-10, 1e-2, "mg/m²", "mg/ft²"}}},
	},
	Readings: []Declared{{"residue", "Left on the surface"}, {"verdict", "What is seen"}, {"dissolved-solids-wanted", "Dissolved solids for the residue wanted"}, {"conductivity-wanted", "Conductivity for the residue wanted"}},
	Example:  []Written{{"dissolved-solids", "410 mg/L"}},
	Limits: []string{
		"The mean over the surface. In the last drop at an edge or hole the same salt sits on a hundredth of the area and is seen.",
		"What is seen at which residue is common practice, no source; it hangs on colour, polish and light.",
	},
	Sources: []string{
		"mg/m² = mg/L × µm ÷ 1000",
		"Film by drainage: drag-out table of a guidebook on metal finishing (2012–13), 0.4 gal per 1000 ft² = 16.3 mL/m²; agrees with H. Jeffreys, Proc. Camb. Phil. Soc. 26 (1930) 204",
		"Dissolved solids of natural water 0.5–0.8 mg/L for each µS/cm: instrument handbooks",
	},
}

// solidsPer is kg/m³ of dissolved solids for each S/m: likely, low, high.
const (
	solidsPer     = 0.65e-3 / 1e-4
	solidsPerLow  = 0.5e-3 / 1e-4
	solidsPerHigh = 0.8e-3 / 1e-4
)

func spots(s *sum) {
	film := s.si("film-thickness")
	var solids, low, high float64
	switch {
	case s.has("dissolved-solids"):
		solids = s.si("dissolved-solids")
		low, high = solids, solids
	case s.has("conductivity"):
		k := s.si("conductivity")
		solids, low, high = k*solidsPer, k*solidsPerLow, k*solidsPerHigh
		s.step("dissolved solids ≈ 0.65 mg/L for each µS/cm = {concentration} ({concentration} to {concentration})", solids, low, high)
	default:
		solids = s.si("hardness") * 1.4
		low, high = s.si("hardness"), s.si("hardness")*2
		s.step("dissolved solids ≈ 1.4 × hardness = {concentration} ({concentration} to {concentration}; common practice, no source)", solids, low, high)
	}
	residue := rinse.Residue(solids, film)
	s.between("residue", residue, rinse.Residue(low, film), rinse.Residue(high, film), q.ArealMass)
	s.step("residue = {concentration} × {film} = {residue}", solids, film, residue)
	seen := "heavy white spots and runs on anything"
	switch {
	case residue <= 0.05e-6:
		seen = "nothing, also on optics and mirror polish"
	case residue <= 0.5e-6:
		seen = "nothing on most parts; faint rings on mirror polish and glass"
	case residue <= 2e-6:
		seen = "rings on polished and dark parts"
	case residue <= 10e-6:
		seen = "white spots on most parts"
	}
	s.tell("verdict", seen)
	wanted := s.si("residue-wanted")
	most := wanted / film
	s.give("dissolved-solids-wanted", most, q.MassConcentration)
	s.between("conductivity-wanted", most/solidsPer, most/solidsPerHigh, most/solidsPerLow, q.Conductivity)
	s.step("for {residue}: {residue} ÷ {film} = {concentration} of dissolved solids, about {conductivity}", wanted, wanted, film, most, most/solidsPer)
	switch {
	case residue <= wanted*(1+1e-9):
		s.verdict("The water is good enough for the residue wanted.")
	default:
		s.verdict("For the residue wanted the water must be {2} times purer, or the film that much thinner: blow off before drying.", residue/wanted)
	}
}
