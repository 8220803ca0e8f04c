package calculators

import (
	"math"
	"strings"
	"testing"

	"tankside/builder/quantity"
)

// TestTwoEndPoints: the example of Standard Methods 2320 B's table, P 50 and T 80 mg/L: hydroxide 20 and carbonate 60, here as 5.0 and 8.0 mL; and
// an impossible reading of a bath that claims pH 11: F 10.0 and T 14.0 mL of 0.1 N on 10 mL are 60 meq/L of hydroxide, pH 14 + log 0.06 = 12.8.
func TestTwoEndPoints(t *testing.T) {
	base := map[string]string{"sample": "10 mL", "titrant-normality": "0.1 N", "factor": "0.4", "fresh-ratio": "1.4"}
	a := mustRun(t, "titration", with(with(base, "titrant-used", "5 mL"), "total-used", "8 mL"))
	for name, want := range map[string]float64{"free-alkalinity": 50, "total-alkalinity": 80, "hydroxide": 20, "carbonate": 60, "bicarbonate": 0, "ratio": 1.6} {
		got := siOf(t, a, name)
		if name != "ratio" {
			got /= 0.1000869 / 2 // meq/L
		}
		if math.Abs(got-want) > 1e-9 {
			t.Errorf("%s is %g, want %g", name, got, want)
		}
	}
	// Fresh the free alkalinity would be 80/1.4 = 57.14: 7.14 mmol/L of carbon dioxide at 44.01 g/mol.
	if got := siOf(t, a, "carbon-dioxide"); math.Abs(got-(80/1.4-50)*0.0440095) > 1e-9 {
		t.Errorf("%g kg/m³ of carbon dioxide", got)
	}
	a = mustRun(t, "titration", with(with(base, "titrant-used", "10 mL"), "total-used", "14 mL"))
	if text := strings.Join(a.Working, "\n"); !strings.Contains(text, "pH 12.78 or more") && !strings.Contains(text, "pH 12.8 or more") {
		t.Errorf("the hydroxide is not held against the pH:\n%s", text)
	}
	for used, says := range map[string]string{"10 mL": "", "21 mL": "Plan a change", "28 mL": "Worn out"} {
		a := mustRun(t, "titration", with(with(base, "titrant-used", "10 mL"), "total-used", used))
		if says == "" && a.Verdict != "" || !strings.Contains(a.Verdict, says) {
			t.Errorf("F 10, T %s: %q, want %q", used, a.Verdict, says)
		}
	}
	if _, err := Run("titration", with(with(base, "titrant-used", "10 mL"), "total-used", "9 mL"), quantity.SI); err == nil || !strings.Contains(err.Error(), "cannot lie before") {
		t.Error(err)
	}
}

// TestTitrants: an acid bath with a base, by the article's sum: 5 % w/v citric acid, 192.1 g/mol with three groups, takes 15.6 mL of 0.5 mol/L on
// 10 mL; sulfuric acid gives two equivalents; mol/L of nobody knows what is refused.
func TestTitrants(t *testing.T) {
	citric := map[string]string{"sample": "10 mL", "titrant-used": "15.6 mL", "titrant-normality": "0.5 mol/L", "titrant": "sodium-hydroxide", "factor": "0.32"}
	a := mustRun(t, "titration", citric)
	if got := siOf(t, a, "acidity") / (0.1000869 / 2); math.Abs(got-50*3/0.1921) > 2 {
		t.Errorf("%g meq/L of acid, want %g", got, 50*3/0.1921)
	}
	if _, given := a.Reading("alkalinity"); given {
		t.Error("an acid bath has an alkalinity")
	}
	acid := map[string]string{"sample": "10 mL", "titrant-used": "5 mL", "factor": "0.4", "titrant-normality": "0.05 mol/L"}
	for titrant, want := range map[string]float64{"hydrochloric-acid": 25, "sulfuric-acid": 50} {
		a := mustRun(t, "titration", with(acid, "titrant", titrant))
		if got := siOf(t, a, "alkalinity") / (0.1000869 / 2); math.Abs(got-want) > 1e-9 {
			t.Errorf("%s: %g meq/L, want %g", titrant, got, want)
		}
	}
	for _, text := range []string{"0.05 mol/L", "0.05 M", "50 mmol/L"} {
		if _, err := Run("titration", with(acid, "titrant-normality", text), quantity.SI); err == nil || !strings.Contains(err.Error(), "say which titrant") {
			t.Errorf("%s of nobody knows what: %v", text, err)
		}
	}
	if _, err := Run("titration", with(citric, "total-used", "20 mL"), quantity.SI); err == nil || !strings.Contains(err.Error(), "alkaline bath") {
		t.Error(err)
	}
}
