package calculators_test

import (
	"fmt"

	"tankside/builder/quantity"
	"tankside/calculators"
)

// A calculator takes its inputs as people write them, and says how it came to its readings.
func ExampleRun() {
	a, err := calculators.Run("dilution", map[string]string{"volume": "120 L", "strength": "4 % v/v"}, quantity.SI)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, r := range a.Readings {
		fmt.Println(r.Label+":", r)
	}
	// Output:
	// Concentrate: 4.8 L
	// or by mass: 4.8 kg
	// Water: 115.2 L
	// Ratio: 1:24
	// Strength by volume: 4 % v/v
}
