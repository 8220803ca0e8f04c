package sums

import (
	"slices"

	"tankside/builder/manual"
)

// OfTank are the calculators on the page of each tank, in their order.
var OfTank = []string{"dilution", "heat-up", "degas", "holding"}

// For tells whether a calculator is on the page of a vessel: a jar has neither heat nor sound, and where there is no sound nothing is degassed.
func For(t *manual.Tank, calculator string) bool {
	switch {
	case t.Vessel == manual.Jar:
		return calculator == "dilution"
	case !t.Sounds():
		return calculator != "degas" && slices.Contains(OfTank, calculator)
	}
	return slices.Contains(OfTank, calculator)
}
