package rinse

import "math"

// Line is a row of rinses with what runs into them, all in SI: flows in m³/s, volumes in m³. Liquids, that is waters and baths, are numbered
// by whoever makes the line.
//
// Each stage is taken as stirred and full, and what runs in as mixed at once; evaporation is left out. Then the contents at rest are the mean
// of what runs in, weighed by the flows.
type Line struct {
	Liquids int // how many
	Rinses  []Tank
	Drags   []Drag
}

// Tank is one rinse. Parts go from its first stage to its last; water enters the last and runs towards the first.
type Tank struct {
	Volume   float64 // of one stage; 0 where it is not known
	Stages   int
	Separate bool // the feeds run into each stage by itself
	Feeds    []Feed
	FedBy    []int // the rinses whose overflow runs into it
}

// Feed is a flow of a liquid.
type Feed struct {
	Liquid int
	Flow   float64
}

// Drag is a film that parts carry along into the first stage of a rinse: a liquid's, or that of the last stage of another rinse.
type Drag struct {
	Flow   float64
	Liquid int // where From is below 0
	From   int // the rinse that the parts come from, or -1
	To     int
}

// Stage is one stage of a rinse at rest.
type Stage struct {
	Shares []float64 // of each liquid in it; they add up to 1, or to 0 where nothing runs in
	Inflow float64   // m³/s, all that runs in
}

// inflow is one flow into a stage: of a liquid, or of another stage.
type inflow struct {
	flow   float64
	liquid int // where stage is below 0
	stage  int
}

// Steady computes the stages of each rinse at rest. ok is false where overflows run in a circle.
func (l *Line) Steady() (stages [][]Stage, ok bool) {
	cells, first, ok := l.cells()
	if !ok {
		return nil, false
	}
	a := matrix(cells)
	b := make([][]float64, len(cells))
	total := make([]float64, len(cells))
	for i, flows := range cells {
		b[i] = make([]float64, l.Liquids)
		for _, f := range flows {
			total[i] += f.flow
			if f.stage < 0 {
				b[i][f.liquid] += f.flow
			}
		}
	}
	solve(a, b)
	for r := range l.Rinses {
		var row []Stage
		for i := first[r]; i < first[r+1]; i++ {
			row = append(row, Stage{b[i], total[i]})
		}
		stages = append(stages, row)
	}
	return stages, true
}

// Temperatures of the stages at rest, in °C, where those of the liquids are known and some rinses are held at a set-point; NaN stands for a
// rinse that is not. Losses to the room and what the parts themselves bring are left out.
func (l *Line) Temperatures(liquids, held []float64) (stages [][]float64, ok bool) {
	cells, first, ok := l.cells()
	if !ok {
		return nil, false
	}
	a := matrix(cells)
	b := make([][]float64, len(cells))
	for r := range l.Rinses {
		for i := first[r]; i < first[r+1]; i++ {
			b[i] = []float64{0}
			if !math.IsNaN(held[r]) {
				clear(a[i])
				a[i][i], b[i][0] = 1, held[r]
				continue
			}
			for _, f := range cells[i] {
				if f.stage < 0 && f.flow > 0 {
					b[i][0] += f.flow * liquids[f.liquid]
				}
			}
		}
	}
	solve(a, b)
	for r := range l.Rinses {
		var row []float64
		for i := first[r]; i < first[r+1]; i++ {
			row = append(row, b[i][0])
		}
		stages = append(stages, row)
	}
	return stages, true
}

// cells lists what runs into each stage of the line, and the number of each rinse's first stage.
func (l *Line) cells() (cells [][]inflow, first []int, ok bool) {
	first = make([]int, len(l.Rinses)+1)
	for i := range l.Rinses {
		first[i+1] = first[i] + max(1, l.Rinses[i].Stages)
	}
	cells = make([][]inflow, first[len(l.Rinses)])
	for r := range l.Rinses {
		t, end := &l.Rinses[r], first[r+1]-1
		for i := first[r]; i <= end; i++ {
			if t.Separate || i == end {
				for _, f := range t.Feeds {
					cells[i] = append(cells[i], inflow{f.Flow, f.Liquid, -1})
				}
			}
			if !t.Separate && i < end {
				over, fine := l.overflow(r, 0)
				if !fine {
					return nil, nil, false
				}
				cells[i] = append(cells[i], inflow{over, 0, i + 1})
			}
		}
		for _, from := range t.FedBy {
			over, fine := l.overflow(from, 0)
			if !fine {
				return nil, nil, false
			}
			cells[end] = append(cells[end], inflow{over, 0, first[from]})
		}
	}
	for _, d := range l.Drags {
		in := inflow{d.Flow, d.Liquid, -1}
		if d.From >= 0 {
			in.stage = first[d.From+1] - 1
		}
		for i := first[d.To]; i < first[d.To+1]; i++ {
			cells[i] = append(cells[i], in)
			in = inflow{d.Flow, 0, i} // the parts go on with what they are wetted by here
		}
	}
	return cells, first, true
}

// overflow is the water that leaves a rinse where it enters from the parts' side: what is fed to it, for parts bring as much as they take. A
// rinse of separate stages gives that of its first.
func (l *Line) overflow(r, depth int) (flow float64, ok bool) {
	if depth > len(l.Rinses) {
		return 0, false
	}
	for _, f := range l.Rinses[r].Feeds {
		flow += f.Flow
	}
	for _, from := range l.Rinses[r].FedBy {
		over, fine := l.overflow(from, depth+1)
		if !fine {
			return 0, false
		}
		flow += over
	}
	return flow, true
}

// matrix of the balances: what runs through a stage, less what comes from other stages. A stage into which nothing runs holds nothing.
func matrix(cells [][]inflow) [][]float64 {
	a := make([][]float64, len(cells))
	for i, flows := range cells {
		a[i] = make([]float64, len(cells))
		for _, f := range flows {
			a[i][i] += f.flow
			if f.stage >= 0 {
				a[i][f.stage] -= f.flow
			}
		}
		if a[i][i] == 0 {
			a[i][i] = 1
		}
	}
	return a
}

// solve puts the solution of a·x = b into b, by Gauss's elimination with the largest pivot. The balances are weakly diagonally dominant.
func solve(a, b [][]float64) {
	for i := range a {
		p := i
		for k := i; k < len(a); k++ {
			if math.Abs(a[k][i]) > math.Abs(a[p][i]) {
				p = k
			}
		}
		a[i], a[p], b[i], b[p] = a[p], a[i], b[p], b[i]
		for k := range a {
			if k == i || a[k][i] == 0 {
				continue
			}
			factor := a[k][i] / a[i][i]
			for j := i; j < len(a); j++ {
				a[k][j] -= factor * a[i][j]
			}
			for j := range b[k] {
				b[k][j] -= factor * b[i][j]
			}
		}
	}
	for i := range a {
		for j := range b[i] {
			b[i][j] /= a[i][i]
		}
	}
}

// Settle is how long each stage takes, in s, from clean water until what the parts bring is at 95 % of what it is in steady, which is Steady's
// answer; +Inf where nothing runs in or the volume is not known. Steps of a tenth of the quickest stage's time; a line so uneven that this takes
// too long is followed with fewer, and the time is then a tenth off.
func (l *Line) Settle(steady [][]Stage) [][]float64 {
	cells, first, _ := l.cells() // there is a steady answer, so there is no circle
	rest, total := make([]Stage, 0, len(cells)), make([]float64, 0, len(cells))
	for _, row := range steady {
		for _, stage := range row {
			rest, total = append(rest, stage), append(total, stage.Inflow)
		}
	}
	volume := make([]float64, len(cells))
	step, longest := math.Inf(1), 0.
	for r := range l.Rinses {
		for i := first[r]; i < first[r+1]; i++ {
			volume[i] = l.Rinses[r].Volume
			if total[i] > 0 && volume[i] > 0 {
				step, longest = math.Min(step, volume[i]/total[i]/10), longest+volume[i]/total[i]
			}
		}
	}
	const most = 4000
	step = math.Max(step, longest*float64(4+len(cells))/most)
	keep := make([]float64, len(cells)) // of what a stage holds after a step
	for i := range keep {
		if volume[i] > 0 {
			keep[i] = math.Exp(-step * total[i] / volume[i])
		}
	}
	dragged := make([]bool, l.Liquids)
	for _, d := range l.Drags {
		if d.From < 0 {
			dragged[d.Liquid] = true
		}
	}
	brought := func(shares []float64) (sum float64) {
		for i, share := range shares {
			if dragged[i] {
				sum += share
			}
		}
		return sum
	}
	now, next, out := make([]float64, len(cells)), make([]float64, len(cells)), make([]float64, len(cells))
	for i := range out {
		out[i] = math.Inf(1)
	}
	for n := 1; n <= most; n++ {
		open := false
		for i, flows := range cells {
			if total[i] == 0 || volume[i] == 0 {
				continue
			}
			mean := 0.
			for _, f := range flows {
				switch {
				case f.stage >= 0:
					mean += f.flow * now[f.stage]
				case dragged[f.liquid]:
					mean += f.flow
				}
			}
			mean /= total[i]
			next[i] = mean + (now[i]-mean)*keep[i]
			if math.IsInf(out[i], 1) {
				if next[i] >= 0.95*brought(rest[i].Shares) {
					out[i] = float64(n) * step
				} else {
					open = true
				}
			}
		}
		now, next = next, now
		if !open {
			break
		}
	}
	times := make([][]float64, len(l.Rinses))
	for r := range times {
		times[r] = out[first[r]:first[r+1]]
	}
	return times
}
