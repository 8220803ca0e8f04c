package causes

import (
	"math"
	"slices"
)

// Bounds of the search: they are for a manual with thousands of causes that all go with one thing; the demo stays far below the steps.
const (
	mostCauses = 5      // in a set
	keptSets   = 48     // the sets over which probabilities are told
	mostSteps  = 20_000 // sets that one search goes on from
)

// search looks for the sets of causes that explain best what is seen.
type search struct {
	m      *Model
	seen   []int       // the observations seen
	own    []float64   // of each cause, something else last: log of its odds before anything is seen, with what was looked for and not seen
	miss   [][]float64 // of each cause: the probability that it does not show each of the seen
	wanted int         // a cause that every set has, needed or not; -1 for none
	keep   int         // how many sets are wanted
	best   []found     // the likeliest first
	steps  int         // that are left
}

// found is a set of causes.
type found struct {
	causes []int
	miss   []float64 // of each of the seen: the probability that neither a cause of the set shows it nor chance
	score  float64   // log of its weight
}

// tell notes the causes of a set as told.
func (f found) tell(told []bool) {
	for _, c := range f.causes {
		told[c] = true
	}
}

func (m *Model) search(looks []Look, keep int) *search {
	s := &search{m: m, wanted: -1, keep: keep, steps: mostSteps}
	at := make([]int, len(looks))
	for o, look := range looks {
		if look == Seen {
			at[o] = len(s.seen)
			s.seen = append(s.seen, o)
		}
	}
	for c := range len(m.Causes) + 1 {
		own, miss := math.Log(elseWeight*atWork), slices.Repeat([]float64{1}, len(s.seen))
		take := func(o int, p float64) {
			switch {
			case o >= len(looks) || looks[o] == NotLooked:
			case looks[o] == Seen:
				miss[at[o]] = 1 - p
			default:
				own += math.Log(1 - p)
			}
		}
		if c < len(m.Causes) {
			own = math.Log(m.Causes[c].Weight * atWork)
			for _, sign := range m.Causes[c].Signs {
				take(sign.Observation, sign.P)
			}
		} else {
			for o := range looks {
				take(o, elseShows)
			}
		}
		s.own, s.miss = append(s.own, own), append(s.miss, miss)
	}
	return s
}

// none is the set without causes: chance alone.
func (s *search) none() found {
	return found{miss: slices.Repeat([]float64{1 - chance}, len(s.seen)), score: float64(len(s.seen)) * math.Log(chance)}
}

// everything is every cause.
func (s *search) everything() []int {
	all := make([]int, len(s.own))
	for c := range all {
		all[c] = c
	}
	return all
}

// speaks tells whether something that is seen speaks for a cause; where nothing is seen, every cause is still in question.
func (s *search) speaks(c int) bool {
	return len(s.seen) == 0 || slices.ContainsFunc(s.miss[c], func(q float64) bool { return q < 1 })
}

// gain is what one more cause adds to the score of a set.
func (s *search) gain(f found, c int) float64 {
	gain := s.own[c]
	for i, q := range s.miss[c] {
		if q < 1 {
			gain += math.Log((1 - f.miss[i]*q) / (1 - f.miss[i]))
		}
	}
	return evenBits(gain)
}

// with is a set with one more cause.
func (s *search) with(f found, c int) found {
	g := found{append(slices.Clone(f.causes), c), slices.Clone(f.miss), f.score + s.gain(f, c)}
	for i, q := range s.miss[c] {
		g.miss[i] *= q
	}
	return g
}

// run searches the sets that add some of the candidates to a set.
//
// What a cause adds to a set's score never grows with the set, for the log of a noisy-OR is concave in the sum of what its causes bring (the negative
// synergy of Henrion 1991). So a cause that adds nothing to a set is not needed in any larger one, and no set gains more than its candidates would
// add to it now.
func (s *search) run(f found, candidates []int) {
	if s.steps--; s.steps < 0 {
		return
	}
	s.offer(f)
	room := mostCauses - len(f.causes)
	if room == 0 || len(s.seen) == 0 && len(f.causes) > 0 {
		return
	}
	var more []int
	var gains []float64
	for _, c := range candidates {
		if slices.Contains(f.causes, c) {
			continue
		}
		if gain := s.gain(f, c); gain > 0 || len(f.causes) == 0 && s.speaks(c) {
			more, gains = append(more, c), append(gains, gain)
		}
	}
	order := falling(len(more), func(i int) float64 { return gains[i] })
	rest := make([]int, len(more))
	for i, from := range order {
		rest[i] = more[from]
	}
	for i, c := range rest {
		bound := f.score + gains[order[i]]
		for _, from := range order[i+1 : min(i+room, len(order))] {
			bound += max(0, gains[from])
		}
		if len(s.best) == s.keep && evenBits(bound) <= s.best[s.keep-1].score {
			return
		}
		s.run(s.with(f, c), rest[i+1:])
	}
}

// offer puts a set among the best, if it needs each of its causes: if it would lose by going without.
func (s *search) offer(f found) {
	if len(f.causes) == 0 {
		return
	}
	for _, c := range f.causes {
		without := slices.Clone(f.miss)
		for i, q := range s.miss[c] {
			without[i] /= q
		}
		if len(f.causes) > 1 && c != s.wanted && s.gain(found{miss: without}, c) <= 0 {
			return
		}
	}
	f.score = evenBits(f.score)
	at := len(s.best)
	for at > 0 && s.best[at-1].score < f.score {
		at--
	}
	if at < s.keep {
		s.best = slices.Insert(s.best, at, f)
		s.best = s.best[:min(len(s.best), s.keep)]
	}
}

// total is the log of the sum of the weights of the best sets.
func (s *search) total() float64 {
	sum, most := 0.0, 0.0
	for i, f := range s.best {
		if i == 0 {
			most = f.score
		}
		sum += math.Exp(f.score - most)
	}
	return most + math.Log(sum)
}
