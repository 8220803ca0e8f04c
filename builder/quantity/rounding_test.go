package quantity

import (
	"strings"
	"testing"
)

// Roundings against values reckoned by hand from the exact factors of NIST Special Publication 811 (2008), appendix B: as many digits as anybody
// measures, whole millilitres from fifty on, three digits for what a bath is made up of.
func TestRoundings(t *testing.T) {
	for _, c := range []struct {
		si     float64
		kind   Kind
		system System
		want   string
	}{
		{57.142857e-6, Volume, SI, "57 mL"},
		{12.34e-6, Volume, SI, "12.3 mL"},
		{4.8e-3, Volume, SI, "4.8 L"},
		{115.2e-3, Volume, SI, "115.2 L"},
		{120e-3, Volume, US, "31.7 US gal"},
		{57.142857e-6, Volume, US, "1.93 US fl oz"},
		{8, Mass, US, "17.6 lb"},
		{0.1, Mass, US, "3.53 oz"},
		{60, Temperature, US, "140 °F"},
		{5, TemperatureDifference, US, "9 °F"},
		{6000, PowerDensity, US, "22.7 W/US gal"},
	} {
		if got := strings.ReplaceAll(Show(c.si, c.kind, c.system), "\u00a0", " "); got != c.want {
			t.Errorf("%g of %v in %v is %q, want %q", c.si, c.kind, c.system, got, c.want)
		}
	}
	for _, c := range []struct {
		number   float64
		unit     string
		kind     Kind
		digits   int
		decimals bool
		want     string
	}{
		{31.700646, "US gal", Volume, 3, false, "31.7"},
		{1.3208603, "US gal", Volume, 1, false, "1.32"},
		{6.5616798, "ft", Length, 1, false, "6.6"},
		{11.811024, "in", Length, 3, false, "11.8"},
		{72.518869, "psi", Pressure, 1, false, "73"},
		{65.3, "°F", Temperature, 3, true, "65.3"},
		{143.6, "°F", Temperature, 2, false, "144"},
		{5.4, "°F", TemperatureDifference, 1, false, "5.4"},
		{0.64, "fl oz/US gal", VolumeFraction, 1, false, "0.64"},
		{5.341, "wt oz/US gal", MassConcentration, 2, false, "5.34"},
	} {
		u, ok := UnitNamed(c.unit, c.kind)
		if got := Like(c.number, u, c.digits, c.decimals); !ok || got != c.want {
			t.Errorf("%g %s told with %d digits is %q, want %q", c.number, c.unit, c.digits, got, c.want)
		}
	}
}
