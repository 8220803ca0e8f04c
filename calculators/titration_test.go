package calculators

import (
	"math"
	"slices"
	"strconv"
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
}

// meq is an alkalinity in meq/L, for a reading in kg/m³ as CaCO₃.
func meq(t *testing.T, a Answer, name string) float64 { return siOf(t, a, name) / (0.1000869 / 2) }

// TestAlkalinityRelationships: every row of the table of alkalinity relationships in Standard Methods for the Examination of Water and Wastewater,
// 2320 B. The first and the fourth are the worked examples P 0, T 80 and P 50, T 80 mg/L of lessons in water treatment. Here 0.1 N on 10 mL, so that
// a millilitre is 10 meq/L.
func TestAlkalinityRelationships(t *testing.T) {
	base := map[string]string{"sample": "10 mL", "titrant-normality": "0.1 N", "titrant": "hydrochloric-acid"}
	for _, row := range []struct {
		p, t                              string
		hydroxide, carbonate, bicarbonate float64
	}{
		{"0 mL", "8 mL", 0, 0, 80},  // P = 0: T is bicarbonate
		{"2 mL", "8 mL", 0, 40, 40}, // P < T/2: 2P and T − 2P
		{"4 mL", "8 mL", 0, 80, 0},  // P = T/2: 2P
		{"5 mL", "8 mL", 20, 60, 0}, // P > T/2: 2P − T and 2(T − P)
		{"8 mL", "8 mL", 80, 0, 0},  // P = T: T is hydroxide
	} {
		a := mustRun(t, "titration", with(with(base, "titrant-used", row.p), "total-used", row.t))
		for name, want := range map[string]float64{"hydroxide": row.hydroxide, "carbonate": row.carbonate, "bicarbonate": row.bicarbonate} {
			if got := meq(t, a, name); math.Abs(got-want) > 1e-9 {
				t.Errorf("P %s, T %s: %s is %g meq/L, want %g", row.p, row.t, name, got, want)
			}
		}
		if _, given := a.Reading("strength"); given {
			t.Error("a strength without a factor")
		}
	}
}

// TestCausticWithSoda: 0.05 mol/L of caustic soda with 0.02 mol/L of soda, titrated in PHREEQC (USGS, phreeqc.dat): 69.82 meq/L to pH 8.3 and
// 89.67 to pH 4.5. Within 1 % the table finds what went in.
func TestCausticWithSoda(t *testing.T) {
	a := mustRun(t, "titration", map[string]string{"sample": "10 mL", "titrant-normality": "0.05 mol/L", "titrant": "sulfuric-acid", "titrant-used": "6.982 mL", "total-used": "8.967 mL"})
	for name, want := range map[string]float64{"hydroxide": 50, "carbonate": 40} {
		if got := meq(t, a, name); math.Abs(got-want) > 0.01*want {
			t.Errorf("%s is %g meq/L, want %g", name, got, want)
		}
	}
}

// TestCarbonDioxideFromTheAir: a bath of 100 mmol/L of hydroxide and 20 of carbonate that takes up carbon dioxide, by the two equations of the
// declaration: first two hydroxide become one carbonate, then a carbonate two bicarbonate. The calculator finds what was taken up, thinned by
// water or not.
func TestCarbonDioxideFromTheAir(t *testing.T) {
	ends := func(taken, thinned float64) (p, total float64) {
		hydroxide, carbonate, bicarbonate := 100., 20., 0.
		first := math.Min(taken, hydroxide/2)
		hydroxide, carbonate = hydroxide-2*first, carbonate+first
		carbonate, bicarbonate = carbonate-(taken-first), bicarbonate+2*(taken-first)
		return (hydroxide + carbonate) * thinned, (hydroxide + 2*carbonate + bicarbonate) * thinned
	}
	freshP, freshT := ends(0, 1)
	fresh := strconv.FormatFloat(freshT/freshP, 'f', -1, 64)
	for _, taken := range []float64{0, 10, 30, 50, 80, 119, 120} {
		for _, thinned := range []float64{1, 0.5} {
			p, total := ends(taken, thinned)
			a := mustRun(t, "titration", map[string]string{"sample": "10 mL", "titrant-normality": "0.1 N", "fresh-ratio": fresh,
				"titrant-used": number(p/10, "mL"), "total-used": number(total/10, "mL")})
			for name, want := range map[string]float64{"carbon-dioxide": taken * thinned * 0.0440095, "carbonate-taken": taken * thinned * 0.0600089, "spent": taken / 120} {
				if got := siOf(t, a, name); math.Abs(got-want) > 1e-9 {
					t.Errorf("%g mmol/L taken, thinned to %g: %s is %g, want %g", taken, thinned, name, got, want)
				}
			}
			if worn := strings.Contains(a.Verdict, "Worn out"); worn != (taken >= 60) {
				t.Errorf("%g mmol/L taken: %q", taken, a.Verdict)
			}
		}
	}
}

// TestEndsThatDoNotFit: what is asked for or said where ends of a titration are missing, impossible or of another bath.
func TestEndsThatDoNotFit(t *testing.T) {
	base := map[string]string{"sample": "10 mL", "titrant-normality": "0.1 N", "titrant-used": "5 mL", "factor": "0.4"}
	for _, c := range []struct{ add, text, alsoAdd, also, input, says string }{
		{"fresh-ratio", "1.4", "", "", "fresh-ratio", "give total-used"},
		{"fresh-ratio", "1.4", "titrant", "sodium-hydroxide", "fresh-ratio", "give total-used"},
		{"total-used", "4 mL", "titrant", "potassium-hydroxide", "total-used", "cannot lie before"},
		{"total-used", "8 mL", "titrant", "sodium-carbonate", "total-used", "finds free acid alone"},
		{"total-used", "4 mL", "", "", "total-used", "cannot lie before"},
		{"titrant-normality", "0.05 mol/L", "", "", "titrant-normality", "say which titrant it is in titrant, or give the strength in N"},
		{"titrant-normality", "0.05 mol/L", "", "", "titrant-normality", "0.05\u00a0N of hydrochloric acid, nitric acid or a hydroxide, but 0.1\u00a0N of sulfuric acid or sodium carbonate"},
	} {
		in := with(base, c.add, c.text)
		if c.alsoAdd != "" {
			in = with(in, c.alsoAdd, c.also)
		}
		_, err := Run("titration", in, quantity.SI)
		wrong, _ := err.(Errors)
		if len(wrong) != 1 || wrong[0].Input != c.input || !strings.Contains(wrong[0].Problem, c.says) {
			t.Errorf("%v: %v, want %q", in, err, c.says)
		}
	}
	none := mustRun(t, "titration", with(with(base, "titrant-used", "0 mL"), "total-used", "0 mL"))
	if !strings.Contains(none.Verdict, "took no acid") {
		t.Errorf("no acid taken: %q", none.Verdict)
	}
	gone := with(with(with(base, "titrant-used", "0 mL"), "total-used", "8 mL"), "fresh-ratio", "1.4")
	gone = with(with(with(gone, "factor", "0.4"), "volume", "100 L"), "strength", "4 % v/v")
	if a := mustRun(t, "titration", gone); !strings.Contains(a.Verdict, "no free alkalinity is left") {
		t.Errorf("no free alkalinity: %q", a.Verdict)
	}
	for total, warned := range map[string]bool{"6.2 mL": true, "6.4 mL": false, "7 mL": false} { // 1.4 × 0.9 × 5 mL = 6.3 mL
		a := mustRun(t, "titration", with(with(base, "fresh-ratio", "1.4"), "total-used", total))
		if found := slices.ContainsFunc(a.Cautions, func(c Caution) bool { return strings.Contains(c.Text, "wear does not bring about") }); found != warned {
			t.Errorf("T %s: warned %v", total, found)
		}
	}
	if text := strings.Join(mustRun(t, "titration", base).Working, "\n"); !strings.Contains(text, "taken for an acid") {
		t.Errorf("what is taken is not said: %s", text)
	}
	bare := with(with(base, "factor", ""), "total-used", "8 mL")
	if text := strings.Join(mustRun(t, "titration", bare).Working, "\n"); !strings.Contains(text, "strength is not worked out") {
		t.Errorf("without a factor: %s", text)
	}
	if _, err := Run("titration", with(base, "factor", ""), quantity.SI); err == nil || !strings.Contains(err.Error(), "or total-used instead") {
		t.Errorf("one end point and no factor: %v", err)
	}
}
