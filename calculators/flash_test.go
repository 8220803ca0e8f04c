package calculators

import (
	"strings"
	"testing"

	"tankside/builder/quantity"
	"tankside/calculators/safety"
)

// TestFlashMargin: 29 CFR 1910.106(a)(19) has 30 °F (16.7 °C). The change of the caution lies there, in °F and in °C, and both cautions say
// that mist does not keep to it.
func TestFlashMargin(t *testing.T) {
	if f := safety.FlashMargin * 9 / 5; f < 30-1e-12 || f > 30+1e-12 {
		t.Errorf("the margin is %g °F", f)
	}
	in := map[string]string{"volume": "10 L", "start": "60 °F", "heater": "1 kW", "flash-point": "150 °F"}
	for target, signal := range map[string]Signal{"119.9 °F": Warning, "120.1 °F": Danger} {
		for _, system := range []quantity.System{quantity.SI, quantity.US} {
			a, err := Run("heat-up", with(in, "target", target), system)
			if err != nil {
				t.Fatal(err)
			}
			c := a.Cautions[0]
			margin := map[quantity.System]string{quantity.SI: "16.7\u00a0K", quantity.US: "30\u00a0°F"}[system]
			if c.Signal != signal || !strings.Contains(c.Text, "flash point") || !strings.Contains(c.Text, margin) || !strings.Contains(c.Text, "No margin covers the mist") {
				t.Errorf("%s in %v: %v", target, system, c)
			}
		}
	}
}
