package sums

import (
	"errors"
	"slices"
	"testing"

	"tankside/builder/manual"
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

// What a calculator does not take is left out, so that the page asks for it: a neat liquid, or one that hardly has any strength, water of pH 0, fourteen stages. What
// it takes stays, with both its ends.
func TestWhatASumDoesNotTakeIsLeftOut(t *testing.T) {
	of := func(low, high float64, kind quantity.Kind) manual.Limit {
		return manual.Limit{Range: quantity.Range{Low: low, High: high, Kind: kind, Unit: quantity.Preferred(high, kind, quantity.SI)}, Set: true}
	}
	for _, c := range []struct {
		strength manual.Limit
		stays    bool
	}{
		{of(0.04, 0.04, quantity.VolumeFraction), true}, {of(1, 1, quantity.VolumeFraction), false}, {of(0.9, 1, quantity.VolumeFraction), false},
		{of(1e-7, 1e-7, quantity.VolumeFraction), false}, {of(30, 30, quantity.MassConcentration), true},
	} {
		m := demo(t)
		m.Shop.Tanks[0].Strength = c.strength
		values, err := Known(m, "top-up", m.Shop.Tanks[0].ID)
		if err != nil {
			t.Fatal(err)
		}
		if stays := values["strength"] != ""; stays != c.stays {
			t.Errorf("%v: %v", c.strength.Range, values)
		}
	}
	m := demo(t)
	m.Shop.Water.PH = of(0, 0, quantity.PH)
	m.Shop.Rinses[0].Stages = 14
	for _, c := range calculators.All() {
		values, err := Known(m, c.Name, m.Shop.Rinses[0].ID)
		if err != nil {
			t.Fatal(err)
		}
		var wrong calculators.Errors
		if _, err := c.Run(values, quantity.SI); err != nil && (!errors.As(err, &wrong) || !wrong.OnlyMissing()) {
			t.Errorf("%s: %v", c.Name, err)
		}
	}
}
