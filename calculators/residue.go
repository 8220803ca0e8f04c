package calculators

import (
	"math"

	q "tankside/builder/quantity"
	"tankside/calculators/clean"
)

var residue = Calculator{
	run: weighed,

	Name:    "residue",
	Title:   "Residue by weighing",
	Summary: "What was left on the parts, from the masses of a dish or filter before and after, and how sure that is.",
	Inputs: []*Input{
		{Name: "gained", Label: "Gained by dish or filter", Required: true, Measures: []Measure{{q.Mass, -0.01, 1, "mg", "mg"}}, Help: "After minus before, with what came off all the parts, dried to constant mass."},
		{Name: "blank", Label: "Blank", Measures: []Measure{{q.Mass, 0, 0.01, "mg", "mg"}}, Help: "What the same flush gains without a part. Without it nothing is taken off."},
		{Name: "parts", Label: "Parts together", Measures: []Measure{{q.Number, 1, 1e6, "", ""}}, Default: "1"},
		{Name: "area", Label: "Area of one part", Measures: []Measure{{q.Area, 1e-6, 100, "cm²", "in²"}}, Help: "The face that was flushed. Without it there is no level."},
		{Name: "balance", Label: "Division of the balance", Measures: []Measure{{q.Mass, 1e-10, 1e-3, "mg", "mg"}}, Default: "0.1 mg"},
		{Name: "repeatability", Label: "Repeatability of the balance", Measures: []Measure{{q.Mass, 0, 1e-2, "mg", "mg"}}, Help: "Standard deviation of ten weighings of the same dish. Without it one division is taken."},
		{Name: "limit", Label: "Residue allowed", Measures: []Measure{{q.ArealMass, 1e-9, 1, "mg/m²", "mg/ft²"}, {q.Mass, 1e-10, 1, "mg", "mg"}}, Help: "A square metre, or a part."},
		{Name: "level-allowed", Label: "Level allowed", Choices: residueLevels, Help: "Of IEST-STD-CC1246, as on the drawing."},
	},
	Readings: []Declared{
		{"residue", "Left on a part"}, {"areal-residue", "Left on the surface"}, {"level", "Level of IEST-STD-CC1246"}, {"detection-limit", "Least that would be seen on a part"},
	},
	Example: []Written{{"gained", "8.2 mg"}, {"blank", "0.8 mg"}, {"parts", "10"}, {"area", "140 cm²"}, {"limit", "30 mg/m²"}},
	Limits: []string{
		"What the solvent takes and does not carry off again. Salts, and what boils away when it dries, are not in it.",
		"The band is that of weighing alone. How much the flush leaves on the part shows a second flush.",
		"A balance does worse than its division in draught, damp and warmth, and dishes carry charge: with a division of 0.1 mg in an ordinary room nothing under 1 mg is detected (ISO 16232-6, as quoted).",
	},
	Sources: []string{
		"Left on a part = (after − before − blank) ÷ parts",
		"Band of weighing, about 95 %: 2·√(n·(s² + d²/12)) for n weighings, two for the parts and two for the blank; JCGM 100:2008 (GUM), 5.1.2, 6.2, F.2.2.1",
		"Levels of residue of IEST-STD-CC1246, A for 1 mg on 0.1 m² and the others: from memory, to be confirmed in the standard that the order names",
		"Blank at most a tenth of the result: ISO 16232, from memory",
	},
}

// residueLevels are the levels of package clean as choices; a test compares.
var residueLevels = []Choice{
	{"A/100", "A/100"}, {"A/50", "A/50"}, {"A/20", "A/20"}, {"A/10", "A/10"}, {"A/5", "A/5"}, {"A/2", "A/2"}, {"A", "A"}, {"B", "B"}, {"C", "C"}, {"D", "D"},
	{"E", "E"}, {"F", "F"}, {"G", "G"}, {"H", "H"}, {"J", "J"},
}

// mostBlank is the share of the result that a blank may be: ISO 16232, from memory.
const mostBlank = 0.1

// roomDivisions is how many divisions of the balance are noise in an ordinary room: 1 mg with 0.1 mg, ISO 16232-6 as quoted.
const roomDivisions = 10

func weighed(s *sum) {
	parts, ok := s.whole("parts")
	if !ok {
		return
	}
	division := s.si("balance")
	repeatability := division
	if s.has("repeatability") {
		repeatability = s.si("repeatability")
	}
	weighings := 2
	if s.has("blank") {
		weighings = 4
	}
	band := clean.WeighingBand(weighings, repeatability, division)
	gained, blank := s.si("gained"), s.si("blank")
	net := gained - blank
	if net < -band*(1+1e-9) {
		if gained < -band {
			s.fail("gained", "it is lighter than before by {weighed}, more than weighing explains: dry it to constant mass and weigh again.", -gained)
		} else {
			s.fail("blank", "the blank is more than what was gained with parts, by {weighed}, which weighing does not explain: do both again.", -net)
		}
		return
	}
	s.step("gained {weighed}, less {weighed} of the blank: {weighed} from {4} parts", gained, blank, net, parts)
	s.step("band of {1} weighings, 2·√({1}·(s² + d²/12)) with s = {weighed} and d = {weighed}: {weighed} either way", float64(weighings), float64(weighings), repeatability, division, band)
	low, high := math.Max(0, net-band), math.Max(0, net)+band
	seen := net > band
	milligrams := unit("mg", q.Mass)
	s.put(Reading{Name: "detection-limit", SI: band / parts, Low: band / parts, High: band / parts, Kind: q.Mass, Unit: milligrams})
	if seen {
		s.put(Reading{Name: "residue", SI: net / parts, Low: low / parts, High: high / parts, Kind: q.Mass, Unit: milligrams})
	} else {
		s.put(Reading{Name: "residue", Text: s.text("not detected: at most {weighed}", high/parts)})
	}
	s.onArea(seen, net/parts, low/parts, high/parts)
	s.allowed(low/parts, high/parts)
	switch {
	case !s.has("blank"):
		s.caution(Notice, "No blank was weighed: what solvent, dish and bench brought counts as the parts'.")
	case blank > mostBlank*math.Max(0, net)*(1+1e-9):
		s.caution(Notice, "The blank is more than a tenth of the result: clean bench, dish and solvent, or flush more parts together.")
	}
	if seen && net < roomDivisions*division*(1-1e-9) {
		s.caution(Notice, "The result is less than ten divisions of the balance, {weighed}: in an ordinary room that is noise. Flush more parts together or take a finer balance.", roomDivisions*division)
	}
	s.caution(Danger, "Solvent vapour burns: under the hood, no flame or spark, no wash tank near. Follow the safety data sheet, local codes and licensed practice.")
}

// onArea tells masses in kg a part as a residue on the surface, and its level.
func (s *sum) onArea(seen bool, likely, low, high float64) {
	area := s.si("area")
	if !s.has("area") {
		s.tell("level", "not checked: the area of a part is missing")
		return
	}
	s.step("on {area} a part: {residue}, at most {residue}", area, math.Max(0, likely)/area, high/area)
	certain := clean.ResidueLevelOf(high / area)
	if !seen {
		s.put(Reading{Name: "areal-residue", Text: s.text("not detected: at most {residue}", high/area)})
		if certain < 0 {
			s.tell("level", "not detected, and not certain of any level: the band reaches beyond J")
			return
		}
		s.with(s.levelNamed(certain)).tell("level", "not detected: {level} or cleaner")
		return
	}
	s.between("areal-residue", likely/area, low/area, high/area, q.ArealMass)
	level := clean.ResidueLevelOf(likely / area)
	switch {
	case level < 0:
		s.tell("level", "beyond J, the last level")
	case certain < 0:
		s.with(s.levelNamed(level)).tell("level", "{level}, not certain: the band reaches beyond J, the last level")
	case certain != level:
		s.with(s.levelNamed(level), s.levelNamed(certain)).tell("level", "{level}, not certain: the band reaches into {next level}")
	default:
		s.with(s.levelNamed(level)).tell("level", "{level}, and so is the whole band")
	}
}

func (s *sum) levelNamed(i int) string { return s.say(residueLevels[i].Label) }

// allowed compares the band of a part's residue in kg with what is allowed, the stricter of limit and level.
func (s *sum) allowed(low, high float64) {
	area, most := s.si("area"), inf
	if limit := s.at("limit"); limit.given {
		if most = limit.SI; limit.Kind == q.ArealMass {
			most *= area
		}
		if limit.Kind == q.ArealMass && !s.has("area") {
			s.fail("area", "a limit by area needs the area of a part; or give the limit as a mass a part.")
			return
		}
	}
	if level := s.at("level-allowed"); level.given {
		if !s.has("area") {
			s.fail("area", "a level needs the area of a part.")
			return
		}
		for i := range residueLevels {
			if residueLevels[i].Value == level.choice {
				most = math.Min(most, clean.ResidueLevels[i].Most*area)
			}
		}
	}
	switch {
	case math.IsInf(most, 0):
		s.verdict("Not compared with a limit: none was given.")
	case high <= most*(1+1e-9):
		s.verdict("Within what is allowed, {weighed} a part, and so is the whole band.", most)
	case low > most*(1+1e-9):
		s.verdict("More than is allowed, {weighed} a part.", most)
	default:
		s.verdict("Not decided: what is allowed, {weighed} a part, lies within the band of weighing. Flush more parts together or take a finer balance.", most)
	}
}

// whole is an input that is counted; another is refused.
func (s *sum) whole(name string) (number float64, ok bool) {
	n := s.si(name)
	if n != math.Floor(n) {
		s.fail(name, "this is counted in whole numbers.")
		return 0, false
	}
	return n, true
}
