package manual

import (
	"slices"

	"tankside/builder/expression"
	"tankside/builder/finding"
)

// What the shop file says becomes of drafts.
const (
	LeaveOut = "leave out" // nobody gets them
	Stamp    = "stamp"     // they are published, and each of their pages and sheets says what they are
)

// draftKey says that an article is not finished.
func draftKey(means string) field[Article] {
	return yesNo("draft", means, func(a *Article) *bool { return &a.Head.Draft })
}

// saysDraft finds the key in a header that cannot be read as a whole: what is not finished may stop in the middle of a line.
var saysDraft = expression.Of(`(?m)^draft:[ \t]+(?:yes|true)[ \t]*(?:#.*)?$`)

// LeftOut tells whether an article is a draft that nobody gets, or the translation of one. Names and links still find it, so that what speaks of
// it can be checked; everything that goes through the articles passes it by.
func (m *Manual) LeftOut(a *Article) bool {
	return m.Shop.Drafts != Stamp && (a.Head.Draft || a.Original != nil && a.Original.Head.Draft)
}

// Drafts ranges over the articles and translations that are left out, by path.
func (m *Manual) Drafts(yield func(int, *Article) bool) {
	m.trace.everything()
	for i, a := range m.drafts {
		if !yield(i, a) {
			return
		}
	}
}

// setDraftsAside takes out of the lists what is left out.
func (m *Manual) setDraftsAside() {
	aside := func(list []*Article) []*Article {
		return slices.DeleteFunc(list, func(a *Article) bool {
			if m.LeftOut(a) {
				m.drafts = append(m.drafts, a)
				return true
			}
			return false
		})
	}
	m.articles = aside(m.articles)
	m.translations = aside(m.translations)
}

// MarkDrafts marks the findings that are about drafts which are left out: they keep nothing from being published.
func (m *Manual) MarkDrafts(list []finding.Finding) {
	if len(m.drafts) == 0 {
		return
	}
	left := func(p finding.Place) bool { a := m.byPath[p.File]; return a != nil && m.LeftOut(a) }
	for i := range list {
		f := &list[i]
		f.Draft = left(f.Place)
		if f.Rule == ruleUnknownName.Name { // one finding of all who name it
			f.Draft = f.Draft && !slices.ContainsFunc(f.Also, func(p finding.Place) bool { return !left(p) })
		}
	}
}
