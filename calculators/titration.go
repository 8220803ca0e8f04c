package calculators

import (
	q "tankside/builder/quantity"
	"tankside/calculators/mix"
	"tankside/calculators/safety"
	"tankside/calculators/water"
)

var titration = Calculator{
	run: titrate,

	Name:    "titration",
	Title:   "Titration",
	Summary: "What a titration says of an alkaline or an acid bath, and what to add.",
	Inputs: []*Input{
		{Name: "sample", Label: "Sample of the bath", Required: true, Measures: []Measure{{q.Volume, 1e-7, 1e-3, "mL", "mL"}}},
		{Name: "titrant-used", Label: "Titrant used", Required: true, Measures: []Measure{{q.Volume, 0, 1e-3, "mL", "mL"}}, Help: "To the end point of the factor. Alkaline bath: phenolphthalein (pH 8.3) for free alkalinity, bromocresol green (pH 4.5) for total. Acid bath: methyl orange or bromophenol blue (pH 3.7) for free acid, phenolphthalein (pH 8.3) for total."},
		{Name: "titrant-normality", Label: "Strength of the titrant", Required: true, Measures: []Measure{{q.Normality, 1, 10e3, "N", "N"}}, Help: "In N, or in mol/L with the name of the titrant."},
		{Name: "titrant", Label: "Titrant", Choices: titrants, Help: "Sodium or potassium hydroxide for an acid bath; sodium carbonate for its free acid alone. Without it: an acid whose strength is given in N, and the bath is alkaline."},
		{Name: "total-used", Label: "Titrant used to the second end point", Measures: []Measure{{q.Volume, 0, 1e-3, "mL", "mL"}}, Help: "Counted from the start. Alkaline bath: to bromocresol green (pH 4.5), where the first is phenolphthalein; a sample that stays colourless with phenolphthalein took 0 mL to the first. Acid bath: to phenolphthalein (pH 8.3), where the first is methyl orange or bromophenol blue (pH 3.7)."},
		{Name: "fresh-ratio", Label: "Total to free of the fresh bath", Measures: []Measure{{q.Number, 1, 100, "", ""}}, Help: "From the same two titrations of a fresh bath: to be told how worn it is."},
		{Name: "factor", Label: "Factor", Measures: []Measure{{q.Number, 1e-6, 1000, "", ""}}, Required: true, Or: [][]string{{"total-used"}}, Help: "For the strength. Per cent by volume for each mL of titrant, for this sample and titrant. Make it yourself: a fresh bath of 5 % that takes 12.5 mL has 5 ÷ 12.5 = 0.4. With two end points it is that of the first."},
		{Name: "volume", Label: "Volume of the bath", Measures: []Measure{{q.Volume, 0.2 * litre, 100, "L", "US gal"}}, Help: "To be told what to add."},
		{Name: "strength", Label: "Strength wanted", Measures: []Measure{{q.VolumeFraction, 1e-5, 0.99, "% v/v", "% v/v"}}},
		&capacityInput, &insideInput, &widthInput, &freeboardInput,
	},
	Readings: []Declared{
		{"strength", "Strength"}, {"alkalinity", "Alkalinity"}, {"as-caustic", "as caustic soda"}, {"acidity", "Acidity"},
		{"free-alkalinity", "Free alkalinity"}, {"total-alkalinity", "Total alkalinity"}, {"ratio", "Total to free"}, {"hydroxide", "of it hydroxide"}, {"carbonate", "of it carbonate"}, {"bicarbonate", "of it bicarbonate"},
		{"spent", "Free alkalinity spent"}, {"carbon-dioxide", "Carbon dioxide taken up, at most"}, {"carbonate-taken", "counted as carbonate"},
		{"free-acid", "Free acid"}, {"total-acid", "Total acid"}, {"acid-ratio", "Total to free acid"}, {"bound-acid", "of it weak or bound to metal"}, {"acid-spent", "Free acid spent on metal"}, {"iron-taken", "Metal dissolved, counted as iron"},
		{"drain-volume", "Let out first"}, {"concentrate-volume", "Add concentrate"}, {"water-volume", "Add water"},
	},
	Example: []Written{{"sample", "10 mL"}, {"titrant-used", "8 mL"}, {"titrant-normality", "0.1 N"}, {"factor", "0.4"}, {"volume", "120 L"}, {"strength", "4 % v/v"}},
	Limits: []string{
		"The factor belongs to one product, one sample volume and one titrant; a new drum may need a new one.",
		"Total alkalinity counts soil, carbonate and the make-up water's own. A bath whose total is 1.5 times as much of its free alkalinity as when it was fresh is due for a change soon, at twice it is due now (common practice, no source). An acid bath is judged by the same numbers: at twice half of its free acid is spent.",
		"What is spent and taken from the air is told from the ratio of the fresh bath: soil that uses up alkali counts with it, an addition of another product spoils it.",
		"Hydroxide, carbonate and bicarbonate are those of a bath without other alkali: phosphate counts as carbonate, silicate and amines as hydroxide.",
		"Dissolved metal takes alkali as well, as its hydroxide falls out before phenolphthalein turns: an old acid bath reads stronger than it is by its total acid. Lime does not, and neither does alkali dragged in: they take free and total acid alike, so that more is spent than is told.",
		"pH 3.7 is that of water analysis; phosphating shops go to 3.5–4.5 for free acid and to 8.2–9.5 for total, and count in points, by most suppliers mL of 0.1 N for 10 mL (common practice, no source). Keep to the indicator and the points of your supplier's sheet, and to the same ones for the fresh bath.",
	},
	Sources: []string{
		"Alkalinity = acid × normality × 50.04 ÷ sample, and what it is made of: Standard Methods for the Examination of Water and Wastewater, 2320 B",
		"Equivalents of a mole: one of hydrochloric and nitric acid and of the hydroxides, two of sulfuric acid and of sodium carbonate to pH 3.7",
		"Acidity to pH 3.7 and to pH 8.3: Standard Methods, 2310 B, and ASTM D1067",
		"Free acid spent = 1 − free × fresh ratio ÷ total, for a metal takes as much free acid as its hydroxide gives back to the total: by the equations Fe + 2 H⁺ → Fe²⁺ + H₂ and Fe²⁺ + 2 OH⁻ → Fe(OH)₂",
		"Spent = 1 − free × fresh ratio ÷ total, for carbon dioxide takes one equivalent of the free alkalinity for each mole and none of the total: by the equations OH⁻ + CO₂ → HCO₃⁻ and CO₃²⁻ + CO₂ + H₂O → 2 HCO₃⁻",
		"Strength = titrant × factor: common practice, no source",
	},
}

// titrants; those that are alkali titrate an acid bath. Sodium carbonate does so to the end point of free acid alone, for its carbonic acid is
// titrated with the sample beyond it.
var titrants = []Choice{
	{"hydrochloric-acid", "hydrochloric acid"}, {"nitric-acid", "nitric acid"}, {"sulfuric-acid", "sulfuric acid"}, {"sodium-hydroxide", "sodium hydroxide"}, {"potassium-hydroxide", "potassium hydroxide"},
	{"sodium-carbonate", "sodium carbonate"},
}

// equivalents that a mole of a titrant gives.
func equivalents(titrant string) float64 {
	if titrant == "sulfuric-acid" || titrant == "sodium-carbonate" {
		return 2
	}
	return 1
}

// normality of the titrant in mol/m³; ok is false where it is told in mol/L of nobody knows what.
func (s *sum) normality() (n float64, ok bool) {
	given, titrant := s.at("titrant-normality"), s.at("titrant")
	if !given.Unit.Molar() {
		return given.SI, true
	}
	if !titrant.given {
		s.with(given.String(), s.called([]string{"titrant"})[0]).fail("titrant-normality", "{given} are {normality} of hydrochloric acid, nitric acid or a hydroxide, but {normality} of sulfuric acid or sodium carbonate: say which titrant it is in {input}, or give the strength in N.", given.SI, 2*given.SI)
		return 0, false
	}
	n = given.SI * equivalents(titrant.choice)
	s.with(given.String(), s.say(label(titrants, titrant.choice))).step("{given} of {titrant} are {normality}", n)
	return n, true
}

// base reports whether the titrant is alkali, so that the bath is acid.
func (s *sum) base() bool {
	titrant := s.at("titrant").choice
	return titrant == "sodium-hydroxide" || titrant == "potassium-hydroxide" || titrant == "sodium-carbonate"
}

func titrate(s *sum) {
	normality, ok := s.normality()
	if !ok || !s.endsFit() {
		return
	}
	strength, ok := s.strengthFound()
	if !ok {
		return
	}
	used, sample := s.si("titrant-used"), s.si("sample")
	if held := mix.Alkalinity(used, normality, sample); s.base() {
		s.acid(used, normality, sample, held)
	} else {
		s.alkaline(used, normality, sample, held)
	}
	if s.has("factor") && s.has("volume") && s.has("strength") && len(s.errs) == 0 {
		s.setRight(strength)
	}
}

// endsFit refuses ends of a titration that are not told together.
func (s *sum) endsFit() bool {
	switch total := s.has("total-used"); {
	case total && s.at("titrant").choice == "sodium-carbonate":
		s.fail("total-used", "sodium carbonate finds free acid alone: for total acid titrate with sodium or potassium hydroxide.")
	case !total && s.has("fresh-ratio"):
		s.with(s.called([]string{"total-used"})[0]).fail("fresh-ratio", "to hold the bath against the fresh one, titrate to the second end point as well and give {input}.")
	case total && s.si("total-used") < s.si("titrant-used")*(1-1e-9):
		s.fail("total-used", "the second end point is counted from the start, so it cannot lie before the first.")
	}
	return len(s.errs) == 0
}

// strengthFound gives the strength that the factor makes of the titrant, as a share; false where it cannot be. Without a factor it is not known.
func (s *sum) strengthFound() (strength float64, ok bool) {
	if !s.has("factor") {
		s.step("no factor is given, so the strength is not worked out")
		return 0, true
	}
	used, factor := s.si("titrant-used"), s.si("factor")
	strength = used * 1e6 * factor / 100
	if strength > 1 {
		s.fail("factor", "{millilitres} × {6} is more than 100 %: check the factor and the titrant used.", used, factor)
		return 0, false
	}
	s.in("strength", strength, q.VolumeFraction, "% v/v")
	s.step("strength = titrant × factor = {millilitres} × {6} % per mL = {strength}", used, factor, strength)
	return strength, true
}

// alkaline gives what an acid finds in an alkaline bath, to one end point or to both; held in mol/m³, to the first.
func (s *sum) alkaline(used, normality, sample, held float64) {
	if !s.has("titrant") {
		s.step("no titrant is named: it is taken for an acid, and the bath for an alkaline one")
	}
	s.note(s.in("alkalinity", held*mix.EquivalentCaCO3, q.Alkalinity, "mg/L"), "as CaCO₃")
	s.note(s.in("as-caustic", held*mix.EquivalentNaOH, q.MassConcentration, "g/L"), "NaOH, if it were all caustic soda")
	s.step("alkalinity = {millilitres} × {normality} × 50 043 ÷ {millilitres} = {4} mg/L as CaCO₃", used, normality, sample, held*mix.EquivalentCaCO3*1000)
	s.caution(Careful, "Sample and acid burn: goggles and gloves. Cool the sample first, and let oil rise and draw from below it: oil gives false end points.")
	if s.has("total-used") {
		s.twoEnds(held, mix.Alkalinity(s.si("total-used"), normality, sample))
	}
}

// setRight says what brings a bath of the strength found to the one that is wanted.
func (s *sum) setRight(strength float64) {
	volume, wanted := s.si("volume"), s.si("strength")
	if !s.fits("volume", volume) {
		return
	}
	a := s.bringTo(volume, strength, s.grown(volume, strength, wanted), wanted)
	s.step("from {strength} to {strength} in {volume}: let out {volume}, add {volume} of concentrate and {volume} of water", strength, wanted, volume, a.Drain, a.Concentrate, a.Water)
	switch off := strength/wanted - 1; {
	case strength <= 0 && s.answer.Verdict != "": // no alkalinity is left, or the sample was none of the bath
	case off < -safety.StrengthHold || off > safety.StrengthHold:
		s.verdict("More than a fifth off: hold the work, set the bath right and check the parts done since the last good reading.")
	case s.answer.Verdict != "": // it is worn, which goes before a little less strength
	case off < -safety.StrengthAdjust || off > safety.StrengthAdjust:
		s.verdict("Adjust the bath before the next load.")
	default:
		s.verdict("Within a tenth of what is wanted.")
	}
}

// twoEnds gives what two end points say, in mol/m³ of equivalents.
func (s *sum) twoEnds(free, total float64) {
	s.in("free-alkalinity", free*mix.EquivalentCaCO3, q.Alkalinity, "meq/L")
	s.in("total-alkalinity", total*mix.EquivalentCaCO3, q.Alkalinity, "meq/L")
	hydroxide, carbonate, bicarbonate := mix.Split(free, total)
	for _, part := range []struct {
		name   string
		amount float64
	}{{"hydroxide", hydroxide}, {"carbonate", carbonate}, {"bicarbonate", bicarbonate}} {
		s.in(part.name, part.amount*mix.EquivalentCaCO3, q.Alkalinity, "meq/L")
	}
	s.step("free {4} and total {4} meq/L: hydroxide {4}, carbonate {4}, bicarbonate {4}", free, total, hydroxide, carbonate, bicarbonate)
	if hydroxide > 1e-9*total {
		s.step("so much hydroxide is pH {ph} or more at {temperature}: if the bath's pH is lower, an end point was read wrong", water.Solution{Alkalinity: hydroxide}.PH(cold), cold)
	}
	switch {
	case total <= 0:
		s.verdict("The sample took no acid: it has no alkalinity. Check the sample and the titrant.")
		return
	case free > 0:
		s.give("ratio", total/free, q.Number)
	default:
		s.step("without free alkalinity the ratio of total to free has no value")
	}
	if s.has("fresh-ratio") {
		s.worn(free, total, s.si("fresh-ratio"))
	}
}

// worn holds the two end points, in mol/m³ of equivalents with the total above nought, against the ratio of the fresh bath.
func (s *sum) worn(free, total, fresh float64) {
	taken := mix.TakenUp(free, total, fresh)
	s.in("spent", mix.Spent(free, total, fresh), q.Fraction, "%")
	s.in("carbon-dioxide", taken*mix.MolarMassCO2, q.MassConcentration, "g/L")
	s.note(s.in("carbonate-taken", taken*mix.MolarMassCO3, q.MassConcentration, "g/L"), "CO₃²⁻, at most")
	s.step("fresh, {4} meq/L of total alkalinity had {4} meq/L of free; {4} are left, so {4} are spent, by as much carbon dioxide in mmol/L", total, total/fresh, free, taken)
	if free <= 0 {
		s.verdict("Worn out: no free alkalinity is left. Change the bath.")
		return
	}
	s.judge(total/free, fresh)
}

// judge says how worn a bath is by its ratio of total to free, beside that of the fresh bath.
func (s *sum) judge(ratio, fresh float64) {
	s.step("total ÷ free = {3}, {3} times that of the fresh bath", ratio, ratio/fresh)
	switch {
	case ratio >= safety.WornOut*fresh:
		s.verdict("Worn out: total to free is twice that of the fresh bath or more. Change the bath.")
	case ratio >= safety.NearlyWorn*fresh:
		s.verdict("Nearly worn out: total to free is 1.5 times that of the fresh bath or more. Plan a change.")
	case ratio < safety.Fresher*fresh:
		s.caution(Notice, "Total to free is more than a tenth below that of the fresh bath, which wear does not bring about: check both end points, the fresh bath's ratio and what was added.")
	}
}
