package page

import (
	"cmp"
	"slices"

	"tankside/builder/manual"
)

// removes gives the soils that a chemistry lifts: what its own header says and what the soils say of it.
func (s *site) removes(chemistry *manual.Article) []manual.Ref {
	refs := slices.Clone(chemistry.Chemistry.Removes)
	for _, a := range s.Manual.Articles {
		if a.Kind != manual.Soil {
			continue
		}
		for _, r := range a.Soil.RemovedBy {
			if r.Chemistry.Name == chemistry.Name && !slices.ContainsFunc(refs, func(x manual.Ref) bool { return x.Name == a.Name }) {
				refs = append(refs, manual.Ref{Name: a.Name})
			}
		}
	}
	return refs
}

// backlinks gives for each article the ones that speak of it, by title.
func backlinks(m *manual.Manual) map[*manual.Article][]*manual.Article {
	used := map[*manual.Article][]*manual.Article{}
	for _, a := range m.Articles {
		seen := map[*manual.Article]bool{a: true}
		for _, l := range a.Links {
			to := destination(m, a, l.Target)
			if to != nil && !seen[to] {
				seen[to] = true
				used[to] = append(used[to], a)
			}
		}
	}
	for _, list := range used {
		slices.SortFunc(list, byTitle)
	}
	return used
}

func byTitle(a, b *manual.Article) int {
	return cmp.Or(cmp.Compare(fold(a.Head.Title), fold(b.Head.Title)), cmp.Compare(a.Path, b.Path))
}

// usedBy lists the articles that speak of this one, with their kind.
func (s *site) usedBy(root string, a *manual.Article) []link {
	var links []link
	for _, b := range s.used[a] {
		links = append(links, link{Href: root + articlePage(b), Title: b.Head.Title, Note: s.words.say(string(b.Kind))})
	}
	return links
}

// destination is the article that a link leads to, or nil.
func destination(m *manual.Manual, from *manual.Article, target string) *manual.Article {
	d, err := m.Resolve(from, target)
	if err != nil {
		return nil
	}
	return d.Article
}
