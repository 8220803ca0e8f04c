package relate

import (
	"context"
	"io/fs"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"tankside/builder/decide/admit"
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/quantity"
)

// shop is a copy of the demo manual that can be edited before it is read.
type shop struct {
	t     *testing.T
	files fstest.MapFS
}

func edit(t *testing.T) *shop {
	t.Helper()
	s := &shop{t, fstest.MapFS{}}
	folder := os.DirFS("../../../content")
	err := fs.WalkDir(folder, ".", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := fs.ReadFile(folder, path)
		s.files[path] = &fstest.MapFile{Data: data}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// set gives a key of an article's header another value; "" takes the key out.
func (s *shop) set(path, key, value string) *shop {
	s.t.Helper()
	f := s.files[path]
	if f == nil {
		s.t.Fatalf("there is no %s", path)
	}
	text := string(f.Data)
	line := regexp.MustCompile(`(?m)^` + regexp.QuoteMeta(key) + `:.*\n(?:[ ]+.*\n)*`)
	text = line.ReplaceAllString(text, "")
	if value != "" {
		text = strings.Replace(text, "\n---\n", "\n"+key+": "+value+"\n---\n", 1)
	}
	f.Data = []byte(text)
	return s
}

// shopFile replaces a text of the shop file.
func (s *shop) shopFile(old, new string) *shop {
	s.t.Helper()
	text := string(s.files["shop.yaml"].Data)
	if !strings.Contains(text, old) {
		s.t.Fatalf("the shop file has no %q", old)
	}
	s.files["shop.yaml"].Data = []byte(strings.Replace(text, old, new, 1))
	return s
}

// vessel adds a vessel to the shop file.
func (s *shop) vessel(lines ...string) *shop {
	return s.shopFile("rinses:\n", "  - "+strings.Join(lines, "\n    ")+"\nrinses:\n")
}

// file adds a file.
func (s *shop) file(path, text string) *shop {
	s.files[path] = &fstest.MapFile{Data: []byte(text)}
	return s
}

// copyOf makes an article out of another of the same kind.
func (s *shop) copyOf(path, as string) *shop {
	s.files[as] = &fstest.MapFile{Data: slices.Clone(s.files[path].Data)}
	return s.set(as, "title", strings.TrimSuffix(as[strings.LastIndex(as, "/")+1:], ".md"))
}

func (s *shop) read() *manual.Manual {
	s.t.Helper()
	m, _, err := manual.Read(context.Background(), s.files)
	if err != nil {
		s.t.Fatal(err)
	}
	return m
}

// ask asks for materials, parted by a comma, in a bath.
func (s *shop) ask(materials, soil, bath string) admit.Answer {
	s.t.Helper()
	a, err := Table(s.read()).Answer(admit.Question{Materials: strings.Split(materials, ","), Soil: soil, Bath: bath})
	if err != nil {
		s.t.Fatal(err)
	}
	return a
}

// part asks for a part.
func (s *shop) part(name string) admit.Answer {
	s.t.Helper()
	a, err := Table(s.read()).Sheet(name)
	if err != nil {
		s.t.Fatal(err)
	}
	return a
}

func told(a admit.Answer) string {
	text := string(a.Verdict) + " [" + a.Brief(nil, a.System) + "]"
	for _, r := range a.Reasons {
		text += "\n  " + string(r.Verdict) + " " + string(r.Rule) + ": " + r.Text
	}
	steps := a.Steps
	if a.Recipe != nil {
		steps = append(steps, *a.Recipe)
	}
	for _, r := range steps {
		text += "\n  recipe " + r.Bath + " " + r.Method + ":"
		for _, span := range r.Spans {
			text += " " + string(span.What) + " " + span.Text + ","
		}
	}
	return text
}

func says(a admit.Answer, words string) bool {
	return slices.ContainsFunc(a.Reasons, func(r admit.Reason) bool { return strings.Contains(strings.ToLower(r.Text), strings.ToLower(words)) })
}

func by(a admit.Answer, rule string) bool {
	return slices.ContainsFunc(a.Reasons, func(r admit.Reason) bool { return string(r.Rule) == rule })
}

// want fails with what was said.
func want(t *testing.T, ok bool, a admit.Answer, should string) {
	t.Helper()
	if !ok {
		t.Errorf("%s; said %s", should, told(a))
	}
}

const nut = "parts/gland-nut-brass.md"

// A bath that may be pH 6 at most is an acid to the letter of Acid's own sentence; so is one that is given with an open low end.
func TestOfficerAcidEndsAtSix(t *testing.T) {
	s := edit(t).copyOf("chemistries/neutral-detergent.md", "chemistries/weak-acid.md").set("chemistries/weak-acid.md", "ph", "2–6").
		set("materials/high-strength-steel.md", "ph", "2–13").set("materials/high-strength-steel.md", "attacked-by", "")
	a := s.ask("high-strength-steel", "", "weak-acid")
	want(t, a.Verdict == admit.No, a, "pH 2–6 on hard steel must be no")
}

// An acid by its low pH alone, in a range that reaches beyond 6.
func TestOfficerAcidThatReachesUp(t *testing.T) {
	s := edit(t).copyOf("chemistries/neutral-detergent.md", "chemistries/weak-acid.md").set("chemistries/weak-acid.md", "ph", "2.5–6.5").
		set("materials/high-strength-steel.md", "ph", "2–13")
	a := s.ask("high-strength-steel", "", "weak-acid")
	want(t, a.Verdict == admit.No, a, "pH 2.5–6.5 on hard steel must be no")
}

// What one feature of the part says, no frequency of a metal takes back.
func TestOfficerElectronicFeatureOfPart(t *testing.T) {
	s := edit(t).set(nut, "features", "[electronic]")
	a := s.part("gland-nut-brass")
	want(t, a.Verdict == admit.No, a, "a part with electronic devices goes into sound because brass has a frequency")
	s = edit(t).set(nut, "features", "[mems]")
	a = s.part("gland-nut-brass")
	want(t, a.Verdict == admit.No, a, "a part with mems goes into sound because brass has a frequency")
}

// A frequency that a material with devices has may be that of its metal alone: no plain yes rests on it.
func TestOfficerFrequencyOfMetalIsNoWordOfTheMaker(t *testing.T) {
	s := edit(t).set("materials/glass.md", "features", "[electronic]").set("materials/glass.md", "frequency", "≥ 40 kHz")
	a := s.ask("glass", "", "wash-2")
	want(t, a.Verdict == admit.Conditions && by(a, "sound-on-sensitive-device"), a, "electronics go into sound by a frequency that nobody says is the maker's")
}

// A part's plated feature is about one of its couples.
func TestOfficerPlatedPartOfTwoMetals(t *testing.T) {
	s := edit(t).set(nut, "material", "[brass, aluminium-wrought]").set(nut, "features", "[plated]")
	a := s.part("gland-nut-brass")
	want(t, by(a, "dissimilar-metals"), a, "aluminium beside brass must be told though something is plated")
}

// What a sheet names and nobody knows is not checked.
func TestOfficerUnknownNamesOfASheet(t *testing.T) {
	a := edit(t).set(nut, "material", "[brass, unobtainium]").part("gland-nut-brass")
	want(t, a.Verdict != admit.Yes && says(a, "not checked"), a, "an unknown material must be told")
	a = edit(t).set(nut, "soil", "[straight-cutting-oil, unknown-soil]").part("gland-nut-brass")
	want(t, a.Verdict != admit.Yes && says(a, "not checked"), a, "an unknown soil must be told")
	a = edit(t).set(nut, "rinse", "[rinse-1, rinse-9]").part("gland-nut-brass")
	want(t, a.Verdict != admit.Yes && says(a, "not checked"), a, "an unknown rinse must be told")
	a = edit(t).set(nut, "tank", "wash-9").part("gland-nut-brass")
	want(t, a.Verdict != admit.Yes && says(a, "not checked"), a, "an unknown tank must be told")
	a = edit(t).set(nut, "dry", "oven").part("gland-nut-brass")
	want(t, a.Verdict != admit.Yes && says(a, "not checked"), a, "an unknown dryer must be told")
}

// An article that could not be read.
func TestOfficerMaterialThatCannotBeRead(t *testing.T) {
	a := edit(t).set("materials/brass.md", "ph", "six to nine").set("materials/brass.md", "made-of", "{").part("gland-nut-brass")
	want(t, a.Verdict != admit.Yes, a, "a material whose article cannot be read must be told")
}

// A material whose limit of time meets a bath without a time.
func TestOfficerTimeLimitWithoutTimeOfBath(t *testing.T) {
	s := edit(t).set("chemistries/neutral-detergent.md", "time", "")
	a := s.ask("brass", "", "neutral-detergent")
	want(t, strings.Contains(strings.ReplaceAll(a.Brief(nil, a.System), "\u00a0", " "), "5 min"), a, "brass keeps its 5 min")
	a = s.set(nut, "time", "").part("gland-nut-brass")
	want(t, a.Verdict != admit.Yes && (says(a, "5 min") || says(a, "time")), a, "a sheet without time has no yes")
}

// One of two washes without time.
func TestOfficerTotalTimeWithAGap(t *testing.T) {
	s := edit(t).set("chemistries/neutral-detergent.md", "time", "")
	for _, key := range []string{"tank", "chemistry", "strength", "temperature", "time", "frequency"} {
		s.set(nut, key, "")
	}
	s.set(nut, "steps", "[{tank: wash-2, chemistry: neutral-detergent, time: 4 min}, {tank: wash-2, chemistry: neutral-detergent}]")
	a := s.part("gland-nut-brass")
	want(t, a.Verdict != admit.Yes && says(a, "time"), a, "the total is not known, so it must be told")
}

// A material's frequency beside a chemistry that has none.
func TestOfficerFrequencyLimitWithoutFrequencyOfBath(t *testing.T) {
	s := edit(t).set("chemistries/neutral-detergent.md", "frequency", "")
	a := s.ask("silver", "", "neutral-detergent")
	want(t, strings.Contains(a.Brief(nil, a.System), "kHz"), a, "silver keeps its 68 kHz")
}

// A material's temperature beside a tank and a chemistry that have none.
func TestOfficerTemperatureLimitWithoutTemperature(t *testing.T) {
	s := edit(t).set("chemistries/neutral-detergent.md", "temperature", "").shopFile("    temperature: 48 °C\n", "")
	a := s.ask("brass", "", "wash-2")
	want(t, strings.Contains(a.Brief(nil, a.System), "50"), a, "brass keeps its 50 °C in few words too")
}

// A soft surface and sound of which nobody says the frequency.
func TestOfficerSoftSurfaceUnknownFrequency(t *testing.T) {
	s := edit(t).set("materials/silver.md", "frequency", "").shopFile("    frequency: 80 kHz\n", "")
	a := s.ask("silver", "", "wash-2")
	want(t, says(a, "frequency") && a.Verdict != admit.Yes, a, "silver in sound of an unknown frequency must be told")
	a = s.ask("silver", "", "neutral-detergent")
	low := slices.ContainsFunc(a.Recipe.Spans, func(x admit.Span) bool { return x.What == admit.Frequency && x.Low != nil && *x.Low <= 30e3 })
	want(t, !low, a, "a recipe for silver must not offer 25 kHz")
}

// A tank with several frequencies, of which some are fit for a polished face.
func TestOfficerSeveralFrequencies(t *testing.T) {
	s := edit(t).shopFile("    frequency: 80 kHz\n", "    frequency: 25–132 kHz\n")
	a := s.ask("aluminium-wrought", "", "wash-2")
	want(t, a.Verdict == admit.Conditions && strings.Contains(a.Brief(nil, a.System), "kHz"), a, "the suiting frequency is a condition")
	a = s.set(nut, "frequency", "80 kHz").part("gland-nut-brass")
	want(t, a.Verdict != admit.No, a, "a sheet that chooses 80 kHz is right")
}

// A bath of an open pH.
func TestOfficerOpenPH(t *testing.T) {
	s := edit(t).copyOf("chemistries/mild-alkaline.md", "chemistries/open.md").set("chemistries/open.md", "ph", "\">= 9\"").set("chemistries/open.md", "temperature", "20–45 °C")
	a := s.ask("brass", "", "open")
	want(t, a.Verdict == admit.No, a, "pH 9 and above on brass")
	a = s.ask("bronze-and-copper", "", "open")
	want(t, a.Verdict == admit.No, a, "pH 9 and above on bronze, which ends at 10")
	a = s.ask("glass", "", "open")
	want(t, a.Verdict == admit.No, a, "pH 9 and above on glass, which ends at 10")
}

// H227 is category 4 of GHS 2.6: 60–93 °C.
func TestOfficerCombustibleByHazard(t *testing.T) {
	s := edit(t).set("chemistries/mild-alkaline.md", "hazards", "[H227, H315]")
	a := s.ask("carbon-steel", "", "wash-1")
	want(t, a.Verdict == admit.No, a, "H227 in an ordinary heated tank")
}

// H226 without a flash point can flash at 23 °C.
func TestOfficerH226WithoutFlashPoint(t *testing.T) {
	s := edit(t).set("chemistries/neutral-detergent.md", "hazards", "[H226]").
		set("chemistries/neutral-detergent.md", "temperature", "30–45 °C").
		shopFile("    temperature: 48 °C\n", "    temperature: 42 °C\n").shopFile("drag-out: 0.6 L/h\n    flammables: no", "drag-out: 0.6 L/h\n    flammables: yes")
	a := s.ask("stainless-300", "", "wash-2")
	want(t, a.Verdict == admit.No || says(a, "not checked"), a, "H226 without flash point at 42 °C under sound")
}

// A flammable chemistry by itself with a warm window.
func TestOfficerFlammableWarmWindow(t *testing.T) {
	s := edit(t).set("chemistries/neutral-detergent.md", "hazards", "[H225]")
	a := s.ask("stainless-300", "", "neutral-detergent")
	hot := a.Recipe != nil && slices.ContainsFunc(a.Recipe.Spans, func(x admit.Span) bool { return x.What == admit.Temperature && x.High != nil && *x.High > 30 })
	want(t, !hot, a, "a recipe of H225 at more than 30 °C")
	s = edit(t).set("chemistries/neutral-detergent.md", "hazards", "[H225]").shopFile("drag-out: 0.6 L/h\n    flammables: no", "drag-out: 0.6 L/h\n    flammables: yes").shopFile("    temperature: 48 °C\n", "")
	a = s.ask("stainless-300", "", "wash-2")
	hot = a.Recipe != nil && slices.ContainsFunc(a.Recipe.Spans, func(x admit.Span) bool { return x.What == admit.Temperature && x.High != nil && *x.High > 30 })
	want(t, !hot, a, "a recipe of H225 at more than 30 °C in a tank for flammables without a set-point")
}

var jar = []string{"id: jar-1", "name: Jar", "volume: 2 L", "vessel: jar", "lid: yes", "ventilated: yes", "drag-out: 0 L/h"}

// A jar has no heat, so a chemistry that works warm does not work there.
func TestOfficerWarmChemistryInAJar(t *testing.T) {
	s := edit(t).vessel(append(slices.Clone(jar), "chemistry: mild-alkaline", "strength: 4 % v/v")...)
	a := s.ask("carbon-steel", "", "jar-1")
	hot := a.Recipe != nil && slices.ContainsFunc(a.Recipe.Spans, func(x admit.Span) bool { return x.What == admit.Temperature && x.Low != nil && *x.Low > 30 })
	want(t, !hot, a, "a jar cannot be at 50–70 °C")
}

// A sheet that has sound in a jar.
func TestOfficerSoundInAJar(t *testing.T) {
	s := edit(t).copyOf("chemistries/neutral-detergent.md", "chemistries/spirit.md").set("chemistries/spirit.md", "hazards", "[H225]").set("chemistries/spirit.md", "temperature", "15–25 °C").set("chemistries/spirit.md", "removes", "[fingerprints]").
		vessel(append(slices.Clone(jar), "chemistry: spirit", "strength: 2 % v/v", "temperature: 20 °C")...).
		set(nut, "tank", "jar-1").set(nut, "chemistry", "spirit").set(nut, "temperature", "20 °C").set(nut, "soil", "[fingerprints]").set(nut, "dry", "")
	a := s.part("gland-nut-brass")
	want(t, by(a, "jar-with-heat-or-sound"), a, "a sheet with 80 kHz in a jar of spirit")
}

// What a concession without limits is worth.
func TestOfficerConcessionWithoutLimits(t *testing.T) {
	s := edit(t).set("materials/brass.md", "concessions", "[{chemistry: ammoniated-soap, rules: [ammonia-on-copper-alloy, constituent-attacks-material, ph-outside-material], by: process engineer, reason: tried}]")
	a := s.ask("brass", "", "ammoniated-soap")
	want(t, a.Verdict == admit.No, a, "a concession without limits is without effect, so it must not lift a no")
}

// Acid on hard steel hurts people when the spring breaks.
func TestOfficerAcidOnHardSteelConceded(t *testing.T) {
	s := edit(t).set("materials/high-strength-steel.md", "concessions", "[{chemistry: citric-descaler, rules: [acid-on-hard-steel, constituent-attacks-material, ph-outside-material], by: process engineer, reason: tried, time: ≤ 1 min}]")
	a := s.ask("high-strength-steel", "", "citric-descaler")
	want(t, a.Verdict == admit.No, a, "a signature on acid on hard steel")
}

// An attack that was accepted.
func TestOfficerAcceptedAttack(t *testing.T) {
	s := edit(t).set("materials/stainless-300.md", "ph", "5–12").set("parts/valve-body-stainless.md", "accept", "[{rule: attack-on-purpose, reason: Timed and tried.}]").
		set("parts/valve-body-stainless.md", "steps", "")
	p := "parts/valve-body-stainless.md"
	s.set(p, "material", "[stainless-300]").set(p, "features", "").set(p, "soil", "[lime-scale]").set(p, "tank", "wash-2").set(p, "chemistry", "citric-descaler").
		set(p, "strength", "5 % w/v").set(p, "temperature", "50 °C").set(p, "time", "5 min").set(p, "frequency", "").set(p, "rinse", "").set(p, "dry", "")
	a := s.part("valve-body-stainless")
	want(t, !by(a, "attack-on-purpose"), a, "accepted in the sheet")
}

// A second concession for the same chemistry.
func TestOfficerTwoConcessions(t *testing.T) {
	s := edit(t).set("materials/brass.md", "concessions", "[{chemistry: ammoniated-soap, rules: [ph-outside-material], by: process engineer, reason: tried, time: ≤ 2 min}, {chemistry: ammoniated-soap, rules: [ammonia-on-copper-alloy, constituent-attacks-material], by: safety officer, reason: tried, time: ≤ 1 min}]")
	a := s.ask("brass", "", "ammoniated-soap")
	want(t, a.Verdict == admit.Conditions, a, "both concessions together cover it")
}

// That acid passes the pH of steel, and that it does so to take rust off, is one limit: a concession of either name holds whether rust is asked about or not,
// and none lifts what it does not name.
func TestOfficerConcessionOfThePH(t *testing.T) {
	for _, rule := range []string{"ph-outside-material", "attack-on-purpose"} {
		s := edit(t).set("materials/carbon-steel.md", "concessions", "[{chemistry: citric-descaler, rules: ["+rule+"], by: process engineer, reason: tried, time: ≤ 5 min}]")
		for _, soil := range []string{"", "light-rust"} {
			a := s.ask("carbon-steel", soil, "citric-descaler")
			want(t, !by(a, "ph-outside-material") && !by(a, "attack-on-purpose"), a, rule+" conceded, soil "+soil)
		}
		a := s.ask("carbon-steel", "light-rust", "phosphoric-descaler")
		want(t, a.Verdict == admit.No, a, rule+" conceded for another acid")
	}
}

// A dryer that swings, and one of which nobody knows how hot it is.
func TestOfficerDryer(t *testing.T) {
	p := "parts/gauge-window-polycarbonate.md"
	a := edit(t).set(p, "dry", "dryer").part("gauge-window-polycarbonate")
	want(t, by(a, "dryer-too-hot"), a, "80 °C on polycarbonate")
	a = edit(t).shopFile("temperature: 80 °C", "temperature: 45–90 °C").set(p, "dry", "dryer").part("gauge-window-polycarbonate")
	want(t, says(a, "dryer"), a, "45–90 °C on polycarbonate")
	a = edit(t).shopFile("temperature: 80 °C", "temperature: ≤ 90 °C").set(p, "dry", "dryer").part("gauge-window-polycarbonate")
	want(t, says(a, "dryer"), a, "≤ 90 °C on polycarbonate")
	a = edit(t).shopFile("  temperature: 80 °C\n  kind", "  kind").set(p, "dry", "dryer").part("gauge-window-polycarbonate")
	want(t, says(a, "dryer"), a, "a dryer of unknown heat on polycarbonate must be told")
	a = edit(t).set(nut, "features", "[bonded]").set(nut, "material", "[brass]").part("gland-nut-brass")
	want(t, says(a, "dryer") || says(a, "bond"), a, "a bonded part in the dryer")
}

// A flammable liquid that is meant to stay on.
func TestOfficerFlammableThatStaysOn(t *testing.T) {
	for _, rinses := range []string{"stays-on", "fair", ""} {
		s := edit(t).copyOf("chemistries/neutral-detergent.md", "chemistries/spirit.md").set("chemistries/spirit.md", "hazards", "[H225]").set("chemistries/spirit.md", "temperature", "15–25 °C").set("chemistries/spirit.md", "rinses", rinses).set("chemistries/spirit.md", "removes", "[fingerprints]").
			vessel(append(slices.Clone(jar), "chemistry: spirit", "strength: 2 % v/v", "temperature: 20 °C")...).
			set(nut, "tank", "jar-1").set(nut, "chemistry", "spirit").set(nut, "temperature", "20 °C").set(nut, "soil", "[fingerprints]").set(nut, "frequency", "")
		a := s.part("gland-nut-brass")
		want(t, by(a, "flammable-into-dryer"), a, "a flammable liquid that rinses "+rinses+", a rinse, and a hot dryer")
	}
}

// Silicate keeps aluminium from caustic, not polycarbonate.
func TestOfficerSilicateIsNoShieldForPlastic(t *testing.T) {
	s := edit(t).copyOf("chemistries/silicated-alkaline.md", "chemistries/hot-silicate.md").set("chemistries/hot-silicate.md", "ph", "12.5–13").set("materials/polycarbonate.md", "ph", "").set("materials/polycarbonate.md", "attacked-by", "").
		set("materials/polycarbonate.md", "time", "").set("chemistries/hot-silicate.md", "contains", "[silicate]").set("chemistries/hot-silicate.md", "temperature", "35–45 °C")
	a := s.ask("polycarbonate", "", "hot-silicate")
	want(t, by(a, "strong-alkali-on-light-metal"), a, "pH 13 on polycarbonate, with silicate or without")
}

// A bath strong by its strength, in ounces, grams and ratios.
func TestOfficerStrengthMeasures(t *testing.T) {
	for _, c := range []struct {
		strength string
		no       bool
	}{
		{"900 g/L", true}, {"4 % v/v", false}, {"1:24", false}, {"1:5", true}, {"45 g/L", false}, {"4.5 % w/w", false}, {"95 % w/w", true}, {"6 wt oz/US gal", false}, {"60 wt oz/US gal", true},
		{"5 fl oz/US gal", false}, {"1:45–1:10", false}, {"1:60–1:8", true}, {"\">= 4 % v/v\"", true}, {"≤ 4 % v/v", true},
	} {
		s := edit(t).shopFile("strength: 4 % v/v", "strength: "+c.strength)
		a := s.ask("carbon-steel", "", "wash-1")
		flagged := a.Verdict == admit.No || a.Verdict == admit.Conditions && says(a, "bring wash 1")
		want(t, flagged == c.no, a, c.strength)
	}
}

// Kelvins and Fahrenheit are the same heat.
func TestOfficerTemperatureUnits(t *testing.T) {
	for _, heat := range []string{"62 °C", "335.15 K", "143.6 °F"} {
		a := edit(t).shopFile("temperature: 62 °C", "temperature: "+heat).ask("aluminium-cast,carbon-steel", "", "wash-1")
		b := edit(t).ask("aluminium-cast,carbon-steel", "", "wash-1")
		want(t, a.Verdict == b.Verdict && len(a.Reasons) == len(b.Reasons), a, heat+" against "+told(b))
	}
}

// Own words.
func TestOfficerOwnWords(t *testing.T) {
	s := edit(t).file("vocabulary.yaml", "constituents:\n  - {word: ethanolamine, as: amine, means: x}\n  - {word: goo, as: not checked}\nsubstances:\n  - {word: stellite, as: not checked}\n")
	s.set("chemistries/neutral-detergent.md", "contains", "[surfactant, ethanolamine]")
	a := s.ask("brass", "", "wash-2")
	want(t, a.Verdict == admit.No, a, "ethanolamine on brass")
	s.set("chemistries/neutral-detergent.md", "contains", "[surfactant, goo]")
	a = s.ask("brass", "", "wash-2")
	want(t, a.Verdict == admit.Conditions && strings.Contains(a.Brief(nil, a.System), "not checked"), a, "goo is not checked")
	a = s.part("gland-nut-brass")
	want(t, a.Verdict == admit.Conditions && says(a, "not checked"), a, "goo on a sheet")
	s.set("materials/brass.md", "made-of", "[brass, stellite]")
	a = s.part("gland-nut-brass")
	want(t, says(a, "stellite"), a, "stellite on a sheet")
}

// A tank whose lid is off warms itself too, in other words.
func TestOfficerDriftWords(t *testing.T) {
	s := edit(t).shopFile("ultrasonic-power: 500 W\n    frequency: 80 kHz\n    lid: yes", "ultrasonic-power: 1.5 kW\n    frequency: 80 kHz\n    lid: no").shopFile("duty: 40 %", "duty: 100 %")
	a := s.ask("brass", "", "wash-2")
	want(t, says(a, "sound alone"), a, "1.5 kW in 28 L")
	want(t, !says(a, "under its lid"), a, "a tank without a lid has none to take off")
}

// Verdict of the other baths is that of the answer.
func TestOfficerInsteadAgrees(t *testing.T) {
	m := edit(t).read()
	table := Table(m)
	for _, x := range table.Materials {
		list, err := table.Instead(admit.Question{Materials: []string{x.Name}})
		if err != nil {
			t.Fatal(err)
		}
		for _, alt := range list {
			a, _ := table.Answer(admit.Question{Materials: []string{x.Name}, Bath: alt.Bath})
			want(t, a.Verdict == alt.Verdict, a, x.Name+" in "+alt.Bath+" is said to be "+string(alt.Verdict))
		}
	}
}

func spirit(t *testing.T) *shop {
	return edit(t).copyOf("chemistries/neutral-detergent.md", "chemistries/spirit.md").set("chemistries/spirit.md", "hazards", "[H225]").set("chemistries/spirit.md", "temperature", "15–25 °C").
		set("chemistries/spirit.md", "removes", "[fingerprints]").
		vessel(append(slices.Clone(jar), "chemistry: spirit", "strength: 2 % v/v", "temperature: 20 °C")...).
		set(nut, "tank", "jar-1").set(nut, "chemistry", "spirit").set(nut, "soil", "[fingerprints]").set(nut, "frequency", "").set(nut, "dry", "").set(nut, "rinse", "")
}

// A sheet that warms a jar.
func TestOfficerSheetWarmsAJar(t *testing.T) {
	m := spirit(t).set(nut, "temperature", "45 °C").read()
	a, err := Table(m).Sheet("gland-nut-brass")
	if err != nil {
		t.Fatal(err)
	}
	want(t, a.Verdict == admit.No, a, "spirit at 45 °C")
}

// A strength that nothing bounds.
func TestOfficerStrengthWithoutWindow(t *testing.T) {
	a := edit(t).set("chemistries/mild-alkaline.md", "strength", "").shopFile("strength: 4 % v/v", "strength: 90 % v/v").ask("stainless-300", "", "wash-1")
	want(t, a.Verdict != admit.Yes && says(a, "strength"), a, "90 % of a chemistry without strength is not checked")
}

// The tank of a sheet holds another chemistry.
func TestOfficerSheetInATankOfAnotherChemistry(t *testing.T) {
	a := edit(t).set(nut, "tank", "wash-1").set(nut, "frequency", "40 kHz").part("gland-nut-brass")
	want(t, a.Verdict != admit.Yes && (says(a, "mild alkaline") || says(a, "holds")), a, "Wash 1 holds mild alkaline cleaner, the sheet says neutral detergent")
}

// A soak in a tank without sound is as long as its chemistry allows.
func TestOfficerTimeOfASoak(t *testing.T) {
	s := edit(t).shopFile("ultrasonic-power: 500 W\n    frequency: 80 kHz", "ultrasonic-power: 0 W").set(nut, "frequency", "").set(nut, "time", "2 h")
	a := s.part("gland-nut-brass")
	want(t, by(a, "outside-chemistry-window"), a, "two hours in a bath whose window is 2–15 min")
}

// Whatever is missing for the rinse is told.
func TestOfficerRinseGaps(t *testing.T) {
	bronze := func(s *shop) admit.Answer {
		return s.set("materials/carbon-steel.md", "ph", "6–8.2").set("materials/carbon-steel.md", "time", "≤ 15 min").ask("carbon-steel", "", "wash-2")
	}
	for _, gap := range []struct{ old, new string }{
		{"    drag-out: 1.2 L/h\n", ""}, {"    flow: 4 L/min\n", ""}, {"  ph: 7.6\n", ""}, {"  alkalinity: 220 mg/L\n", ""}, {"water: mains", "water: well"},
		{"drag-out: 1.2 L/h", "drag-out: ≥ 1.2 L/h"}, {"strength: 4 % v/v", "strength: ≥ 4 % v/v"},
	} {
		a := bronze(edit(t).shopFile(gap.old, gap.new))
		want(t, says(a, "Rinse"), a, "without "+gap.old+gap.new)
	}
	for _, key := range []string{"ph", "alkalinity"} {
		a := bronze(edit(t).set("chemistries/mild-alkaline.md", key, ""))
		want(t, says(a, "Rinse"), a, "without "+key)
	}
}

// A drift past the ceiling of the chemistry, where that is below what the material stands.
func TestOfficerDriftPastCeiling(t *testing.T) {
	s := edit(t).shopFile("ultrasonic-power: 500 W", "ultrasonic-power: 1.5 kW").shopFile("duty: 40 %", "duty: 100 %")
	a := s.ask("stainless-300", "", "wash-2")
	want(t, says(a, "sound alone"), a, "1.5 kW in 28 L goes past the cloud point")
}

// A drift that cannot be computed.
func TestOfficerDriftUnknown(t *testing.T) {
	s := edit(t).shopFile("    ultrasonic-power: 500 W\n", "")
	a := s.ask("brass", "", "wash-2")
	want(t, says(a, "not checked"), a, "nobody knows how far the sound warms it")
}

// Chemistries that meet: an acid by pH that ends at 6 and bleach.
func TestOfficerBleachBesideWeakAcid(t *testing.T) {
	m := edit(t).set("chemistries/neutral-detergent.md", "ph", "3–6").set("chemistries/mild-alkaline.md", "contains", "[hypochlorite]").set("chemistries/mild-alkaline.md", "never-with", "").read()
	one, two := Chemistry(m.Named(manual.Chemistry, "neutral-detergent")), Chemistry(m.Named(manual.Chemistry, "mild-alkaline"))
	if why, _, _ := admit.Enmity(&one, &two); why.Phrase == "" {
		t.Error("pH 3–6 beside bleach")
	}
}

// A recipe stays within what it gives, and says so of nothing else.
func TestOfficerStaysWithinTellsTheTruth(t *testing.T) {
	a := spirit(t).ask("brass", "", "jar-1")
	time := a.Recipe != nil && slices.ContainsFunc(a.Recipe.Spans, func(x admit.Span) bool { return x.What == admit.Time })
	want(t, time || !says(a, "time and frequency"), a, "a recipe without time and frequency does not stay within them")
}

// A dryer in the other family of units.
func TestOfficerKelvinDryer(t *testing.T) {
	p := "parts/gauge-window-polycarbonate.md"
	a := edit(t).shopFile("temperature: 80 °C", "temperature: 176 °F").set(p, "dry", "dryer").part("gauge-window-polycarbonate")
	want(t, by(a, "dryer-too-hot"), a, "176 °F on polycarbonate")
}

// Twice the same in the other family of units.
func TestOfficerUnitsOfTheShop(t *testing.T) {
	a := edit(t).shopFile("units: SI", "units: US").ask("brass", "", "wash-2")
	text := told(a)
	if strings.Contains(text, "°C") {
		t.Error("degrees Celsius in a shop of US units: " + text)
	}
}

// A limit of a material that is open at the other end.
func TestOfficerEqualEnds(t *testing.T) {
	for _, c := range []struct{ temperature, frequency string }{{"122 °F", "37–170 kHz"}, {"323.15 K", "≥ 37 kHz"}} {
		a := edit(t).set("materials/brass.md", "temperature", "≤ "+c.temperature).set(nut, "temperature", "50 °C").part("gland-nut-brass")
		want(t, a.Verdict != admit.No, a, "50 °C is "+c.temperature)
	}
}

const lives = "[{chemistry: ammoniated-soap, rules: [ammonia-on-copper-alloy, constituent-attacks-material, ph-outside-material], by: process engineer, reason: tried, time: ≤ 1 min}]"

// steps gives the brass nut other washes, one a text, and a soil.
func (s *shop) steps(soil string, washes ...string) *shop {
	for _, key := range []string{"tank", "chemistry", "strength", "temperature", "time", "frequency"} {
		s.set(nut, key, "")
	}
	return s.set(nut, "soil", "["+soil+"]").set(nut, "steps", "["+strings.Join(washes, ", ")+"]")
}

// A concession's limit of time holds in a jar too.
func TestOfficerConcessionTimeWithoutSound(t *testing.T) {
	s := edit(t).vessel(append(slices.Clone(jar), "chemistry: ammoniated-soap", "temperature: 25 °C", "strength: 8 % v/v")...).set("materials/brass.md", "concessions", lives).set("chemistries/ammoniated-soap.md", "removes", "[fingerprints]")
	a := s.ask("brass", "", "jar-1")
	want(t, a.Verdict == admit.No || strings.Contains(strings.ReplaceAll(a.Brief(nil, a.System), "\u00a0", " "), "1 min"), a, "a minute is what was conceded")
	a = s.steps("fingerprints", "{tank: jar-1, chemistry: ammoniated-soap, time: 30 min}").part("gland-nut-brass")
	want(t, by(a, "outside-concession"), a, "30 min where a minute was conceded")
}

// Four visits of a minute are four minutes.
func TestOfficerConcessionTotalTime(t *testing.T) {
	wash := "{tank: wash-2, chemistry: ammoniated-soap, strength: 8 % v/v, temperature: 25 °C, time: 1 min, frequency: 80 kHz}"
	a := edit(t).set("materials/brass.md", "concessions", lives).set("chemistries/ammoniated-soap.md", "removes", "[fingerprints]").steps("fingerprints", wash, wash, wash, wash).part("gland-nut-brass")
	want(t, by(a, "outside-concession"), a, "four times a minute where one was conceded")
}

// Of several washes one whose chemistry nobody knows.
func TestOfficerUnknownWashAmongKnown(t *testing.T) {
	a := edit(t).steps("straight-cutting-oil", "{tank: wash-2, chemistry: neutral-detergent, time: 5 min}", "{tank: wash-1, chemistry: mystery, time: 30 min}").part("gland-nut-brass")
	want(t, says(a, "not checked"), a, "a wash in an unknown chemistry must be told")
}

// A concession opens the low end alone.
func TestOfficerConcessionOpensNoHighEnd(t *testing.T) {
	c := "[{chemistry: neutral-detergent, rules: [ph-outside-material], by: process engineer, reason: tried, temperature: ≤ 65 °C}]"
	a := edit(t).set("materials/brass.md", "temperature", "≤ 70 °C").set("materials/brass.md", "concessions", c).set("soils/straight-cutting-oil.md", "removed-by", "[neutral-detergent]").
		set(nut, "temperature", "59 °C").part("gland-nut-brass")
	want(t, by(a, "outside-chemistry-window") || by(a, "above-ceiling") || by(a, "above-cloud-point"), a, "59 °C where the window ends at 55 °C")
}

// One concession covers what it names, not what has the same constituent.
func TestOfficerConcessionCoversWhatItNames(t *testing.T) {
	c := "[{chemistry: citric-descaler, rules: [constituent-attacks-material, ph-outside-material], by: process engineer, reason: tried, time: ≤ 1 min}]"
	a := edit(t).set("materials/high-strength-steel.md", "concessions", c).ask("high-strength-steel", "", "citric-descaler")
	want(t, by(a, "acid-on-hard-steel"), a, "nobody named acid-on-hard-steel")
}

// What a concession may never cover: what breaks later under load, and what gives off hydrogen.
func TestOfficerNeverConceded(t *testing.T) {
	for _, rule := range []string{"acid-on-hard-steel", "strong-alkali-on-light-metal", "acid-on-reactive-material"} {
		if admit.Concedable(finding.RuleName(rule)) {
			t.Errorf("%s can be signed away", rule)
		}
	}
}

// A shop's own word must not take the place of a word of never-with.
func TestOfficerOwnWordAlkali(t *testing.T) {
	for _, own := range []string{"", "constituents:\n  - {word: alkali, as: enzyme, means: x}\n"} {
		s := edit(t)
		if own != "" {
			s.file("vocabulary.yaml", own)
		}
		m := s.read()
		acid, caustic := Chemistry(m.Named(manual.Chemistry, "citric-descaler")), Chemistry(m.Named(manual.Chemistry, "heavy-duty-caustic"))
		caustic.NeverWith = nil
		if why, _, _ := admit.Enmity(&acid, &caustic); why.Phrase == "" {
			t.Errorf("citric acid, never with alkali, beside caustic, with the vocabulary %q", own)
		}
	}
}

// A part that is wet with spirit goes into a hot bath.
func TestOfficerFlammableIntoHotBath(t *testing.T) {
	a := spirit(t).steps("fingerprints", "{tank: jar-1, chemistry: spirit, time: 3 min}", "{tank: wash-2, chemistry: neutral-detergent, time: 3 min}").part("gland-nut-brass")
	hot := slices.ContainsFunc(a.Reasons, func(r admit.Reason) bool { return r.Wash != 1 && strings.Contains(r.Text, "can be lit") })
	want(t, hot, a, "spirit carried into a heated bath with sound must be told")
}

// A heated tank that has no sound: the shop file gives neither power nor frequency.
func TestOfficerTankWithoutSound(t *testing.T) {
	a := edit(t).shopFile("    ultrasonic-power: 500 W\n    frequency: 80 kHz\n", "").ask("sensitive-electronics", "", "wash-2")
	want(t, !says(a, "wash 2 has ultrasonics"), a, "nobody says that Wash 2 has ultrasonics")
}

// A number on a recipe is one that a thermometer shows.
func TestOfficerNumbersAreReadable(t *testing.T) {
	for _, bath := range []string{"terpene-semi-aqueous", "glycol-ether-semi-aqueous", "solvent-emulsion"} {
		s := edit(t).set("chemistries/"+bath+".md", "flash-point", "62 °C").set("chemistries/"+bath+".md", "temperature", "20–60 °C")
		a := s.ask("stainless-300", "", bath)
		want(t, !strings.Contains(told(a), "333333"), a, "eleven digits on a recipe")
	}
}

// What stands in few words on a card beside limits to keep is one itself.
func TestOfficerRinseBriefIsNoLimit(t *testing.T) {
	a := edit(t).ask("polycarbonate", "", "wash-2")
	want(t, !strings.Contains(a.Brief(nil, a.System), "Rinse: pH 7.6–8.8"), a, "polycarbonate ends at pH 8.5, and the card says ≤ 2 min; Rinse: pH 7.6–8.8")
}

// A cyanide bath beside a neutral one: hydrogen cyanide comes off below pH 9 to 10 already.
func TestOfficerCyanideBesideNeutral(t *testing.T) {
	m := edit(t).set("chemistries/mild-alkaline.md", "contains", "[cyanide]").set("chemistries/mild-alkaline.md", "never-with", "").read()
	one, two := Chemistry(m.Named(manual.Chemistry, "neutral-detergent")), Chemistry(m.Named(manual.Chemistry, "mild-alkaline"))
	if why, _, _ := admit.Enmity(&one, &two); why.Phrase == "" {
		t.Error("cyanide beside a bath of pH 6.5–8.5")
	}
}

// A mix of neighbours by pH alone: an acid that ends at 6.5 beside a bath that must never meet acid.
func TestOfficerNeverWithAcidByPH(t *testing.T) {
	m := edit(t).set("chemistries/neutral-detergent.md", "ph", "2.5–6.5").read()
	one, two := Chemistry(m.Named(manual.Chemistry, "neutral-detergent")), Chemistry(m.Named(manual.Chemistry, "mild-alkaline"))
	if why, _, _ := admit.Enmity(&one, &two); why.Phrase == "" {
		t.Error("pH 2.5–6.5 beside mild alkaline, never with acid")
	}
}

// What stands against a sheet or tank is either its own fault, or that of a window against which the same stands: proof leaves out the one
// because it tells the other.
func TestOfficerFlashFaultIsToldSomewhere(t *testing.T) {
	s := edit(t).copyOf("chemistries/neutral-detergent.md", "chemistries/thinner.md").set("chemistries/thinner.md", "hazards", "[H225]").set("chemistries/thinner.md", "flash-point", "12 °C").
		set("chemistries/thinner.md", "temperature", "15–30 °C").set("chemistries/thinner.md", "removes", "[fingerprints]").
		vessel("id: wash-3", "name: Wash 3", "volume: 28 L", "heater: 1 kW", "ultrasonic-power: 500 W", "frequency: 80 kHz", "chemistry: thinner", "strength: 2 % v/v", "temperature: 30 °C", "flammables: yes").
		set(nut, "tank", "wash-3").set(nut, "chemistry", "thinner").set(nut, "soil", "[fingerprints]").set(nut, "temperature", "30 °C")
	m := s.read()
	table := Table(m)
	sheet, err := table.Sheet("gland-nut-brass")
	if err != nil {
		t.Fatal(err)
	}
	c := Chemistry(m.Named(manual.Chemistry, "thinner"))
	own := admit.Bath{Title: c.Title, Chemistry: &c, Window: c.Window}
	flash := func(list []admit.Reason) bool {
		return slices.ContainsFunc(list, func(r admit.Reason) bool { return r.Rule == "near-flash-point" && r.Verdict == admit.No && !r.Window })
	}
	tank := table.Bath("wash-3").Faults(quantity.SI)
	if !flash(own.Faults(quantity.SI)) && !flash(sheet.Reasons) {
		t.Errorf("30 °C under sound with a flash point of 12 °C: blamed on the window, which is not blamed; the sheet is told %s", told(sheet))
	}
	if !flash(own.Faults(quantity.SI)) && !flash(tank) {
		t.Error("the same of the tank as it stands")
	}
}

// What neither the sheet nor the shop file gives is not checked, for a sheet as for the tank: the chemistry's window is no measurement.
func TestOfficerSheetWithoutValues(t *testing.T) {
	bare := func() *shop {
		return edit(t).set("materials/brass.md", "temperature", "≤ 60 °C").set("materials/brass.md", "time", "")
	}
	lifts := func(window string) string { return "[{chemistry: neutral-detergent, " + window + "}]" }
	const oil = "soils/straight-cutting-oil.md"
	a := bare().shopFile("    strength: 2 % v/v\n", "").set(nut, "strength", "").set(oil, "removed-by", lifts("strength: 3–4 % v/v")).part("gland-nut-brass")
	want(t, a.Verdict != admit.Yes && says(a, "how strong"), a, "nobody says how strong it is")
	a = bare().shopFile("    temperature: 48 °C\n", "").set(nut, "temperature", "").part("gland-nut-brass")
	want(t, a.Verdict != admit.Yes && says(a, "how hot"), a, "nobody says how hot it is")
	a = bare().set(nut, "time", "").set(oil, "removed-by", lifts("time: 10–12 min")).part("gland-nut-brass")
	want(t, a.Verdict != admit.Yes && says(a, "how long"), a, "nobody says how long it takes")
	a = bare().shopFile("    frequency: 80 kHz\n", "").set(nut, "frequency", "").set("materials/brass.md", "frequency", "").set(oil, "removed-by", lifts("frequency: 40–80 kHz")).part("gland-nut-brass")
	want(t, a.Verdict != admit.Yes && says(a, "frequency"), a, "nobody says at what frequency")
}

// A sheet of which no wash is known keeps what else is against it.
func TestOfficerSheetWithoutAWash(t *testing.T) {
	a := edit(t).set("soils/straight-cutting-oil.md", "may-contain", "[cyanide]").set(nut, "chemistry", "mystery").set(nut, "tank", "").part("gland-nut-brass")
	want(t, a.Verdict == admit.No && by(a, "soil-needs-clearance"), a, "what the soil may hold is told whatever the wash")
	a = edit(t).set(nut, "chemistry", "mystery").set(nut, "tank", "").part("gland-nut-brass")
	want(t, a.Verdict == admit.Conditions && says(a, "no wash that this manual knows"), a, "no wash is known")
}

// What somebody lives with for a minute is not lived with for a time that nobody gives.
func TestOfficerConcessionWithoutTime(t *testing.T) {
	conceded := func() *shop {
		return edit(t).set("materials/brass.md", "concessions", lives).set("materials/brass.md", "time", "").set("chemistries/ammoniated-soap.md", "removes", "[fingerprints]").set("chemistries/ammoniated-soap.md", "time", "")
	}
	a := conceded().steps("fingerprints", "{tank: wash-2, chemistry: ammoniated-soap, strength: 8 % v/v, temperature: 25 °C, frequency: 80 kHz}").
		shopFile("chemistry: neutral-detergent\n    strength: 2 % v/v\n    temperature: 48 °C", "chemistry: ammoniated-soap\n    strength: 8 % v/v\n    temperature: 25 °C").part("gland-nut-brass")
	want(t, a.Verdict != admit.Yes && (a.Verdict == admit.No || says(a, "how long")), a, "with sound, nobody says how long")
	a = conceded().vessel(append(slices.Clone(jar), "chemistry: ammoniated-soap", "temperature: 25 °C", "strength: 8 % v/v")...).steps("fingerprints", "{tank: jar-1, chemistry: ammoniated-soap}").part("gland-nut-brass")
	want(t, a.Verdict == admit.No || says(a, "how long"), a, "in a jar, nobody says how long")
}

// What a wash is set to counts for where its sound takes it, not what the tank is set to for others.
func TestOfficerDriftOfASheet(t *testing.T) {
	a := edit(t).shopFile("temperature: 48 °C\n    duty: 40 %\n", "temperature: 55 °C\n").shopFile("insulation: none\n    chemistry: neutral", "insulation: 25 mm\n    chemistry: neutral").
		set("materials/brass.md", "temperature", "≤ 45 °C").set(nut, "temperature", "40 °C").part("gland-nut-brass")
	want(t, a.Verdict == admit.No || says(a, "sound alone"), a, "from 40 °C the sound takes it past 45 °C, though the tank is set to 55 °C")
	a = edit(t).shopFile("    ultrasonic-power: 500 W\n", "").shopFile("temperature: 48 °C", "temperature: 30 °C").set(nut, "temperature", "48 °C").part("gland-nut-brass")
	want(t, a.Verdict != admit.Yes && says(a, "its own sound"), a, "a wash at 48 °C, brass at 50 °C, and nobody knows how far the sound goes")
}

// A rinse that a hot one runs into is as warm as that makes it.
func TestOfficerWarmCascade(t *testing.T) {
	a := edit(t).shopFile("  - id: rinse-1\n    name: Rinse\n    volume: 90 L\n    water: mains\n", "  - id: rinse-0\n    name: Hot rinse\n    volume: 90 L\n    water: mains\n    flow: 20 L/min\n    temperature: 70 °C\n  - id: rinse-1\n    name: Rinse\n    volume: 90 L\n    water: mains\n    fed-by: rinse-0\n").
		shopFile("    temperature: 40 °C\n", "").ask("acrylic", "", "wash-2")
	want(t, says(a, "in rinse it meets"), a, "a rinse fed from 70 °C, acrylic at 45 °C")
}

// An own word that counts as an amine is no carbonate.
func TestOfficerOwnWordInTheBath(t *testing.T) {
	plain := edit(t).set("chemistries/mild-alkaline.md", "contains", "[carbonate]").read()
	own := edit(t).file("vocabulary.yaml", "constituents:\n  - {word: ethanolamine, as: amine, means: x}\n").set("chemistries/mild-alkaline.md", "contains", "[carbonate, ethanolamine]").read()
	known := edit(t).set("chemistries/mild-alkaline.md", "contains", "[carbonate, amine]").read()
	one, two, three := LineOf(plain).Print(), LineOf(own).Print(), LineOf(known).Print()
	if one == three || two != three {
		t.Errorf("the rinses with an own word for an amine are those of the amine: %t; not those of carbonate alone: %t", two == three, one != three)
	}
}
