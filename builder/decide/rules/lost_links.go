package rules

import (
	"slices"
	"strings"

	"tankside/builder/manual"
)

// leadsTo is where a link leads, for comparing a translation with its original: the original of the article and the number of its section, 0 for
// none; or an address outside the manual.
type leadsTo struct {
	article *manual.Article
	section int
	outside string
}

// written gives it as the original's links have it, from the manual's own folder.
func (l leadsTo) written() string {
	switch {
	case l.article == nil:
		return l.outside
	case l.section > 0 && l.section <= len(l.article.Sections):
		return l.article.Path + "#" + l.article.Sections[l.section-1].Anchor
	}
	return l.article.Path
}

// lostLinks says to what a block of the original links and the translation does not, or nothing. The order of links does not count, and neither do
// further ones. A link to an article is there only with its section. A web page may have an address of its own in each language: of these as many are asked for.
// The answers of symptoms are left to other-tree.
func (c *sectionPair) lostLinks(here []*manual.Block, there *manual.Block, s stream) string {
	if sameTargets(here, there) {
		return "" // without asking for the articles, which would make this text depend on each of them
	}
	var has []leadsTo
	outside := 0
	for _, b := range here {
		for _, link := range b.Links {
			to, known := c.leads(c.t, link.Target)
			if !known {
				return "" // broken-link names it
			}
			has = append(has, to)
			if to.article == nil {
				outside++
			}
		}
	}
	var lost []string
	for _, link := range there.Links {
		to, known := c.leads(c.o, link.Target)
		if !known || s == items && c.isAnswerOf(there, link) {
			continue
		}
		if to.article == nil {
			if outside--; outside >= 0 {
				continue
			}
		}
		there := func(h leadsTo) bool {
			return h == to || to.section == 0 && h.article == to.article && to.article != nil
		}
		if !slices.ContainsFunc(has, there) && !slices.Contains(lost, to.written()) {
			lost = append(lost, to.written())
		}
	}
	if len(lost) == 0 {
		return ""
	}
	return "The original links to " + strings.Join(lost, " and ") + " here, and the translation does not."
}

// sameTargets tells whether all links of a block of the original stand in blocks of the translation as they are written: both lie in one folder.
func sameTargets(here []*manual.Block, there *manual.Block) bool {
	return !slices.ContainsFunc(there.Links, func(link manual.BlockLink) bool {
		return !slices.ContainsFunc(here, func(b *manual.Block) bool {
			return slices.ContainsFunc(b.Links, func(l manual.BlockLink) bool { return l.Target == link.Target })
		})
	})
}

// leads gives where a link of the original or its translation leads, and false where it leads nowhere or to a picture.
func (c *sectionPair) leads(from *manual.Article, target string) (leadsTo, bool) {
	d, problem := c.Resolve(from, target)
	switch {
	case problem != nil:
		return leadsTo{}, false
	case d.Outside != "":
		return leadsTo{outside: d.Outside}, true
	case d.Article == nil:
		return leadsTo{}, false
	}
	to := leadsTo{article: d.Article}
	if d.Section != nil {
		to.section = 1 + slices.IndexFunc(d.Article.Sections, func(s manual.Section) bool { return s.At == d.Section.At })
	}
	if o := d.Article.Original; o != nil {
		to.article = o
		if len(o.Sections) != len(d.Article.Sections) {
			to.section = 0
		}
	}
	return to, true
}

// isAnswerOf tells whether a link closes a block of the original and is an answer of its symptom.
func (c *sectionPair) isAnswerOf(b *manual.Block, link manual.BlockLink) bool {
	if c.o.Kind != manual.Symptom || strings.TrimSpace(b.Text[link.To:]) != "" {
		return false
	}
	return slices.ContainsFunc(c.o.Sections, func(s manual.Section) bool {
		return slices.ContainsFunc(s.Answers, func(a manual.Answer) bool { return a.Link.Target == link.Target })
	})
}
