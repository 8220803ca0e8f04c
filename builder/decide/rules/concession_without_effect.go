package rules

import (
	"fmt"

	"tankside/builder/decide/admit"
	"tankside/builder/decide/fact"
	"tankside/builder/finding"
	"tankside/builder/manual"
)

// concessionWithoutEffect finds concessions that change no verdict: of a rule that there is not, of one that protects people, or without limits.
// It prevents that somebody believes a danger to be dealt with. That what can hurt people is never lived with is our own limit; the word is that
// of ISO 9000:2015, 3.12.5, which has a concession limited to a use, a quantity or a time.
var concessionWithoutEffect = finding.Rule{
	Name: "concession-without-effect", Severity: finding.Result,
	Finds:  "a concession of a rule that there is not, of one that protects people, or without limits",
	Why:    "What could hurt people is not made safe by a signature, and a concession without limits is none.",
	Source: "our own limit; ISO 9000:2015, 3.12.5",
}

func findConcessions(_ *proof, a *manual.Article) []finding.Finding {
	var list []finding.Finding
	check := func(concessions []fact.Concession, limited bool) {
		for i := range concessions {
			c := &concessions[i]
			for _, r := range c.Rules {
				list = append(list, concededRule(r)...)
			}
			if w := &c.Window; limited && !w.Strength.Set && !w.Temperature.Set && !w.Time.Set && !w.Frequency.Set {
				list = append(list, concessionWithoutEffect.At(c.At, "This concession has no limits.", "Give it strength, temperature or time, as they were tried: time: ≤ 1 min"))
			}
		}
	}
	switch {
	case a.Material != nil:
		check(a.Material.Concessions, true)
	case a.Part != nil:
		check(a.Part.Concessions, false) // the sheet itself is the limit
	}
	return list
}

func concededRule(r fact.Ref) []finding.Finding {
	if admit.Concedable(finding.RuleName(r.Name)) {
		return nil
	}
	var names []string
	for _, known := range admit.Rules() {
		if string(known.Name) == r.Name {
			return []finding.Finding{concessionWithoutEffect.At(r.At, fmt.Sprintf("What the rule “%s” finds cannot be lived with: people could be hurt, or it has a limit of its own to correct.", r.Name),
				"Take the concession out, and keep the material out of that bath.")}
		}
		if admit.Concedable(known.Name) {
			names = append(names, string(known.Name))
		}
	}
	remedy := "“tankside proof --rules” lists the rules."
	if near := manual.Nearest(r.Name, names); near != "" {
		remedy = "Did you mean " + near + "? " + remedy
	}
	return []finding.Finding{concessionWithoutEffect.At(r.At, fmt.Sprintf("There is no rule “%s” that could be lived with.", r.Name), remedy)}
}
