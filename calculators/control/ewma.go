package control

import "math"

// Lambda is the share of the newest reading in the average. NIST/SEMATECH e-Handbook, 6.3.2.4: between 0.2 and 0.3 as a rule; the smaller finds
// slow drift sooner.
const Lambda = 0.2

// Average is the exponentially weighted moving average after a reading, with its limits there.
type Average struct{ Value, Upper, Lower float64 }

// Averages gives the moving average after each reading: lambda times the reading and the rest of what it was before, beginning at the target. The
// limits stand width standard deviations of the average from the target; they widen from reading to reading, as the average comes to rest on more of them.
func Averages(readings []float64, target, sigma, lambda, width float64) []Average {
	list := make([]Average, len(readings))
	z, left := target, 1.0
	far := width * sigma * math.Sqrt(lambda/(2-lambda))
	for i, x := range readings {
		z = lambda*x + (1-lambda)*z
		left *= (1 - lambda) * (1 - lambda)
		away := far * math.Sqrt(1-left)
		list[i] = Average{z, target + away, target - away}
	}
	return list
}
