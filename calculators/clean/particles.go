package clean

import "math"

// Classes are the letters of the size classes of ISO 16232, with Sizes[i] µm at the small end of each and the next at the other; K has no
// other end. The edition of 2018 parts K further (from published explanations; L, M, N from memory).
const Classes = "BCDEFGHIJK"

// Sizes are the small ends of the classes in µm.
var Sizes = [len(Classes)]float64{5, 15, 25, 50, 100, 150, 200, 400, 600, 1000}

// NoneAllowed is the level 00 of ISO 16232: no particle at all.
const NoneAllowed = -1

// LastLevel is the highest level of ISO 16232; see LevelOf.
const LastLevel = 24

// LevelOf is the level of ISO 16232 for a number of particles on 1000 cm² or in 100 cm³: 0 up to one, then twice as many for each with rounded
// ends, 1000 for level 10, 130 000 for 17. It is LastLevel + 1 beyond the last. The ends are from published explanations of ISO 16232 and
// VDA 19.1.
func LevelOf(number float64) int {
	if number <= 0 {
		return NoneAllowed
	}
	level := 0
	for level <= LastLevel && number > LevelEnd(level)*(1+1e-9) {
		level++
	}
	return level
}

// LevelEnd is the most particles that a level from 0 on allows.
func LevelEnd(level int) float64 {
	ends := [...]float64{1, 2, 4, 8, 16, 32, 64, 130, 250, 500}
	return ends[level%10] * math.Pow(1000, float64(level/10))
}

// slope of the line of IEST-STD-CC1246.
const slope = 0.926

// LineThrough is the level whose line allows just so many particles of size x µm and more on 0.1 m², and 1 for as few as that or fewer.
func LineThrough(number, x float64) float64 {
	if number <= 0 {
		return 1
	}
	return math.Pow(10, math.Sqrt(math.Max(0, math.Log10(number)/slope+math.Pow(math.Log10(x), 2))))
}

// CountLimits are the ends, at 95 % with 2.5 % on each side, of the mean number from which a count may come by chance: the exact limits of
// Poisson's distribution, F. Garwood, Biometrika 28 (1936) 437. From 200 on the chi-square quantile in them is taken after E. B. Wilson and
// M. M. Hilferty, Proc. Natl. Acad. Sci. 17 (1931) 684, which is then within 0.01 % of it.
func CountLimits(count float64) (low, high float64) {
	if count >= 200 {
		return wilsonHilferty(count, -1), wilsonHilferty(count+1, 1)
	}
	n := int(count)
	if n > 0 {
		low = meanFor(n-1, 1-tail)
	}
	return low, meanFor(n, tail)
}

const (
	tail     = 0.025
	quantile = 1.959963985 // of the normal distribution, for tail
)

// wilsonHilferty is half of the chi-square quantile with 2·n degrees of freedom at the upper or lower tail.
func wilsonHilferty(n, side float64) float64 {
	return n * math.Pow(1-1/(9*n)+side*quantile/(3*math.Sqrt(n)), 3)
}

// meanFor is the mean for which a count of at most n has a probability.
func meanFor(n int, probability float64) float64 {
	low, high := 0., 2*float64(n)+20
	for range 60 {
		if m := (low + high) / 2; atMost(n, m) > probability {
			low = m
		} else {
			high = m
		}
	}
	return (low + high) / 2
}

// atMost is the probability of a count of at most n where the mean is given, below 450.
func atMost(n int, mean float64) float64 {
	term := math.Exp(-mean)
	sum := term
	for k := 1; k <= n; k++ {
		term *= mean / float64(k)
		sum += term
	}
	return sum
}
