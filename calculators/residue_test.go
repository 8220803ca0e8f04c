package calculators

import (
	"math"
	"strings"
	"testing"

	"tankside/builder/quantity"
	"tankside/calculators/clean"
)

// TestResidueLevelsAreThose of package clean: the choices have just its letters.
func TestResidueLevelsAreThose(t *testing.T) {
	if len(residueLevels) != len(clean.ResidueLevels) {
		t.Fatal(len(residueLevels), len(clean.ResidueLevels))
	}
	for i, l := range clean.ResidueLevels {
		if residueLevels[i].Value != l.Name || residueLevels[i].Label != l.Name {
			t.Errorf("%v stands where %s is meant", residueLevels[i], l.Name)
		}
	}
}

// TestResidueSays: by hand. 8.2 mg less 0.8 mg from ten parts are 0.74 mg a part, 52.9 mg/m² on 140 cm², 5.29 mg on 0.1 m²: F (up to 7), and with
// the band of four weighings, 2·√(4·(0.1² + 0.1²/12)) = 0.4163 mg, 50 to 56 mg/m². A letter is told as certain only where the whole band is in it, and
// the limit as kept only where the whole band is under it (letters from memory).
func TestResidueSays(t *testing.T) {
	ten := map[string]string{"gained": "8.2 mg", "blank": "0.8 mg", "parts": "10", "area": "140 cm²"}
	a := mustRun(t, "residue", ten)
	r, _ := a.Reading("residue")
	if math.Abs(r.SI-0.74e-6) > 1e-12 || math.Abs(r.High-r.SI-0.041633e-6) > 1e-11 || math.Abs(siOf(t, a, "areal-residue")-0.74/0.014*1e-6) > 1e-12 {
		t.Errorf("%+v, %g kg/m²", r, siOf(t, a, "areal-residue"))
	}
	for _, c := range []struct {
		name          string
		inputs        map[string]string
		level, says   string
		caution, none string
	}{
		{"certain", ten, "F, and so is the whole band", "Not compared", "", ""},
		{"near an end", with(ten, "gained", "7.7 mg"), "E, not certain: the band reaches into F", "Not compared", "", ""},
		{"no area", with(ten, "area", ""), "not checked: the area", "Not compared", "", "areal-residue"},
		{"a mass kept", with(ten, "limit", "0.8 mg"), "F", "Within what is allowed, 0.8\u00a0mg a part", "", ""},
		{"a mass not kept", with(ten, "limit", "0.6 mg"), "F", "More than is allowed", "", ""},
		{"a limit in the band", with(ten, "limit", "0.75 mg"), "F", "Not decided", "", ""},
		{"the stricter of two", with(with(ten, "limit", "2 mg"), "level-allowed", "A"), "F", "More than is allowed, 0.14\u00a0mg a part", "", ""},
		{"beyond the last", with(ten, "gained", "60 mg"), "beyond J", "Not compared", "", ""},
		{"just in the last", with(ten, "gained", "35.7 mg"), "J, not certain: the band reaches beyond J", "", "", ""},
		{"nothing", with(ten, "gained", "0.8 mg"), "not detected: A/2 or cleaner", "", "more than a tenth", ""},
		{"nothing on a small face", with(with(ten, "gained", "0.8 mg"), "area", "1 cm²"), "not detected, and not certain", "", "", ""},
		{"below the band, limit above", with(with(ten, "gained", "1 mg"), "limit", "1 mg"), "not detected", "Within", "", ""},
		{"below the band, limit below", with(with(ten, "gained", "1 mg"), "limit", "0.01 mg"), "not detected", "Not decided", "", ""},
		{"few divisions", with(with(ten, "gained", "1.4 mg"), "blank", "0 mg"), "", "", "", ""},
		{"under ten divisions", with(with(ten, "gained", "0.9 mg"), "blank", "0 mg"), "", "", "less than ten divisions", ""},
		{"a balance that wanders", with(ten, "repeatability", "3 mg"), "not detected", "", "", ""},
		{"no blank", with(ten, "blank", ""), "", "", "No blank was weighed", ""},
	} {
		a := mustRun(t, "residue", c.inputs)
		level, _ := a.Reading("level")
		if !strings.Contains(level.Text, c.level) || !strings.Contains(a.Verdict, c.says) {
			t.Errorf("%s: level %q, verdict %q; want %q, %q", c.name, level.Text, a.Verdict, c.level, c.says)
		}
		told := false
		for _, caution := range a.Cautions {
			told = told || strings.Contains(caution.Text, c.caution)
		}
		if !told {
			t.Errorf("%s: no caution says %q: %v", c.name, c.caution, a.Cautions)
		}
		if _, given := a.Reading(c.none); given {
			t.Errorf("%s: %s is given", c.name, c.none)
		}
	}
}

// TestNotDetectedIsNoNought: whatever lies within the band of weighing has no number, and what is told instead is above nought.
func TestNotDetectedIsNoNought(t *testing.T) {
	for _, gained := range []string{"-0.3 mg", "0 mg", "0.3 mg", "0.4 mg", "0.42 mg", "1 mg"} {
		a := mustRun(t, "residue", map[string]string{"gained": gained, "blank": "0 mg", "area": "1 m²"})
		r, _ := a.Reading("residue")
		over := gained == "0.42 mg" || gained == "1 mg" // 0.4163 mg
		if r.InWords() == over || !over && (!strings.Contains(r.Text, "not detected: at most 0.") || strings.Contains(r.Text, "at most 0\u00a0")) {
			t.Errorf("%s: %v", gained, r)
		}
		if over && !(r.Low > 0 && r.Low < r.SI) {
			t.Errorf("%s: %+v", gained, r)
		}
	}
	for _, c := range []struct{ gained, blank, input, says string }{
		{"-2 mg", "", "gained", "lighter than before"}, {"1 mg", "3 mg", "blank", "blank is more than"}, {"1 mg", "", "parts", "whole numbers"},
	} {
		in := map[string]string{"gained": c.gained, "blank": c.blank}
		if c.input == "parts" {
			in["parts"] = "1.5"
		}
		_, err := Run("residue", in, quantity.SI)
		if wrong, _ := err.(Errors); len(wrong) != 1 || wrong[0].Input != c.input || !strings.Contains(wrong[0].Problem, c.says) {
			t.Errorf("%v: %v", in, err)
		}
	}
	for _, name := range []string{"limit", "level-allowed"} {
		in := map[string]string{"gained": "5 mg", name: map[string]string{"limit": "5 mg/m²", "level-allowed": "A"}[name]}
		if _, err := Run("residue", in, quantity.SI); err == nil || !strings.HasPrefix(err.Error(), "area: a l") {
			t.Errorf("%s without an area: %v", name, err)
		}
	}
}
