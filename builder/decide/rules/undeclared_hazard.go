package rules

import (
	"fmt"
	"slices"
	"strings"

	"tankside/builder/decide/admit"
	"tankside/builder/decide/fact"
	"tankside/builder/decide/relate"
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/calculators/safety"
)

// undeclaredHazard finds chemistries whose pH or constituents are dangerous to skin and eyes by definition, or whose flash point makes them flammable, and
// whose header names no such hazard; and those with a solvent of which neither is said. It prevents that a caustic passes for a soap because a list was left empty.
// Limit: Regulation (EC) No 1272/2008 (CLP), Annex I, 3.2.3.1.2 and 3.3: pH ≤ 2 or ≥ 11.5 counts as corrosive unless tested (from memory).
var undeclaredHazard = finding.Rule{
	Name: "undeclared-hazard", Severity: finding.People,
	Finds:  "a chemistry of pH 2 or less, or 11.5 or more, or with a dangerous constituent, without a hazard to skin or eyes in its header; one with a flash point of 60 °C or less without a hazard of fire, or with a solvent and neither; one whose message tells of fire, or of what swallowing or breathing it does, and whose header does not",
	Why:    "The page, the tank's card and the procedures take their warnings from the header; what is missing there is missing everywhere.",
	Source: "Regulation (EC) No 1907/2006, Annex VII, 8.1, column 2 (as quoted in a registration); Regulation (EC) No 1272/2008 (CLP), Annex I, 3.2.3.1.2 and 3.3, from memory, to be confirmed by the safety officer; UN GHS, table 2.6.1, for flash points",
}

var (
	flammables = strings.Fields("H224 H225 H226")
	canBurn    = strings.Fields("H224 H225 H226 H227")
	skinOrEyes = strings.Fields("H314 H315 H317 H318 H319")
	dangerous  = strings.Fields("free-caustic acid ammonia hypochlorite peroxide fluoride cyanide sulfide")
)

func findUndeclaredHazards(p *proof, a *manual.Article) []finding.Finding {
	if a.Chemistry == nil {
		return nil
	}
	burn := p.undeclaredBurn(a)
	if found := onlyTold(a, len(burn) > 0); found != nil {
		return append(found, burn...)
	}
	return append(p.undeclaredFire(a), burn...)
}

// undeclaredFire finds a liquid that by its flash point is a flammable one, and is not called so.
func (p *proof) undeclaredFire(a *manual.Article) []finding.Finding {
	flash := a.Chemistry.FlashPoint
	if !flash.Set {
		return undeclaredSolvent(a)
	}
	if flash.Low > safety.Flammable+1e-9 || slices.ContainsFunc(a.Chemistry.Hazards, func(h manual.Ref) bool { return slices.Contains(flammables, h.Name) }) {
		return nil
	}
	return []finding.Finding{undeclaredHazard.At(flash.At, fmt.Sprintf("With a flash point of %s a liquid counts as flammable, and the header names no such hazard.", flash.In(p.Shop.System())),
		"Add to hazards what section 2 of the safety data sheet says: H224, H225 or H226.", declared(a)...)}
}

// undeclaredSolvent finds a chemistry with a solvent of which nothing is said to be able to burn.
func undeclaredSolvent(a *manual.Article) []finding.Finding {
	_, lit := admit.Solvents()
	solvent, has := fact.One(a.Chemistry.Contains, lit...)
	if c := relate.Chemistry(a); !has || burns(&c) {
		return nil
	}
	return []finding.Finding{undeclaredHazard.At(solvent.At, "It contains "+strings.ReplaceAll(solvent.Name, "-", " ")+", which can burn, and the header gives neither a flash point nor a hazard of fire.",
		"Add flash-point, of the working mix, from section 9 of the safety data sheet, and what its section 2 says to hazards: H224, H225, H226 or H227. Where section 9 says that it has none, give the temperature at which it boils.", declared(a)...)}
}

// undeclaredBurn finds what is dangerous to skin and eyes by its pH or a constituent, and is not called so.
func (p *proof) undeclaredBurn(a *manual.Article) []finding.Finding {
	if slices.ContainsFunc(a.Chemistry.Hazards, func(h manual.Ref) bool { return slices.Contains(skinOrEyes, h.Name) }) {
		return nil
	}
	const remedy = "Add to hazards what section 2 of the safety data sheet says, of the concentrate and of the bath: at least one of H314, H315, H317, H318, H319."
	if ph := a.Chemistry.PH; ph.Set && corrosive(ph) {
		return []finding.Finding{undeclaredHazard.At(ph.At, fmt.Sprintf("At pH %s a liquid counts as corrosive to skin and eyes, and the header names no such hazard.", ph.In(p.Shop.System())), remedy, declared(a)...)}
	}
	for _, c := range a.Chemistry.Contains {
		if slices.Contains(dangerous, c.Name) {
			return []finding.Finding{undeclaredHazard.At(c.At, "It contains "+strings.ReplaceAll(c.Name, "-", " ")+", and the header names no hazard to skin or eyes.", remedy, declared(a)...)}
		}
	}
	return nil
}

// corrosive tells whether a pH alone makes a liquid corrosive to skin and eyes.
func corrosive(ph manual.Limit) bool {
	return ph.Low <= safety.CorrosiveAcid || ph.High >= safety.CorrosiveAlkali
}

// declared is the place of the hazards that a header does declare.
func declared(a *manual.Article) []finding.Place {
	if at, ok := a.Head.At["hazards"]; ok {
		return []finding.Place{at}
	}
	return nil
}
