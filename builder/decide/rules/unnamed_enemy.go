package rules

import (
	"fmt"
	"slices"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// unnamedEnemy finds acids whose never-with leaves out what sets a gas free with them that kills: hypochlorite, sulfide, cyanide. It prevents that the
// card at the tank warns of bleach and is silent about the salt that nobody suspects.
// The limit is never-meet's pairs of acid; sources: MMWR 40 (1991) no. 36, chlorine from bleach and acid; NIOSH emergency response card, sodium
// cyanide; Metal Finishing Guidebook 2011–12, metal cleaning, hydrogen sulfide from acid on sulfur-bearing residue.
var unnamedEnemy = finding.Rule{
	Name: "unnamed-enemy", Severity: finding.People,
	Finds:  "an acid whose never-with leaves out hypochlorite, sulfide or cyanide",
	Why:    "The page and the tank's card name what it must never meet from this list; what is missing there is met unwarned, and its gas kills.",
	Source: "MMWR 40 (1991) no. 36; NIOSH emergency response card, sodium cyanide; Metal Finishing Guidebook 2011–12, metal cleaning: acid on sulfur-bearing residue",
}

var gasWithAcid = []string{"hypochlorite", "sulfide", "cyanide"}

func findUnnamedEnemies(_ *proof, a *manual.Article) []finding.Finding {
	if a.Chemistry == nil || a.Partial || len(a.Chemistry.NeverWith) == 0 || !isAcid(a) {
		return nil // of an acid that names none at all, hazard-without-message and never-meet speak
	}
	var missing []string
	for _, name := range gasWithAcid {
		if !slices.ContainsFunc(a.Chemistry.NeverWith, func(r manual.Ref) bool { return r.Name == name }) {
			missing = append(missing, name)
		}
	}
	if len(missing) == 0 {
		return nil
	}
	list := make([]string, 0, len(a.Chemistry.NeverWith)+len(missing))
	for _, r := range a.Chemistry.NeverWith {
		list = append(list, r.Name)
	}
	return []finding.Finding{unnamedEnemy.At(at(a, "never-with"), fmt.Sprintf("It is an acid, and its never-with leaves out %s.", strings.Join(missing, " and ")),
		"Write never-with: ["+strings.Join(append(list, missing...), ", ")+"]")}
}
