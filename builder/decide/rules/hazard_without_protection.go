package rules

import (
	"fmt"
	"slices"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// hazardWithoutProtection finds chemistries and procedures with hazards to people that name no protective equipment, procedures
// that handle a chemistry with such hazards included. It prevents bare hands and eyes at an open drum.
// Limit: 29 CFR 1910.132 (protective equipment by the hazard) and 1910.151(c) (corrosives), from memory.
var hazardWithoutProtection = finding.Rule{
	Name: "hazard-without-protection", Severity: finding.People,
	Finds:  "hazards to people, and no protective equipment in the header",
	Why:    "Whoever reads the page before opening the drum is not told what to wear.",
	Source: "29 CFR 1910.132 and 1910.151(c), from memory, to be confirmed by the safety officer",
}

func findHazardsWithoutProtection(p *proof, a *manual.Article) []finding.Finding {
	codes, from := hazardsOf(a)
	if len(equipmentOf(a)) > 0 {
		return nil // protection-too-little looks at what it is
	}
	remedy := "Add what section 8 of the safety data sheet says, at least: protective-equipment: [" + strings.Join(p.wear(a), ", ") + "]"
	for _, code := range codes {
		if hurtsPeople(code.Name) {
			return []finding.Finding{hazardWithoutProtection.At(code.At, fmt.Sprintf("%s has the hazard %s, “%s”, and names no protective equipment.", from, code.Name, manual.HazardStatements[code.Name]), remedy)}
		}
	}
	if a.Procedure == nil {
		return nil
	}
	for _, c := range named(p, manual.Chemistry, a.Procedure.Chemistries) {
		for _, code := range c.Chemistry.Hazards {
			if hurtsPeople(code.Name) {
				return []finding.Finding{hazardWithoutProtection.At(at(a, "chemistry"), fmt.Sprintf("The procedure handles %s (%s, “%s”) and names no protective equipment.", c.Head.Title, code.Name, manual.HazardStatements[code.Name]), remedy, code.At)}
			}
		}
	}
	return nil
}

// wear is what has to be worn at least.
func (p *proof) wear(a *manual.Article) []string {
	list := []string{"goggles", "chemical gloves", "apron"}
	missing, _ := p.unmet(a, list)
	for _, n := range missing {
		if !slices.Contains(list, n.add) {
			list = append(list, n.add)
		}
	}
	return list
}
