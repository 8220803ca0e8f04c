package rules

import (
	"fmt"
	"math"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/calculators/safety"
)

// flashPointAgainstHazard finds chemistries whose flash point no liquid of their hazard has: 142 °C beside H226, where a digit too many lets a bath be warmed.
// Limit: UN GHS, table 2.6.1, and the gas oils of CLP, which may be H226 up to 75 °C. At the ends either is right.
var flashPointAgainstHazard = finding.Rule{
	Name: "flash-point-against-hazard", Severity: finding.People,
	Finds:  "a flash point that no liquid with its H224, H225, H226 or H227 has",
	Why:    "How hot the bath may become goes by the flash point; with one that is too high the vapour can be lit at the set-point.",
	Source: "UN GHS, table 2.6.1; Regulation (EC) No 1272/2008 (CLP), Annex I, 2.6.2.1, for gas oils (from memory, to be confirmed by the safety officer)",
}

// flashes are the flash points in °C of the liquids of each hazard.
var flashes = map[string]struct{ low, high float64 }{
	"H224": {math.Inf(-1), safety.HighlyFlammable}, "H225": {math.Inf(-1), safety.HighlyFlammable},
	"H226": {safety.HighlyFlammable, safety.GasOil}, "H227": {safety.Flammable, safety.Combustible},
}

func findFlashPointsAgainstHazard(p *proof, a *manual.Article) []finding.Finding {
	c := a.Chemistry
	if c == nil || !c.FlashPoint.Set {
		return nil
	}
	flash := c.FlashPoint
	for _, h := range c.Hazards {
		of, is := flashes[h.Is()]
		if !is || flash.Low >= of.low && flash.High <= of.high {
			continue
		}
		in := p.Shop.System()
		span := "below " + quantity.Show(of.high, quantity.Temperature, in)
		if !math.IsInf(of.low, -1) {
			span = fmt.Sprintf("at %s to %s", quantity.Show(of.low, quantity.Temperature, in), quantity.Show(of.high, quantity.Temperature, in))
		}
		return []finding.Finding{flashPointAgainstHazard.At(flash.At, fmt.Sprintf("A liquid with %s flashes %s, and the flash point is given as %s.", h.Name, span, flash.In(in)),
			"Correct the flash point by section 9 of the safety data sheet, or the hazard by section 2.", h.At)}
	}
	return nil
}
