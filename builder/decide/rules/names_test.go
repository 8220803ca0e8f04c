package rules

import (
	"slices"
	"testing"

	"tankside/builder/finding"
)

// A rule that is named in a table is one that there is.
func TestRulesNamedAreThere(t *testing.T) {
	for name := range ofBathAlone {
		if !slices.ContainsFunc(All(), func(r finding.Rule) bool { return r.Name == name }) {
			t.Errorf("ofBathAlone has %s, which is no rule", name)
		}
	}
}
