package manual

import "slices"

// Trace is which articles of a manual were asked for to make something, and which were given. It belongs to one goroutine.
//
// Of a manual in which the same questions have the same answers, and in which everything but the articles is the same (see [Manual.Rest]),
// the same is made. An article that has changed is another article, so that a Trace need not know what was read of it.
type Trace struct {
	all     bool // of every article there is
	answers []answer
}

// answer is what was asked for, a path or a kind and a name, and what was given for it.
type answer struct {
	kind Kind // "" for a path
	key  string
	got  *Article
}

// Tracing gives the same manual, which tells the trace what it is asked.
func (m *Manual) Tracing(t *Trace) *Manual {
	traced := *m
	traced.trace = t
	return &traced
}

// Holds tells whether the manual answers everything as it was answered for the trace.
func (t *Trace) Holds(m *Manual) bool {
	if t.all {
		return false
	}
	for _, a := range t.answers {
		if a.kind == "" && m.byPath[a.key] != a.got || a.kind != "" && m.byName[a.kind][a.key] != a.got {
			return false
		}
	}
	return true
}

func (t *Trace) everything() {
	if t != nil {
		t.all = true
	}
}

// searched is how many answers are looked through before one is noted twice.
const searched = 64

func (t *Trace) asked(kind Kind, key string, got *Article) {
	if t == nil || t.all {
		return
	}
	a := answer{kind, key, got}
	if len(t.answers) > searched || !slices.Contains(t.answers, a) {
		t.answers = append(t.answers, a)
	}
}

// Rest is a digest of everything in the manual's folder but the articles: shop file, glossary, pictures, and which files could not be read.
func (m *Manual) Rest() string { return m.rest }
