package sums

import (
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/calculators"
)

// measured are the inputs that nobody knows who has not just measured: what the shop file says of them is of another day, and a verdict from it
// would be nobody's. The rest of what decides is asked for anyway, since the shop file has no place for it.
var measured = map[string][]string{
	"top-up":    {"volume", "strength-now"},
	"titration": {"volume"},
	"rinse":     {"drag-out"},
	"spotting":  {"dissolved-solids", "hardness", "conductivity"},
	"hardness":  {"hardness"},
	"scale":     {"ph", "sample-temperature", "hardness", "alkalinity", "dissolved-solids"},
}

// Known gives what the shop file knows for a calculator, of the tank or rinse of that name or of the shop alone for "": what has to be measured is left
// out. The error is an *UnknownTank.
func Known(m *manual.Manual, calculator, tank string) (map[string]string, error) {
	given := map[string]string{}
	if tank != "" {
		given["tank"] = tank
	}
	values, err := Values(m, calculator, given)
	for _, name := range measured[calculator] {
		delete(values, name)
	}
	if c, known := calculators.Named(calculator); known && err == nil {
		leaveOut(c, values)
	}
	return values, err
}

// leaveOut takes out what a calculator does not take, such as water of pH 3 or a rinse of fourteen stages: the page asks for it instead, and is published.
func leaveOut(c *calculators.Calculator, values map[string]string) {
	for range len(values) {
		_, err := c.Run(values, quantity.SI)
		wrong, _ := err.(calculators.Errors) // Run gives no other
		before := len(values)
		for _, one := range wrong {
			if !one.Missing {
				delete(values, one.Input)
			}
		}
		if len(values) == before {
			return
		}
	}
}
