package page

import (
	"slices"

	"tankside/builder/decide/relate"
	"tankside/builder/manual"
)

// draftsNamed are the drafts that are left out and of which something that is published speaks: so that no link ends nowhere, each has a page with
// its title and the remark that it is not published. No list and no search leads there.
func (s *site) draftsNamed() []*manual.Article {
	var list []*manual.Article
	for _, a := range s.Manual.Drafts {
		if a.Language == "" {
			list = append(list, a)
		}
	}
	if len(list) == 0 {
		return nil // nobody need be asked
	}
	named := map[*manual.Article]bool{}
	speak := func(_ int, a *manual.Article) bool {
		for _, to := range relate.Mentions(s.Manual, a) {
			named[original(to)] = true
		}
		return true
	}
	s.Manual.Articles(speak)
	s.Manual.Translations(speak)
	for i := range s.Manual.Shop.Tanks {
		named[s.Manual.Named(manual.Chemistry, s.Manual.Shop.Tanks[i].Chemistry.Name)] = true
	}
	for i := range s.Manual.Glossary {
		named[s.Manual.At(s.Manual.Glossary[i].Article)] = true
	}
	return slices.DeleteFunc(list, func(a *manual.Article) bool { return !named[a] })
}

// draft fills the page of a draft that nobody gets.
func (s *site) draft(f *frame, a *manual.Article) error {
	f.Title = a.Head.Title
	f.Summary = s.words.say("This article is not finished, so it is not in this edition.")
	f.Content = listContent{Title: f.Title, Summary: f.Summary}
	return nil
}

// restsOnDrafts gives the titles of drafts that nobody gets and that an article's header names: what it says was worked out with them.
func (s *site) restsOnDrafts(a *manual.Article) []string {
	var titles []string
	seen := map[*manual.Article]bool{}
	for kind, ref := range original(a).References {
		if to := s.Manual.Named(kind, ref.Name); to != nil && !seen[to] && s.Manual.LeftOut(to) {
			seen[to] = true
			titles = append(titles, s.local(to).Head.Title)
		}
	}
	return titles
}
