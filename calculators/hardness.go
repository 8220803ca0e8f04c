package calculators

import (
	q "tankside/builder/quantity"
	"tankside/calculators/water"
)

var hardness = Calculator{
	run: convertHardness,

	Name:    "hardness",
	Title:   "Water hardness",
	Summary: "One hardness in all the units that test strips and water works use.",
	Inputs: []*Input{
		{Name: "hardness", Label: "Hardness", Required: true, Measures: []Measure{{q.Hardness, 0, 20, "mg/L", "gr/US gal"}}, Help: "In mg/L (ppm) as CaCO₃, °dH, °fH, °e, grains per US gallon or mmol/L."},
	},
	Readings: []Declared{
		{"calcium-carbonate", "as CaCO₃"}, {"german-degrees", "German degrees"}, {"french-degrees", "French degrees"}, {"english-degrees", "English degrees"},
		{"grains-per-us-gallon", "Grains per US gallon"}, {"millimoles", "Calcium and magnesium"}, {"class", "Class"},
	},
	Example: []Written{{"hardness", "260 mg/L"}},
	Limits:  []string{"Total hardness, calcium and magnesium together. Some strips show carbonate hardness only, which is less."},
	Sources: []string{
		"Definitions of the degrees (10 mg CaO, 10 mg CaCO₃ a litre; grain a gallon) with molar masses CaCO₃ 100.0869, CaO 56.0774 g/mol; grain and gallons: NIST Special Publication 811",
		"Classes of the U.S. Geological Survey: soft to 60, moderately hard to 120, hard to 180 mg/L (from memory)",
	},
}

func convertHardness(s *sum) {
	h := s.si("hardness")
	for _, unit := range [...][2]string{
		{"calcium-carbonate", "mg/L"}, {"german-degrees", "°dH"}, {"french-degrees", "°fH"}, {"english-degrees", "°e"}, {"grains-per-us-gallon", "gr/US gal"}, {"millimoles", "mmol/L"},
	} {
		s.in(unit[0], h, q.Hardness, unit[1])
	}
	s.tell("class", water.Class(h))
	s.with(s.at("hardness").String()).step("{given} is {hardness} as CaCO₃", h)
	s.step("1 °dH = 17.848 mg/L, 1 °fH = 10 mg/L, 1 °e = 14.254 mg/L, 1 grain per US gallon = 17.118 mg/L, 1 mmol/L = 100.09 mg/L")
}
