package sums

import (
	"errors"
	"slices"
	"testing"

	"tankside/builder/quantity"
	"tankside/calculators"
)

// TestNoVerdictThatNobodyMeasured: of what the shop file knows, for every tank, rinse and the shop alone, a calculator answers only what follows from set-points
// and sizes; what somebody has to measure leaves the answer open.
func TestNoVerdictThatNobodyMeasured(t *testing.T) {
	m := demo(t)
	places := []string{""}
	for _, tank := range m.Shop.Tanks {
		places = append(places, tank.ID)
	}
	for _, r := range m.Shop.Rinses {
		places = append(places, r.ID)
	}
	setPoints := []string{"dilution", "heat-up", "degas", "sound"}
	for _, c := range calculators.All() {
		for _, place := range places {
			values, err := Known(m, c.Name, place)
			if err != nil {
				t.Fatal(err)
			}
			_, err = c.Run(values, quantity.SI)
			var wrong calculators.Errors
			switch {
			case err == nil && !slices.Contains(setPoints, c.Name):
				t.Errorf("%s of %q answers by what nobody has measured: %v", c.Name, place, values)
			case err != nil && (!errors.As(err, &wrong) || !wrong.OnlyMissing()):
				t.Errorf("%s of %q: %v", c.Name, place, err)
			}
		}
		for _, name := range measured[c.Name] {
			if _, has := c.Input(name); !has {
				t.Errorf("%s has no input %s to measure", c.Name, name)
			}
		}
	}
	if _, err := Known(m, "heat-up", "wash-9"); err == nil {
		t.Error("a tank that is not there")
	}
	if values, _ := Known(m, "heat-up", "wash-2"); values["heater"] == "" {
		t.Errorf("the shop's own values are lost: %v", values)
	}
}
