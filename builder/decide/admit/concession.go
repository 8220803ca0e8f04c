package admit

import (
	"slices"

	"tankside/builder/decide/fact"
	"tankside/builder/finding"
)

// OutsideConcession guards the limits within which a named role lives with what a rule would refuse.
// The limit is the concession's own.
var OutsideConcession = finding.Rule{
	Name: "outside-concession", Severity: finding.Parts,
	Finds:  "a wash outside the limits within which a concession was given",
	Why:    "What was tried and accepted was a shorter, cooler or weaker wash than this one.",
	Source: "the concession in the article of the material or part",
}

// Concedable tells whether a role may live with a rule: only where parts alone are at risk.
func Concedable(rule finding.RuleName) bool {
	for _, e := range exclusions {
		if e.Name == rule {
			return e.Severity != finding.People && !e.Never
		}
	}
	return rule == PHOutsideMaterial.Name || rule == AttackOnPurpose.Name
}

// concessions gives what somebody lives with for a material in a bath, as a question about a rule, and the limits that are set to it. Each says so
// wherever it makes a difference. One of a material without limits is none; a part's own sheet is the limit of what is written there.
func (d *deciding) concessions(b *Bath, m *Material) (conceded func(rule finding.RuleName) bool, limits []Limit) {
	var given []*fact.Concession
	for i, list := range [][]fact.Concession{d.conceded, m.Concessions} {
		for j := range list {
			c := &list[j]
			own := ofConceded(c, m)
			if c.Chemistry.Name != b.Chemistry.Name || c.By == "" || c.Reason == "" || i == 1 && len(own) == 0 {
				continue
			}
			d.add(wants(nil, Say("{role} lives with {chemistry} on {material}: {reason}", Title(c.By), within(b.Chemistry), within(m), Title(c.Reason)),
				Say("accepted by {role}", Title(c.By))).by(c.At))
			given, limits = append(given, c), append(limits, own...)
		}
	}
	return func(rule finding.RuleName) bool {
		return slices.ContainsFunc(given, func(c *fact.Concession) bool { return concedes(c, rule) })
	}, limits
}

// concedes tells whether a concession names a rule that can be lived with. That a pH is passed and that it is passed on purpose is one limit of the material under
// two names: whoever lives with the one for a chemistry lives with the other, whatever soil is asked about.
func concedes(c *fact.Concession, rule finding.RuleName) bool {
	if rule == AttackOnPurpose.Name {
		rule = PHOutsideMaterial.Name
	}
	return Concedable(rule) && slices.ContainsFunc(c.Rules, func(r fact.Ref) bool {
		name := finding.RuleName(r.Name)
		return name == rule || name == AttackOnPurpose.Name && rule == PHOutsideMaterial.Name
	})
}
