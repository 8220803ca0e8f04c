// Package clean holds the levels and codes in which the cleanliness of parts is told: residue by mass, particles by number and size, and how
// far few counts may be trusted.
package clean

import "math"

// ResidueLevel is a level of IEST-STD-CC1246 with the most that it allows.
type ResidueLevel struct {
	Name string
	Most float64 // kg/m²
}

// ResidueLevels are the levels of residue of IEST-STD-CC1246, the cleanest first: A is 1 mg on 0.1 m². The letters and their masses are from
// memory; the standard itself is to be looked at before a report names one.
var ResidueLevels = []ResidueLevel{
	{"A/100", 0.01 * mgOnTenth}, {"A/50", 0.02 * mgOnTenth}, {"A/20", 0.05 * mgOnTenth}, {"A/10", 0.1 * mgOnTenth}, {"A/5", 0.2 * mgOnTenth}, {"A/2", 0.5 * mgOnTenth},
	{"A", 1 * mgOnTenth}, {"B", 2 * mgOnTenth}, {"C", 3 * mgOnTenth}, {"D", 4 * mgOnTenth}, {"E", 5 * mgOnTenth},
	{"F", 7 * mgOnTenth}, {"G", 10 * mgOnTenth}, {"H", 15 * mgOnTenth}, {"J", 25 * mgOnTenth},
}

const mgOnTenth = 1e-6 / 0.1 // 1 mg on 0.1 m², in kg/m²

// ResidueLevelOf is the index of the cleanest level that allows a residue in kg/m², or -1 where even the last does not.
func ResidueLevelOf(residue float64) int {
	for i := range ResidueLevels {
		if residue <= ResidueLevels[i].Most*(1+1e-9) {
			return i
		}
	}
	return -1
}

// WeighingBand is the expanded uncertainty in kg, about 95 %, of what a number of weighings add up to. Each has half a division of rounding
// either way, d/√12 as a standard deviation, and the balance's repeatability s: 2·√(n·(s² + d²/12)). JCGM 100:2008 (GUM), F.2.2.1 for the
// division of a display, 5.1.2 for the sum, 6.2 for the factor 2.
func WeighingBand(weighings int, repeatability, division float64) float64 {
	return 2 * math.Sqrt(float64(weighings)*(repeatability*repeatability+division*division/12))
}
