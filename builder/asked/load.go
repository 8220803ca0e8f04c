package asked

import (
	"slices"
	"strings"
)

// Bounds of what is tried out.
const (
	mostWords    = 6  // of a name
	mostReadings = 8  // of one load that are shown
	mostWays     = 96 // to take the names of one load
)

const whichOne = "What you wrote can mean what is named here: choose the one that is meant."

// load reads what may go into which bath.
func (n *Names) load(text string) (q Question, ok bool) {
	if !n.Asks {
		return q, false
	}
	named, loose, ok := n.named(strings.Fields(fold(text)))
	if !ok || len(named) < 2 {
		return q, false
	}
	ways := 1
	for _, things := range named {
		if ways *= len(things); ways > mostWays {
			return Question{Says: []string{n.tooMany()}}, n.mayBe(named)
		}
	}
	for way := range ways {
		var some []*Thing
		for _, things := range named {
			some = append(some, things[way%len(things)])
			way /= len(things)
		}
		if r, ok := loadOf(some); ok {
			q.Readings = append(q.Readings, r)
		}
	}
	switch {
	case len(q.Readings) > mostReadings:
		return Question{Says: []string{n.tooMany()}}, true
	case len(q.Readings) > 0 && (loose || len(q.Readings) > 1):
		q.ask(n.Words.Say(whichOne))
	}
	return q, len(q.Readings) > 0
}

func (n *Names) tooMany() string {
	return n.Words.Say("That name fits too many articles to say yes or no: name the material, the soil and the bath as the manual does.")
}

// mayBe tells whether the names can be a load at all: a material and a bath are among them.
func (n *Names) mayBe(named [][]*Thing) bool {
	has := func(sorts ...string) bool {
		return slices.ContainsFunc(named, func(things []*Thing) bool {
			return slices.ContainsFunc(things, func(t *Thing) bool { return slices.Contains(sorts, t.Sort) })
		})
	}
	return has(Material) && has(Tank, Chemistry)
}

// named takes words for names, the longest first, and gives what each may name. It is false where a word is left that means something.
func (n *Names) named(words []string) (list [][]*Thing, loose, ok bool) {
	for at := 0; at < len(words); {
		things, length, how := n.longest(words[at:])
		switch {
		case length > 0:
			list, loose, at = append(list, things), loose || how == loosely, at+length
		case isSmall(words[at]):
			at++
		default:
			return nil, false, false
		}
	}
	return list, loose, true
}

// longest gives the things that the longest name at the beginning of the words may be: those whose own name it is, or else all that are called so.
func (n *Names) longest(words []string) (things []*Thing, length, how int) {
	for length = min(len(words), mostWords); length > 0; length-- {
		if length == 1 && isSmall(words[0]) {
			continue
		}
		name := strings.Join(words[:length], " ")
		var own, all []*Thing
		for i := range n.Things {
			t := &n.Things[i]
			switch t.called(name) {
			case exactly:
				own = append(own, t)
			case loosely:
				all = append(all, t)
			}
		}
		if own != nil {
			return own, length, exactly
		}
		if all != nil {
			return all, length, loosely
		}
	}
	return nil, 0, not
}

// loadOf makes a load of things: materials, one bath, and at most one soil.
func loadOf(things []*Thing) (r Reading, ok bool) {
	q := &r.Load
	for _, t := range things {
		switch {
		case t.Sort == Material:
			if !slices.Contains(q.Materials, t.Name) {
				q.Materials = append(q.Materials, t.Name)
			}
		case t.Sort == Soil && q.Soil == "":
			q.Soil = t.Name
		case (t.Sort == Tank || t.Sort == Chemistry) && q.Bath == "":
			q.Bath = t.Name
		default:
			return r, false
		}
		r.Titles = append(r.Titles, t.Title)
	}
	return r, len(q.Materials) > 0 && q.Bath != ""
}
