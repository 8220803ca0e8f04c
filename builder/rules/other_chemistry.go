package rules

import (
	"fmt"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// otherChemistry finds washes in a tank that holds something else today.
// It prevents that a part is washed in the wrong bath by an operator who reads the tank's name only. The limit is the shop file.
var otherChemistry = finding.Rule{
	Name: "other-chemistry", Severity: finding.Parts,
	Finds:  "a wash with a chemistry that its tank does not hold today",
	Why:    "The operator goes by the name of the tank, and the part meets a bath that nobody chose for it.",
	Source: "the shop file, chemistry of the tank",
}

func findOtherChemistries(p *proof, a *manual.Article) []finding.Finding {
	var list []finding.Finding
	if a.Part == nil {
		return nil
	}
	for i, step := range a.Part.Steps {
		t := p.Shop.Tank(step.Tank.Name)
		if t == nil || t.Chemistry.Name == step.Chemistry.Name || p.Named(manual.Chemistry, step.Chemistry.Name) == nil || p.Named(manual.Chemistry, t.Chemistry.Name) == nil {
			continue
		}
		message := fmt.Sprintf("%s holds %s today, not %s.", t.Name, t.Chemistry.Name, step.Chemistry.Name)
		if len(a.Part.Steps) > 1 {
			message = fmt.Sprintf("Wash %d: %s", i+1, message)
		}
		list = append(list, otherChemistry.At(step.Chemistry.At, message,
			"Name the tank that holds it, or change the bath in the shop file when it has been changed on the line.", t.Chemistry.At))
	}
	return list
}
