package tree

import (
	"cmp"
	"slices"
)

// Drawing is the tree laid out in layers from the first step downwards. Lengths are in the unit of the Measure it was laid out with; the origin is
// at the upper left.
//
// The way is the usual one for layered drawings (Sugiyama, Tagawa and Toda, IEEE Transactions on Systems, Man, and Cybernetics SMC-11,
// 1981): each node stands below all that lead to it, lines that pass a layer get a place in it, the order within the layers is
// improved by the mean place of the neighbours and by exchanges of two, as long as fewer lines cross.
type Drawing struct {
	Width, Height float64
	Boxes         []Box
	Lines         []Line
	Crossings     int
}

// Measure gives the size of a box and the gaps between boxes.
type Measure struct{ BoxWidth, BoxHeight, GapX, GapY float64 }

// Box is a node, or the end of a way that leads to another article; then Node is nil and Answer is the one that leads there.
type Box struct {
	Node   *Node
	Answer Answer
	X, Y   float64 // upper left corner
}

// Line joins the lower edge of one box to the upper edge of another, by way of the points between.
type Line struct {
	From, To int // indices of Boxes
	Points   []Point
}

// Point is a place in the drawing.
type Point struct{ X, Y float64 }

// place is a box, or where a line passes a layer.
type place struct {
	layer    int
	box      int // -1 where a line passes
	up, down []int
	at       int // order within the layer
	x        float64
}

type layout struct {
	places []place
	layers [][]int
}

// Draw lays the tree out. Steps that no answer leads to are left out; a tree without a first step gives an empty drawing.
func (t *Tree) Draw(m Measure) Drawing {
	if t.Start == nil {
		return Drawing{}
	}
	boxes, ways := t.boxes()
	depth := layersOf(len(boxes), ways)
	l := &layout{}
	for i := range boxes {
		l.add(place{layer: depth[i], box: i})
	}
	routes := make([][]int, len(ways)) // the places that each way goes by
	for i, w := range ways {
		routes[i] = l.route(w[0], w[1], depth)
	}
	l.order()
	l.spread(m.BoxWidth+m.GapX, m.GapX*2)
	return l.drawing(boxes, ways, routes, m)
}

// boxes gives the nodes that can be reached, the articles that answers lead to, and the ways between them, each pair once.
func (t *Tree) boxes() ([]Box, [][2]int) {
	var boxes []Box
	number := map[*Node]int{}
	for _, n := range t.Nodes {
		if n.Depth >= 0 {
			number[n] = len(boxes)
			boxes = append(boxes, Box{Node: n})
		}
	}
	elsewhere := map[string]int{}
	var ways [][2]int
	for _, n := range t.Nodes {
		from, drawn := number[n]
		if !drawn {
			continue
		}
		for _, a := range n.Answers {
			to := number[a.To]
			if a.To == nil {
				var known bool
				if to, known = elsewhere[a.Link.Target]; !known {
					to = len(boxes)
					elsewhere[a.Link.Target] = to
					boxes = append(boxes, Box{Answer: a})
				}
			}
			if way := [2]int{from, to}; from != to && !slices.Contains(ways, way) {
				ways = append(ways, way)
			}
		}
	}
	return boxes, ways
}

// layersOf gives each box the longest way to it from the first; ways that lead back count for nothing.
func layersOf(n int, ways [][2]int) []int {
	next := make([][]int, n)
	for _, w := range ways {
		next[w[0]] = append(next[w[0]], w[1])
	}
	var finished []int
	state := make([]int, n) // 0 new, 1 open, 2 done
	var visit func(int)
	visit = func(i int) {
		state[i] = 1
		for _, j := range next[i] {
			if state[j] == 0 {
				visit(j)
			}
		}
		state[i] = 2
		finished = append(finished, i)
	}
	for i := range n {
		if state[i] == 0 {
			visit(i)
		}
	}
	rank := make([]int, n)
	for at, i := range finished {
		rank[i] = at
	}
	depth := make([]int, n)
	for _, i := range slices.Backward(finished) {
		for _, j := range next[i] {
			if rank[j] < rank[i] { // forwards
				depth[j] = max(depth[j], depth[i]+1)
			}
		}
	}
	return depth
}

func (l *layout) add(p place) int {
	l.places = append(l.places, p)
	for len(l.layers) <= p.layer {
		l.layers = append(l.layers, nil)
	}
	i := len(l.places) - 1
	l.places[i].at = len(l.layers[p.layer])
	l.layers[p.layer] = append(l.layers[p.layer], i)
	return i
}

// route gives a way a place in each layer that it passes. A way that leads back has none.
func (l *layout) route(from, to int, depth []int) []int {
	if depth[to] <= depth[from] {
		return nil
	}
	route := []int{from}
	for layer := depth[from] + 1; layer < depth[to]; layer++ {
		route = append(route, l.add(place{layer: layer, box: -1}))
	}
	route = append(route, to)
	for i := 1; i < len(route); i++ {
		l.places[route[i-1]].down = append(l.places[route[i-1]].down, route[i])
		l.places[route[i]].up = append(l.places[route[i]].up, route[i-1])
	}
	return route
}

// order looks for an order within the layers in which few lines cross.
func (l *layout) order() {
	best, fewest := l.copyLayers(), l.crossings()
	for sweep := 0; sweep < 24 && fewest > 0; sweep++ {
		if sweep%2 == 0 {
			for i := 1; i < len(l.layers); i++ {
				l.sort(l.layers[i], func(p *place) []int { return p.up })
			}
		} else {
			for i := len(l.layers) - 2; i >= 0; i-- {
				l.sort(l.layers[i], func(p *place) []int { return p.down })
			}
		}
		l.exchange()
		if c := l.crossings(); c < fewest {
			best, fewest = l.copyLayers(), c
		}
	}
	l.layers = best
	for _, layer := range l.layers {
		l.number(layer)
	}
}

func (l *layout) copyLayers() [][]int {
	layers := make([][]int, len(l.layers))
	for i, layer := range l.layers {
		layers[i] = slices.Clone(layer)
	}
	return layers
}

func (l *layout) number(layer []int) {
	for at, i := range layer {
		l.places[i].at = at
	}
}

// sort orders a layer by the mean place of each one's neighbours.
func (l *layout) sort(layer []int, neighbours func(*place) []int) {
	mean := make(map[int]float64, len(layer))
	for _, i := range layer {
		p := &l.places[i]
		mean[i] = float64(p.at)
		if all := neighbours(p); len(all) > 0 {
			sum := 0.0
			for _, j := range all {
				sum += float64(l.places[j].at)
			}
			mean[i] = sum / float64(len(all))
		}
	}
	slices.SortStableFunc(layer, func(a, b int) int { return cmp.Compare(mean[a], mean[b]) })
	l.number(layer)
}

// exchange swaps neighbours as long as that takes a crossing away.
func (l *layout) exchange() {
	for better, rounds := true, 0; better && rounds < 10; rounds++ {
		better = false
		for _, layer := range l.layers {
			for i := 1; i < len(layer); i++ {
				a, b := &l.places[layer[i-1]], &l.places[layer[i]]
				if l.between(b.up, a.up)+l.between(b.down, a.down) < l.between(a.up, b.up)+l.between(a.down, b.down) {
					layer[i-1], layer[i] = layer[i], layer[i-1]
					a.at, b.at = b.at, a.at
					better = true
				}
			}
		}
	}
}

// between counts the crossings of the lines from two places of a layer, the one with the left ends first.
func (l *layout) between(left, right []int) int {
	n := 0
	for _, i := range left {
		for _, j := range right {
			if l.places[i].at > l.places[j].at {
				n++
			}
		}
	}
	return n
}

// crossings counts the lines that cross between each layer and the next: for each line, those from further left that end further right. Ends that
// have been passed are counted in a tree of partial sums (Fenwick, Software: Practice and Experience 24, 1994), since layers may be wide.
func (l *layout) crossings() int {
	n := 0
	for k, layer := range l.layers[:max(0, len(l.layers)-1)] {
		sums, ended := make([]int, len(l.layers[k+1])+1), 0
		for _, i := range layer {
			for _, j := range l.places[i].down {
				n += ended
				for at := l.places[j].at + 1; at > 0; at &= at - 1 {
					n -= sums[at]
				}
			}
			for _, j := range l.places[i].down {
				ended++
				for at := l.places[j].at + 1; at < len(sums); at += at & -at {
					sums[at]++
				}
			}
		}
	}
	return n
}

// spread gives the places their x: near the mean of their neighbours, in their order, apart by a box's distance or a line's.
func (l *layout) spread(apart, lineApart float64) {
	gap := func(a, b int) float64 {
		switch pa, pb := l.places[a].box, l.places[b].box; {
		case pa >= 0 && pb >= 0:
			return apart
		case pa < 0 && pb < 0:
			return lineApart
		}
		return (apart + lineApart) / 2
	}
	for _, layer := range l.layers {
		x := 0.0
		for k, i := range layer {
			if k > 0 {
				x += gap(layer[k-1], i)
			}
			l.places[i].x = x
		}
	}
	for round := range 16 {
		for k := range l.layers {
			layer := l.layers[k]
			if round%2 == 1 {
				layer = l.layers[len(l.layers)-1-k]
			}
			l.settle(layer, gap)
		}
	}
	least := l.places[0].x
	for _, p := range l.places {
		least = min(least, p.x)
	}
	for i := range l.places {
		l.places[i].x -= least
	}
}

// settle moves a layer's places towards their neighbours: each wish is granted from the left and from the right as far as the gaps
// allow, and the mean of the two keeps the gaps.
func (l *layout) settle(layer []int, gap func(a, b int) float64) {
	wish := make([]float64, len(layer))
	for k, i := range layer {
		p := &l.places[i]
		wish[k] = p.x
		if n := len(p.up) + len(p.down); n > 0 {
			sum := 0.0
			for _, j := range p.up {
				sum += l.places[j].x
			}
			for _, j := range p.down {
				sum += l.places[j].x
			}
			wish[k] = sum / float64(n)
		}
	}
	left, right := slices.Clone(wish), slices.Clone(wish)
	for k := 1; k < len(layer); k++ {
		left[k] = max(left[k], left[k-1]+gap(layer[k-1], layer[k]))
	}
	for k := len(layer) - 2; k >= 0; k-- {
		right[k] = min(right[k], right[k+1]-gap(layer[k], layer[k+1]))
	}
	for k, i := range layer {
		l.places[i].x = (left[k] + right[k]) / 2
	}
}

func (l *layout) drawing(boxes []Box, ways [][2]int, routes [][]int, m Measure) Drawing {
	d := Drawing{Boxes: boxes, Crossings: l.crossings()}
	for i := range boxes {
		p := &l.places[i]
		boxes[i].X, boxes[i].Y = p.x, float64(p.layer)*(m.BoxHeight+m.GapY)
		d.Width = max(d.Width, p.x+m.BoxWidth)
		d.Height = max(d.Height, boxes[i].Y+m.BoxHeight)
	}
	for i, w := range ways {
		if routes[i] == nil {
			continue
		}
		line := Line{From: w[0], To: w[1]}
		for k, j := range routes[i] {
			p := &l.places[j]
			x, top := p.x+m.BoxWidth/2, float64(p.layer)*(m.BoxHeight+m.GapY)
			if k > 0 {
				line.Points = append(line.Points, Point{x, top})
			}
			if k < len(routes[i])-1 {
				line.Points = append(line.Points, Point{x, top + m.BoxHeight})
			}
			d.Width = max(d.Width, x)
		}
		d.Lines = append(d.Lines, line)
	}
	return d
}
