package rules

import (
	"fmt"
	"slices"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// acceptanceWithoutEffect finds acceptances of a rule that there is not, or of one whose findings have to be put right.
// It prevents that somebody believes a danger to be dealt with. That harm to people and parts cannot be accepted is our own limit.
var acceptanceWithoutEffect = finding.Rule{
	Name: "acceptance-without-effect", Severity: finding.Result,
	Finds:  "an acceptance of a rule that there is not, or of one whose findings have to be put right",
	Why:    "What could hurt people or parts is not made safe by a reason in writing, and an acceptance of nothing hides that nothing was looked at.",
	Source: "our own limit",
}

func findAcceptances(_ *proof, a *manual.Article) []finding.Finding {
	if len(a.Head.Accept) == 0 {
		return nil
	}
	known := All()
	var list []finding.Finding
	for _, c := range a.Head.Accept {
		i := slices.IndexFunc(known, func(r finding.Rule) bool { return string(r.Name) == c.Rule })
		switch {
		case c.Rule == "": // reported as missing
		case i < 0:
			names := make([]string, len(known))
			for i, r := range known {
				names[i] = string(r.Name)
			}
			remedy := "“tankside proof --rules” lists the rules."
			if near := manual.Nearest(c.Rule, names); near != "" {
				remedy = "Did you mean " + near + "? " + remedy
			}
			list = append(list, acceptanceWithoutEffect.At(c.At, fmt.Sprintf("There is no rule “%s” to accept.", c.Rule), remedy))
		case OfApproval(known[i].Name):
			list = append(list, acceptanceWithoutEffect.At(c.At, fmt.Sprintf("What the rule “%s” finds is for whoever approves to put right, and cannot be accepted.", c.Rule), "Take the acceptance out. tankside revise and tankside approve set the approval right."))
		case !acceptable(known[i].Name, known[i].Severity):
			list = append(list, acceptanceWithoutEffect.At(c.At, fmt.Sprintf("What the rule “%s” finds would harm %s, and cannot be accepted.", c.Rule, known[i].Severity), "Take the acceptance out, and put right what the rule finds."))
		case slices.ContainsFunc(manual.Rules(), func(r finding.Rule) bool { return string(r.Name) == c.Rule }):
			list = append(list, acceptanceWithoutEffect.At(c.At, fmt.Sprintf("What the rule “%s” finds keeps the article from being read as it was meant, and cannot be accepted.", c.Rule), "Take the acceptance out, and put right what the rule finds."))
		}
	}
	return list
}
