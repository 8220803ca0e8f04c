package control

// Rule is what calls out a reading.
type Rule string

// The rules. The first four are those of the Western Electric handbook (1956), the last that of the moving average.
const (
	Beyond      Rule = "beyond-limits"     // a reading beyond three standard deviations
	TwoOfThree  Rule = "two-of-three"      // two of three in a row beyond two, on one side
	FourOfFive  Rule = "four-of-five"      // four of five in a row beyond one, on one side
	EightInARow Rule = "eight-on-one-side" // eight in a row on one side of the mean
	MovedMean   Rule = "moving-average"    // the moving average beyond its limits
)

// Rules lists them in their order.
var Rules = []Rule{Beyond, TwoOfThree, FourOfFive, EightInARow, MovedMean}

// Signal is a reading that a rule calls out: the one that completes the pattern.
type Signal struct {
	Rule Rule
	At   int // number of the reading, from 0
	High bool
}

// runs are the rules that count: so many of the last so many beyond so many standard deviations, on one side.
var runs = []struct {
	rule     Rule
	need, of int
	beyond   float64
}{{Beyond, 1, 1, Width}, {TwoOfThree, 2, 3, 2}, {FourOfFive, 4, 5, 1}, {EightInARow, 8, 8, 0}}

// Runs applies the run rules to readings, in their order. The reading that is called out is itself beyond the line that its rule counts.
func (c Individuals) Runs(readings []float64) []Signal {
	var list []Signal
	for i := range readings {
		for _, r := range runs {
			for _, high := range []bool{true, false} {
				if c.outside(readings[i], r.beyond, high) && c.count(readings[max(0, i+1-r.of):i+1], r.beyond, high) >= r.need {
					list = append(list, Signal{r.rule, i, high})
				}
			}
		}
	}
	return list
}

func (c Individuals) outside(x, beyond float64, high bool) bool {
	if high {
		return x > c.Mean+beyond*c.Sigma
	}
	return x < c.Mean-beyond*c.Sigma
}

func (c Individuals) count(readings []float64, beyond float64, high bool) int {
	n := 0
	for _, x := range readings {
		if c.outside(x, beyond, high) {
			n++
		}
	}
	return n
}

// Moved calls out the averages beyond their limits.
func Moved(averages []Average) []Signal {
	var list []Signal
	for i, a := range averages {
		if a.Value > a.Upper || a.Value < a.Lower {
			list = append(list, Signal{MovedMean, i, a.Value > a.Upper})
		}
	}
	return list
}
