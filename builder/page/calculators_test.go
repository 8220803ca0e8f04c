package page

import (
	"testing"

	"tankside/calculators"
)

// Every calculator stands on the page of calculators, once.
func TestEveryCalculatorIsListed(t *testing.T) {
	times := map[string]int{}
	for _, g := range sumGroups {
		for _, name := range g.of {
			if _, known := calculators.Named(name); !known {
				t.Errorf("%s: there is no calculator %s", g.title, name)
			}
			times[name]++
		}
	}
	for _, c := range calculators.All() {
		if times[c.Name] != 1 {
			t.Errorf("%s stands %d times on the page of calculators", c.Name, times[c.Name])
		}
	}
	if SumPage("abacus") != "" {
		t.Error("there is a page for what is no calculator")
	}
}
