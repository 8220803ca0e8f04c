package calculators

import (
	"math"
	"strings"
	"testing"

	"tankside/builder/quantity"
)

// TestGallonsAreNotGuessed: 30 imperial gallons at 6 fl oz in a gallon are 4.69 % in US and 3.75 % in imperial measure.
func TestGallonsAreNotGuessed(t *testing.T) {
	in := map[string]string{"volume": "30 imperial gallons", "strength": "6 fl oz/gal", "tank-capacity": "200 L"}
	if _, err := Run("dilution", in, quantity.US); err == nil || !strings.Contains(err.Error(), "in which gallon?") || err.(Errors)[0].Input != "strength" {
		t.Errorf("%v", err)
	}
	for strength, want := range map[string]float64{"6 fl oz/imp gal": 6. / 160, "6 fl oz/US gal": 6. / 128} {
		a := mustRun(t, "dilution", with(in, "strength", strength))
		if got := siOf(t, a, "strength"); math.Abs(got-want) > 1e-9 {
			t.Errorf("%s is %g, want %g", strength, got, want)
		}
	}
	a := mustRun(t, "dilution", with(in, "volume", "30 gal"))
	if got := siOf(t, a, "strength"); math.Abs(got-6./128) > 1e-9 {
		t.Errorf("US gallons throughout: %g", got)
	}
}
