package causes_test

import (
	"math"
	"slices"

	"tankside/builder/decide/causes"
)

// oneCause ranks single causes as if one alone were at work: Bayes' theorem with the observations taken as independent once the cause is known, and
// 0.02 for what a cause does not name. It is what sets of causes are compared with, and gives the first n causes.
func oneCause(m *causes.Model, looks []causes.Look, n int) []int {
	scores, order := make([]float64, len(m.Causes)), make([]int, len(m.Causes))
	for c, cause := range m.Causes {
		p := slices.Repeat([]float64{0.02}, len(m.Observations))
		for _, sign := range cause.Signs {
			p[sign.Observation] = sign.P
		}
		order[c], scores[c] = c, math.Log(cause.Weight)
		for o, look := range looks {
			switch look {
			case causes.Seen:
				scores[c] += math.Log(p[o])
			case causes.NotSeen:
				scores[c] += math.Log(1 - p[o])
			}
		}
	}
	slices.SortStableFunc(order, func(a, b int) int {
		switch {
		case scores[a] > scores[b]:
			return -1
		case scores[a] < scores[b]:
			return 1
		}
		return 0
	})
	first := order[:n]
	slices.Sort(first)
	return first
}
