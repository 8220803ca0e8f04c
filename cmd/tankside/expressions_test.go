package main

import (
	"regexp"
	"testing"

	"tankside/builder/expression"
)

// Expressions are compiled when they are first asked, so one that cannot be would show late.
func TestEveryExpressionCompiles(t *testing.T) {
	t.Parallel()
	all := expression.All()
	if len(all) < 50 {
		t.Errorf("there are %d expressions", len(all))
	}
	for _, e := range all {
		if _, err := regexp.Compile(e.String()); err != nil {
			t.Error(err)
		}
	}
}
