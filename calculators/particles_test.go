package calculators

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"tankside/builder/quantity"
	"tankside/calculators/clean"
)

// TestClassesAreThose of package clean: each label has its letter and its two ends.
func TestClassesAreThose(t *testing.T) {
	for i, label := range classLabels {
		from := strconv.FormatFloat(clean.Sizes[i], 'f', -1, 64)
		want := clean.Classes[i:i+1] + ", over " + from + " µm"
		if i < len(classLabels)-1 {
			want = clean.Classes[i:i+1] + ", " + from + "–" + strconv.FormatFloat(clean.Sizes[i+1], 'f', -1, 64) + " µm"
		}
		if label != want || blankLabels[i] != "Blank, "+clean.Classes[i:i+1] {
			t.Errorf("%q and %q, want %q", label, blankLabels[i], want)
		}
	}
}

func wordsOf(t *testing.T, a Answer, name string) string {
	t.Helper()
	r, ok := a.Reading(name)
	if !ok {
		t.Fatalf("no %s", name)
	}
	return r.Text
}

// TestCodeOfAPart: the published example A(B-E17/F-G14) allows up to 130 000 particles of 5–100 µm and 16 000 of 100–200 µm on 1000 cm² (published
// explanations of ISO 16232 and VDA 19.1): just so many in a class are levels 17 and 14, one more 18 and 15. The same counts in 100 cm³ have the same levels, and
// of a part the numbers themselves stand in the code.
func TestCodeOfAPart(t *testing.T) {
	in := map[string]string{"area": "1000 cm²", "part-volume": "100 mL", "b": "130000", "f": "16000", "k": "0"}
	for basis, want := range map[string]string{"area": "A(B17/F14/K00)", "volume": "V(B17/F14/K00)", "part": "N(B130000/F16000/K0)"} {
		if got := wordsOf(t, mustRun(t, "particles", with(in, "basis", basis)), "code"); got != want {
			t.Errorf("%s: %s, want %s", basis, got, want)
		}
	}
	if got := wordsOf(t, mustRun(t, "particles", with(with(in, "b", "130001"), "f", "16001")), "code"); got != "A(B18/F15/K00)" {
		t.Errorf("one more: %s", got)
	}
	// The demo's spool: 35 a part of 140 cm² are 250 on 1000 cm², level 8; ten together 350. Half of the code follows from twice the parts.
	ten := map[string]string{"area": "140 cm²", "parts": "10", "g": "350", "k": "0"}
	if got := wordsOf(t, mustRun(t, "particles", ten), "code"); got != "A(G8/K00)" {
		t.Errorf("ten spools with 350: %s", got)
	}
	if got := wordsOf(t, mustRun(t, "particles", with(with(ten, "blank-g", "35"), "g", "385")), "code"); got != "A(G8/K00)" {
		t.Errorf("the blank is not taken off: %s", got)
	}
}

// TestLevelOfTheLine: level 100 has 1785 of 5 µm and more, 265, 78, 11 and 1 of 15, 25, 50 and 100 on 0.1 m² (published line): classes that add up
// to these are level 100, and a single one of 200 µm in them is level 200.
func TestLevelOfTheLine(t *testing.T) {
	in := map[string]string{"area": "1000 cm²", "b": "1520", "c": "187", "d": "67", "e": "10", "f": "1", "g": "0", "h": "0", "i": "0", "j": "0", "k": "0"}
	a := mustRun(t, "particles", in)
	if got := siOf(t, a, "level"); math.Abs(got-100) > 1 { // the counts are rounded
		t.Errorf("level %g, want 100", got)
	}
	if got := siOf(t, mustRun(t, "particles", with(in, "h", "1")), "level"); math.Abs(got-200) > 0.5 {
		t.Errorf("with one of 200 µm level %g", got)
	}
	if r, _ := a.Reading("level"); !(r.Low < r.SI && r.SI < r.High) || !strings.Contains(r.Note, "5\u00a0µm") {
		t.Errorf("%+v", r)
	}
	for _, c := range []struct {
		inputs map[string]string
		says   string
	}{
		{with(in, "k", ""), "class K was not counted"}, {with(with(in, "area", ""), "basis", "part"), "the area of a part is missing"},
		{map[string]string{"area": "1000 cm²", "j": "0", "k": "0"}, "none seen"},
	} {
		if got := wordsOf(t, mustRun(t, "particles", c.inputs), "level"); !strings.Contains(got, c.says) {
			t.Errorf("%v: %q, want %q", c.inputs, got, c.says)
		}
	}
	// Below a class that was not counted the sum of the larger ones is not known.
	gap := mustRun(t, "particles", with(in, "e", ""))
	if r, _ := gap.Reading("level"); !strings.Contains(r.Note, "100\u00a0µm") {
		t.Errorf("a gap at E: %q", r.Note)
	}
}

// TestFewCountsAreToldAsFew: none seen is at most 3.689 of chance (NIST/SEMATECH e-Handbook 1.3.6.7.4, chi-square 7.378 ÷ 2), one lies between 0.0253 and
// 5.572, and of ten parts of 100 cm² that is the number on 1000 cm².
func TestFewCountsAreToldAsFew(t *testing.T) {
	in := map[string]string{"area": "100 cm²", "parts": "10", "i": "1", "j": "0", "blank-i": "0", "blank-j": "0"}
	a := mustRun(t, "particles", in)
	one, _ := a.Reading("class-i")
	if math.Abs(one.SI-1) > 1e-9 || math.Abs(one.Low-0.0253) > 1e-4 || math.Abs(one.High-5.572) > 1e-3 {
		t.Errorf("%+v", one)
	}
	if got := wordsOf(t, a, "class-j"); got != "none seen: at most 3.69" {
		t.Errorf("%q", got)
	}
	if got := wordsOf(t, a, "class-b"); got != "not counted" {
		t.Errorf("%q", got)
	}
	if code, most := wordsOf(t, a, "code"), wordsOf(t, a, "certain-code"); code != "A(I0/J00)" || most != "A(I3/J2)" || !strings.Contains(a.Verdict, most) {
		t.Errorf("%s, %s, %q", code, most, a.Verdict)
	}
	if r, _ := a.Reading("code"); !strings.Contains(r.Note, "B, C, D, E, F, G, H, K") {
		t.Errorf("%q", r.Note)
	}
	if got := wordsOf(t, mustRun(t, "particles", with(with(in, "blank-i", "2"), "i", "2")), "class-i"); !strings.HasPrefix(got, "no more than the blank: at most 6.98") { // 7.225 − 0.2422
		t.Errorf("%q", got)
	}
}

// TestBlankOfCounts: over a tenth of the count it is a caution that names the class, and at a tenth none; what chance does not explain is refused.
func TestBlankOfCounts(t *testing.T) {
	in := map[string]string{"area": "100 cm²", "g": "100", "h": "100", "blank-g": "10", "blank-h": "11", "k": "0"}
	text := ""
	for _, c := range mustRun(t, "particles", in).Cautions {
		text += c.Text + "\n"
	}
	if !strings.Contains(text, "tenth of the count in H, 200–400 µm:") || !strings.Contains(text, "No blank was counted in K, over 1000 µm:") {
		t.Errorf("%s", text)
	}
	for _, c := range []struct{ name, text, input, says string }{
		{"blank-g", "300", "blank-g", "chance does not explain"}, {"blank-b", "3", "b", "the parts were not"}, {"g", "1.5", "g", "whole numbers"},
		{"area", "", "area", "needs the area"}, {"basis", "volume", "part-volume", "needs the wetted volume"}, {"parts", "2.5", "parts", "whole numbers"},
	} {
		_, err := Run("particles", with(in, c.name, c.text), quantity.SI)
		if wrong, _ := err.(Errors); len(wrong) != 1 || wrong[0].Input != c.input || !strings.Contains(wrong[0].Problem, c.says) {
			t.Errorf("%s %q: %v", c.name, c.text, err)
		}
	}
	if _, err := Run("particles", map[string]string{"area": "1 m²"}, quantity.SI); err == nil || !err.(Errors).OnlyMissing() || !strings.Contains(err.Error(), "no class was counted") {
		t.Errorf("nothing counted: %v", err)
	}
}
