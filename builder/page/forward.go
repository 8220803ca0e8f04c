package page

import (
	"maps"
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"

	"tankside/builder/content"
	"tankside/builder/manual"
)

// forwardContent is what the page at an old address shows.
type forwardContent struct {
	To   link
	Tank bool
}

// forwards are the pages at the addresses that articles and tanks had before, as the file of old addresses and the ledger tell; each leads on. The file counts
// before the ledger, which is of whole files alone. In a language of translations there is one where the article has a page in it. A heading's old address is an
// anchor of the page on which it stands: see aliases.
func (s *site) forwards(pages []job) []job {
	taken := make(map[string]bool, len(pages))
	for _, p := range pages {
		taken[p.path] = true
	}
	var jobs []job
	lead := func(old string, isTank bool, to func(s *site, root string) link) {
		if where := s.name(old); !taken[where] {
			taken[where] = true
			jobs = append(jobs, s.page(old, "forward", func(s *site, f *frame) error {
				on := to(s, f.Root)
				f.Title, f.Forward, on.Note = on.Title, on.Href, ""
				f.Content = forwardContent{on, isTank}
				return nil
			}))
		}
	}
	article := func(from string, a *manual.Article, anchor string) {
		if !s.Manual.LeftOut(a) && (s.isOwn() || s.Manual.In(a, s.language) != nil) {
			lead(strings.TrimSuffix(from, ".md")+".html", false, func(s *site, root string) link {
				to := s.toArticle(root, a)
				to.Href += anchor
				return to
			})
		}
	}
	for i := range s.Manual.Moved {
		switch f := &s.Manual.Moved[i]; {
		case f.Tank != "":
			lead(tankPage(strings.TrimPrefix(f.From, manual.TankFolder)), true, func(s *site, root string) link {
				return link{Href: root + s.to(tankPage(f.Tank)), Title: s.tankName(f.Tank), Lang: s.written()}
			})
		case f.Article != nil && f.FromAnchor == "" && f.Anchor != "":
			article(f.From, f.Article, "#"+f.Anchor)
		case f.Article != nil && f.FromAnchor == "":
			article(f.From, f.Article, "")
		}
	}
	for _, from := range slices.Sorted(maps.Keys(s.Forwards)) {
		if a := s.Manual.At(s.Forwards[from]); a != nil && a.Language == "" && content.IsArticle(from) {
			article(from, a, "")
		}
	}
	return jobs
}

func (s *site) tankName(id string) string {
	for i := range s.Manual.Shop.Tanks {
		if s.Manual.Shop.Tanks[i].ID == id {
			return s.Manual.Shop.Tanks[i].Name
		}
	}
	return id
}

// aliases are the anchors by which a heading of an article was found before.
func (s *site) aliases(a *manual.Article, anchor string) []string {
	var list []string
	for i := range s.Manual.Moved {
		if f := &s.Manual.Moved[i]; f.Article == a && f.FromAnchor != "" && f.Anchor == anchor {
			list = append(list, f.FromAnchor)
		}
	}
	return list
}

// alias puts the anchors by which a heading was found before into it, so that old addresses still lead to it.
func (b *body) alias(h *ast.Heading) {
	id, has := h.AttributeString("id")
	if !has || b.s.paper != nil {
		return
	}
	for _, old := range b.s.aliases(b.a, string(id.([]byte))) {
		mark := ast.NewString([]byte(`<span id="` + old + `"></span>`)) // an anchor has letters, digits and hyphens alone: manual.Moved sees to it
		mark.SetCode(true)
		h.InsertBefore(h, h.FirstChild(), mark)
	}
}
