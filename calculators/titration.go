package calculators

import (
	"tankside/calculators/mix"
	q "tankside/calculators/quantity"
)

var titration = Calculator{
	run: titrate,

	Name:    "titration",
	Title:   "Titration",
	Summary: "What an acid titration says of an alkaline bath, and what to add.",
	Inputs: []*Input{
		{Name: "sample", Label: "Sample of the bath", Required: true, Measures: []Measure{{q.Volume, 1e-7, 1e-3, "mL", "mL"}}},
		{Name: "titrant-used", Label: "Acid used", Required: true, Measures: []Measure{{q.Volume, 0, 1e-3, "mL", "mL"}}, Help: "To the end point the supplier names: phenolphthalein (pH 8.3) for free, bromocresol green (pH 4.5) for total alkalinity."},
		{Name: "titrant-normality", Label: "Strength of the acid", Required: true, Measures: []Measure{{q.Normality, 1, 10e3, "N", "N"}}},
		{Name: "factor", Label: "Factor", Measures: []Measure{{q.Number, 1e-6, 1000, "", ""}}, Required: true, Help: "Per cent by volume for each mL of acid, for this sample and acid. Make it yourself: a fresh bath of 5 % that takes 12.5 mL has 5 ÷ 12.5 = 0.4."},
		{Name: "volume", Label: "Volume of the bath", Measures: []Measure{{q.Volume, 0.2 * litre, 100, "L", "US gal"}}, Help: "To be told what to add."},
		{Name: "strength", Label: "Strength wanted", Measures: []Measure{{q.VolumeFraction, 1e-5, 0.99, "% v/v", "% v/v"}}},
		&capacityInput, &insideInput, &widthInput, &freeboardInput,
	},
	Readings: []Declared{
		{"strength", "Strength"}, {"alkalinity", "Alkalinity"}, {"as-caustic", "as caustic soda"},
		{"drain-volume", "Let out first"}, {"concentrate-volume", "Add concentrate"}, {"water-volume", "Add water"},
	},
	Limits: []string{
		"The factor belongs to one product, one sample volume and one acid; a new drum may need a new one.",
		"Total alkalinity counts soil, carbonate and the make-up water's own; a bath whose total is twice its free alkalinity is due for change (common practice, no source).",
	},
	Sources: []string{
		"Alkalinity = acid × normality × 50.04 ÷ sample: Standard Methods for the Examination of Water and Wastewater, 2320 B",
		"Strength = acid × factor: common practice, no source",
	},
}

func titrate(s *sum) {
	used, sample, normality, factor := s.si("titrant-used"), s.si("sample"), s.si("titrant-normality"), s.si("factor")
	equivalents := mix.Alkalinity(used, normality, sample)
	strength := used * 1e6 * factor / 100
	if strength > 1 {
		s.fail("factor", "{millilitres} × {6} is more than 100 %: check the factor and the acid used.", used, factor)
		return
	}
	s.in("strength", strength, q.VolumeFraction, "% v/v")
	s.note(s.in("alkalinity", equivalents*mix.EquivalentCaCO3, q.Alkalinity, "mg/L"), "as CaCO₃")
	s.note(s.in("as-caustic", equivalents*mix.EquivalentNaOH, q.MassConcentration, "g/L"), "NaOH, if it were all caustic soda")
	s.step("strength = acid × factor = {millilitres} × {6} % per mL = {strength}", used, factor, strength)
	s.step("alkalinity = {millilitres} × {normality} × 50 043 ÷ {millilitres} = {4} mg/L as CaCO₃", used, normality, sample, equivalents*mix.EquivalentCaCO3*1000)
	s.caution(Careful, "Sample and acid burn: goggles and gloves. Cool the sample first, and let oil rise and draw from below it: oil gives false end points.")
	if !s.has("volume") || !s.has("strength") {
		return
	}
	volume, wanted := s.si("volume"), s.si("strength")
	if !s.fits("volume", volume) {
		return
	}
	a := s.bringTo(volume, strength, s.grown(volume, strength, wanted), wanted)
	s.step("from {strength} to {strength} in {volume}: let out {volume}, add {volume} of concentrate and {volume} of water", strength, wanted, volume, a.Drain, a.Concentrate, a.Water)
	switch off := strength/wanted - 1; {
	case off < -0.2 || off > 0.2:
		s.verdict("More than a fifth off: hold the work, set the bath right and check the parts done since the last good reading.")
	case off < -0.1 || off > 0.1:
		s.verdict("Adjust the bath before the next load.")
	default:
		s.verdict("Within a tenth of what is wanted.")
	}
}
