package manual

import "sync"

// results are what was made of a manual, each under a key, with what making it has asked of the manual.
type results[K comparable, T any] struct {
	mu    sync.Mutex
	under string
	kept  map[K]kept[T]
}

type kept[T any] struct {
	made  T
	trace *Trace
}

// begin makes them ready for a manual. Everything is forgotten where the manual is not the same in all but its articles, or other, which stands for all else that
// results are made of, is not.
func (r *results[K, T]) begin(m *Manual, other string) {
	if under := m.rest + " " + other; r.under != under || r.kept == nil {
		r.under, r.kept = under, make(map[K]kept[T])
	}
}

// holds gives what is kept under a key, and whether it is still what would be made.
func (r *results[K, T]) holds(m *Manual, key K) (T, bool) {
	r.mu.Lock()
	before, known := r.kept[key]
	r.mu.Unlock()
	return before.made, known && before.trace.Holds(m)
}

// of gives what make makes for a key, made now or before.
func (r *results[K, T]) of(m *Manual, key K, make func(*Manual) T) T {
	if made, holds := r.holds(m, key); holds {
		return made
	}
	trace := &Trace{}
	made := make(m.Tracing(trace))
	r.mu.Lock()
	r.kept[key] = kept[T]{made, trace}
	r.mu.Unlock()
	return made
}

// Pieces keeps what was made of a manual piece by piece, each under a name, so that a piece is made again only where the manual answers otherwise. Its zero
// value keeps nothing yet; a nil Pieces never keeps anything. It is safe for use by several goroutines at once, but for Begin.
type Pieces[T any] struct{ results[string, T] }

// Begin makes the pieces ready for a manual. It forgets everything where the manual is not the same in all but its articles, or other, which stands for all
// else that results are made of, is not.
func (k *Pieces[T]) Begin(m *Manual, other string) {
	if k != nil {
		k.begin(m, other)
	}
}

// Of gives what make makes for a name, made now or before. make has to ask the manual that it is given, and no other.
func (k *Pieces[T]) Of(m *Manual, name string, make func(*Manual) T) T {
	if k == nil {
		return make(m)
	}
	return k.of(m, name, make)
}

// Memo keeps what was made of each article, so that it is made again only where the manual answers otherwise. Its zero value keeps
// nothing yet; a nil Memo never keeps anything. It is safe for use by several goroutines at once, but for Begin.
type Memo[T any] struct{ results[*Article, T] }

// Begin makes the memo ready for a manual. It forgets articles that are not in it any more, and everything where the manual is not the
// same in all but its articles, or other, which stands for all else that results are made of, is not.
func (k *Memo[T]) Begin(m *Manual, other string) {
	if k == nil {
		return
	}
	k.begin(m, other)
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
	return k.of(m, a, make)
}

// Holds tells whether what was made of an article is still what would be made.
func (k *Memo[T]) Holds(m *Manual, a *Article) bool {
	if k == nil {
		return false
	}
	_, holds := k.holds(m, a)
	return holds
}
