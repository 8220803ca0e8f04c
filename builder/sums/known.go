package sums

import "tankside/builder/manual"

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
	return values, err
}
