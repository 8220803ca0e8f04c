package calculators

import (
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"tankside/builder/quantity"
)

// TestFreeAndTotalAcid: the exercise on double titration of textbooks of analytical chemistry: hydrochloric with phosphoric acid takes 35.0 mL of
// 1.0 mol/L sodium hydroxide to the first end point and 50.0 mL to the second, so that it holds 15 mmol of phosphoric acid, each with one
// equivalent more to the second, and 35 − 15 = 20 mmol of hydrochloric acid. On a sample of 100 mL.
func TestFreeAndTotalAcid(t *testing.T) {
	a := mustRun(t, "titration", map[string]string{"sample": "100 mL", "titrant": "sodium-hydroxide", "titrant-normality": "1 mol/L", "titrant-used": "35.0 mL", "total-used": "50.0 mL"})
	for name, want := range map[string]float64{"free-acid": 20 + 15, "total-acid": 20 + 2*15, "bound-acid": 15} {
		if got := meq(t, a, name); math.Abs(got-10*want) > 1e-9 {
			t.Errorf("%s is %g meq/L, want %g", name, got, 10*want)
		}
	}
	if ratio := siOf(t, a, "acid-ratio"); math.Abs(ratio-50./35) > 1e-9 {
		t.Errorf("ratio %g", ratio)
	}
	// A point is 1 mL of 0.1 N on 10 mL, as phosphating shops count: 350 meq/L are 35 points.
	if text := strings.Join(a.Working, "\n"); !strings.Contains(text, "35 of free acid, 50 of total acid") && !strings.Contains(text, "35.0 of free acid, 50.0 of total acid") {
		t.Errorf("no points:\n%s", text)
	}
	for _, name := range []string{"acidity", "alkalinity", "free-alkalinity", "spent", "acid-spent"} {
		if _, given := a.Reading(name); given {
			t.Errorf("%s of an acid bath of unknown freshness", name)
		}
	}
}

// phosphoric is what a mole of phosphoric acid has given off at a pH, in equivalents: constants of dissociation 2.148, 7.198 and 12.35 at 25 °C
// (CRC Handbook of Chemistry and Physics).
func phosphoric(ph float64) float64 {
	h := math.Pow(10, -ph)
	a1 := math.Pow(10, -2.148) / h
	a2 := a1 * math.Pow(10, -7.198) / h
	a3 := a2 * math.Pow(10, -12.35) / h
	return (a1 + 2*a2 + 3*a3) / (1 + a1 + a2 + a3)
}

// TestPhosphoricAcidByItsConstants: 0.1 mol/L of phosphoric acid, titrated by the balance of charges to pH 3.7 and 8.3, has within 8 % one equivalent
// to the first end point, for a little is left free there, and two to the second.
func TestPhosphoricAcidByItsConstants(t *testing.T) {
	ml := func(ph float64) float64 { return phosphoric(ph) - math.Pow(10, 3-ph)/100 } // mL of 1 N on 10 mL of 0.1 mol/L, less the acid that stays
	a := mustRun(t, "titration", map[string]string{"sample": "10 mL", "titrant": "potassium-hydroxide", "titrant-normality": "1 N",
		"titrant-used": number(ml(3.7), "mL"), "total-used": number(ml(8.3), "mL")})
	for name, want := range map[string]float64{"free-acid": 100, "total-acid": 200} {
		if got := meq(t, a, name); math.Abs(got-want) > 0.08*want {
			t.Errorf("%s is %g meq/L, want about %g", name, got, want)
		}
	}
}

// TestMetalInAcid: a bath of 200 meq/L of free and 300 of total acid that dissolves iron, by the two equations of the declaration: what the metal
// takes of the free acid its hydroxide gives back to the total. Thinned by water or not, the calculator finds it; lime takes both alike, and the
// calculator then tells less than is spent, never more.
func TestMetalInAcid(t *testing.T) {
	base := map[string]string{"sample": "10 mL", "titrant": "sodium-hydroxide", "titrant-normality": "1 N", "fresh-ratio": "1.5"}
	for _, taken := range []float64{0, 20, 99, 101, 150, 200} {
		for _, thinned := range []float64{1, 0.5} {
			a := mustRun(t, "titration", with(with(base, "titrant-used", number((200-taken)*thinned/100, "mL")), "total-used", number(300*thinned/100, "mL")))
			if got := siOf(t, a, "acid-spent"); math.Abs(got-taken/200) > 1e-9 {
				t.Errorf("%g meq/L taken, thinned to %g: %g spent", taken, thinned, got)
			}
			if got := siOf(t, a, "iron-taken"); math.Abs(got-taken*thinned*0.055845/2) > 1e-9 {
				t.Errorf("%g meq/L taken, thinned to %g: %g g/L of iron", taken, thinned, got)
			}
			if worn := strings.Contains(a.Verdict, "Worn out"); worn != (taken >= 100) {
				t.Errorf("%g meq/L taken: %q", taken, a.Verdict)
			}
		}
		lime := mustRun(t, "titration", with(with(base, "titrant-used", number((200-taken)/100, "mL")), "total-used", number((300-taken)/100, "mL")))
		if got := siOf(t, lime, "acid-spent"); got > taken/200+1e-9 {
			t.Errorf("%g meq/L taken by lime: %g spent", taken, got)
		}
	}
	for used, says := range map[string]string{"0 mL": "took no alkali", "2 mL": "no free acid is left"} {
		if a := mustRun(t, "titration", with(with(base, "titrant-used", "0 mL"), "total-used", used)); !strings.Contains(a.Verdict, says) {
			t.Errorf("T %s: %q", used, a.Verdict)
		}
	}
}

// TestDibasicTitrant: sodium and potassium hydroxide give one equivalent a mole, sodium carbonate two, of free acid alone; a strength in N is the
// same for each.
func TestDibasicTitrant(t *testing.T) {
	base := map[string]string{"sample": "10 mL", "titrant-used": "5 mL", "factor": "0.4"}
	for _, c := range []struct {
		titrant, strength, reading string
		want                       float64
	}{
		{"sodium-hydroxide", "0.05 mol/L", "acidity", 25}, {"potassium-hydroxide", "0.05 mol/L", "acidity", 25}, {"sodium-carbonate", "0.05 mol/L", "free-acid", 50},
		{"sodium-hydroxide", "0.05 N", "acidity", 25}, {"sodium-carbonate", "0.05 N", "free-acid", 25},
	} {
		a := mustRun(t, "titration", with(with(base, "titrant", c.titrant), "titrant-normality", c.strength))
		if got := meq(t, a, c.reading); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%s of %s: %g meq/L, want %g", c.strength, c.titrant, got, c.want)
		}
	}
}

// TestMoreTitrantIsNeverLessAcid for any acid bath; nor does it matter in which units the same titration is written, and more free acid at the same
// total is never more spent.
func TestMoreTitrantIsNeverLessAcid(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 22))
	for range 300 {
		sample, n, total := between(r, 1, 100), between(r, 0.02, 2), between(r, 0.5, 40)
		free := total * r.Float64()
		in := map[string]string{"sample": number(sample, "mL"), "titrant": "sodium-hydroxide", "titrant-normality": number(n, "N"),
			"titrant-used": number(free, "mL"), "total-used": number(total, "mL"), "fresh-ratio": strconv.FormatFloat(between(r, 1, 3), 'f', -1, 64)}
		a := mustRun(t, "titration", in)
		more := mustRun(t, "titration", with(in, "titrant-used", number(between(r, free, total), "mL")))
		most := mustRun(t, "titration", with(in, "total-used", number(total*1.1, "mL")))
		if siOf(t, more, "free-acid") < siOf(t, a, "free-acid") || siOf(t, more, "acid-spent") > siOf(t, a, "acid-spent") || siOf(t, most, "total-acid") < siOf(t, a, "total-acid") {
			t.Fatalf("%v: more titrant, less acid", in)
		}
		for _, name := range []string{"free-acid", "total-acid", "bound-acid", "acid-spent", "iron-taken"} {
			if siOf(t, a, name) < 0 {
				t.Fatalf("%v: %s is below nought", in, name)
			}
		}
		same, err := Run("titration", with(with(with(in, "sample", number(sample/1000, "L")), "titrant-normality", number(n*1000, "mmol/L")), "total-used", number(total/1e3, "L")), quantity.US)
		if err != nil {
			t.Fatal(err)
		}
		for i, reading := range a.Readings {
			if other := same.Readings[i]; math.Abs(other.SI-reading.SI) > 1e-9*math.Abs(reading.SI)+1e-12 {
				t.Fatalf("%v: %s is %g and %g", in, reading.Name, reading.SI, other.SI)
			}
		}
	}
}
