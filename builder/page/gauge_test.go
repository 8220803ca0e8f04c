package page

import (
	"testing"

	"tankside/builder/quantity"
)

// Both ends of a scale are labelled in one row: an end that is nothing needs no unit, but nought degrees Celsius are no nothing.
func TestEndsOfAScaleHaveRoom(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		band          string
		kind          quantity.Kind
		in            quantity.System
		lowIs, highIs string
	}{
		{"30–60 g/L", quantity.MassConcentration, quantity.SI, "0", "90\u00a0g/L"},
		{"3–6 min", quantity.Time, quantity.SI, "0", "9\u00a0min"},
		{"15–25 °C", quantity.Temperature, quantity.SI, "0\u00a0°C", "100\u00a0°C"},
		{"15–25 °C", quantity.Temperature, quantity.US, "32\u00a0°F", "212\u00a0°F"},
		{"25–40 kHz", quantity.Frequency, quantity.SI, "20\u00a0kHz", "200\u00a0kHz"},
	} {
		band, err := quantity.ParseRange(c.band, c.kind)
		if err != nil {
			t.Fatal(err)
		}
		sc := scaleFor(c.kind, band)
		if low, high := end(sc.low, band, c.in), end(sc.high, band, c.in); low != c.lowIs || high != c.highIs {
			t.Errorf("%s: the ends are %q and %q, not %q and %q", c.band, low, high, c.lowIs, c.highIs)
		}
	}
}
