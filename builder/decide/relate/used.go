package relate

import (
	"cmp"
	"context"
	"slices"
	"strings"

	"tankside/builder/manual"
	"tankside/builder/workers"
)

// Uses has for each article the ones that speak of it, in the order of the manual: those that link to it in their text, in see-also or in
// an answer, and those that name it in their header.
type Uses map[*manual.Article][]*manual.Article

// Memo keeps which articles each article speaks of, for [UsedByAgain].
type Memo = manual.Memo[[]*manual.Article]

// UsedBy gives the uses of every article.
func UsedBy(m *manual.Manual) Uses { return UsedByAgain(m, nil) }

// UsedByAgain gives the same, and looks through those articles alone of which the memo does not know it.
func UsedByAgain(m *manual.Manual, memo *Memo) Uses {
	memo.Begin(m, "")
	articles := make([]*manual.Article, 0, m.Count())
	for _, a := range m.Articles {
		articles = append(articles, a)
	}
	mentioned := make([][]*manual.Article, len(articles))
	if err := workers.Each(context.Background(), len(articles), func(i int) error {
		mentioned[i] = memo.Of(m, articles[i], func(m *manual.Manual) []*manual.Article { return Mentions(m, articles[i]) })
		return nil
	}); err != nil {
		panic(err) // looking through an article gives no error, and nothing ends the context
	}
	used := make(Uses, len(articles))
	for i, a := range articles {
		for _, to := range mentioned[i] {
			used[to] = append(used[to], a)
		}
	}
	return used
}

// Of gives the articles that speak of one, by title.
func (u Uses) Of(a *manual.Article) []*manual.Article {
	return slices.SortedFunc(slices.Values(u[a]), byTitle)
}

func byTitle(a, b *manual.Article) int {
	return cmp.Or(strings.Compare(strings.ToLower(a.Head.Title), strings.ToLower(b.Head.Title)), strings.Compare(a.Path, b.Path))
}

// Mentions gives the other articles that an article speaks of, each once, in the order in which it does: header before text.
func Mentions(m *manual.Manual, a *manual.Article) []*manual.Article {
	var list []*manual.Article
	seen := map[*manual.Article]bool{a: true}
	add := func(to *manual.Article) {
		if to != nil && !seen[to] {
			seen[to] = true
			list = append(list, to)
		}
	}
	for kind, ref := range a.References {
		add(m.Named(kind, ref.Name))
	}
	for _, entry := range a.Head.SeeAlso {
		if to, problem := m.Reference(a, entry.Name); problem == nil {
			add(to)
		}
	}
	for _, l := range a.Links {
		if strings.HasPrefix(l.Target, "#") {
			continue
		}
		if to, problem := m.Resolve(a, l.Target); problem == nil {
			add(to.Article)
		}
	}
	return list
}
