package calculators

import (
	"math"
	"slices"
	"strings"
	"testing"

	"tankside/builder/quantity"
)

// coldWater is the worked example of P. R. Roberge, Corrosion Engineering: Principles and Practice (2008), section 8.7, page 316: pH 7.5,
// calcium 150, alkalinity 34 and dissolved solids 320 mg/L.
var coldWater = map[string]string{"temperature": "25 °C", "ph": "7.5", "calcium": "150 mg/L", "alkalinity": "34 mg/L", "dissolved-solids": "320 mg/L"}

// TestRyznarBesideLangelier: the example's pHs are 8.2 at 25 °C and 7.2 at 82 °C and its Langelier index −0.7 and +0.3, rounded to a tenth there;
// 2·pHs − pH are 8.9 and 6.9. By the book's summary the cold water attacks mild steel.
func TestRyznarBesideLangelier(t *testing.T) {
	for _, c := range []struct {
		temperature     string
		balance, index  float64
		ryznar          float64
		langelier, says string
	}{
		{"25 °C", 8.2, -0.7, 8.9, "dissolves scale", "attacks mild steel"},
		{"82 °C", 7.2, 0.3, 6.9, "about in balance", "about in balance"},
	} {
		a := mustRun(t, "scale", with(coldWater, "temperature", c.temperature))
		for name, want := range map[string]float64{"saturation-ph": c.balance, "saturation-index": c.index, "stability-index": c.ryznar} {
			if got := siOf(t, a, name); math.Abs(got-want) > 0.1 {
				t.Errorf("%s: %s is %.3f, the book has %g", c.temperature, name, got, want)
			}
		}
		verdict, _ := a.Reading("verdict")
		stability, _ := a.Reading("stability")
		if !strings.Contains(verdict.Text, c.langelier) || !strings.Contains(stability.Text, c.says) {
			t.Errorf("%s: %q and %q", c.temperature, verdict.Text, stability.Text)
		}
	}
}

// TestStabilityInWords: the limits 6, 7 and 8 of the same summary.
func TestStabilityInWords(t *testing.T) {
	for index, says := range map[float64]string{4: "scale", 5.99: "scale", 6: "balance", 7: "balance", 7.01: "no film", 8: "no film", 8.01: "attacks", 11: "attacks"} {
		s := sum{calculator: &scale}
		s.stability(index)
		if got := s.answer.Readings[0].Text; !strings.Contains(got, says) {
			t.Errorf("%g: %q, want %q", index, got, says)
		}
	}
}

// TestHardnessIsNotCalcium: the total hardness counts as calcium only where it is said, and never without a caution; a measured calcium needs none.
func TestHardnessIsNotCalcium(t *testing.T) {
	warns := func(a Answer, says string) bool {
		return slices.ContainsFunc(a.Cautions, func(c Caution) bool { return strings.Contains(c.Text, says) })
	}
	hard := with(with(coldWater, "calcium", ""), "hardness", "150 mg/L")
	guessed, told, measured := mustRun(t, "scale", hard), mustRun(t, "scale", with(hard, "hardness-as-calcium", "yes")), mustRun(t, "scale", coldWater)
	if !warns(guessed, "not known") || !warns(told, "whole hardness counts as calcium") || warns(measured, "not known") || warns(measured, "counts as calcium") {
		t.Errorf("cautions: guessed %v, told %v, measured %v", guessed.Cautions, told.Cautions, measured.Cautions)
	}
	if siOf(t, told, "saturation-index") != siOf(t, measured, "saturation-index") {
		t.Error("hardness that is all calcium is not taken as calcium")
	}
	if got, want := siOf(t, guessed, "saturation-index"), siOf(t, measured, "saturation-index")+math.Log10(0.75); math.Abs(got-want) > 1e-9 {
		t.Errorf("three quarters of the hardness: %g, want %g", got, want)
	}
	if _, err := Run("scale", with(coldWater, "hardness", "100 mg/L"), quantity.SI); err == nil || !strings.Contains(err.Error(), "cannot be more") {
		t.Errorf("more calcium than hardness: %v", err)
	}
}

// TestIndicesThatDiffer: at 60 °C, pH 9, calcium and alkalinity of 30 mg/L, by hand pHs = 9.3 + 0.1 + 1.456 − 1.077 − 1.477 = 8.30: +0.70, and
// by Ryznar 7.6.
func TestIndicesThatDiffer(t *testing.T) {
	a := mustRun(t, "scale", map[string]string{"temperature": "60 °C", "ph": "9", "calcium": "30 mg/L", "alkalinity": "30 mg/L", "dissolved-solids": "100 mg/L"})
	if index, ryznar := siOf(t, a, "saturation-index"), siOf(t, a, "stability-index"); math.Abs(index-0.70) > 0.01 || math.Abs(ryznar-7.60) > 0.01 {
		t.Errorf("%g and %g", index, ryznar)
	}
	if !slices.ContainsFunc(a.Cautions, func(c Caution) bool { return strings.Contains(c.Text, "two indices differ") }) {
		t.Errorf("nothing is said of it: %v", a.Cautions)
	}
}
