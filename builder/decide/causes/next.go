package causes

import "math"

// next ranks the looks that were not taken by what is to be expected of them for their time, over the sets found, and says what the first would tell.
func (s *search) next(total float64) []Next {
	const worthwhile = 1e-6 // bits
	n := len(s.observations)
	seen, rest := make([]float64, n), make([]float64, n) // probability that it is seen; entropy that remains once the set is known
	for _, f := range s.best {
		p, miss := math.Exp(f.score-total), filled(n, 1-chance)
		for _, c := range f.causes {
			for _, sign := range s.causes[c].Signs {
				miss[sign.Observation] *= 1 - sign.P
			}
		}
		for o, q := range miss {
			seen[o] += p * (1 - q)
			rest[o] += p * entropy(q)
		}
	}
	var list []Next
	for o, look := range s.looks {
		bits := evenBits(entropy(seen[o]) - rest[o])
		if look != NotLooked || bits <= worthwhile {
			continue
		}
		list = append(list, Next{Observation: o, Bits: bits, Minutes: s.observations[o].Minutes})
		for i := len(list) - 1; i > 0 && list[i].Bits/list[i].Minutes > list[i-1].Bits/list[i-1].Minutes; i-- {
			list[i], list[i-1] = list[i-1], list[i]
		}
		list = list[:min(len(list), mostNext)]
	}
	for i := range list {
		n := &list[i]
		n.IfSeen, n.IfNotSeen = s.first(n.Observation, Seen), s.first(n.Observation, NotSeen)
	}
	return list
}

// first gives the causes of the likeliest set where one more look has been taken, in the order in which they would be told.
func (s *search) first(o int, look Look) []int {
	s.looks[o] = look
	m := Model{s.observations, s.causes[:len(s.causes)-1]}
	one := m.search(s.looks, 1)
	s.looks[o] = NotLooked
	one.run(one.none(), one.everything())
	t := one.set(one.best[0], 1)
	var list []int
	for i := range t.Parts {
		list = append(list, t.Parts[i].Cause)
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
