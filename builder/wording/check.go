package wording

import (
	"slices"
	"strings"

	"tankside/builder/spelling"
)

// Fault is what is wrong with a phrase of a file.
type Fault int

// What can be wrong.
const (
	Unknown      Fault = iota + 1 // nothing says the phrase
	OtherHoles                    // what is filled in is not the phrase's, or in another order
	OtherFigures                  // a number has changed: a limit that slips in translating can hurt somebody
)

// Checker knows the phrases of a list.
type Checker struct {
	phrases []Phrase
	known   map[string]bool
}

// NewChecker makes one for a list.
func NewChecker(l List) *Checker {
	c := &Checker{phrases: l.Phrases(), known: map[string]bool{}}
	for _, p := range c.phrases {
		c.known[p.English] = true
	}
	return c
}

// Fault says what is wrong with a phrase and what is shown for it; 0 where nothing is. What is shown as "" is missing, and not wrong.
func (c *Checker) Fault(phrase, shown string) Fault {
	switch {
	case !c.known[phrase]:
		return Unknown
	case shown == "":
		return 0
	case !slices.Equal(Holes(phrase), Holes(shown)):
		return OtherHoles
	case !slices.Equal(Figures(phrase), Figures(shown)):
		return OtherFigures
	}
	return 0
}

// Near is the phrase that an unknown one is most likely meant for, or "": within a fifth of its letters, and at least two.
func (c *Checker) Near(unknown string) string {
	var d spelling.Distance
	letters := []rune(unknown)
	best, most := "", max(2, len(letters)/5)
	for _, p := range c.phrases {
		if n := d.Between(letters, p.English, most); n <= most {
			best, most = p.English, n-1
			if most < 0 {
				break
			}
		}
	}
	return best
}

// Missing are the phrases of the list for which none of some languages' words has anything to show, in the order of the list.
func (c *Checker) Missing(words ...map[string]string) []string {
	var list []string
	for _, p := range c.phrases {
		if !slices.ContainsFunc(words, func(w map[string]string) bool { return w[p.English] != "" }) {
			list = append(list, p.English)
		}
	}
	return list
}

// Count is how many phrases the list has.
func (c *Checker) Count() int { return len(c.phrases) }

// successor is the phrase, of some that are new, that a phrase that is said no longer was probably changed into, or "": more than half of the words of
// both are the same. The index of Jaccard (1901), on words.
func successor(gone string, fresh []string) string {
	const alike = 0.5
	best, most := "", alike
	words := wordsOf(gone)
	for _, f := range fresh {
		other := wordsOf(f)
		both := 0
		for w := range words {
			if other[w] {
				both++
			}
		}
		if share := float64(both) / float64(len(words)+len(other)-both); share > most {
			best, most = f, share
		}
	}
	return best
}

func wordsOf(text string) map[string]bool {
	set := map[string]bool{}
	for _, w := range strings.Fields(strings.ToLower(text)) {
		set[strings.Trim(w, ".,;:!?()“”")] = true
	}
	return set
}
