package line

import (
	"math"
	"slices"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/calculators/rinse"
	"tankside/calculators/water"
)

// way is where a tank's drag-out goes: from the tank or from a rinse, which are numbered as in the shop file, into a rinse.
type way struct {
	tank, from, to int             // from is -1 for the tank itself
	places         []finding.Place // that say so
}

// shop is the line of the shop file with what is known of its liquids: first the water of each rinse, then the bath of each tank.
type shop struct {
	m      *manual.Manual
	fluids []fluid
	ways   []way
}

// Of gives the state of each rinse of the shop file, in its order, with all tanks running that drag into it.
func Of(m *manual.Manual) []State {
	s := &shop{m: m, ways: ways(m)}
	for i := range m.Shop.Rinses {
		s.fluids = append(s.fluids, feed(m, &m.Shop.Rinses[i]))
	}
	for i := range m.Shop.Tanks {
		s.fluids = append(s.fluids, bath(m, &m.Shop.Tanks[i]))
	}
	states := make([]State, len(m.Shop.Rinses))
	for r := range states {
		states[r] = s.state(r)
	}
	return states
}

// washed tells whether an article is the sheet of a part that is washed.
func washed(a *manual.Article) bool { return a.Kind == manual.Part && len(a.Part.Steps) > 0 }

// ways lists where what is dragged out goes, each way once.
func ways(m *manual.Manual) []way {
	var list []way
	add := func(tank, from, to int, at ...finding.Place) {
		for i := range list {
			if w := &list[i]; w.tank == tank && w.from == from && w.to == to {
				w.places = append(w.places, at...)
				return
			}
		}
		list = append(list, way{tank, from, to, at})
	}
	number := func(id string) int {
		return slices.IndexFunc(m.Shop.Rinses, func(r manual.Rinse) bool { return r.ID == id })
	}
	said := make([]bool, len(m.Shop.Tanks))
	for _, a := range m.Select(washed) {
		last := a.Part.Steps[len(a.Part.Steps)-1]
		tank := slices.IndexFunc(m.Shop.Tanks, func(t manual.Tank) bool { return t.ID == last.Tank.Name })
		from := -1
		for _, ref := range a.Part.Rinse {
			to := number(ref.Name)
			if tank < 0 || to < 0 || to == from {
				continue
			}
			add(tank, from, to, last.Tank.At, ref.At)
			said[tank], from = true, to
		}
	}
	for i := range m.Shop.Tanks {
		if !said[i] && m.Shop.Tanks[i].Vessel != manual.Jar && m.Shop.Tanks[i].Chemistry.Name != "" && len(m.Shop.Rinses) > 0 {
			add(i, -1, 0, m.Shop.Tanks[i].At)
		}
	}
	// What carries nothing over needs no figures.
	return slices.DeleteFunc(list, func(w way) bool { d := m.Shop.Tanks[w.tank].DragOut; return d.Set && d.High <= 0 })
}

// reach gathers what runs into a rinse in the end: rinses and tanks, itself among them.
func (s *shop) reach(r int, rinses, tanks map[int]bool) {
	if rinses[r] {
		return
	}
	rinses[r] = true
	if from := s.fedBy(r); from >= 0 {
		s.reach(from, rinses, tanks)
	}
	for _, w := range s.ways {
		if w.to != r {
			continue
		}
		if w.from >= 0 {
			s.reach(w.from, rinses, tanks)
		} else {
			tanks[w.tank] = true
		}
	}
}

func (s *shop) fedBy(r int) int {
	id := s.m.Shop.Rinses[r].FedBy.Name
	return slices.IndexFunc(s.m.Shop.Rinses, func(o manual.Rinse) bool { return id != "" && o.ID == id })
}

// state of one rinse.
func (s *shop) state(r int) State {
	st := State{Rinse: &s.m.Shop.Rinses[r]}
	rinses, tanks := map[int]bool{}, map[int]bool{}
	s.reach(r, rinses, tanks)
	var on []int // the tanks in order
	for i := range s.m.Shop.Rinses {
		if !rinses[i] {
			continue
		}
		o := &s.m.Shop.Rinses[i]
		own := o.Flow.Set || s.fedBy(i) < 0 // it has water of its own
		if !o.Flow.Set && own {
			st.Missing = append(st.Missing, Missing{"flow", o.Name, o.At})
		}
		if own {
			st.take(&s.fluids[i])
		}
		for _, l := range []manual.Limit{o.Flow, o.Temperature, o.Volume} {
			if l.Set {
				st.From = append(st.From, l.At)
			}
		}
		if s.fedBy(i) >= 0 {
			st.From = append(st.From, o.FedBy.At)
		}
	}
	for i := range s.m.Shop.Tanks {
		if !tanks[i] {
			continue
		}
		t := &s.m.Shop.Tanks[i]
		on, st.Washes = append(on, i), append(st.Washes, t)
		if !t.DragOut.Set || math.IsInf(t.DragOut.High, 1) {
			st.Missing = append(st.Missing, Missing{"drag-out", t.Name, t.At})
		} else {
			st.From = append(st.From, t.DragOut.At)
		}
		st.take(&s.fluids[len(s.m.Shop.Rinses)+i])
	}
	for _, w := range s.ways {
		if rinses[w.to] {
			st.From = append(st.From, w.places...)
		}
	}
	st.tidy()
	if len(st.Missing) == 0 {
		s.fill(&st, r, on)
	}
	return st
}

func (st *State) take(f *fluid) {
	st.Missing = append(st.Missing, f.missing...)
	st.From = append(st.From, f.from...)
}

// tidy leaves each place and each missing key once.
func (st *State) tidy() {
	seen := map[any]bool{}
	once := func(k any) bool { again := seen[k]; seen[k] = true; return again }
	st.From = slices.DeleteFunc(st.From, func(p finding.Place) bool { return once(p) })
	st.Missing = slices.DeleteFunc(st.Missing, func(m Missing) bool { return once(m) })
}

// manyStages is as many as are reckoned with: after so many nothing is left to thin.
const manyStages = 12

// most is how many tanks have each end of their drag-out tried with each end of the others'; the rest take the high end.
const most = 6

// fill computes the stages, with each end of every drag-out that is a range.
func (s *shop) fill(st *State, r int, on []int) {
	var ranges []int
	for _, i := range on {
		if d := s.m.Shop.Tanks[i].DragOut; d.Low != d.High && len(ranges) < most {
			ranges = append(ranges, i)
		}
	}
	for n := range 1 << len(ranges) {
		low := map[int]bool{}
		for k, i := range ranges {
			low[i] = n>>k&1 == 1 // the last is all low; the first, all high, is the one that is shown
		}
		s.once(st, r, on, low, n == 0)
	}
}

// once computes the stages for one choice of drag-outs and widens what was found for the others.
func (s *shop) once(st *State, r int, on []int, low map[int]bool, first bool) {
	l := s.physics(low)
	stages, ok := l.Steady()
	if !ok { // the reader of the shop file refuses such a circle
		return
	}
	temperatures := s.temperatures(l)
	var settled []float64
	if first {
		settled = l.Settle(stages)[r]
	}
	for i, stage := range stages[r] {
		heat := temperatures[r][i]
		if math.IsNaN(heat) {
			heat = cold
		}
		now := Stage{Heat: heat}
		var parts, clean []water.Part
		for k, share := range stage.Shares {
			if share <= 0 {
				continue
			}
			f := &s.fluids[k]
			parts = append(parts, water.Part{Share: share, Liquid: f.Liquid})
			now.Alkali.Low += share * f.alkali.Low
			now.Alkali.High += share * f.alkali.High
			if k < len(s.m.Shop.Rinses) {
				clean = append(clean, water.Part{Share: share, Liquid: f.Liquid})
			}
		}
		total := 0.
		for _, p := range clean {
			total += p.Share
		}
		for k := range clean {
			clean[k].Share /= total
		}
		for _, t := range on {
			now.Shares = append(now.Shares, stage.Shares[len(s.m.Shop.Rinses)+t])
		}
		now.PH.Low, now.PH.High = water.Bounds(heat, parts)
		now.Cold.Low, now.Cold.High = water.Bounds(cold, parts)
		now.Feed = now.Cold
		if len(clean) > 0 {
			now.Feed.Low, now.Feed.High = water.Bounds(cold, clean)
		}
		if first {
			now.Settled = settled[i]
			st.Stages = append(st.Stages, now)
			continue
		}
		had := &st.Stages[i]
		for _, pair := range [][2]*Span{{&had.PH, &now.PH}, {&had.Cold, &now.Cold}, {&had.Alkali, &now.Alkali}} {
			*pair[0] = pair[0].with(pair[1].Low, pair[1].High)
		}
	}
}

// physics is the line as package rinse knows it. What is not known of rinses that this one does not depend on is taken as nothing.
func (s *shop) physics(low map[int]bool) *rinse.Line {
	l := &rinse.Line{Liquids: len(s.fluids)}
	for i := range s.m.Shop.Rinses {
		o := &s.m.Shop.Rinses[i]
		t := rinse.Tank{Volume: math.Max(0, o.Volume.High), Stages: min(max(1, o.Stages), manyStages), Feeds: []rinse.Feed{{Liquid: i, Flow: math.Max(0, o.Flow.High)}}}
		if from := s.fedBy(i); from >= 0 {
			t.FedBy = []int{from}
		}
		l.Rinses = append(l.Rinses, t)
	}
	for _, w := range s.ways {
		drag := s.m.Shop.Tanks[w.tank].DragOut
		flow := drag.High
		if low[w.tank] {
			flow = drag.Low
		}
		if !drag.Set || math.IsInf(flow, 0) {
			continue
		}
		l.Drags = append(l.Drags, rinse.Drag{Flow: math.Max(0, flow), Liquid: len(s.m.Shop.Rinses) + w.tank, From: w.from, To: w.to})
	}
	return l
}

// temperatures of every stage, NaN where nothing says: a set-point, or what runs in.
func (s *shop) temperatures(l *rinse.Line) [][]float64 {
	liquids, holds := make([]float64, len(s.fluids)), make([]float64, len(s.m.Shop.Rinses))
	for i := range s.fluids {
		liquids[i] = s.fluids[i].heat
	}
	for i := range s.m.Shop.Rinses {
		holds[i] = middle(s.m.Shop.Rinses[i].Temperature)
	}
	found, _ := l.Temperatures(liquids, holds)
	return found
}
