package causes

import "math"

// Bounds of the search: they are for a manual with thousands of causes that all go with one thing; the demo stays far below the steps.
const (
	mostCauses = 5      // in a set
	keptSets   = 48     // the sets over which probabilities are told
	mostSteps  = 20_000 // sets that one search goes on from
)

// search looks for the sets of causes that explain best what is seen.
type search struct {
	observations []Observation
	causes       []Cause     // the model's and, last, something else
	looks        []Look      // one for each observation
	seen         []int       // the observations seen
	own          []float64   // of each cause: log of its odds before anything is seen, with what was looked for and not seen
	miss         [][]float64 // of each cause: the probability that it does not show each of the seen
	wanted       int         // a cause that every set has, needed or not; -1 for none
	keep         int         // how many sets are wanted
	best         []*found    // the likeliest first
	steps        int         // that are left
}

// found is a set of causes.
type found struct {
	causes []int
	miss   []float64 // of each of the seen: the probability that neither a cause of the set shows it nor chance
	score  float64   // log of its weight
}

// tell notes the causes of a set as told.
func (f *found) tell(told []bool) {
	for _, c := range f.causes {
		told[c] = true
	}
}

func (m *Model) search(looks []Look, keep int) *search {
	s := &search{observations: m.Observations, looks: make([]Look, len(m.Observations)), wanted: -1, keep: keep, steps: mostSteps}
	copy(s.looks, looks)
	unknown := Cause{Weight: elseWeight}
	at := make([]int, len(s.looks))
	for o, look := range s.looks {
		unknown.Signs = append(unknown.Signs, Sign{o, elseShows})
		if look == Seen {
			at[o] = len(s.seen)
			s.seen = append(s.seen, o)
		}
	}
	s.causes = append(m.Causes[:len(m.Causes):len(m.Causes)], unknown)
	for c := range s.causes {
		own, miss := math.Log(s.causes[c].Weight*atWork), filled(len(s.seen), 1)
		for _, sign := range s.causes[c].Signs {
			switch s.looks[sign.Observation] {
			case Seen:
				miss[at[sign.Observation]] = 1 - sign.P
			case NotSeen:
				own += math.Log(1 - sign.P)
			}
		}
		s.own, s.miss = append(s.own, own), append(s.miss, miss)
	}
	return s
}

// filled is a list of n equal numbers.
func filled(n int, v float64) []float64 {
	list := make([]float64, n)
	for i := range list {
		list[i] = v
	}
	return list
}

// none is the set without causes: chance alone.
func (s *search) none() *found {
	return &found{miss: filled(len(s.seen), 1-chance), score: float64(len(s.seen)) * math.Log(chance)}
}

// everything is every cause.
func (s *search) everything() []int {
	all := make([]int, len(s.causes))
	for c := range all {
		all[c] = c
	}
	return all
}

// speaks tells whether something that is seen speaks for a cause; where nothing is seen, every cause is still in question.
func (s *search) speaks(c int) bool {
	for _, q := range s.miss[c] {
		if q < 1 {
			return true
		}
	}
	return len(s.seen) == 0
}

// gain is what one more cause adds to the score of a set, of which miss is told.
func (s *search) gain(miss []float64, c int) float64 {
	gain := s.own[c]
	for i, q := range s.miss[c] {
		if q < 1 {
			gain += math.Log((1 - miss[i]*q) / (1 - miss[i]))
		}
	}
	return evenBits(gain)
}

// with is a set with one more cause.
func (s *search) with(f *found, c int) *found {
	g := &found{append(f.causes[:len(f.causes):len(f.causes)], c), make([]float64, len(f.miss)), f.score + s.gain(f.miss, c)}
	for i, q := range s.miss[c] {
		g.miss[i] = f.miss[i] * q
	}
	return g
}

// run searches the sets that add some of the candidates to a set.
//
// What a cause adds to a set's score never grows with the set, for the log of a noisy-OR is concave in the sum of what its causes bring (the negative
// synergy of Henrion 1991). So a cause that adds nothing to a set is not needed in any larger one, and no set gains more than its candidates would
// add to it now.
func (s *search) run(f *found, candidates []int) {
	s.steps--
	size := len(f.causes)
	if size > 0 && s.needs(f) {
		s.put(f)
	}
	room := mostCauses - size
	if room == 0 || s.steps < 0 || len(s.seen) == 0 && size > 0 {
		return
	}
	gains := make([]float64, len(s.causes))
	var more []int
	for _, c := range candidates {
		gains[c] = s.gain(f.miss, c)
		if c == s.wanted || gains[c] <= 0 && (size > 0 || !s.speaks(c)) {
			continue
		}
		more = append(more, c)
		for i := len(more) - 1; i > 0 && gains[more[i-1]] < gains[c]; i-- { // hardly ever far: the candidates stand in the order of the set before
			more[i-1], more[i] = c, more[i-1]
		}
	}
	for i, c := range more {
		bound := f.score + gains[c]
		for _, d := range more[i+1 : min(i+room, len(more))] {
			bound += max(0, gains[d])
		}
		if len(s.best) == s.keep && evenBits(bound) <= s.best[s.keep-1].score {
			return
		}
		s.run(s.with(f, c), more[i+1:])
	}
}

// needs tells whether a set needs each of its causes: whether it would lose by going without.
func (s *search) needs(f *found) bool {
	for _, c := range f.causes {
		without := make([]float64, len(f.miss))
		for i, q := range s.miss[c] {
			without[i] = f.miss[i] / q
		}
		if len(f.causes) > 1 && c != s.wanted && s.gain(without, c) <= 0 {
			return false
		}
	}
	return true
}

// put puts a set among the best; of equal ones the first that was found stays in front.
func (s *search) put(f *found) {
	f.score = evenBits(f.score)
	s.best = append(s.best, f)
	for i := len(s.best) - 1; i > 0 && s.best[i-1].score < f.score; i-- {
		s.best[i-1], s.best[i] = f, s.best[i-1]
	}
	s.best = s.best[:min(len(s.best), s.keep)]
}

// total is the log of the sum of the weights of the best sets.
func (s *search) total() float64 {
	sum := 0.0
	for _, f := range s.best {
		sum += math.Exp(f.score - s.best[0].score)
	}
	return s.best[0].score + math.Log(sum)
}
