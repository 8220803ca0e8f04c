package builder

import (
	"fmt"
	"math"
	"os"
	"regexp"
	"strconv"
	"testing"

	"tankside/builder/ledger"
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/calculators"
)

// The demo manual is complete: so many articles of each kind, each with a caution, a drawing of its own for every symptom, and a glossary.
func TestDemoManualIsComplete(t *testing.T) {
	t.Parallel()
	m, findings, err := Read(t.Context(), "../content", day)
	if err != nil || len(findings) > 0 {
		t.Fatal(err, findings)
	}
	counts, swatches := map[manual.Kind]int{}, map[string]string{}
	for _, a := range m.Articles {
		counts[a.Kind]++
		if len(a.Signals) == 0 {
			t.Errorf("%s has no safety message", a.Path)
		}
		if a.Symptom != nil {
			if other := swatches[a.Symptom.Swatch]; other != "" {
				t.Errorf("%s and %s have the same swatch", a.Path, other)
			}
			swatches[a.Symptom.Swatch] = a.Path
		}
	}
	for kind, least := range map[manual.Kind]int{
		manual.Soil: 22, manual.Chemistry: 12, manual.Material: 24, manual.Symptom: 20, manual.Procedure: 16, manual.Part: 12, manual.Lesson: 6,
	} {
		if counts[kind] < least {
			t.Errorf("%d articles of kind %s, fewer than %d", counts[kind], kind, least)
		}
	}
	if n := len(m.Glossary); n < 80 {
		t.Errorf("%d terms in the glossary", n)
	}
}

// The demo manual as it lies here is the newest edition of its ledger, and its ledger can be read.
func TestDemoManualIsEntered(t *testing.T) {
	t.Parallel()
	c, m, err := ContentOfFolder(t.Context(), "../content")
	if err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile("../content/" + ledger.File)
	if err != nil {
		t.Fatal(err)
	}
	if _, faults := ledger.Parse(text); len(faults) > 0 || len(m.Ledger.Missing()) > 0 || m.Ledger.Rivals() != nil {
		t.Errorf("%v; without %v; rivals %v", faults, m.Ledger.Missing(), m.Ledger.Rivals())
	}
	e, some := m.Ledger.Newest()
	if !some || e.Digest != c.Digest() || e.Code() != ledger.Code(c.Digest()) {
		t.Errorf("the demo manual is %s, and its ledger's newest %s: run bin/tankside publish content --enter --by NAME", ledger.Code(c.Digest()), e.Code())
	}
}

// The drawing of the standing waves is to scale: its loud bands lie as far apart as the calculator says for the drawing's own speed of sound.
// Source of the relation: half a wavelength, Kinsler, Frey, Coppens and Sanders, Fundamentals of Acoustics, 4th edition (2000), section 2.9 (standing waves; from memory).
func TestStandingWavesAreDrawnToScale(t *testing.T) {
	t.Parallel()
	data, err := os.ReadFile("../content/pictures/standing-wave-spacing.svg")
	if err != nil {
		t.Fatal(err)
	}
	const pixels = 4.0 // to the millimetre, by the ruler of the drawing
	band := regexp.MustCompile(`<path d="M(\d+) ([\d.]+)L`)
	starts := map[string][]float64{}
	for _, m := range band.FindAllStringSubmatch(string(data), -1) {
		y, err := strconv.ParseFloat(m[2], 64)
		if err != nil {
			t.Fatal(err)
		}
		starts[m[1]] = append(starts[m[1]], y)
	}
	for column, khz := range map[string]int{"150": 25, "290": 40, "430": 80} {
		answer, err := calculators.Run("sound", map[string]string{"frequency": fmt.Sprintf("%d kHz", khz), "temperature": "26 °C"}, quantity.SI)
		if err != nil {
			t.Fatal(err)
		}
		var want float64
		for _, r := range answer.Readings {
			if r.Name == "antinode-spacing" {
				want = r.SI * 1000
			}
		}
		ys := starts[column]
		if len(ys) < 4 {
			t.Fatalf("%d bands at %d kHz", len(ys), khz)
		}
		for i := 1; i < len(ys); i++ {
			// 0.1 mm: the drawing's speed of 1500 m/s holds for pure water at 26 °C to two parts in a thousand.
			if got := (ys[i] - ys[i-1]) / pixels; math.Abs(got-want) > 0.1 {
				t.Errorf("at %d kHz bands %d and %d are %.2f mm apart, the calculator says %.2f mm", khz, i, i+1, got, want)
			}
		}
	}
}
