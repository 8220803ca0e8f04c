package control

import (
	"math"
	"slices"
)

// Factors for ranges of two readings: mean range over standard deviation, and upper limit over mean range.
// NIST/SEMATECH e-Handbook, 6.3.2.2 and 6.3.2.1, table of factors; ISO 7870-2:2013, table 2.
const (
	d2 = 1.128
	d4 = 3.267
)

// Width is how many standard deviations the limits stand from the middle.
const Width = 3

// Individuals is a chart of single readings with their moving ranges.
type Individuals struct {
	N           int     // readings of the baseline
	Mean        float64 // of the baseline
	MovingRange float64 // mean of the differences of neighbours in the baseline
	Sigma       float64 // standard deviation, from the moving range
	Upper       float64 // control limits
	Lower       float64
	RangeUpper  float64 // upper limit of a moving range
}

// Of takes the limits from the readings of a baseline, in their order. It is false where there are fewer than two, or where they do not differ:
// then there is nothing by which to tell chance from change.
func Of(baseline []float64) (c Individuals, told bool) {
	c.N = len(baseline)
	if c.N == 0 {
		return c, false
	}
	c.Mean = mean(baseline)
	if c.N < 2 {
		return c, false
	}
	sum := 0.0
	for i := 1; i < c.N; i++ {
		sum += math.Abs(baseline[i] - baseline[i-1])
	}
	c.MovingRange = sum / float64(c.N-1)
	c.Sigma = c.MovingRange / d2
	c.Upper, c.Lower = c.Mean+Width*c.Sigma, c.Mean-Width*c.Sigma
	c.RangeUpper = d4 * c.MovingRange
	return c, c.MovingRange > tiny*(1+math.Abs(c.Mean))
}

// tiny is what is left of a difference of nought when numbers with a decimal point are subtracted.
const tiny = 1e-12

// mean is added up from the first reading, so that large numbers with small differences keep their digits.
func mean(values []float64) float64 {
	first, sum := values[0], 0.0
	for _, v := range values {
		sum += v - first
	}
	return first + sum/float64(len(values))
}

// Step is the smallest difference between readings that differ: the digit to which they were read, or less. Where it is larger than the standard deviation,
// the limits follow from rounding and not from the bath (Wheeler and Lyday, Evaluating the Measurement Process, 1989, from memory). It is infinite where
// all are alike.
func Step(readings []float64) float64 {
	sorted := slices.Sorted(slices.Values(readings))
	least := math.Inf(1)
	for i := 1; i < len(sorted); i++ {
		if d := sorted[i] - sorted[i-1]; d > 1e-9*(1+math.Abs(sorted[i])) {
			least = min(least, d)
		}
	}
	return least
}
