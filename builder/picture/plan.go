package picture

import (
	"net/url"
	"strings"
)

// maxSteps is how far references are followed before the drawing is taken for too large.
const maxSteps = 20 * maxDrawn

// plan is what a drawing draws: its elements, and which of them draw others. A few lines can use each other to draw
// millions of elements, so they are counted before a browser has to.
type plan struct {
	nodes  []node
	open   []int               // the elements that are open
	ids    map[string]int      // the first element of each id
	styles map[string][]string // ids by the name of the elements that are drawn with them
	steps  int                 // of counting
}

// node is an element of the plan.
type node struct {
	at       int      // offset in the file
	names    []string // its element name, .class, #id and *: what style rules go by
	children []int
	refers   []string // ids of what it draws or is drawn with
	state    state
	drawn    int
}

// state is how far an element has been counted.
type state int8

const (
	uncounted state = iota
	counting
	counted
)

func (p *plan) begin(name string, at int) int {
	n := len(p.nodes)
	p.nodes = append(p.nodes, node{at: at, names: []string{name, "*"}})
	if len(p.open) > 0 {
		parent := &p.nodes[p.open[len(p.open)-1]]
		parent.children = append(parent.children, n)
	}
	p.open = append(p.open, n)
	return n
}

func (p *plan) end() { p.open = p.open[:len(p.open)-1] }

// name notes the id or classes of an element.
func (p *plan) name(n int, attribute, value string) {
	switch attribute {
	case "id":
		if p.ids == nil {
			p.ids = make(map[string]int)
		}
		if _, taken := p.ids[value]; !taken {
			p.ids[value] = n
		}
		p.nodes[n].names = append(p.nodes[n].names, "#"+value)
	case "class":
		for _, class := range strings.Fields(value) {
			p.nodes[n].names = append(p.nodes[n].names, "."+class)
		}
	}
}

// refer notes that an element draws, or is drawn with, the elements of these ids.
func (p *plan) refer(n int, ids ...string) { p.nodes[n].refers = append(p.nodes[n].refers, ids...) }

// style notes that elements of these names, in the sense of node.names, are drawn with the elements of these ids.
func (p *plan) style(names, ids []string) {
	if p.styles == nil {
		p.styles = make(map[string][]string)
	}
	if p.steps += len(names) * len(ids); p.steps > maxSteps {
		return // the drawing is too large already
	}
	for _, name := range names {
		p.styles[name] = append(p.styles[name], ids...)
	}
}

// drawn counts what a browser draws. The offset is that of an element that is drawn with itself, or of the drawing.
func (p *plan) drawn() (count, at int, circle bool) {
	if culprit, found := p.count(0); found {
		return 0, p.nodes[culprit].at, true
	}
	return p.nodes[0].drawn, p.nodes[0].at, false
}

// count counts an element with all that it holds and refers to, no further than a little beyond what is allowed.
// It gives the element that would be drawn with itself, if there is one.
func (p *plan) count(n int) (culprit int, circle bool) {
	switch p.nodes[n].state {
	case counting:
		return n, true
	case counted:
		return 0, false
	}
	p.nodes[n].state = counting
	drawn := 1
	add := func(other int) bool {
		if p.steps++; p.steps > maxSteps {
			drawn = maxDrawn + 1
			return true
		}
		if culprit, circle = p.count(other); circle {
			return false
		}
		drawn = min(drawn+p.nodes[other].drawn, maxDrawn+1)
		return true
	}
	for _, child := range p.nodes[n].children {
		if !add(child) {
			return culprit, true
		}
	}
	lists := [][]string{p.nodes[n].refers}
	for _, name := range p.nodes[n].names {
		lists = append(lists, p.styles[name])
	}
	for _, ids := range lists {
		for _, id := range ids {
			if other, there := p.find(id); there && !add(other) {
				return culprit, true
			}
		}
	}
	p.nodes[n].state, p.nodes[n].drawn = counted, drawn
	return 0, false
}

// find gives the element of an id, which may be written as in an address.
func (p *plan) find(id string) (int, bool) {
	if n, there := p.ids[id]; there || !strings.Contains(id, "%") {
		return n, there
	}
	plain, err := url.PathUnescape(id)
	n, there := p.ids[plain]
	return n, there && err == nil
}
