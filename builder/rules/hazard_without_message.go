package rules

import (
	"fmt"
	"slices"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// hazardWithoutMessage finds chemistries and procedures with hazards to people whose article has no safety message, or none that is grave
// enough. It prevents that somebody handles a corrosive or flammable liquid from a page that does not say so.
// Limit: ANSI Z535.6 (signal words by consequence); UN GHS Annex 3 (hazard statements).
var hazardWithoutMessage = finding.Rule{
	Name: "hazard-without-message", Severity: finding.People,
	Finds:  "hazards to people in the header, and no safety message of that gravity in the text",
	Why:    "The codes in the header are read by nobody at the tank; the message with its signal word is.",
	Source: "ANSI Z535.6 for signal words, UN GHS Annex 3 for hazard statements (from memory)",
}

// grave are the hazards that can kill or do lasting harm: they take at least a WARNING.
var grave = strings.Fields(`
	H200 H201 H202 H203 H204 H205 H220 H221 H222 H223 H224 H225 H226 H228 H240 H241 H242 H250 H251 H260 H261 H270 H271 H272
	H300 H301 H304 H310 H311 H314 H318 H330 H331 H334 H340 H341 H350 H351 H360 H361 H370 H372`)

// harmless to people by themselves: metals, and the environment.
func hurtsPeople(code string) bool { return code != "H290" && !strings.HasPrefix(code, "H4") }

func findHazardsWithoutMessage(p *proof, a *manual.Article) []finding.Finding {
	codes, from := hazardsOf(a)
	for _, code := range codes {
		switch {
		case slices.Contains(grave, code.Name) && !signalled(a, "DANGER", "WARNING"):
			return []finding.Finding{hazardWithoutMessage.At(code.At, fmt.Sprintf("%s has the hazard %s, “%s”, and the text has no DANGER or WARNING.", from, code.Name, manual.HazardStatements[code.Name]),
				"Add a block quote that begins with **WARNING** (or **DANGER**): what can happen, how to avoid it, and “follow the safety data sheet and local codes”.")}
		case hurtsPeople(code.Name) && !signalled(a, "DANGER", "WARNING", "CAUTION"):
			return []finding.Finding{hazardWithoutMessage.At(code.At, fmt.Sprintf("%s has the hazard %s, “%s”, and the text has no safety message.", from, code.Name, manual.HazardStatements[code.Name]),
				"Add a block quote that begins with **CAUTION**: what can happen, how to avoid it, and “follow the safety data sheet and local codes”.")}
		}
	}
	return nil
}

// hazardsOf gives the hazards that an article declares, and how to name their owner in a sentence.
func hazardsOf(a *manual.Article) ([]manual.Ref, string) {
	switch {
	case a.Chemistry != nil:
		return a.Chemistry.Hazards, "This chemistry"
	case a.Procedure != nil:
		return a.Procedure.Hazards, "This procedure"
	}
	return nil, ""
}
