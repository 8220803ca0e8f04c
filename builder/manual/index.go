package manual

import (
	"slices"
	"sync"
)

// Index finds articles by keys that each of them gives of itself, such as the words of its title: where ten thousand texts each ask which articles have
// a word in their title, nobody may look through ten thousand titles for each. It belongs to the program; a manual makes its own on the first question.
type Index struct{ keys func(*Article) []string }

// NewIndex makes an index of what a function gives of an article, which may hang on that article alone.
func NewIndex(keys func(*Article) []string) *Index { return &Index{keys} }

// indexes are the indexes that were asked for of a manual, each with the articles by key in the order of Articles.
type indexes struct {
	lock sync.Mutex
	made map[*Index]map[string][]*Article
}

// By gives the articles that give a key of themselves, in the order of Articles; the list is the manual's own. What is made of it need be made again only
// where other articles give the key than before.
func (m *Manual) By(x *Index, key string) []*Article {
	list := m.indexed(x)[key]
	m.trace.found(x, key, list)
	return list
}

func (m *Manual) indexed(x *Index) map[string][]*Article {
	m.indexes.lock.Lock()
	defer m.indexes.lock.Unlock()
	if made := m.indexes.made[x]; made != nil {
		return made
	}
	made := map[string][]*Article{}
	for _, a := range m.articles {
		for _, key := range x.keys(a) {
			if list := made[key]; len(list) == 0 || list[len(list)-1] != a {
				made[key] = append(list, a)
			}
		}
	}
	if m.indexes.made == nil {
		m.indexes.made = map[*Index]map[string][]*Article{}
	}
	m.indexes.made[x] = made
	return made
}

// lookup is what was asked of an index, and what was given for it.
type lookup struct {
	in  *Index
	key string
	got []*Article
}

func (t *Trace) found(x *Index, key string, got []*Article) {
	if t == nil || t.all || slices.ContainsFunc(t.lookups[max(0, len(t.lookups)-searched):], func(l lookup) bool { return l.in == x && l.key == key }) {
		return
	}
	t.lookups = append(t.lookups, lookup{x, key, got})
}

// holds tells whether the index still gives the same articles for the key.
func (l *lookup) holds(m *Manual) bool { return slices.Equal(m.indexed(l.in)[l.key], l.got) }
