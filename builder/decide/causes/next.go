package causes

import (
	"math"
	"slices"
)

// next ranks the looks that were not taken by what is to be expected of them for their time, over the sets found, and says what the first would tell.
func (s *search) next(looks []Look, total float64) []Next {
	const worthwhile = 1e-6 // bits
	n := len(s.m.Observations)
	seen, rest := make([]float64, n), make([]float64, n) // probability that it is seen; entropy that remains once the set is known
	miss := make([]float64, n)
	for _, f := range s.best {
		p := math.Exp(f.score - total)
		for o := range miss {
			miss[o] = 1 - chance
		}
		for _, c := range f.causes {
			if c == len(s.m.Causes) {
				for o := range miss {
					miss[o] *= 1 - elseShows
				}
				continue
			}
			for _, sign := range s.m.Causes[c].Signs {
				miss[sign.Observation] *= 1 - sign.P
			}
		}
		for o, q := range miss {
			seen[o] += p * (1 - q)
			rest[o] += p * entropy(q)
		}
	}
	var list []Next
	for o, observation := range s.m.Observations {
		if o < len(looks) && looks[o] != NotLooked {
			continue
		}
		if bits := evenBits(entropy(seen[o]) - rest[o]); bits > worthwhile {
			list = append(list, Next{Observation: o, Bits: bits, Minutes: observation.Minutes})
		}
	}
	sortFalling(list, func(n Next) float64 { return n.Bits / n.Minutes })
	list = list[:min(len(list), mostNext)]
	for i := range list {
		list[i].IfSeen = s.m.first(looks, list[i].Observation, Seen)
		list[i].IfNotSeen = s.m.first(looks, list[i].Observation, NotSeen)
	}
	return list
}

// first gives the causes of the likeliest set where one more look has been taken, in the order in which they would be told.
func (m *Model) first(looks []Look, o int, look Look) []int {
	looks = append(slices.Clone(looks), make([]Look, max(0, o+1-len(looks)))...)
	looks[o] = look
	s := m.search(looks, 1)
	s.run(s.none(), s.everything())
	var list []int
	for _, part := range s.set(s.best[0], 1, looks).Parts {
		list = append(list, part.Cause)
	}
	return list
}

// entropy of something with probability p, in bits.
func entropy(p float64) float64 {
	if p <= 0 || p >= 1 {
		return 0
	}
	return -p*math.Log2(p) - (1-p)*math.Log2(1-p)
}
