package control

import (
	"math"
	"math/rand/v2"
	"testing"
)

// runLength is the mean number of readings until a chart calls one out, and the error of that mean. The readings are normal with deviation 1 and shifted by
// so many deviations; first gives the number of the first reading called out, at least 1.
func runLength(seed uint64, runs int, first func(next func() float64) int, shift float64) (mean, err float64) {
	r := rand.New(rand.NewPCG(seed, 42))
	sum, squares := 0.0, 0.0
	for range runs {
		n := float64(first(func() float64 { return shift + r.NormFloat64() }))
		sum, squares = sum+n, squares+n*n
	}
	mean = sum / float64(runs)
	return mean, math.Sqrt((squares/float64(runs) - mean*mean) / float64(runs))
}

// untilRun draws readings until one of the rules calls one out.
func untilRun(rules ...Rule) func(func() float64) int {
	c := Individuals{Sigma: 1}
	wanted := map[Rule]bool{}
	for _, r := range rules {
		wanted[r] = true
	}
	return func(next func() float64) int {
		var last []float64
		for n := 1; ; n++ {
			if last = append(last, next()); len(last) > 8 {
				last = last[1:]
			}
			for _, s := range c.Runs(last) {
				if s.At == len(last)-1 && wanted[s.Rule] {
					return n
				}
			}
		}
	}
}

// untilMoved draws readings until the moving average passes limits that stand where they are far from the start, as in the published tables.
func untilMoved(lambda, width float64) func(func() float64) int {
	limit := Averages(make([]float64, 4000), 0, 1, lambda, width)[3999].Upper
	return func(next func() float64) int {
		z := 0.0
		for n := 1; ; n++ {
			if z = Averages([]float64{next()}, z, 1, lambda, width)[0].Value; math.Abs(z) > limit {
				return n
			}
		}
	}
}

// How long a chart runs until it calls out a reading, simulated, against published figures.
func TestRunLengthsAgainstPublishedTables(t *testing.T) {
	for _, row := range []struct {
		source      string
		first       func(func() float64) int
		shift, want float64
		runs        int
	}{
		{"individuals: 1/0.0027 = 370.4, NIST/SEMATECH e-Handbook, 6.3.2", untilRun(Beyond), 0, 370.4, 4000},
		{"individuals, shift of 1: 43.9, Champ and Woodall (1987), table 1, from memory", untilRun(Beyond), 1, 43.89, 8000},
		{"all four rules: 91.75, Champ and Woodall, Technometrics 29 (1987), 393–399", untilRun(Beyond, TwoOfThree, FourOfFive, EightInARow), 0, 91.75, 6000},
		{"EWMA 0.20, 2.962: Lucas and Saccucci (1990), table 3, from memory", untilMoved(0.20, 2.962), 0, 500, 4000},
		{"EWMA 0.20, 2.962, shift of 0.5", untilMoved(0.20, 2.962), 0.5, 41.8, 8000},
		{"EWMA 0.20, 2.962, shift of 1", untilMoved(0.20, 2.962), 1, 10.5, 20000},
		{"EWMA 0.10, 2.814, shift of 0.5", untilMoved(0.10, 2.814), 0.5, 31.3, 8000},
		{"EWMA 0.40, 3.054, shift of 1", untilMoved(0.40, 3.054), 1, 14.3, 20000},
		{"EWMA 0.25, 3, shift of 1: 11.154267, Crowder's method, Technometrics 29 (1987), as a vendor's manual prints it", untilMoved(0.25, 3), 1, 11.154267, 40000},
	} {
		got, err := runLength(20261129, row.runs, row.first, row.shift)
		// Four errors of the mean, and half a unit of the last digit that is printed.
		if within := 4*err + 0.05; math.Abs(got-row.want) > within {
			t.Errorf("%s: %.2f ± %.2f, want %.2f", row.source, got, within, row.want)
		}
		t.Logf("%s: %.2f ± %.2f", row.source, got, err)
	}
}

// falseTrends is the share of rows of n readings, each hanging together with the one before by rho and going nowhere, in which a slope is found whose
// probability by chance is below p.
func falseTrends(n int, rho, p float64) float64 {
	r := rand.New(rand.NewPCG(7, uint64(n)))
	const rows = 4000
	found := 0
	times, readings := make([]float64, n), make([]float64, n)
	for range rows {
		x := r.NormFloat64() / math.Sqrt(1-rho*rho)
		for i := range readings {
			times[i], readings[i] = float64(i), x
			x = rho*x + r.NormFloat64()
		}
		if trend, told := TrendOf(times, readings); told && trend.P < p {
			found++
		}
	}
	return float64(found) / rows
}

// A trend of what goes nowhere is found no more often than is promised, and not much more often where readings hang together.
func TestFalseTrends(t *testing.T) {
	for _, row := range []struct {
		n           int
		rho, atMost float64
	}{{8, 0, 0.013}, {12, 0, 0.013}, {30, 0, 0.013}, {12, 0.3, 0.04}, {30, 0.3, 0.025}, {30, 0.6, 0.05}} {
		if got := falseTrends(row.n, row.rho, 0.01); got > row.atMost {
			t.Errorf("of %d readings that hang together by %.1f: %.4f, at most %.3f", row.n, row.rho, got, row.atMost)
		} else {
			t.Logf("of %d readings that hang together by %.1f: %.4f", row.n, row.rho, got)
		}
	}
}

// The band holds the true time of crossing about as often as it says.
func TestBandOfCrossing(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 9))
	const rows, n, slope, limit = 2000, 20, -0.05, 3.0
	inside := 0
	times, readings := make([]float64, n), make([]float64, n)
	for range rows {
		for i := range times {
			times[i], readings[i] = float64(i), 5+slope*float64(i)+0.15*r.NormFloat64()
		}
		trend, _ := TrendOf(times, readings)
		c := trend.Meets(limit, false, 400, 0.95)
		if truly := (limit - 5) / slope; c.Earliest <= truly && truly <= c.Latest {
			inside++
		}
	}
	if share := float64(inside) / rows; share < 0.93 {
		t.Errorf("the band holds the true time in %.3f of the rows", share)
	} else {
		t.Logf("the band holds the true time in %.3f of the rows", share)
	}
}
