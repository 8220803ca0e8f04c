// Package causes finds the smallest sets of causes that explain all that is seen: the same code in the page, in the command and in the tests.
//
// A manual's remedies say with which observations each cause goes, in three words. The words stand for probabilities, which are ours and
// stated here, not measured: it is the order and the weight of evidence that count, not the last digit.
//
//	typical     0.8     seen in four cases of five
//	sometimes   0.3
//	rare        0.05
//
// # The arithmetic
//
// Several causes may be at work. Each shows its observations by itself, whatever else is there, so an observation is missing only where every
// cause fails to show it: the noisy-OR (J. Pearl, Probabilistic Reasoning in Intelligent Systems, 1988, section 4.3.2), with a leak for chance
// (M. Henrion, Some Practical Issues in Constructing Belief Networks, 1989). With the causes of a set S
//
//	P(seen | S)     = 1 − (1 − 0.001) · Π over the causes of (1 − p)
//	P(not seen | S) =     (1 − 0.001) · Π over the causes of (1 − p)
//
// where a cause that does not name an observation has no part in the product: it is neither for such a cause nor against it. What was not looked for
// has no factor. The weight of a set is the product of these and of its causes' odds before anything is seen, a tenth of the probability of the
// word for how common each is: the relative likelihood of the probabilistic causal model (Y. Peng and J. A. Reggia, Abductive Inference Models for
// Diagnostic Problem-Solving, 1990, chapter 4), with the leak. “Something else”, what the manual does not know, is one more cause: it is as common as one
// that is there sometimes, and shows every observation with probability 0.1.
//
// The answer has the sets of at most five causes that weigh most, of those that need each of their causes: the irredundant covers of parsimonious
// covering (Peng and Reggia 1990, chapter 3), where chance explains nothing. The search is by branch and bound (M. Henrion, Search-Based Methods
// to Bound Diagnostic Probabilities in Very Large Belief Nets, 1991); sets.go says what bounds it.
//
// The next look is the one from which most is to be learnt for its time: the expected information in bits (the mutual information of observation and
// set, over the sets found; Shannon 1948) divided by the minutes that the look takes.
//
// Nothing here depends on package fmt or encoding/json: the code is small enough for a page.
package causes

import (
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

// Together opens the sentence about a set that explains all that is seen, by the number of its causes; without anything seen, the first opens it.
var Together = [...]string{
	"Nothing is seen, so by what is missing",
	"One cause explains all that is seen",
	"Two causes together explain all that is seen",
	"Three causes together explain all that is seen",
	"Four causes together explain all that is seen",
	"Five causes together explain all that is seen",
}

// Partly opens it where something that is seen is left over.
const Partly = "Not all that is seen is explained"

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
	return 0
}

// What the manual does not say; estimates of ours, no source.
const (
	chance     = 0.001 // that something is seen without any cause
	atWork     = 0.1   // odds of a cause before anything is seen, for a weight of one
	elseWeight = 0.3   // something else is as common as a cause that is sometimes there
	elseShows  = 0.1   // the probability of any observation with it
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
	Observation int     // index in Model.Observations
	P           float64 // above 0, below 1
}

// Cause is something that may be wrong.
type Cause struct {
	Name   string
	Weight float64 // how common it is, above 0
	Hurts  bool    // it could hurt somebody: it is never left out of an answer
	Signs  []Sign  // each observation at most once
}

// Model is what a manual knows of causes.
type Model struct {
	Observations []Observation
	Causes       []Cause
}

// Part is a cause in a set, with what it does there.
type Part struct {
	Cause    int   // index in Model.Causes; their number stands for something that the manual does not know
	Explains []int // what is seen and this cause shows most often of the set
	Missed   []int // what was looked for and not seen, though the cause shows it sometimes or more often
}

// Set is causes that may be at work together.
type Set struct {
	Probability float64 // from 0 to 1, among the sets found
	Parts       []Part  // who explains most comes first
	Rest        []int   // what is seen and no cause of the set shows
}

// Next is a look that may be taken next.
type Next struct {
	Observation int
	Bits        float64 // expected information
	Minutes     float64
	IfSeen      []int // causes of the first set once the look has been taken
	IfNotSeen   []int
}

// Answer is what explains the looks.
type Answer struct {
	Sets    []Set   // the likeliest first
	Hurting []Set   // the likeliest set of each cause that can hurt, goes with something seen and is in none of Sets
	Apart   []int   // causes that can hurt and are in no set told: nothing that is seen speaks for them
	Else    float64 // probability, among the sets found, that something is at work that the manual does not know
	Next    []Next  // looks not yet taken that would part the sets found, the best bargain first
}

// Bounds of an answer.
const (
	leastSets = 3    // are told whatever their probability
	mostSets  = 5    // are told at most, those of causes that can hurt apart
	worthTold = 0.02 // probability from which others are told
	mostNext  = 3
)

// Explain finds what explains the looks. They may be fewer than the Observations: the rest was not looked for.
func (m *Model) Explain(looks []Look) Answer {
	s := m.search(looks, keptSets)
	s.run(s.none(), s.everything())
	total := s.total()
	var a Answer
	told := make([]bool, len(s.causes))
	for i, f := range s.best {
		p := even(math.Exp(f.score - total))
		if i < leastSets || i < mostSets && p >= worthTold {
			a.Sets = append(a.Sets, s.set(f, p))
			f.tell(told)
		}
		if slices.Contains(f.causes, len(m.Causes)) {
			a.Else += p
		}
	}
	for _, f := range s.hurting(told) {
		a.Hurting = append(a.Hurting, s.set(f, even(math.Exp(f.score-total))))
	}
	for c := range m.Causes {
		if m.Causes[c].Hurts && !told[c] {
			a.Apart = append(a.Apart, c)
		}
	}
	a.Next = s.next(total)
	return a
}

// hurting finds the likeliest set of each cause that can hurt, that goes with something seen and was not told yet; then it is told.
func (s *search) hurting(told []bool) []*found {
	list := *s
	list.best, list.keep = nil, len(s.causes)
	for c := range s.causes {
		if s.causes[c].Hurts && !told[c] && s.speaks(c) {
			one := *s
			one.wanted, one.keep, one.best, one.steps = c, 1, nil, mostSteps
			one.run(one.with(one.none(), c), one.everything())
			list.put(one.best[0])
		}
	}
	var first []*found
	for _, f := range list.best {
		if !told[f.causes[0]] {
			first = append(first, f)
			f.tell(told)
		}
	}
	return first
}

// set says what each cause of a set does in it.
func (s *search) set(f *found, p float64) Set {
	t := Set{Probability: p}
	for _, c := range f.causes {
		part := Part{Cause: c}
		var others []int
		for i, o := range s.seen {
			q := s.miss[c][i]
			most := true
			for _, d := range f.causes {
				most = most && s.miss[d][i] >= q
			}
			switch {
			case q == 1:
			case most:
				part.Explains = append(part.Explains, o)
			default:
				others = append(others, o)
			}
		}
		if part.Explains == nil {
			part.Explains = others
		}
		for _, sign := range s.causes[c].Signs {
			if s.looks[sign.Observation] == NotSeen && sign.P > elseShows {
				part.Missed = append(part.Missed, sign.Observation)
			}
		}
		t.Parts = append(t.Parts, part)
		for i := len(t.Parts) - 1; i > 0 && len(t.Parts[i].Explains) > len(t.Parts[i-1].Explains); i-- {
			t.Parts[i], t.Parts[i-1] = t.Parts[i-1], t.Parts[i]
		}
	}
	for i, o := range s.seen {
		if f.miss[i] == 1-chance {
			t.Rest = append(t.Rest, o)
		}
	}
	return t
}

// even rounds to 34 binary digits: processors differ in the last digits of a logarithm, and what is told must not hang on them.
func even(v float64) float64 {
	fraction, exponent := math.Frexp(v)
	return math.Ldexp(math.Round(fraction*(1<<34)), exponent-34)
}

// evenBits does the same for logarithms and information, to a billionth.
func evenBits(v float64) float64 { return math.Round(v*1e9) / 1e9 }
