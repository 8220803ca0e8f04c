package relate

import (
	"context"
	"os"
	"testing"

	"tankside/builder/decide/admit"
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sums"
	"tankside/calculators"
	"tankside/calculators/safety"
)

// Where the calculator says to stop the sound is never above what the decision guards of the chemistry: ceiling, cloud point, distance to the flash
// point. Where none of these is near, it is so far above the set-point as the table of numbers says.
func TestSoundStopsWithinWhatTheDecisionGuards(t *testing.T) {
	m, _, err := manual.Read(context.Background(), os.DirFS("../../../content"))
	if err != nil {
		t.Fatal(err)
	}
	tank := m.Shop.Tank("wash-2")
	c := m.Named(manual.Chemistry, tank.Chemistry.Name).Chemistry
	own := *c
	at := func(degrees float64) manual.Limit {
		unit, _ := quantity.UnitNamed("°C", quantity.Temperature)
		return manual.Limit{Range: quantity.Range{Low: degrees, High: degrees, Kind: quantity.Temperature, Unit: unit}, Set: true}
	}
	for name, change := range map[string]func(){
		"nothing near":         func() {},
		"a low cloud point":    func() { c.CloudPoint = at(50) },
		"a low ceiling":        func() { c.Ceiling = at(49) },
		"a flash point":        func() { c.FlashPoint = at(65) },
		"a cloud point alone":  func() { c.Ceiling, c.CloudPoint = manual.Limit{}, at(49) },
		"all of them together": func() { c.Ceiling, c.CloudPoint, c.FlashPoint = at(50.5), at(50), at(66.5) },
	} {
		*c = own
		change()
		drift, err := calculators.DriftOf(sums.Tank(m, tank), sums.Shop(m))
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		want := tank.Temperature.High + safety.StopAbove
		facts := Chemistry(m.Named(manual.Chemistry, tank.Chemistry.Name))
		for _, l := range admit.OfChemistry(&facts) {
			if l.What == admit.Temperature && l.Rule != &admit.OutsideChemistryWindow {
				want = min(want, l.High)
			}
		}
		if drift.StopAt != want {
			t.Errorf("%s: the sound stops at %g °C, and %g °C is what is guarded", name, drift.StopAt, want)
		}
	}
	*c = own
}
