package search

import (
	"cmp"
	"context"
	"errors"
	"math"
	"slices"
	"strings"
)

// Tuning of the order of articles, tried out on the tests' questions and on the
// Cranfield collection.
const (
	wholeArticle  = 0.2 // share of the score that the article as a whole decides
	worthShowing  = 0.1 // least score against the best article's
	lookedAtWords = 20  // best articles that are looked at word for word
	wantedKind    = 1.2 // weight of a kind that the question speaks for: see intents
)

// kindWeights put what helps at the tank before what explains it; any other
// kind weighs 1. They stand here and not in the manual's table of kinds, which
// the search in the browser does not carry.
var kindWeights = map[string]float64{"symptom": 1.1, "procedure": 1.1, "page": 1.1, "glossary": 0.6}

func kindWeight(kind string) float64 {
	if w, ok := kindWeights[kind]; ok {
		return w
	}
	return 1
}

// found is an article of the answer before it is shown.
type found struct {
	article, section int
	score            float64
}

// Ask answers a question. The error is ctx's, or one of reading the index. A
// question without words gets an empty answer.
func (f *Finder) Ask(ctx context.Context, asked Question) (Answer, error) {
	if len(f.others) > 0 || f.tag != englishTag {
		return f.askAll(ctx, asked)
	}
	return f.ask(ctx, asked)
}

// ask answers from the index of one language.
func (f *Finder) ask(ctx context.Context, asked Question) (Answer, error) {
	w := f.spare.Get().(*work)
	defer f.spare.Put(w)
	q, err := f.understand(asked.Words, w)
	if err != nil || len(q.words) == 0 {
		return Answer{}, errors.Join(err, ctx.Err())
	}
	if err := f.weigh(ctx, q, w); err != nil {
		return Answer{}, err
	}
	worth := f.worth(q, w)
	all := f.rank(q, worth, w)
	var answer Answer
	answer.Kinds = f.count(all, func(a *article) string { return a.kind }, func(a *article) bool {
		return asked.Station == "" || a.station == asked.Station
	})
	answer.Stations = f.count(all, func(a *article) string { return a.station }, func(a *article) bool {
		return asked.Kind == "" || a.kind == asked.Kind
	})
	all = slices.DeleteFunc(all, func(x found) bool {
		a := &f.articles[x.article]
		return asked.Kind != "" && a.kind != asked.Kind || asked.Station != "" && a.station != asked.Station
	})
	answer.Total = len(all)
	if answer.Unknown, err = f.unknown(q, asked.Words, w); err != nil {
		return Answer{}, err
	}
	if len(all) == 0 {
		answer.Nearest = f.nearestWords(q)
		return answer, nil
	}
	limit := asked.Limit
	if limit <= 0 {
		limit = DefaultLimit
	}
	from := min(max(asked.From, 0), len(all))
	limit = min(limit, MaxLimit, len(all)-from)
	closest := all[:min(lookedAtWords, len(all))] // the same whatever is shown, so that what follows goes on where this ends
	shown := newMarks(q, w.language, worth)
	best := closest[0].score
	for i := range closest {
		closest[i].score = f.lift(q, closest[i], shown, w, best)
	}
	f.sortFound(closest)
	for _, x := range all[from : from+limit] {
		answer.Hits = append(answer.Hits, f.hit(x, shown, w.reader))
	}
	return answer, nil
}

// sortFound puts the best first, and where two are as good the one whose path comes first.
func (f *Finder) sortFound(all []found) {
	slices.SortFunc(all, func(a, b found) int {
		return cmp.Or(cmp.Compare(b.score, a.score), f.compare(a.article, b.article))
	})
}

// compare gives the order of two articles, that of [Index].
func (f *Finder) compare(a, b int) int {
	x, y := &f.articles[a], &f.articles[b]
	return cmp.Or(strings.Compare(x.page, y.page), strings.Compare(x.title, y.title), cmp.Compare(a, b))
}

// rank gives every article worth showing with its best section, best first.
//
// A section scores the sum over the question's words, what its article's title
// and everyday words score included, times the root of the share of the question
// that is there. An article scores its best section and, to a part, all
// its sections taken together, so that one that treats the whole question in
// several places comes before one that touches it once.
func (f *Finder) rank(q query, worth []float64, w *work) []found {
	all := w.found[:0]
	best := make([]float64, len(q.words))
	top := 0.0
	for a, parent := range f.articles {
		x := found{article: a, section: -1}
		clear(best)
		section := 0.0
		for s := parent.first; s < parent.end; s++ {
			sum, covered := 0.0, 0.0
			for i := range q.words {
				score := w.sections.words[i][s]
				if best[i] < score {
					best[i] = score
				}
				if score += w.articles.words[i][a]; score > 0 {
					sum += score
					covered += worth[i]
				}
			}
			if score := sum * math.Sqrt(covered); score > section {
				section = score
				x.section = s
			}
		}
		if x.section < 0 {
			continue
		}
		sum, covered := 0.0, 0.0
		for i := range q.words {
			if score := best[i] + w.articles.words[i][a]; score > 0 {
				sum += score
				covered += worth[i]
			}
		}
		x.score = kindWeight(parent.kind) * ((1-wholeArticle)*section + wholeArticle*sum*math.Sqrt(covered))
		if q.wanted[parent.kind] {
			x.score *= wantedKind
		}
		top = max(top, x.score)
		all = append(all, x)
	}
	w.found = all // kept for the next question, however many are left of it now
	all = slices.DeleteFunc(all, func(x found) bool { return x.score < worthShowing*top })
	f.sortFound(all)
	return all
}

// worth shares out 1 among the words of the question that are found anywhere,
// rare words getting more.
func (f *Finder) worth(q query, w *work) []float64 {
	worth := make([]float64, len(q.words))
	total := 0.0
	n := float64(len(f.articles))
	for i := range q.words {
		holding := 0.0
		for a, parent := range f.articles {
			score := w.articles.words[i][a]
			for s := parent.first; s < parent.end && score == 0; s++ {
				score = w.sections.words[i][s]
			}
			if score > 0 {
				holding++
			}
		}
		if holding > 0 {
			worth[i] = math.Log(1 + (n-holding+0.5)/(holding+0.5))
			if isLittle(q.words[i].term) {
				worth[i] *= weighLittle
			}
			total += worth[i]
		}
	}
	for i := range worth {
		worth[i] /= total
	}
	return worth
}

// count counts articles by a name, those with most first.
func (f *Finder) count(all []found, name func(*article) string, counts func(*article) bool) []Count {
	articles := map[string]int{}
	for _, x := range all {
		if a := &f.articles[x.article]; counts(a) && name(a) != "" {
			articles[name(a)]++
		}
	}
	var list []Count
	for name, n := range articles {
		list = append(list, Count{name, n})
	}
	slices.SortFunc(list, func(a, b Count) int {
		return cmp.Or(cmp.Compare(b.Articles, a.Articles), strings.Compare(a.Name, b.Name))
	})
	return list
}

// nearestWords offers up to five words of the manual for those of the question
// that it does not hold, looking further than a question does.
func (f *Finder) nearestWords(q query) []string {
	const offered = 5
	var words []string
	for _, w := range q.words {
		if !isWord(w.word) || w.known {
			continue
		}
		for _, n := range f.lexicon.nearest(w.word, allowed(w.word)+1, offered) {
			if !slices.Contains(words, n.word) && len(words) < offered {
				words = append(words, n.word)
			}
		}
	}
	return words
}

// unknown gives the words of a question that the manual has in no form.
func (f *Finder) unknown(q query, asked string, w *work) ([]string, error) {
	asked = shorten(asked)
	var list []string
	for i, one := range q.words {
		if isLittle(one.term) {
			continue
		}
		known := one.known
		if !isWord(one.word) {
			known = false
			for _, v := range q.variants {
				if v.first > i || i > v.last || known {
					continue
				}
				for _, field := range fieldNames {
					n, err := w.texts.Find(field, v.terms[0])
					if err != nil {
						return nil, err
					}
					known = known || n > 0
				}
			}
		}
		typing := one.end == len(asked) && (len(one.word) < shortestPrefix || len(f.lexicon.beginning(one.word, 1)) > 0)
		if !known && !typing {
			list = append(list, asked[one.start:one.end])
		}
	}
	return list, nil
}
