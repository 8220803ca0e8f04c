package causes

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > within {
		t.Errorf("%s: %v, want %v", what, got, want)
	}
}

// of gives the probability of a cause in an answer.
func (a Answer) of(cause int) float64 {
	for _, r := range a.Causes {
		if r.Cause == cause {
			return r.Probability
		}
	}
	return math.NaN()
}

// Whether to play, by the weather. I. H. Witten and E. Frank, Data Mining: Practical Machine Learning Tools and Techniques, second edition, 2005,
// section 4.2, tables 4.2 and 4.3: on a day that is sunny, cool, humid and windy the likelihoods are
//
//	yes  2/9 · 3/9 · 3/9 · 3/9 · 9/14 = 0.0053
//	no   3/5 · 1/5 · 4/5 · 3/5 · 5/14 = 0.0206
//
// and the probabilities 20.5 % and 79.5 %.
func TestWeather(t *testing.T) {
	m := &Model{
		Observations: []Observation{{"sunny", 1}, {"cool", 1}, {"humid", 1}, {"windy", 1}},
		Causes: []Cause{
			{Name: "yes", Weight: 9.0 / 14, Signs: []Sign{{0, 2.0 / 9}, {1, 3.0 / 9}, {2, 3.0 / 9}, {3, 3.0 / 9}}},
			{Name: "no", Weight: 5.0 / 14, Signs: []Sign{{0, 3.0 / 5}, {1, 1.0 / 5}, {2, 4.0 / 5}, {3, 3.0 / 5}}},
		},
	}
	a := m.Rank([]Look{Seen, Seen, Seen, Seen})
	near(t, "yes", a.of(0), 0.205, 0.0005)
	near(t, "no", a.of(1), 0.795, 0.0005)
	if a.Causes[0].Cause != 1 {
		t.Error("no is likelier and comes first")
	}
}

// A diagnosis with something looked for and not seen: R. J. Mooney, lecture notes on Bayesian learning (naive Bayes), University of Texas at Austin,
// from memory. Somebody sneezes and coughs without fever; priors 0.9, 0.05, 0.05 for well, cold, allergy. By hand
//
//	well     0.9  · 0.1 · 0.1 · 0.99 = 0.00891
//	cold     0.05 · 0.9 · 0.8 · 0.3  = 0.0108
//	allergy  0.05 · 0.9 · 0.7 · 0.6  = 0.0189
//
// of 0.03861 together: 0.231, 0.280, 0.490. (The notes round the terms first: 0.23, 0.26, 0.50.)
func TestDiagnosis(t *testing.T) {
	m := &Model{
		Observations: []Observation{{"sneeze", 1}, {"cough", 1}, {"fever", 5}},
		Causes: []Cause{
			{Name: "well", Weight: 0.9, Signs: []Sign{{0, 0.1}, {1, 0.1}, {2, 0.01}}},
			{Name: "cold", Weight: 0.05, Signs: []Sign{{0, 0.9}, {1, 0.8}, {2, 0.7}}},
			{Name: "allergy", Weight: 0.05, Signs: []Sign{{0, 0.9}, {1, 0.7}, {2, 0.4}}},
		},
	}
	a := m.Rank([]Look{Seen, Seen, NotSeen})
	near(t, "well", a.of(0), 0.00891/0.03861, 1e-9)
	near(t, "cold", a.of(1), 0.0108/0.03861, 1e-9)
	near(t, "allergy", a.of(2), 0.0189/0.03861, 1e-9)
	if a.Causes[0].Cause != 2 || a.Causes[1].Cause != 1 || len(a.Next) != 0 {
		t.Errorf("%+v", a)
	}
	// What has not been looked for says nothing: 0.009, 0.036, 0.0315 of 0.0765.
	a = m.Rank([]Look{Seen, Seen})
	near(t, "well, temperature not taken", a.of(0), 0.009/0.0765, 1e-9)
	near(t, "cold, temperature not taken", a.of(1), 0.036/0.0765, 1e-9)
	near(t, "allergy, temperature not taken", a.of(2), 0.0315/0.0765, 1e-9)
}

// A screening test: prevalence 1 %, sensitivity 80 %, false alarms 9.6 %; after an alarm the probability is 7.8 % (D. M. Eddy, in Kahneman, Slovic and
// Tversky, Judgment under Uncertainty, 1982, chapter 18: 7 to 8 %). The weight of evidence is log₂ (0.8 / 0.096) = 3.06 bits.
func TestScreening(t *testing.T) {
	m := &Model{
		Observations: []Observation{{"alarm", 1}},
		Causes:       []Cause{{Name: "ill", Weight: 0.01, Signs: []Sign{{0, 0.8}}}},
		ElseWeight:   0.99, ElseShows: 0.096,
	}
	a := m.Rank([]Look{Seen})
	near(t, "ill", a.of(0), 0.008/(0.008+0.99*0.096), 1e-9)
	near(t, "ill, as published", a.of(0), 0.078, 0.0005)
	near(t, "else", a.Else, 1-a.of(0), 1e-9)
	near(t, "weight of evidence", a.Causes[0].Evidence[0].Bits, 3.0589, 0.0001)
}

// Twelve balls' smaller sister: of four equal causes an observation that parts them two and two is worth one bit, one that parts off a single
// cause 0.811 bit (the entropy of 1/4: T. M. Cover and J. A. Thomas, Elements of Information Theory, 2006, section 2.1). The second is the
// better bargain where the first takes twice as long.
func TestNextLook(t *testing.T) {
	m := &Model{Observations: []Observation{{"half", 2}, {"one", 1}, {"nothing", 1}}}
	for i := range 4 {
		c := Cause{Weight: 1, Signs: []Sign{{0, float64(i / 2)}, {1, 0}, {2, 0.5}}}
		if i == 3 {
			c.Signs[1].P = 1
		}
		m.Causes = append(m.Causes, c)
	}
	a := m.Rank(nil)
	if len(a.Next) != 2 || a.Next[0].Observation != 1 || a.Next[1].Observation != 0 {
		t.Fatalf("next: %+v", a.Next)
	}
	near(t, "one of four", a.Next[0].Bits, 0.8113, 0.0001)
	near(t, "two of four", a.Next[1].Bits, 1, 1e-9)
	if a = m.Rank([]Look{Seen, NotSeen}); len(a.Next) != 0 || a.of(2) != 1 {
		t.Errorf("two looks settle it: %+v", a)
	}
}

// some makes a model of random words, with observations and causes as many manuals have.
func some(r *rand.Rand) *Model {
	m := New()
	for range 2 + r.IntN(12) {
		m.Observations = append(m.Observations, Observation{Minutes: float64(10+r.IntN(300)) / 10})
	}
	for range 1 + r.IntN(12) {
		c := Cause{Weight: Often(1 + r.IntN(3)).Probability()}
		for o := range m.Observations {
			if w := Often(r.IntN(4)); w != NotNamed {
				c.Signs = append(c.Signs, Sign{o, w.Probability()})
			}
		}
		m.Causes = append(m.Causes, c)
	}
	return m
}

func someLooks(r *rand.Rand, m *Model) []Look {
	looks := make([]Look, len(m.Observations))
	for i := range looks {
		looks[i] = Look(r.IntN(3))
	}
	return looks
}

func TestProperties(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 500 {
		m := some(r)
		looks := someLooks(r, m)
		a := m.Rank(looks)
		hold(t, m, looks, a)

		// A typical sign that is seen never makes its cause less likely, one that is missed never more.
		for o, look := range looks {
			if look != NotLooked {
				continue
			}
			for c := range m.Causes {
				if !slices.Contains(m.Causes[c].Signs, Sign{o, Typical.Probability()}) {
					continue
				}
				with := slices.Clone(looks)
				with[o] = Seen
				if p := m.Rank(with).of(c); p < a.of(c)-1e-9 {
					t.Fatalf("a typical sign lowers its cause from %v to %v", a.of(c), p)
				}
				with[o] = NotSeen
				if p := m.Rank(with).of(c); p > a.of(c)+1e-9 {
					t.Fatalf("a typical sign that is missed raises its cause from %v to %v", a.of(c), p)
				}
			}
		}

		// The order in which observations are declared, and so looked for, changes nothing.
		order := r.Perm(len(looks))
		turned := &Model{Unnamed: m.Unnamed, ElseWeight: m.ElseWeight, ElseShows: m.ElseShows, Observations: make([]Observation, len(looks))}
		turnedLooks := make([]Look, len(looks))
		for o, to := range order {
			turned.Observations[to], turnedLooks[to] = m.Observations[o], looks[o]
		}
		for _, c := range m.Causes {
			k := Cause{Weight: c.Weight}
			for _, s := range c.Signs {
				k.Signs = append(k.Signs, Sign{order[s.Observation], s.P})
			}
			turned.Causes = append(turned.Causes, k)
		}
		b := turned.Rank(turnedLooks)
		for c := range m.Causes {
			near(t, "in another order", b.of(c), a.of(c), 1e-9)
		}
	}
}

// hold checks what every answer has to keep.
func hold(t *testing.T, m *Model, looks []Look, a Answer) {
	t.Helper()
	sum := a.Else
	seen := map[int]bool{}
	for i, c := range a.Causes {
		if !(c.Probability >= 0 && c.Probability <= 1) || seen[c.Cause] || i > 0 && c.Probability > a.Causes[i-1].Probability {
			t.Fatalf("cause %d of the answer: %+v", i, c)
		}
		seen[c.Cause] = true
		sum += c.Probability
		// The weights of evidence are what the looks add to the odds against something else.
		if m.ElseWeight > 0 {
			odds := math.Log2(m.Causes[c.Cause].Weight / m.ElseWeight)
			for _, e := range c.Evidence {
				odds += e.Bits
			}
			near(t, "log-odds", math.Log2(c.Probability/a.Else), odds, 1e-6)
		}
	}
	near(t, "the sum of all probabilities", sum, 1, 1e-9)
	if len(a.Causes) != len(m.Causes) {
		t.Fatalf("%d of %d causes are in the answer", len(a.Causes), len(m.Causes))
	}
	for i, n := range a.Next {
		if n.Bits <= 0 || n.Bits > 1 || n.Observation < len(looks) && looks[n.Observation] != NotLooked {
			t.Fatalf("next look: %+v", n)
		}
		if i > 0 && n.Bits/n.Minutes > a.Next[i-1].Bits/a.Next[i-1].Minutes+1e-12 {
			t.Fatal("the next looks are not in order")
		}
	}
}

// Many looks at once leave no probability without a number.
func TestManyLooksAtOnce(t *testing.T) {
	m := New()
	looks := make([]Look, 2000)
	for o := range looks {
		m.Observations = append(m.Observations, Observation{Minutes: 1})
		looks[o] = Look(1 + o%2)
	}
	m.Causes = []Cause{{Weight: 0.8}, {Weight: 0.05, Signs: []Sign{{0, 0.8}}}}
	sum, a := 0.0, m.Rank(looks)
	for _, c := range a.Causes {
		sum += c.Probability
	}
	near(t, "sum", sum+a.Else, 1, 1e-9)
}
