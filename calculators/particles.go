package calculators

import (
	"math"
	"strings"

	"tankside/builder/language"
	q "tankside/builder/quantity"
	"tankside/calculators/clean"
)

var particles = Calculator{
	run: counted,

	Name:    "particles",
	Title:   "Particles by size",
	Summary: "What counts on a filter say in the code of ISO 16232 and as a level of IEST-STD-CC1246, and how far chance may move them.",
	Inputs: append([]*Input{
		{Name: "parts", Label: "Parts together", Measures: []Measure{{q.Number, 1, 1e6, "", ""}}, Default: "1"},
		{Name: "basis", Label: "Told", Choices: []Choice{{"area", "A, on 1000 cm²"}, {"volume", "V, in 100 cm³"}, {"part", "N, on one part"}}, Default: "area"},
		{Name: "area", Label: "Area of one part", Measures: []Measure{{q.Area, 1e-6, 100, "cm²", "in²"}}, Help: "The face that was flushed. The level needs it too."},
		{Name: "part-volume", Label: "Wetted volume of one part", Measures: []Measure{{q.Volume, 1e-9, 1, "mL", "US fl oz"}}},
	}, classInputs()...),
	Readings: append([]Declared{
		{"code", "Code of ISO 16232"}, {"certain-code", "Code that chance hardly exceeds"}, {"level", "Level of IEST-STD-CC1246"},
	}, classReadings()...),
	Example: []Written{
		{"parts", "10"}, {"area", "140 cm²"}, {"e", "1310"}, {"f", "150"}, {"g", "62"}, {"h", "3"}, {"i", "0"}, {"j", "0"}, {"k", "0"},
		{"blank-e", "20"}, {"blank-f", "3"}, {"blank-g", "1"}, {"blank-h", "0"}, {"blank-i", "0"}, {"blank-j", "0"}, {"blank-k", "0"},
	},
	Limits: []string{
		"The whole filter is counted. A class that was not counted is not in the code, and nothing is said of it.",
		"The band is chance alone, for particles that come singly: clumps, what the flush leaves on the part and what the microscope misses are not in it.",
		"The level goes by the sizes at which something was seen; of larger ones, of which none was, it says nothing.",
		"The edition of 2018 parts class K further; confirm in the standard that the order names.",
	},
	Sources: []string{
		"ISO 16232:2018 and VDA 19.1, size classes B to K, levels by doubling with rounded ends, on 1000 cm², in 100 cm³ or a part (published explanations; the levels above 17 from memory)",
		"IEST-STD-CC1246, log₁₀N = 0.926·(log₁₀²L − log₁₀²x) for N particles of x µm and more on 0.1 m² (published description of revision D)",
		"Band of chance, 95 %: exact limits of Poisson's distribution, F. Garwood, Biometrika 28 (1936) 437; from 200 on after E. B. Wilson and M. M. Hilferty, Proc. Natl. Acad. Sci. 17 (1931) 684. With a blank the ends of both are taken together, which is wider than need be",
		"Blank at most a tenth of the count: ISO 16232, from memory",
	},
}

// classLabels are the size classes of package clean; a test compares.
var classLabels = [len(clean.Classes)]string{
	"B, 5–15 µm", "C, 15–25 µm", "D, 25–50 µm", "E, 50–100 µm", "F, 100–150 µm", "G, 150–200 µm", "H, 200–400 µm", "I, 400–600 µm", "J, 600–1000 µm", "K, over 1000 µm",
}

var blankLabels = [len(clean.Classes)]string{"Blank, B", "Blank, C", "Blank, D", "Blank, E", "Blank, F", "Blank, G", "Blank, H", "Blank, I", "Blank, J", "Blank, K"}

// className is the small letter of a class, as inputs are named.
func className(i int) string { return language.Lower(clean.Classes[i : i+1]) }

func classInputs() []*Input {
	var inputs []*Input
	counts := []Measure{{q.Number, 0, 1e7, "", ""}}
	for i, label := range classLabels {
		inputs = append(inputs, &Input{Name: className(i), Label: label, Measures: counts})
	}
	for i, label := range blankLabels {
		inputs = append(inputs, &Input{Name: "blank-" + className(i), Label: label, Measures: counts})
	}
	return inputs
}

func classReadings() []Declared {
	var readings []Declared
	for i, label := range classLabels {
		readings = append(readings, Declared{"class-" + className(i), label})
	}
	return readings
}

// tally is what was counted in one class, or in several together.
type tally struct {
	counted      bool
	count, blank float64
}

// net is what is left of the count without the blank, and its ends.
func (t tally) net() (likely, low, high float64) {
	low, high = clean.CountLimits(t.count)
	blankLow, blankHigh := 0., 0.
	if t.blank > 0 {
		blankLow, blankHigh = clean.CountLimits(t.blank)
	}
	return math.Max(0, t.count-t.blank), math.Max(0, low-blankHigh), high - blankLow
}

func counted(s *sum) {
	tallies, ok := s.tallies()
	if !ok {
		return
	}
	per, basis, ok := s.basis()
	if !ok {
		return
	}
	s.code(tallies, per, basis)
	s.line(tallies)
}

// tallies are the counts by class; ok is false where they cannot be.
func (s *sum) tallies() (tallies [len(clean.Classes)]tally, ok bool) {
	some := false
	var without, high []string
	for i, label := range classLabels {
		name := className(i)
		t := tally{s.has(name), s.si(name), s.si("blank-" + name)}
		for _, n := range []string{name, "blank-" + name} {
			if _, whole := s.whole(n); !whole {
				return tallies, false
			}
		}
		if !t.counted && s.has("blank-"+name) {
			s.fail(name, "the blank was counted in this class and the parts were not.")
			return tallies, false
		}
		if !t.counted {
			continue
		}
		if _, _, end := t.net(); end <= 0 {
			s.fail("blank-"+name, "the blank has more than was counted with parts, which chance does not explain: do both again.")
			return tallies, false
		}
		some = true
		switch {
		case !s.has("blank-" + name):
			without = append(without, s.say(label))
		case t.blank > mostBlank*t.count*(1+1e-9):
			high = append(high, s.say(label))
		}
		tallies[i] = t
	}
	if !some {
		s.fail("k", "no class was counted; give at least one, and 0 where none was seen.")
		s.errs[0].Missing = true
		return tallies, false
	}
	if len(without) > 0 {
		s.with(strings.Join(without, "; ")).caution(Notice, "No blank was counted in {classes}: what bench and filter brought counts as the parts'.")
	}
	if len(high) > 0 {
		s.with(strings.Join(high, "; ")).caution(Notice, "The blank is more than a tenth of the count in {classes}: clean bench, liquid and filter, or flush more parts together.")
	}
	return tallies, true
}

// basis is by how much the counts are to be multiplied for what the code is told on, and its letter.
func (s *sum) basis() (per float64, letter string, ok bool) {
	parts, ok := s.whole("parts")
	if !ok {
		return 0, "", false
	}
	switch s.at("basis").choice {
	case "volume":
		if !s.has("part-volume") {
			s.fail("part-volume", "a code for 100 cm³ needs the wetted volume of a part.")
			s.errs[0].Missing = true
			return 0, "", false
		}
		per, letter = 100e-6/(parts*s.si("part-volume")), "V"
		s.step("{4} parts of {millilitres}: counts × {4} for 100 cm³", parts, s.si("part-volume"), per)
	case "part":
		per, letter = 1/parts, "N"
		s.step("counts ÷ {4} for one part", parts)
	default:
		if !s.has("area") {
			s.fail("area", "a code for 1000 cm² needs the area of a part.")
			s.errs[0].Missing = true
			return 0, "", false
		}
		per, letter = 0.1/(parts*s.si("area")), "A"
		s.step("{4} parts of {area}: counts × {4} for 1000 cm²", parts, s.si("area"), per)
	}
	return per, letter, true
}

// code tells each class, and the code that follows.
func (s *sum) code(tallies [len(clean.Classes)]tally, per float64, basis string) {
	text := "on 1000 cm²"
	switch basis {
	case "V":
		text = "in 100 cm³"
	case "N":
		text = "on one part"
	}
	var likely, certain, missing []string
	for i, t := range tallies {
		name, letter := "class-"+className(i), clean.Classes[i:i+1]
		if !t.counted {
			s.tell(name, "not counted")
			missing = append(missing, letter)
			continue
		}
		net, low, high := t.net()
		likely = append(likely, letter+levelText(net*per, basis))
		certain = append(certain, letter+levelText(high*per, basis))
		var r *Reading
		switch {
		case t.count == 0:
			r = s.put(Reading{Name: name, Text: s.text("none seen: at most {3}", high*per)})
		case net == 0:
			r = s.put(Reading{Name: name, Text: s.text("no more than the blank: at most {3}", high*per)})
		default:
			r = s.between(name, net*per, low*per, high*per, q.Number)
		}
		s.note(r, text)
		s.with(s.say(classLabels[i])).step("{class}: {7} less {7} of the blank, by chance {3} to {3}", t.count, t.blank, low, high)
	}
	code, most := basis+"("+strings.Join(likely, "/")+")", basis+"("+strings.Join(certain, "/")+")"
	r := s.with(code).tell("code", "{code}")
	if len(missing) > 0 {
		s.with(strings.Join(missing, ", ")).note(r, "not counted: {letters}")
	}
	s.with(most).tell("certain-code", "{code}")
	if code == most {
		s.verdict("The code holds for the whole band of chance.")
	} else {
		s.with(most).verdict("By chance alone the parts may be as dirty as {code}. Where that is too much, flush more parts together.")
	}
}

// levelText is a class's level, or the number itself of one part, rounded up.
func levelText(number float64, basis string) string {
	if basis == "N" {
		return strings.ReplaceAll(q.Decimal(math.Ceil(number*(1-1e-9)), 15), "\u202f", "")
	}
	switch level := clean.LevelOf(number); {
	case level == clean.NoneAllowed:
		return "00"
	case level > clean.LastLevel:
		return ">" + q.Decimal(clean.LastLevel, 2)
	default:
		return q.Decimal(float64(level), 2)
	}
}

// line tells the level of IEST-STD-CC1246 that the counts reach: the strictest over the sizes from which on every class was counted.
func (s *sum) line(tallies [len(clean.Classes)]tally) {
	if !s.has("area") {
		s.tell("level", "not checked: the area of a part is missing")
		return
	}
	last := len(tallies) - 1
	if !tallies[last].counted {
		s.tell("level", "not checked: class K was not counted")
		return
	}
	per := 0.1 / (s.si("parts") * s.si("area"))
	var all tally
	level, low, high, smallest, strictest := 0., 0., 0., 0., 0.
	var seen float64
	for i := last; i >= 0 && tallies[i].counted; i-- {
		all.count, all.blank = all.count+tallies[i].count, all.blank+tallies[i].blank
		smallest = clean.Sizes[i]
		net, least, most := all.net()
		if net <= 0 {
			continue
		}
		if l := clean.LineThrough(net*per, smallest); l > level {
			level, strictest, seen = l, smallest, net*per
		}
		low, high = math.Max(low, clean.LineThrough(least*per, smallest)), math.Max(high, clean.LineThrough(most*per, smallest))
	}
	if level == 0 {
		s.tell("level", "none seen, so no level follows")
		return
	}
	r := s.between("level", level, low, high, q.Number)
	r.Note = s.text("by the sizes from {micrometres} up", smallest*1e-6)
	s.step("{3} of {micrometres} and more on 0.1 m² lie on the line of level {3}", seen, strictest*1e-6, level)
}
