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
	in["volume"] = "30 gal"
	a, err := Run("dilution", in, quantity.US)
	if err != nil {
		t.Fatal(err)
	}
	if got := siOf(t, a, "strength"); math.Abs(got-6./128) > 1e-9 {
		t.Errorf("US gallons throughout, where US units stand first: %g", got)
	}
	_, err = Run("dilution", in, quantity.SI)
	wrong, _ := err.(Errors)
	if len(wrong) != 2 || wrong[0].Input != "volume" || !strings.Contains(wrong[0].Problem, "Write 30\u00a0US gal or 30\u00a0imp gal") || !strings.Contains(wrong[1].Problem, "6\u00a0fl oz/US gal or 6\u00a0imp fl oz/imp gal") {
		t.Errorf("a gallon of nobody knows which country, where US units do not stand first: %v", err)
	}
}

// TestLooseGallonsBesideImperialOnes: whatever is given in a gallon of nobody knows which country is refused beside an imperial amount, at its own
// input, and both ways to write it are read.
func TestLooseGallonsBesideImperialOnes(t *testing.T) {
	for _, c := range []struct {
		calculator string
		in         map[string]string
		loose      string
		remedies   []string
	}{
		{"dilution", map[string]string{"volume": "30 imperial gallons", "strength": "6 fl oz/gal"}, "strength", []string{"6 fl oz/US gal", "6 imp fl oz/imp gal"}},
		{"dilution", map[string]string{"volume": "30 imp gal", "strength": "6 oz (wt)/gal", "density": "1.1 kg/L"}, "strength", []string{"6 wt oz/US gal", "6 wt oz/imp gal"}},
		{"dilution", map[string]string{"volume": "30 imp gal", "strength": "6 oz (wt)/imp gal", "density": "9 lb/gal"}, "density", []string{"9 lb/US gal", "9 lb/imp gal"}},
		{"dilution", map[string]string{"volume": "30 gal", "strength": "6 fl oz/imp gal"}, "volume", []string{"30 US gal", "30 imp gal"}},
		{"rinse", map[string]string{"drag-out": "1 imp gal/h", "flow": "1 gpm", "stages": "1"}, "flow", []string{"1 US gal/min", "1 imp gal/min"}},
		{"top-up", map[string]string{"volume": "30 imp gal", "strength-now": "2 % v/v", "strength": "4 % v/v", "tank-capacity": "40 gal"}, "tank-capacity", []string{"40 US gal", "40 imp gal"}},
	} {
		_, err := Run(c.calculator, c.in, quantity.SI)
		wrong, _ := err.(Errors)
		if len(wrong) != 1 || wrong[0].Input != c.loose {
			t.Errorf("%v: %v", c.in, err)
			continue
		}
		for _, remedy := range c.remedies {
			if !strings.Contains(strings.ReplaceAll(wrong[0].Problem, "\u00a0", " "), remedy) {
				t.Errorf("%v: %q does not name %q", c.in, wrong[0].Problem, remedy)
			}
			mustRun(t, c.calculator, with(c.in, c.loose, remedy))
		}
	}
	if _, err := Run("dilution", map[string]string{"volume": "30 gal", "strength": "6 oz (wt)/gal", "density": "9 lb/gal"}, quantity.US); err != nil {
		t.Error(err)
	}
	for _, in := range []map[string]string{{"volume": "30 US gal", "strength": "6 fl oz/imp gal"}, {"volume": "30 imp gal", "strength": "1+40"}} {
		mustRun(t, "dilution", in)
	}
}
