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
	for _, w := range washes(p, a) {
		if w.Tank == nil || w.Tank.Chemistry.Name == w.step.Chemistry.Name || p.Named(manual.Chemistry, w.Tank.Chemistry.Name) == nil {
			continue
		}
		list = append(list, otherChemistry.At(w.step.Chemistry.At, w.says(fmt.Sprintf("%s holds %s today, not %s.", w.Tank.Name, w.Tank.Chemistry.Name, w.step.Chemistry.Name)),
			"Name the tank that holds it, or change the bath in the shop file when it has been changed on the line.", w.Tank.Chemistry.At))
	}
	return list
}
