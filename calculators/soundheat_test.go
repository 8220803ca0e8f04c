package calculators

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"tankside/calculators/bath"
	"tankside/calculators/safety"
)

// TestSoundsHeatStandsInOnePlace: heating up, holding and the drift weigh the sound's heat alike, by the share of package bath, at its likely value and
// at both ends; and the page says the same numbers with what they rest on.
func TestSoundsHeatStandsInOnePlace(t *testing.T) {
	tank := map[string]string{"length": "600 mm", "width": "450 mm", "depth": "445 mm", "air": "20 °C"}
	watts := func(share float64) string { return fmt.Sprintf("%g W", share*1200) }

	up := with(with(with(tank, "start", "20 °C"), "target", "40 °C"), "heater", "1 W")
	sounding := mustRun(t, "heat-up", with(up, "ultrasonic-power", "1200 W"))
	heated := mustRun(t, "heat-up", with(up, "heater", fmt.Sprintf("%g W", 1+bath.SoundToHeat*1200)))
	if a, b := siOf(t, sounding, "time"), siOf(t, heated, "time"); math.Abs(a-b) > 1e-6*b {
		t.Errorf("heating up: %g s by sound, %g s by as much of a heater", a, b)
	}

	hold := with(with(tank, "target", "60 °C"), "hours", "1 h")
	quiet := siOf(t, mustRun(t, "holding", hold), "power")
	held := mustRun(t, "holding", with(with(hold, "ultrasonic-power", "1200 W"), "duty", "50 %"))
	if got := siOf(t, held, "power"); math.Abs(quiet-got-bath.SoundToHeat*600) > 1e-6 {
		t.Errorf("holding: the sound saves %g W", quiet-got)
	}
	r, _ := held.Reading("sound-heat")
	if math.Abs(r.Low-bath.SoundToHeatLow*600) > 1e-9 || math.Abs(r.High-bath.SoundToHeatHigh*600) > 1e-9 {
		t.Errorf("holding: %+v", r)
	}

	drift, err := DriftOf(Tank{Length: "600 mm", Width: "450 mm", Depth: "445 mm", UltrasonicPower: "1200 W", Temperature: "40 °C"}, Shop{Air: "20 °C"})
	if err != nil {
		t.Fatal(err)
	}
	ends := siOf(t, mustRun(t, "heat-up", with(with(with(tank, "start", "20 °C"), "target", "98 °C"), "heater", watts(bath.SoundToHeat))), "highest-temperature")
	if math.Abs(drift.Open.End-ends) > 1e-3 {
		t.Errorf("the drift ends at %g °C, as much of a heater at %g °C", drift.Open.End, ends)
	}

	said := fmt.Sprintf("%g, between %g and %g: from memory", bath.SoundToHeat, bath.SoundToHeatLow, bath.SoundToHeatHigh)
	for _, c := range []*Calculator{&heatUp, &holding} {
		if !slices.ContainsFunc(c.Sources, func(text string) bool { return strings.Contains(text, said) }) {
			t.Errorf("%s does not say %q", c.Name, said)
		}
	}
	stop, _ := held.Reading("stop-at")
	if said := fmt.Sprintf("stopped %d K above the set-point", safety.StopAbove); !slices.ContainsFunc(holding.Sources, func(text string) bool {
		return strings.Contains(text, said) && strings.Contains(text, "common practice")
	}) || !strings.Contains(stop.Note, "common practice") {
		t.Errorf("holding does not say what its stop rests on: %q", stop.Note)
	}
	if r.Note == "" || !strings.Contains(strings.Join(sounding.Working, "\n"), fmt.Sprintf("× %g", bath.SoundToHeat)) {
		t.Errorf("the answers do not say what the sound's heat rests on: %q, %v", r.Note, sounding.Working)
	}
}
