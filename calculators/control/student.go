package control

import "math"

// Student's distribution, by the regularised incomplete beta function: NIST Digital Library of Mathematical Functions, 8.17.22 (continued fraction),
// and Abramowitz and Stegun (1964), 26.7.1. Tests compare with a statistics library.

// Tail is the probability that a variable of Student's distribution exceeds t, which is at least 0.
func Tail(t, freedom float64) float64 {
	if math.IsInf(t, 1) {
		return 0
	}
	return beta(freedom/(freedom+t*t), freedom/2, 0.5) / 2
}

// Quantile is the value below which a variable of Student's distribution stays with a probability from 0.5 to less than 1.
func Quantile(p, freedom float64) float64 {
	low, high := 0.0, 1.0
	for Tail(high, freedom) > 1-p && high < 1e12 {
		high *= 2
	}
	for range 200 {
		middle := (low + high) / 2
		if Tail(middle, freedom) > 1-p {
			low = middle
		} else {
			high = middle
		}
	}
	return (low + high) / 2
}

// beta is the regularised incomplete beta function I_x(a, b).
func beta(x, a, b float64) float64 {
	if x <= 0 {
		return 0
	}
	if x >= 1 {
		return 1
	}
	if x > (a+1)/(a+b+2) {
		return 1 - beta(1-x, b, a)
	}
	ga, _ := math.Lgamma(a)
	gb, _ := math.Lgamma(b)
	gab, _ := math.Lgamma(a + b)
	return math.Exp(gab-ga-gb+a*math.Log(x)+b*math.Log1p(-x)) / a * fraction(x, a, b)
}

// fraction is the continued fraction of the incomplete beta function, by Lentz's method.
func fraction(x, a, b float64) float64 {
	const least = 1e-300
	safe := func(v float64) float64 {
		if math.Abs(v) < least {
			return least
		}
		return v
	}
	c, d := 1.0, 1/safe(1-(a+b)*x/(a+1))
	f := d
	for m := 1.0; m <= 500; m++ {
		even := m * (b - m) * x / ((a + 2*m - 1) * (a + 2*m))
		d, c = 1/safe(1+even*d), safe(1+even/c)
		f *= d * c
		odd := -(a + m) * (a + b + m) * x / ((a + 2*m) * (a + 2*m + 1))
		d, c = 1/safe(1+odd*d), safe(1+odd/c)
		f *= d * c
		if math.Abs(d*c-1) < 1e-15 {
			break
		}
	}
	return f
}
