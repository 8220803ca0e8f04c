package handout

import (
	"math"
	"strings"
	"testing"

	"tankside/builder/quantity"
)

// What is poured is what was worked out, rounded by a fortieth at most above 20 mL; both families say the same to within that, and a measure stands with it that the
// amount fills once or a few times. Down means never more.
func TestPour(t *testing.T) {
	for _, c := range []struct {
		litres  float64
		si, us  string
		si2, u2 string // rounded down
	}{
		{4.8, "4.8 L (5 L jug)", "1 gal 1 qt (1 gal jug)", "4.8 L (5 L jug)", "1 gal 1 qt (1 gal jug)"},
		{0.498, "500 mL (1 L cylinder)", "17 fl oz (quart measure)", "490 mL (1 L cylinder)", "16.5 fl oz (quart measure)"},
		{1.4815, "1.5 L (2 L jug)", "1 qt 18 fl oz (quart measure)", "1.45 L (2 L jug)", "1 qt 18 fl oz (quart measure)"},
		{0.0567, "57 mL (100 mL cylinder)", "2 fl oz (8 fl oz measure)", "56 mL (100 mL cylinder)", "1.75 fl oz (8 fl oz measure)"},
		{115.2, "115 L (water meter)", "30 gal (water meter)", "115 L (water meter)", "30 gal (water meter)"},
		{0.0042, "4.2 mL (syringe)", "0.14 fl oz (syringe)", "4.2 mL (syringe)", "0.14 fl oz (syringe)"},
	} {
		plain := func(t Text) (string, string) {
			return strings.ReplaceAll(t.SI, "\u00a0", " "), strings.ReplaceAll(t.US, "\u00a0", " ")
		}
		if si, us := plain(Pour(nil, c.litres/1000, false)); si != c.si || us != c.us {
			t.Errorf("%g L is poured as %q, %q; wants %q, %q", c.litres, si, us, c.si, c.us)
		}
		if si, us := plain(Pour(nil, c.litres/1000, true)); si != c.si2 || us != c.u2 {
			t.Errorf("%g L at most is poured as %q, %q; wants %q, %q", c.litres, si, us, c.si2, c.u2)
		}
	}
	for litres := 0.02; litres < 900; litres *= 1.013 {
		for _, down := range []bool{false, true} {
			amount, with := pour(litres/1000, quantity.SI, down)
			got, err := quantity.Parse(amount, quantity.Volume)
			if err != nil || with == "" {
				t.Fatalf("%g L: %q, %q: %v", litres, amount, with, err)
			}
			off, most := got.SI*1000/litres-1, 0.0251
			if down {
				most = 0.0501
			}
			if math.Abs(off) > most || down && off > 1e-9 {
				t.Errorf("%g L is poured as %s", litres, amount)
			}
		}
	}
	for _, l := range []float64{math.NaN(), math.Inf(1), -1} {
		if amount, with := pour(l, quantity.SI, false); with != "" {
			t.Errorf("%g is poured as %s with %s", l, amount, with)
		}
	}
}
