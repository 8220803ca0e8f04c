package causes

import (
	"fmt"
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

// score is the log of the weight of a set, worked out term by term as the package's documentation has it.
func (m *Model) score(looks []Look, set ...int) float64 {
	sum := 0.0
	for _, c := range set {
		weight := elseWeight
		if c < len(m.Causes) {
			weight = m.Causes[c].Weight
		}
		sum += math.Log(weight * atWork)
	}
	for o, look := range looks {
		q := 1 - chance
		for _, c := range set {
			if c == len(m.Causes) {
				q *= 1 - elseShows
				continue
			}
			for _, s := range m.Causes[c].Signs {
				if s.Observation == o {
					q *= 1 - s.P
				}
			}
		}
		switch look {
		case Seen:
			sum += math.Log(1 - q)
		case NotSeen:
			sum += math.Log(q / (1 - chance)) // the chance of what is not seen is the same for all sets
		}
	}
	return sum
}

// Fever by cold, flu and malaria: S. Russell and P. Norvig, Artificial Intelligence: A Modern Approach, third edition, 2010, section 14.3, the table of the
// noisy-OR with inhibitions 0.6, 0.2 and 0.1. The leak, which that table lacks, is taken out by hand.
func TestNoisyOrAsPublished(t *testing.T) {
	m := &Model{Observations: []Observation{{"fever", 1}}}
	for _, inhibition := range []float64{0.6, 0.2, 0.1} {
		m.Causes = append(m.Causes, Cause{Weight: 1, Signs: []Sign{{0, 1 - inhibition}}})
	}
	s := m.search([]Look{Seen}, 1)
	for _, row := range []struct {
		set   []int
		fever float64
	}{
		{[]int{2}, 0.9}, {[]int{1}, 0.8}, {[]int{1, 2}, 0.98}, {[]int{0}, 0.4}, {[]int{0, 2}, 0.94}, {[]int{0, 1}, 0.88}, {[]int{0, 1, 2}, 0.988},
	} {
		f := s.none()
		for _, c := range row.set {
			f = s.with(f, c)
		}
		near(t, fmt.Sprint("fever of ", row.set), 1-f.miss[0]/(1-chance), row.fever, 1e-9)
	}
}

// What spoke against the right cause of the spots while one cause alone was taken to be at work: foam, a weak foil and rust, which have causes of their own.
func TestEachThingHasItsCause(t *testing.T) {
	m := &Model{
		Observations: []Observation{{"spots", 1}, {"rings", 1}, {"foam", 1}, {"rust", 1}, {"weak foil", 10}},
		Causes: []Cause{
			{Name: "salty water", Weight: 0.8, Signs: []Sign{{0, 0.8}, {1, 0.8}}},
			{Name: "over-dosed", Weight: 0.3, Signs: []Sign{{2, 0.8}}},
			{Name: "slow drying", Weight: 0.3, Signs: []Sign{{3, 0.8}, {0, 0.3}}},
			{Name: "air in the bath", Weight: 0.8, Signs: []Sign{{4, 0.8}}},
		},
	}
	a := m.Explain([]Look{Seen, Seen, Seen, Seen, Seen})
	for _, p := range a.Sets[0].Parts {
		if want := [][]int{{0, 1}, {2}, {3}, {4}}[p.Cause]; !slices.Equal(p.Explains, want) {
			t.Errorf("%s explains %v, not %v", m.Causes[p.Cause].Name, p.Explains, want)
		}
	}
	if len(a.Sets[0].Parts) != 4 || len(a.Sets[0].Rest) != 0 {
		t.Errorf("the first set: %+v", a.Sets[0])
	}
	// Rings that were looked for and are not there speak against salty water: spots then come of the drying.
	a = m.Explain([]Look{Seen, NotSeen, Seen, Seen, Seen})
	if slices.ContainsFunc(a.Sets[0].Parts, func(p Part) bool { return p.Cause == 0 }) {
		t.Errorf("typical rings are missing: %+v", a.Sets[0])
	}
	if i := slices.IndexFunc(a.Sets, func(s Set) bool { return slices.ContainsFunc(s.Parts, func(p Part) bool { return p.Cause == 0 }) }); i >= 0 {
		at := slices.IndexFunc(a.Sets[i].Parts, func(p Part) bool { return p.Cause == 0 })
		if !slices.Equal(a.Sets[i].Parts[at].Missed, []int{1}) {
			t.Errorf("what speaks against salty water: %+v", a.Sets[i].Parts[at])
		}
	}
}

// some makes a model of random words.
func some(r *rand.Rand, most int) *Model {
	m := &Model{}
	for range 2 + r.IntN(most) {
		m.Observations = append(m.Observations, Observation{Minutes: float64(10+r.IntN(300)) / 10})
	}
	for range 1 + r.IntN(most) {
		c := Cause{Weight: Often(1 + r.IntN(3)).Probability(), Hurts: r.IntN(5) == 0}
		for o := range m.Observations {
			if w := Often(r.IntN(4)); w != NotNamed && r.IntN(3) > 0 {
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

// subsets gives every set of one to five of n things.
func subsets(n int) [][]int {
	var list [][]int
	for bits := 1; bits < 1<<n; bits++ {
		var set []int
		for i := range n {
			if bits>>i&1 == 1 {
				set = append(set, i)
			}
		}
		if len(set) <= mostCauses {
			list = append(list, set)
		}
	}
	return list
}

// The search finds what trying every set finds: the sets that need each of their causes, in the order of their weights.
func TestSearchFindsWhatTryingAllFinds(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	for range 300 {
		m := some(r, 8)
		looks := someLooks(r, m)
		if !slices.Contains(looks, Seen) {
			continue
		}
		type weighed struct {
			set   []int
			score float64
		}
		var want []weighed
		s := m.search(looks, keptSets)
		for _, set := range subsets(len(m.Causes) + 1) {
			score := m.score(looks, set...)
			needed := len(set) > 1 || s.speaks(set[0])
			for i := range set {
				if len(set) > 1 && score-m.score(looks, slices.Delete(slices.Clone(set), i, i+1)...) <= 1e-9 {
					needed = false
				}
			}
			if needed {
				want = append(want, weighed{set, score})
			}
		}
		slices.SortStableFunc(want, func(a, b weighed) int {
			if a.score > b.score {
				return -1
			}
			return 1
		})
		s.run(s.none(), s.everything())
		if len(s.best) != min(len(want), keptSets) {
			t.Fatalf("%d sets are found of %d", len(s.best), len(want))
		}
		for i, f := range s.best {
			near(t, fmt.Sprintf("weight of set %d", i), f.score, want[i].score, 1e-7)
			near(t, fmt.Sprintf("weight of %v", f.causes), f.score, m.score(looks, f.causes...), 1e-7)
		}
	}
}

// What no answer may do, on random models and on each observation that was not looked for.
func TestProperties(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 150 {
		m := some(r, 10)
		looks := someLooks(r, m)
		hold(t, m, looks)
		sets := subsets(min(len(m.Causes), 7))
		for o, look := range looks {
			if look != NotLooked {
				continue
			}
			seen := slices.Clone(looks)
			seen[o] = Seen
			for _, set := range sets {
				explains := m.names(set, o)
				risen := m.score(seen, set...) - m.score(looks, set...)
				for _, other := range sets[:min(len(sets), 20)] {
					// One thing more that a set explains and another does not never puts it behind the other.
					if explains && !m.names(other, o) && risen < m.score(seen, other...)-m.score(looks, other...)-1e-9 {
						t.Fatalf("set %v explains observation %d and falls behind %v", set, o, other)
					}
				}
				// What has nothing to do with a cause leaves what the cause adds to any set as it was.
				for c := range m.Causes {
					if m.names([]int{c}, o) || slices.Contains(set, c) {
						continue
					}
					for _, look := range []Look{Seen, NotSeen} {
						more := slices.Clone(looks)
						more[o] = look
						with := append(slices.Clone(set), c)
						near(t, "what an unrelated observation does to a cause", m.score(more, with...)-m.score(more, set...), m.score(looks, with...)-m.score(looks, set...), 1e-9)
					}
				}
				// What is missed never raises a set that shows it.
				if explains {
					missed := slices.Clone(looks)
					missed[o] = NotSeen
					if m.score(missed, set...) > m.score(looks, set...) {
						t.Fatalf("set %v rises by what it shows and is not seen", set)
					}
				}
			}
		}
	}
}

// names tells whether a cause of the set names the observation.
func (m *Model) names(set []int, o int) bool {
	return slices.ContainsFunc(set, func(c int) bool {
		return slices.ContainsFunc(m.Causes[c].Signs, func(s Sign) bool { return s.Observation == o })
	})
}

// sameParts tells whether so many different causes have a part.
func sameParts(parts []Part, n int) bool {
	seen := map[int]bool{}
	for _, p := range parts {
		seen[p.Cause] = true
	}
	return len(seen) == n && len(parts) == n
}

// hold checks what every answer keeps.
func hold(t *testing.T, m *Model, looks []Look) {
	t.Helper()
	a := m.Explain(looks)
	told := map[int]bool{}
	for i, set := range slices.Concat(a.Sets, a.Hurting) {
		if !(set.Probability >= 0 && set.Probability <= 1+1e-9) || i > 0 && i < len(a.Sets) && set.Probability > a.Sets[i-1].Probability {
			t.Fatalf("set %d: %+v", i, set)
		}
		if n := len(set.Parts); n == 0 || n > mostCauses || !sameParts(set.Parts, n) {
			t.Fatalf("set %d has parts %+v", i, set.Parts)
		}
		explained := map[int]bool{}
		for _, o := range set.Rest {
			explained[o] = true
		}
		for _, p := range set.Parts {
			told[p.Cause] = true
			for _, o := range p.Explains {
				explained[o] = true
				if looks[o] != Seen || p.Cause < len(m.Causes) && !m.names([]int{p.Cause}, o) {
					t.Fatalf("cause %d does not explain %d", p.Cause, o)
				}
			}
			for _, o := range p.Missed {
				if looks[o] != NotSeen || !m.names([]int{p.Cause}, o) {
					t.Fatalf("cause %d does not miss %d", p.Cause, o)
				}
			}
		}
		for o, look := range looks {
			if look == Seen && !explained[o] {
				t.Fatalf("set %+v says nothing of observation %d", set, o)
			}
		}
	}
	for _, c := range a.Apart {
		told[c] = true
	}
	for c := range m.Causes {
		if m.Causes[c].Hurts && !told[c] {
			t.Fatalf("cause %d can hurt and is not told", c)
		}
	}
	for i, n := range a.Next {
		if n.Bits <= 0 || n.Bits > 1 || looks[n.Observation] != NotLooked || i > 0 && n.Bits/n.Minutes > a.Next[i-1].Bits/a.Next[i-1].Minutes+1e-12 {
			t.Fatalf("next look %d: %+v", i, n)
		}
		// What a look is said to mean is what is first once it has been taken.
		for _, taken := range []struct {
			look Look
			want []int
		}{{Seen, n.IfSeen}, {NotSeen, n.IfNotSeen}} {
			more := slices.Clone(looks)
			more[n.Observation] = taken.look
			var first []int
			for _, p := range m.Explain(more).Sets[0].Parts {
				first = append(first, p.Cause)
			}
			if !slices.Equal(first, taken.want) {
				t.Fatalf("look %d is said to mean %v and means %v", n.Observation, taken.want, first)
			}
		}
	}
}

// The order in which observations are declared, and so ticked, changes nothing but the order of what is exactly as likely.
func TestOrderOfTickingDoesNotMatter(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 10))
	for range 200 {
		m := some(r, 10)
		looks := someLooks(r, m)
		order := r.Perm(len(looks))
		turned := &Model{Observations: make([]Observation, len(looks))}
		turnedLooks := make([]Look, len(looks))
		for o, to := range order {
			turned.Observations[to], turnedLooks[to] = m.Observations[o], looks[o]
		}
		for _, c := range m.Causes {
			k := Cause{Weight: c.Weight, Hurts: c.Hurts}
			for _, s := range c.Signs {
				k.Signs = append(k.Signs, Sign{order[s.Observation], s.P})
			}
			turned.Causes = append(turned.Causes, k)
		}
		a, b := m.Explain(looks), turned.Explain(turnedLooks)
		if len(a.Sets) != len(b.Sets) {
			t.Fatalf("%d sets and %d", len(a.Sets), len(b.Sets))
		}
		for i := range a.Sets {
			near(t, "in another order", b.Sets[i].Probability, a.Sets[i].Probability, 1e-6)
		}
	}
}

// Of four equally likely causes a look that parts them two and two is worth nearly one bit, one that parts off a single cause nearly 0.811 bit (the entropy
// of 1/4: T. M. Cover and J. A. Thomas, Elements of Information Theory, 2006, section 2.1). The second is the better bargain where the first takes twice as long.
func TestNextLook(t *testing.T) {
	const sure, never = 1 - 1e-9, 1e-9
	m := &Model{Observations: []Observation{{"half", 2}, {"one", 1}, {"nothing", 1}, {"seen", 1}}}
	for i := range 4 {
		c := Cause{Weight: 1, Signs: []Sign{{0, never}, {1, never}, {2, 0.5}, {3, sure}}}
		if i > 1 {
			c.Signs[0].P = sure
		}
		if i == 3 {
			c.Signs[1].P = sure
		}
		m.Causes = append(m.Causes, c)
	}
	a := m.Explain([]Look{NotLooked, NotLooked, NotLooked, Seen})
	if len(a.Next) < 2 || a.Next[0].Observation != 1 || a.Next[1].Observation != 0 {
		t.Fatalf("next: %+v", a.Next)
	}
	near(t, "one of four", a.Next[0].Bits, 0.8113, 0.02)
	near(t, "two of four", a.Next[1].Bits, 1, 0.02)
	if !slices.Equal(a.Next[0].IfSeen, []int{3}) || slices.Contains(a.Next[0].IfNotSeen, 3) {
		t.Errorf("what one look means: %+v", a.Next[0])
	}
	a = m.Explain([]Look{Seen, NotSeen, NotLooked, Seen})
	if a.Sets[0].Parts[0].Cause != 2 || a.Sets[0].Probability < 0.95 {
		t.Errorf("two looks settle it: %+v", a.Sets)
	}
}

// A manual in which everything goes with everything still has an answer in bounded time, and many looks at once leave no probability without a number.
func TestBounds(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	m := &Model{}
	looks := make([]Look, 400)
	for o := range looks {
		m.Observations = append(m.Observations, Observation{Minutes: 1})
		looks[o] = Look(1 + o%2)
	}
	for range 300 {
		c := Cause{Weight: 0.8, Hurts: r.IntN(20) == 0}
		for o := range looks {
			if r.IntN(8) == 0 {
				c.Signs = append(c.Signs, Sign{o, Often(1 + r.IntN(3)).Probability()})
			}
		}
		m.Causes = append(m.Causes, c)
	}
	s := m.search(looks, keptSets)
	s.run(s.none(), s.everything())
	t.Logf("%d of %d steps", mostSteps-max(s.steps, 0), mostSteps)
	if len(s.best) == 0 {
		t.Error("there is no answer")
	}
	small := &Model{Observations: m.Observations, Causes: m.Causes[:20]}
	hold(t, small, looks)
}
