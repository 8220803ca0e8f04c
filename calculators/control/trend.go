package control

import "math"

// FewestForTrend is how many readings a trend needs at least: with fewer, its band is wider than any window. Our own limit.
const FewestForTrend = 8

// Trend is the straight line through readings by least squares, with how sure it is.
type Trend struct {
	N         int
	Slope     float64 // per unit of time
	Error     float64 // standard error of the slope
	P         float64 // probability of a slope at least as steep, either way, where there is none
	From, To  float64 // time of the first reading and of the last
	Together  float64 // correlation of neighbouring residuals, 0 where it is negative
	middle    float64 // mean time
	level     float64 // at the mean time
	spread    float64 // sum of squares of the times
	deviation float64 // of the residuals
	wider     float64 // by how much errors grow because readings hang together
	freedom   float64
}

// TrendOf draws the line through readings. It is false where there are fewer than [FewestForTrend], or all at one time.
//
// Readings of a bath hang together from one day to the next: what is left of them besides the line is correlated, and a line through such readings looks
// surer than it is. So errors are widened by the lag-1 correlation r of what is left, by the root of (1+r)/(1−r), and the degrees of freedom are those of
// as many readings as would tell as much.
func TrendOf(times, readings []float64) (t Trend, told bool) {
	t.N = len(readings)
	if t.N < FewestForTrend || len(times) != t.N {
		return t, false
	}
	t.From, t.To = times[0], times[0]
	for _, x := range times {
		t.From, t.To = min(t.From, x), max(t.To, x)
	}
	t.middle, t.level = mean(times), mean(readings)
	across := 0.0
	for i, x := range times {
		t.spread += (x - t.middle) * (x - t.middle)
		across += (x - t.middle) * (readings[i] - t.level)
	}
	if !(t.spread > 0) || math.IsInf(t.spread, 0) || math.IsNaN(across) || math.IsInf(across, 0) {
		return t, false
	}
	t.Slope = across / t.spread
	left := make([]float64, t.N)
	sum, neighbours := 0.0, 0.0
	for i, x := range times {
		left[i] = readings[i] - t.At(x)
		sum += left[i] * left[i]
		if i > 0 {
			neighbours += left[i] * left[i-1]
		}
	}
	if sum > 0 {
		// The correlation is found too small in a short row, the more so behind a fitted line, by about (1+4r)/n; Kendall, Biometrika 41 (1954), 403.
		r := neighbours / sum
		t.Together = max(0, min(0.9, r+(1+4*max(0, r))/float64(t.N)))
		if r <= 0 {
			t.Together = 0
		}
	}
	t.wider = math.Sqrt((1 + t.Together) / (1 - t.Together))
	t.deviation = math.Sqrt(sum / float64(t.N-2))
	t.freedom = max(1, float64(t.N)*(1-t.Together)/(1+t.Together)-2)
	t.Error = t.wider * t.deviation / math.Sqrt(t.spread)
	switch {
	case t.Slope == 0:
		t.P = 1
	case t.Error > 0:
		t.P = 2 * Tail(math.Abs(t.Slope)/t.Error, t.freedom)
	}
	return t, true
}

// At is the line at a time.
func (t Trend) At(time float64) float64 { return t.level + t.Slope*(time-t.middle) }

// band is how far the line may be off at a time, either way, by a quantile of Student's distribution.
func (t Trend) band(time, quantile float64) float64 {
	return quantile * t.wider * t.deviation * math.Sqrt(1/float64(t.N)+(time-t.middle)*(time-t.middle)/t.spread)
}

// SlopeBand is how far the slope may be off, either way.
func (t Trend) SlopeBand(confidence float64) float64 {
	return Quantile(1-(1-confidence)/2, t.freedom) * t.Error
}

// Crossing is when the line meets a limit, and when it does so at the earliest and at the latest. A time beyond the horizon is +Inf.
type Crossing struct{ At, Earliest, Latest float64 }

// Meets gives the time from the last reading on, up to a horizon, at which the line meets a limit; upper tells on which side the limit is. Whoever is
// beyond the limit already meets it at the last reading.
func (t Trend) Meets(limit float64, upper bool, horizon, confidence float64) Crossing {
	sign, quantile := 1.0, Quantile(1-(1-confidence)/2, t.freedom)
	if !upper {
		sign = -1
	}
	first := func(level func(time float64) float64) float64 {
		beyond := func(time float64) bool { return sign*(level(time)-limit) >= 0 }
		// Line and band go one way or turn once: where they turn, the limit is met before or at the horizon, and steps find it.
		const steps = 400
		before := t.To
		if beyond(before) {
			return before
		}
		for i := 1; i <= steps; i++ {
			at := t.To + (horizon-t.To)*float64(i)/steps
			if beyond(at) {
				return bisect(before, at, beyond)
			}
			before = at
		}
		return math.Inf(1)
	}
	return Crossing{
		At:       first(t.At),
		Earliest: first(func(at float64) float64 { return t.At(at) + sign*t.band(at, quantile) }),
		Latest:   first(func(at float64) float64 { return t.At(at) - sign*t.band(at, quantile) }),
	}
}

// bisect gives the time between two at which something becomes true.
func bisect(not, is float64, true func(float64) bool) float64 {
	for range 60 {
		if middle := (not + is) / 2; true(middle) {
			is = middle
		} else {
			not = middle
		}
	}
	return is
}
