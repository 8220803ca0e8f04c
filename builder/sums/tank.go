package sums

import (
	"slices"

	"tankside/builder/manual"
	"tankside/calculators"
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

// Takes tells whether an input of a calculator takes an amount: a neat solvent is no strength to be brought back to.
func Takes(calculator, input string, l manual.Limit) bool {
	c, known := calculators.Named(calculator)
	if !known || !l.Set {
		return false
	}
	in, has := c.Input(input)
	return has && slices.ContainsFunc(in.Measures, func(m calculators.Measure) bool { return m.Kind == l.Kind && l.Low >= m.Low && l.High <= m.High })
}
