package page

import (
	"slices"
	"testing"

	"tankside/builder/decide/rules"
	"tankside/builder/finding"
)

// What is told of a rule in a word is told of one that there is.
func TestRulesToldBrieflyAreThere(t *testing.T) {
	for name := range briefly {
		if !slices.ContainsFunc(rules.All(), func(r finding.Rule) bool { return r.Name == name }) {
			t.Errorf("briefly has %s, which is no rule", name)
		}
	}
}
