// Package causes ranks what may have gone wrong by how well it explains what is seen: the same code in the page and in the tests.
//
// A manual's remedies say with which observations each cause goes, in three words. The words stand for probabilities, which are ours and
// stated here, not measured: it is the order and the weight of evidence that count, not the last digit.
//
//	typical     0.8     seen in four cases of five
//	sometimes   0.3
//	rare        0.05
//	not named   0.02    seen by chance, beside the cause
//
// # The arithmetic
//
// It is Bayes' theorem with the observations taken as independent once the cause is known (naive Bayes). One cause is at work, out of those of
// the manual or “something else”. Each has a weight before anything is seen: the probability of the word for how common it is;
// something else weighs as much as a cause that is “sometimes” there, and shows every observation with probability 0.1. Then
//
//	log P(cause | looks) = log weight(cause) + Σ log P(look | cause) − log Σ over all causes and something else
//
// where P(look | cause) is the probability p of the observation's word where it is seen, 1 − p where it was looked for and not seen. What was not
// looked for leaves every cause as it was. The weight of evidence of a look for a cause is log₂ of P(look | cause) / P(look | something else), in
// bits (I. J. Good, Probability and the Weighing of Evidence, 1950): the sum of the weights is what the looks have added to the log-odds of
// the cause against something else, exactly.
//
// The next look is the one from which most is to be learnt for its time: the expected information in bits (the mutual information of cause and
// observation, as matters now) divided by the minutes that the look takes.
//
// Nothing here depends on package fmt or encoding/json: the code is small enough for a page.
package causes

import (
	"cmp"
	"math"
	"slices"
)

// Often says how often an observation goes with a cause, or how common a cause is.
type Often uint8

// The words of a manual. NotNamed is for what the cause's remedy does not speak of.
const (
	NotNamed Often = iota
	Rare
	Sometimes
	Typical
)

// Words are the words of a manual in the order of Often; the first is not written.
var Words = [...]string{NotNamed: "", Rare: "rare", Sometimes: "sometimes", Typical: "typical"}

// Probability is the number that a word stands for, from 0 to 1.
func (o Often) Probability() float64 {
	switch o {
	case Typical:
		return 0.8
	case Sometimes:
		return 0.3
	case Rare:
		return 0.05
	}
	return 0.02
}

// Something else: what the manual does not know.
const (
	elseWeight = 0.3 // as a cause that is sometimes there
	elseShows  = 0.1 // the probability of any observation
)

// Look is what is known of an observation.
type Look uint8

// A look that was not taken says nothing; one in vain says something.
const (
	NotLooked Look = iota
	Seen
	NotSeen
)

// Observation is something that can be seen, with the time that it takes to look.
type Observation struct {
	Name    string
	Minutes float64 // above 0
}

// Sign is an observation that goes with a cause.
type Sign struct {
	Observation int // index in Model.Observations
	P           float64
}

// Cause is something that may be wrong.
type Cause struct {
	Name   string
	Weight float64 // before anything is seen, above 0; weights need not sum to one
	Hurts  bool    // it could hurt somebody: it is never left out of an answer
	Signs  []Sign  // each observation at most once
}

// Model is what a manual knows of causes. A Model without Else knows every cause there is.
type Model struct {
	Observations []Observation
	Causes       []Cause
	Unnamed      float64 // probability of an observation that a cause does not name
	ElseWeight   float64 // of something else; 0 where there is nothing else
	ElseShows    float64
}

// New gives an empty model with the probabilities of this package.
func New() *Model {
	return &Model{Unnamed: NotNamed.Probability(), ElseWeight: elseWeight, ElseShows: elseShows}
}

// Evidence is what a look says of a cause: its weight in bits is above 0 for it, below 0 against it.
type Evidence struct {
	Observation int
	Bits        float64
}

// Ranked is a cause in an answer.
type Ranked struct {
	Cause       int     // index in Model.Causes
	Probability float64 // from 0 to 1; with Answer.Else they sum to one
	Evidence    []Evidence
}

// Next is a look that may be taken next.
type Next struct {
	Observation int
	Bits        float64 // expected information
	Minutes     float64
}

// Answer is the ranking of all causes, the likeliest first. None is left out: who shows only the first of them still has those that
// could hurt somebody.
type Answer struct {
	Causes []Ranked
	Else   float64 // probability of something that the manual does not know
	Next   []Next  // looks not yet taken from which something is to be learnt, the best bargain first
}

// Rank ranks the causes by what is known of the observations. looks may be shorter than Observations: the rest was not looked for.
func (m *Model) Rank(looks []Look) Answer {
	looks = looks[:min(len(looks), len(m.Observations))]
	p := m.table()
	logs := make([]float64, 0, len(m.Causes)+1)
	for c := range m.Causes {
		logs = append(logs, math.Log(m.Causes[c].Weight)+logOf(looks, p[c]))
	}
	logs = append(logs, math.Log(m.ElseWeight)+logOf(looks, p[len(m.Causes)]))
	posterior := normal(logs)

	var a Answer
	a.Else = posterior[len(m.Causes)]
	for c := range m.Causes {
		r := Ranked{Cause: c, Probability: posterior[c]}
		for o, look := range looks {
			if look != NotLooked {
				r.Evidence = append(r.Evidence, Evidence{o, evenBits(math.Log2(chance(look, p[c][o]) / chance(look, p[len(m.Causes)][o])))})
			}
		}
		sortFalling(r.Evidence, func(e Evidence) float64 { return math.Abs(e.Bits) })
		a.Causes = append(a.Causes, r)
	}
	sortFalling(a.Causes, func(r Ranked) float64 { return r.Probability })
	a.Next = m.next(looks, posterior, p)
	return a
}

// table gives the probability of each observation under each cause; the last row is something else's.
func (m *Model) table() [][]float64 {
	rows := make([][]float64, len(m.Causes)+1)
	for c := range rows {
		row := make([]float64, len(m.Observations))
		for o := range row {
			row[o] = m.Unnamed
			if c == len(m.Causes) {
				row[o] = m.ElseShows
			}
		}
		if c < len(m.Causes) {
			for _, s := range m.Causes[c].Signs {
				row[s.Observation] = s.P
			}
		}
		rows[c] = row
	}
	return rows
}

// chance is the probability of a look where the observation has probability p.
func chance(look Look, p float64) float64 {
	switch look {
	case Seen:
		return p
	case NotSeen:
		return 1 - p
	}
	return 1
}

func logOf(looks []Look, p []float64) float64 {
	sum := 0.0
	for o, look := range looks {
		if look != NotLooked {
			sum += math.Log(chance(look, p[o]))
		}
	}
	return sum
}

// normal turns logarithms of weights into probabilities. Where every weight is zero nothing is known of any, and all are zero.
func normal(logs []float64) []float64 {
	most := slices.Max(logs)
	list := make([]float64, len(logs))
	if math.IsInf(most, -1) {
		return list
	}
	sum := 0.0
	for i, l := range logs {
		list[i] = math.Exp(l - most)
		sum += list[i]
	}
	for i := range list {
		list[i] = even(list[i] / sum)
	}
	return list
}

// even rounds to 34 binary digits: processors differ in the last digits of a logarithm, and the order of causes that are equally likely must not
// hang on them.
func even(v float64) float64 {
	fraction, exponent := math.Frexp(v)
	return math.Ldexp(math.Round(fraction*(1<<34)), exponent-34)
}

// evenBits does the same for information, to a billionth of a bit.
func evenBits(v float64) float64 { return math.Round(v*1e9) / 1e9 }

// next ranks the looks that were not taken by what is to be expected of them for their time.
func (m *Model) next(looks []Look, posterior []float64, p [][]float64) []Next {
	const worthwhile = 1e-6 // bits
	var list []Next
	for o, observation := range m.Observations {
		if o < len(looks) && looks[o] != NotLooked {
			continue
		}
		seen, rest := 0.0, 0.0 // probability that it is seen; entropy that remains once the cause is known
		for c, q := range posterior {
			seen += q * p[c][o]
			rest += q * entropy(p[c][o])
		}
		if bits := evenBits(entropy(seen) - rest); bits > worthwhile {
			list = append(list, Next{o, bits, observation.Minutes})
		}
	}
	sortFalling(list, func(n Next) float64 { return n.Bits / n.Minutes })
	return list
}

// entropy of something with probability p, in bits.
func entropy(p float64) float64 {
	if p <= 0 || p >= 1 {
		return 0
	}
	return -p*math.Log2(p) - (1-p)*math.Log2(1-p)
}

// sortFalling sorts a list by falling keys; equal ones keep their order.
func sortFalling[T any](list []T, key func(T) float64) {
	keys, before := make([]float64, len(list)), slices.Clone(list)
	for i, item := range list {
		keys[i] = key(item)
	}
	for to, from := range falling(keys) {
		list[to] = before[from]
	}
}

// falling gives the places of keys in falling order. It is found over numbers, so that the browser's module has one sort and not one for each kind of
// list; and by putting each in its place, since a manual has hundreds of causes at most and the library's stable sort takes 6 kB.
func falling(keys []float64) []int {
	order := make([]int, len(keys))
	for i, key := range keys {
		at := i
		for ; at > 0 && cmp.Less(keys[order[at-1]], key); at-- {
			order[at] = order[at-1]
		}
		order[at] = i
	}
	return order
}
