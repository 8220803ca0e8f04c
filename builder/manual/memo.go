package manual

import "sync"

// Memo keeps what was made of each article, so that it is made again only where the manual answers otherwise. Its zero value keeps
// nothing yet; a nil Memo never keeps anything. It is safe for use by several goroutines at once, but for Begin.
type Memo[T any] struct {
	mu    sync.Mutex
	under string
	kept  map[*Article]kept[T]
}

type kept[T any] struct {
	made  T
	trace *Trace
}

// Begin makes the memo ready for a manual. It forgets articles that are not in it any more, and everything where the manual is not the
// same in all but its articles, or other, which stands for all else that results are made of, is not.
func (k *Memo[T]) Begin(m *Manual, other string) {
	if k == nil {
		return
	}
	if under := m.rest + " " + other; k.under != under || k.kept == nil {
		k.under, k.kept = under, make(map[*Article]kept[T], len(m.articles))
	}
	for a := range k.kept {
		if m.byPath[a.Path] != a {
			delete(k.kept, a)
		}
	}
}

// Of gives what make makes of an article, made now or before. make has to ask the manual that it is given, and no other.
func (k *Memo[T]) Of(m *Manual, a *Article, make func(*Manual) T) T {
	if k == nil {
		return make(m)
	}
	k.mu.Lock()
	before, known := k.kept[a]
	k.mu.Unlock()
	if known && before.trace.Holds(m) {
		return before.made
	}
	trace := &Trace{}
	made := make(m.Tracing(trace))
	k.mu.Lock()
	k.kept[a] = kept[T]{made, trace}
	k.mu.Unlock()
	return made
}
