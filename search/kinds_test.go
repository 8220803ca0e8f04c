package search

import (
	"slices"
	"testing"

	"tankside/builder/manual"
)

// A weight is of a kind of hit that there is: a misspelt one would weigh nothing.
func TestWeightsAreOfKindsThatThereAre(t *testing.T) {
	for kind := range kindWeights {
		if !slices.Contains(manual.Findable(), kind) {
			t.Errorf("%s has a weight, and nothing that is found is of this kind", kind)
		}
	}
}
