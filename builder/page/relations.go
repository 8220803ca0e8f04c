package page

import (
	"cmp"

	"tankside/builder/manual"
)

// usedBy lists the articles that speak of this one, with their kind.
func (s *site) usedBy(root string, a *manual.Article) []link {
	var links []link
	for _, b := range s.used.Of(a) {
		l := s.toArticle(root, b)
		l.Note = s.words.say(string(b.Kind))
		links = append(links, l)
	}
	return links
}

// seeAlso lists the articles that the author points to, with their kind, in the author's order.
func (s *site) seeAlso(root string, a *manual.Article) []link {
	var links []link
	for _, r := range a.Head.SeeAlso {
		b, problem := s.Manual.Reference(a, r.Name)
		if problem != nil || b == nil {
			continue // the proof-reader reports it
		}
		l := s.toArticle(root, b)
		l.Note = s.words.say(string(b.Kind))
		links = append(links, l)
	}
	return links
}

func byTitle(a, b *manual.Article) int {
	return cmp.Or(cmp.Compare(fold(a.Head.Title), fold(b.Head.Title)), cmp.Compare(a.Path, b.Path))
}
