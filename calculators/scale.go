package calculators

import (
	q "tankside/builder/quantity"
	"tankside/calculators/mix"
	"tankside/calculators/water"
)

var scale = Calculator{
	run: saturate,

	Name:    "scale",
	Title:   "Scale or attack by water",
	Summary: "Whether a make-up or rinse water lays down scale on heaters and parts, or eats it away.",
	Inputs: []*Input{
		{Name: "temperature", Label: "Temperature", Required: true, Measures: []Measure{{q.Temperature, 0.1, 90, "°C", "°F"}}, Help: "Where it is hottest: at the heater."},
		{Name: "ph", Label: "pH of the water", Required: true, Measures: []Measure{{q.PH, 5, 10, "", ""}}},
		{Name: "sample-temperature", Label: "Temperature at which the pH was read", Measures: []Measure{{q.Temperature, 0.1, 90, "°C", "°F"}}, Help: "The pH falls as the water is heated. Without it the pH counts as it is."},
		{Name: "calcium", Label: "Calcium hardness", Required: true, Or: [][]string{{"hardness"}}, Measures: []Measure{{q.Hardness, 1e-3, 5, "mg/L", "mg/L"}}, Help: "As CaCO₃."},
		{Name: "hardness", Label: "Total hardness", Measures: []Measure{{q.Hardness, 1e-3, 5, "mg/L", "mg/L"}}, Help: "As CaCO₃, where the calcium is not known: three quarters of it are taken, between a half and all."},
		{Name: "hardness-as-calcium", Label: "All of the hardness is calcium", Choices: yesNo, Default: "no", Help: "Only where somebody knows it: then the total hardness counts as calcium."},
		{Name: "alkalinity", Label: "Alkalinity", Required: true, Measures: []Measure{{q.Alkalinity, 1e-3, 5, "mg/L", "mg/L"}}, Help: "As CaCO₃, to pH 4.5."},
		{Name: "dissolved-solids", Label: "Dissolved solids", Required: true, Measures: []Measure{{q.MassConcentration, 5e-3, 10, "mg/L", "mg/L"}, {q.Conductivity, 1e-3, 2, "µS/cm", "µS/cm"}}},
	},
	Readings: []Declared{{"saturation-index", "Saturation index"}, {"stability-index", "Stability index (Ryznar)"}, {"saturation-ph", "pH at which it would be in balance"}, {"hot-ph", "pH at the temperature"}, {"verdict", "What it does"}, {"stability", "What it does by the stability index"}},
	Example:  []Written{{"temperature", "62 °C"}, {"ph", "7.6"}, {"hardness", "260 mg/L"}, {"alkalinity", "220 mg/L"}, {"dissolved-solids", "410 mg/L"}},
	Limits: []string{
		"Make-up and rinse water only, 0–90 °C, pH 6.5–9, below 5000 mg/L. Built alkaline cleaners hold calcium back with silicates, phosphates and chelants: it says nothing of them.",
		"Good to ±0.3 as meaning: it reads up to 0.3 below a full activity model.",
	},
	Sources: []string{
		"W. F. Langelier, J. Am. Water Works Assoc. 28 (1936) 1500, in the handbook form pHs = (9.3 + A + B) − (C + D)",
		"Stability index 2·pHs − pH: J. W. Ryznar, J. Am. Water Works Assoc. 36 (1944) 472; below 6 scale, above 7 no film that protects, above 8 attack on mild steel, as P. R. Roberge, Corrosion Engineering: Principles and Practice (2008), section 8.7.2, sums it up",
		"pH at another temperature: carbonic acid in a closed vessel, L. N. Plummer and E. Busenberg, Geochim. Cosmochim. Acta 46 (1982) 1011",
		"Dissolved solids 0.65 mg/L for each µS/cm: instrument handbooks",
	},
}

func saturate(s *sum) {
	t, ph := s.si("temperature"), s.si("ph")
	solids := s.si("dissolved-solids")
	if s.at("dissolved-solids").Kind == q.Conductivity {
		solids *= solidsPer
		s.step("dissolved solids ≈ 0.65 mg/L for each µS/cm = {concentration}", solids)
	}
	alkalinity := s.si("alkalinity")
	cold := ph
	if s.has("sample-temperature") {
		ph = water.Natural(s.si("sample-temperature"), cold, alkalinity/mix.EquivalentCaCO3)[0].PH(t)
		s.give("hot-ph", ph, q.PH)
		s.step("pH {ph} at {temperature} is pH {ph} at {temperature}", cold, s.si("sample-temperature"), ph, t)
	}
	calcium, least, most, ok := s.calcium()
	if !ok {
		return
	}
	w := water.Langelier(t, ph, calcium, alkalinity, solids)
	low, high := water.Langelier(t, ph, least, alkalinity, solids), water.Langelier(t, ph, most, alkalinity, solids)
	s.step("A = (log dissolved solids − 1) ÷ 10 = {3}, B = −13.12 × log(t + 273) + 34.55 = {4}", w.A, w.B)
	s.step("C = log calcium − 0.4 = {4}, D = log alkalinity = {4}", w.C, w.D)
	s.step("balance at pH (9.3 + A + B) − (C + D) = {3}", w.PHs)
	s.step("index = {4} − {3} = {ph}", ph, w.PHs, w.Index)
	s.between("saturation-index", w.Index, low.Index, high.Index+0.3, q.PH)
	s.between("stability-index", w.Stability, high.Stability-0.6, low.Stability, q.PH)
	s.step("stability index = 2 × {4} − {4} = {ph}", w.PHs, ph, w.Stability)
	s.give("saturation-ph", w.PHs, q.PH)
	text := "lays down heavy scale"
	switch {
	case w.Index < -2:
		text = "strongly attacks steel, zinc and concrete"
	case w.Index < -0.5:
		text = "dissolves scale and attacks steel"
	case w.Index <= 0.3:
		text = "about in balance"
	case w.Index <= 1:
		text = "lays down scale slowly"
	}
	s.tell("verdict", text)
	s.stability(w.Stability)
	if w.Index > 0.3 && w.Stability > 7 {
		s.caution(Notice, "The two indices differ: the water is above balance and yet has too little calcium and alkalinity for a film that protects. Reckon with a haze of lime and with attack on steel.")
	}
	if ph < 6.5 || ph > 9 || solids > 5 {
		s.caution(Notice, "Outside pH 6.5–9 or above 5000 mg/L the index is a guess.")
	}
	if w.Index > 1 {
		s.caution(Notice, "Scale on a heater insulates it until it burns out, and on the tank's bottom it damps the sound: soften the water or descale on a plan.")
	}
}

// calcium gives the calcium in kg/m³ as CaCO₃, likely, least and most; false where it cannot be. Three quarters of the total hardness, between a half
// and all: common practice, no source.
func (s *sum) calcium() (likely, least, most float64, ok bool) {
	calcium, hardness := s.si("calcium"), s.si("hardness")
	switch {
	case s.has("calcium") && s.has("hardness") && calcium > hardness*(1+1e-9):
		s.fail("calcium", "the calcium is a part of the total hardness, {hardness}, and cannot be more.", hardness)
		return 0, 0, 0, false
	case s.has("calcium"):
		return calcium, calcium, calcium, true
	case s.yes("hardness-as-calcium"):
		s.step("calcium = all of the hardness = {hardness}, as was said", hardness)
		s.caution(Notice, "The whole hardness counts as calcium. Whatever of it is magnesium lays down no lime: the water then lays down less, or attacks more, than stands here.")
		return hardness, hardness, hardness, true
	}
	s.step("calcium ≈ three quarters of the hardness = {hardness}", hardness*0.75)
	s.caution(Notice, "The calcium is not known, only guessed from the total hardness: have it measured before anything is decided by these numbers.")
	return hardness * 0.75, hardness / 2, hardness, true
}

// stability says what a stability index means: J. W. Ryznar, J. Am. Water Works Assoc. 36 (1944) 472, as summed up by P. R. Roberge, Corrosion
// Engineering: Principles and Practice (2008), section 8.7.2.
func (s *sum) stability(index float64) {
	text := "attacks mild steel, the more the higher the index"
	switch {
	case index < 6:
		text = "lays down scale, the more the lower the index"
	case index <= 7:
		text = "about in balance"
	case index <= 8:
		text = "leaves no film of lime that protects steel"
	}
	s.tell("stability", text)
}
