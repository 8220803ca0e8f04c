package page

import (
	"cmp"

	"tankside/builder/manual"
)

// usedBy lists the articles that speak of this one, with their kind.
func (s *site) usedBy(root string, a *manual.Article) []link {
	var links []link
	for _, b := range s.used[a] {
		links = append(links, link{Href: root + articlePage(b), Title: b.Head.Title, Note: s.words.say(string(b.Kind))})
	}
	return links
}

func byTitle(a, b *manual.Article) int {
	return cmp.Or(cmp.Compare(fold(a.Head.Title), fold(b.Head.Title)), cmp.Compare(a.Path, b.Path))
}
