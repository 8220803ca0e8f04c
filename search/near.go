package search

import "unicode/utf8"

// How much looking word for word can lift an article.
const (
	liftTogether = 0.6 // all neighbours of the question stand together
	liftName     = 1.2 // the question is a title or everyday name
	liftTitle    = 2.4 // the question is the title, no more and no less
	theSame      = 0.99
	liftHeading  = 0.8 // the question is the heading
	liftOfBest   = 0.5 // of that, in scores of the best article: a name may stand for an article that says the words seldom
	apart        = 3   // words that may lie between neighbours
)

// marks says which terms answer which words of the question and with what
// weight, and which letters the words that have these terms begin with.
type marks struct {
	words map[string][]mark
	begin letters
	worth []float64 // of each word of the question; they sum up to 1
}

type mark struct {
	word   int
	weight float64
}

func newMarks(q query, l *language, worth []float64) *marks {
	m := &marks{words: map[string][]mark{}, worth: worth}
	for _, v := range q.variants {
		for _, term := range v.terms {
			m.begin[term[0]] = true
			for word := v.first; word <= v.last; word++ {
				m.words[term] = append(m.words[term], mark{word, v.weight})
			}
		}
	}
	// A stem begins as its word does, but for these.
	for form, base := range l.irregular {
		if m.begin[base[0]] {
			m.begin[form[0]] = true
		}
	}
	return m
}

// lift gives the score of an article when its names and its best section are read; best is that of the best article before.
func (f *Finder) lift(q query, x found, m *marks, w *work, best float64) float64 {
	s := f.sections[x.section]
	name := liftHeading * m.likeness(w.terms(s.heading))
	for i, one := range w.namesOf(f, s.article) {
		like := m.likeness(one)
		if i == 0 && like > theSame {
			like = liftTitle / liftName
		}
		name = max(name, liftName*like)
	}
	return x.score*(1+name+liftTogether*together(q, s.text, m, w.reader)) + liftOfBest*name*best*kindWeight(f.articles[s.article].kind)
}

// namesOf gives the terms of an article's title and everyday names. They are kept: most questions look at the same articles while they are typed.
func (w *work) namesOf(f *Finder, article int) [][]string {
	if names := w.names[article]; names != nil {
		return names
	}
	a := f.articles[article]
	names := [][]string{w.nameTerms(a.title)}
	for _, also := range a.also {
		names = append(names, w.nameTerms(also))
	}
	w.names[article] = names
	return names
}

// nameTerms gives a name's terms, one for each word.
func (r *reader) nameTerms(name string) (terms []string) {
	r.spare = r.name(name, r.spare[:0])
	for _, t := range r.spare {
		if !t.extra {
			terms = append(terms, t.term)
		}
	}
	return terms
}

// likeness says how much of a name and of the question are each other's words:
// 1 where they are the same.
func (m *marks) likeness(name []string) float64 {
	found, met, length := 0.0, 0.0, 0.0
	var seen [mostWords]float64
	for _, term := range name {
		counts := 1.0
		if isLittle(term) {
			counts = weighLittle
			if !m.begin[littleMark[0]] { // the question has none
				continue
			}
		}
		length += counts
		if !m.begin[term[0]] {
			continue
		}
		best := 0.0
		for _, k := range m.words[term] {
			if seen[k.word] < k.weight {
				found += (k.weight - seen[k.word]) * m.worth[k.word]
				seen[k.word] = k.weight
			}
			best = max(best, k.weight)
		}
		if best > 0 {
			met += counts
		}
	}
	if met == 0 {
		return 0
	}
	return found * met / length
}

// together says which share of the question's neighbours stand in order and
// close to each other in the text.
func together(q query, text string, m *marks, r *reader) float64 {
	if len(q.words) < 2 {
		return 0
	}
	last := make([]int, len(q.words)) // where each word was last met
	pairs := make([]bool, len(q.words))
	for _, t := range r.briefOnly(text, &m.begin) {
		for _, k := range m.words[t.term] {
			word := k.word
			last[word] = t.position
			if word > 0 && last[word-1] > 0 && last[word-1] < t.position && t.position-last[word-1] <= apart {
				pairs[word] = true
			}
		}
	}
	n := 0
	for _, pair := range pairs {
		if pair {
			n++
		}
	}
	return float64(n) / float64(len(q.words)-1)
}

// hit makes what is shown of an article.
func (f *Finder) hit(x found, m *marks, r *reader) Hit {
	s := f.sections[x.section]
	a := f.articles[s.article]
	return Hit{
		Path: a.page + s.anchor, Title: a.title, Section: s.heading, Kind: a.kind, Station: a.station,
		Score: x.score, Snippet: snippet(s.text, m, r),
	}
}

// snippetLength is about how many bytes of text a snippet shows.
const snippetLength = 160

// snippet cuts the piece out of a text that answers most words of the question
// and marks them.
func snippet(text string, m *marks, r *reader) []Run {
	type place struct {
		start, end int
		words      []mark
	}
	var places []place
	for _, t := range r.briefOnly(text, &m.begin) {
		if words := m.words[t.term]; len(words) > 0 {
			if n := len(places); n > 0 && places[n-1].end >= t.end {
				continue // a further form of a word already marked
			}
			places = append(places, place{t.start, t.end, words})
		}
	}
	from := 0
	most := 0
	for i, first := range places {
		seen := map[int]bool{}
		n := 0
		for _, p := range places[i:] {
			if p.end > first.start+snippetLength*2/3 {
				break
			}
			n++
			for _, k := range p.words {
				seen[k.word] = true
			}
		}
		if value := len(seen)*16 + min(n, 15); value > most {
			most = value
			from = first.start
		}
	}
	from, to := window(text, from)
	var runs []Run
	add := func(text string, marked bool) {
		if text != "" {
			runs = append(runs, Run{text, marked})
		}
	}
	at := from
	if from > 0 {
		add("… ", false)
	}
	for _, p := range places {
		if p.start < at || p.end > to {
			continue
		}
		add(text[at:p.start], false)
		add(text[p.start:p.end], true)
		at = p.end
	}
	add(text[at:to], false)
	if to < len(text) {
		add(" …", false)
	}
	return runs
}

// window sets a snippet around a place, beginning at a sentence where one is
// near and ending at a word.
func window(text string, place int) (from, to int) {
	const before = snippetLength / 3
	from = max(0, place-before)
	for from > 0 && !utf8.RuneStart(text[from]) {
		from--
	}
	if from > 0 {
		word := -1
		for i := from; i < place; i++ {
			if text[i] != ' ' {
				continue
			}
			if word < 0 {
				word = i + 1
			}
			if c := text[i-1]; c == '.' || c == ':' || c == '!' || c == '?' {
				word = i + 1
				break
			}
		}
		if word >= 0 {
			from = word
		} else {
			from = place
		}
	}
	to = from + snippetLength
	if to >= len(text) {
		return from, len(text)
	}
	for to > place && text[to] != ' ' {
		to--
	}
	if to <= place {
		to = min(len(text), place+snippetLength)
		for to < len(text) && !utf8.RuneStart(text[to]) {
			to++
		}
	}
	return from, to
}
