package page

import (
	"slices"
	"testing"

	"tankside/builder/sums"
)

// What the proof-reader tries is what the page of a tank shows.
func TestTanksAreTriedWithTheirSums(t *testing.T) {
	var shown []string
	for _, sum := range tankSums {
		shown = append(shown, sum.calculator)
	}
	if !slices.Equal(shown, sums.OfTank) {
		t.Errorf("a page shows %v, the proof-reader tries %v", shown, sums.OfTank)
	}
}
