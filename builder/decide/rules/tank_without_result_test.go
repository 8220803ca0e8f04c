package rules

import "testing"

// Values of the shop file that a calculator on a tank's page would refuse are found, once for each tank; those that it only lacks are not.
func TestTanksWithoutResult(t *testing.T) {
	base := folder(t, small)
	for line, c := range map[string]struct {
		instead string
		found   int
	}{
		"    ultrasonic-power: 1.2 kW\n": {"    ultrasonic-power: 0 kW\n", 0}, // that it is too little says the rule for what cannot be
		"    volume: 28 L\n":             {"    volume: 1e9 L\n", 0},          // its sides say that it is wrong
		"    heater: 6 kW\n":             {"", 0},
		"    strength: 2 % v/v\n":        {"", 0},
		"    depth: 235 mm\n":            {"", 0},
	} {
		n := 0
		for _, f := range proofread(t, edited(t, base, []edit{e("shop.yaml", line, c.instead)})) {
			if f.Rule == calculatorWithoutResult.Name {
				n++
				if f.File != "shop.yaml" || f.Line < 11 {
					t.Errorf("%q is found at %s", c.instead, f.Place)
				}
			}
		}
		if n != c.found {
			t.Errorf("%q: found %d times, want %d", c.instead, n, c.found)
		}
	}
}
