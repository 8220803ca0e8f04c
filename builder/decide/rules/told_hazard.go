package rules

import (
	"strings"

	"tankside/builder/decide/admit"
	"tankside/builder/decide/fact"
	"tankside/builder/decide/relate"
	"tankside/builder/expression"
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// toldHazards are harms that a message may tell of a liquid, with the codes of which the header then has one. Told finds the harm behind a word for the liquid, so that
// nobody is asked for a hazard of the dust, the metal or the gas of which a message speaks too.
// The codes: UN GHS, annex 3.
var toldHazards = []struct {
	told  *expression.Expression
	codes []string
	harm  string
	fire  bool
}{
	{expression.Of(`(?i)` + theLiquid + `[^.;:]*\b(?:can be lit|can ignite|can burn(?: (?:with|like|at)\b|[.,;)]|$)|ignites?\b|catch(?:es)? fire|(?:is|are) (?:highly |extremely )?flammable)`), canBurn, "can be lit", true},
	{expression.Of(`(?i)\bswallow\w*\b[^.;:]*\b(?:lungs?|airways?)\b`), []string{"H304"}, "runs into the lungs when it is swallowed", false},
	{expression.Of(`(?i)` + theLiquid + `[^.;:]*\b(?:serious eye damage|damages? (?:the )?eyes?|blinds?)\b`), []string{"H314", "H318"}, "damages eyes for good", false},
	{expression.Of(`(?i)` + theLiquid + `[^.;:]*\bcauses? cancer\b`), []string{"H350", "H351"}, "causes cancer", false},
	{expression.Of(`(?i)` + theLiquid + `[^.;:]*\b(?:allerg\w*|sensiti[sz]es)\b`), []string{"H317", "H334"}, "makes people allergic", false},
}

const theLiquid = `\b(?:it|liquid|vapou?r|mist|concentrate|bath|solvent|cleaner)\b`

// otherHarm denies a harm, or says that something else than the liquid does it.
var otherHarm = expression.Of(`(?i)\b(?:not|no|never|cannot|hydrogen|gas|rags?|cloths?|dust|films?|rust|nickel|chromi?um|chromates?|cobalt|metals?|parts?|oil)\b`)

// onlyTold finds a message that says of the liquid what the header does not; of eyes, unless their hazard is missing by the pH or a constituent.
func onlyTold(a *manual.Article, eyesMissed bool) []finding.Finding {
	c := relate.Chemistry(a)
	lit := burns(&c)
	for i := range a.Blocks {
		b := &a.Blocks[i]
		if b.Signal != "DANGER" && b.Signal != "WARNING" {
			continue
		}
		for _, s := range sentence.Statements(b) {
			for _, h := range toldHazards {
				if _, said := fact.One(a.Chemistry.Hazards, h.codes...); said || h.fire && lit || eyesMissed && h.codes[0] == "H314" {
					continue
				}
				if at := h.told.FindStringIndex(s.Text); at != nil && !otherHarm.MatchString(s.Text[:at[1]]) {
					add := strings.Join(h.codes, " or ")
					if h.fire {
						add += ", and flash-point from section 9"
					}
					return []finding.Finding{undeclaredHazard.At(placeIn(a, b, s.From+blanksOf(b.Text[s.From:s.To])), "The message says that it "+h.harm+", and the header does not.",
						"Add to hazards what section 2 of the safety data sheet says, "+add+"; or, where it is not so, take the sentence out.", declared(a)...)}
				}
			}
		}
	}
	return nil
}

// burns tells whether the decision takes a chemistry for one that can be lit.
func burns(c *admit.Chemistry) bool {
	_, lit := c.Flammable()
	return lit
}
