package manual

import "slices"

// Trace is which articles of a manual were asked for to make something, and which were given. It belongs to one goroutine.
//
// Of a manual in which the same questions have the same answers, and in which everything but the articles is the same (see [Manual.Rest]),
// the same is made. An article that has changed is another article, so that a Trace need not know what was read of it.
type Trace struct {
	all        bool // of every article there is
	answers    []answer
	selections []selection
	lookups    []lookup
}

// selection is which articles were asked for by what they are, and which were given.
type selection struct {
	fits func(*Article) bool
	got  []*Article
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
	for i := range t.selections {
		if !t.selections[i].holds(m.articles) {
			return false
		}
	}
	return !slices.ContainsFunc(t.lookups, func(l lookup) bool { return !l.holds(m) })
}

// holds tells whether of some articles the same ones fit, in the same order.
func (s *selection) holds(articles []*Article) bool {
	rest := s.got
	for _, a := range articles {
		switch {
		case len(rest) > 0 && rest[0] == a:
			rest = rest[1:] // it fits, as the article that it still is
		case s.fits(a):
			return false
		}
	}
	return len(rest) == 0
}

// Only tells whether nothing was asked for but one article, by its path or its name: what was made then is the same as long as that article is.
func (t *Trace) Only(a *Article) bool {
	if t.all || len(t.selections) > 0 || len(t.lookups) > 0 {
		return false
	}
	return !slices.ContainsFunc(t.answers, func(b answer) bool { return b.got != a })
}

// Noted tells the manual's own trace, if it has one, what another has noted: what was made for the other has become part of what is made.
func (m *Manual) Noted(other *Trace) {
	if m.trace == nil {
		return
	}
	m.trace.all = m.trace.all || other.all
	for _, a := range other.answers {
		m.trace.asked(a.kind, a.key, a.got)
	}
	m.trace.selections = append(m.trace.selections, other.selections...)
	for _, l := range other.lookups {
		m.trace.found(l.in, l.key, l.got)
	}
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

func (t *Trace) selected(fits func(*Article) bool, got []*Article) {
	if t != nil && !t.all {
		t.selections = append(t.selections, selection{fits, slices.Clone(got)})
	}
}

// Rest is a digest of everything in the manual's folder but the articles: shop file, glossary, pictures, and which files could not be read.
func (m *Manual) Rest() string { return m.rest }
