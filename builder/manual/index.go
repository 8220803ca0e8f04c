package manual

import (
	"slices"
	"sync"
)

// Index finds articles by keys that each of them gives of itself, such as the words of its title: where ten thousand texts each ask which articles have
// a word in their title, nobody may look through ten thousand titles for each. It belongs to the program; a manual makes its own on the first question.
type Index struct {
	keys func(*Article) []string

	lock  sync.Mutex
	known map[*Article][]string // of the articles of the manual that asked last: most of the next one's are the same
}

// NewIndex makes an index of what a function gives of an article, which may hang on that article alone.
func NewIndex(keys func(*Article) []string) *Index { return &Index{keys: keys} }

// keysOf gives the keys of some articles.
func (x *Index) keysOf(articles []*Article) [][]string {
	x.lock.Lock()
	defer x.lock.Unlock()
	known, list := make(map[*Article][]string, len(articles)), make([][]string, len(articles))
	for i, a := range articles {
		keys, is := x.known[a]
		if !is {
			keys = x.keys(a)
		}
		known[a], list[i] = keys, keys
	}
	x.known = known
	return list
}

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
	for i, keys := range x.keysOf(m.articles) {
		a := m.articles[i]
		for _, key := range keys {
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
