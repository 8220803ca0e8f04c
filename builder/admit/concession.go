package admit

import (
	"slices"

	"tankside/builder/fact"
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
func Concedable(rule string) bool {
	for _, e := range exclusions {
		if e.Name == rule {
			return e.Severity != finding.People && !e.Never
		}
	}
	return rule == PHOutsideMaterial.Name || rule == AttackOnPurpose.Name
}

// concession gives what somebody lives with for a material in a bath, and the limits that it sets; it says so, wherever it makes a difference.
func (d *deciding) concession(b *Bath, m *Material) (*fact.Concession, []Limit) {
	for _, list := range [][]fact.Concession{d.conceded, m.Concessions} {
		for i := range list {
			c := &list[i]
			if c.Chemistry.Name != b.Chemistry.Name || c.By == "" || c.Reason == "" {
				continue
			}
			d.add(wants(nil, Say("{role} lives with {chemistry} on {material}: {reason}", Title(c.By), within(b.Chemistry), within(m), Title(c.Reason)),
				Say("accepted by {role}", Title(c.By))).by(c.At))
			return c, ofConceded(c, m)
		}
	}
	return nil, nil
}

// concedes tells whether a concession names a rule that can be lived with.
func concedes(c *fact.Concession, rule string) bool {
	return Concedable(rule) && slices.ContainsFunc(c.Rules, func(r fact.Ref) bool { return r.Name == rule })
}

// conceded tells whether a concession covers what an exclusion found: it names the exclusion, or another that found the same constituent.
func conceded(c *fact.Concession, f Found, all []Found) bool {
	if !Concedable(f.Name) {
		return false
	}
	if concedes(c, f.Name) {
		return true
	}
	return f.Also.File != "" && slices.ContainsFunc(all, func(g Found) bool { return g.Also == f.Also && concedes(c, g.Name) })
}
