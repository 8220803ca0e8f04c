package book

import (
	"cmp"
	"slices"
	"strings"
	"unicode"

	"tankside/builder/manual"
	"tankside/builder/page"
)

// The chapters that are lists of words rather than pages.

type words struct {
	Dangers   []grouped
	Forms     []form
	Sheets    []blankSheets
	Glossary  []term
	Letters   []letter
	Sources   []source
	Approvals []approval
	SignOff   []lesson
}

type term struct{ Term, Means, Number, Href string }

// letter is one letter of the index. Words that begin with no letter stand under "0–9".
type letter struct {
	Letter string
	Words  []indexed
}

type indexed struct {
	Word  string
	Where []entry // by number
}

type source struct {
	Text  string
	Where []entry
}

type lesson struct{ Number, Title, Href, Revision string }

// approval is an article with who answers for it.
type approval struct {
	Number, Title, Href string
	page.Control
}

// glossary is the list of terms.
func (b *book) glossary(c *chapter) (any, error) {
	var w words
	for _, t := range b.manual.Glossary {
		one := term{Term: t.Term, Means: t.Means}
		if a := b.manual.At(t.Article); a != nil {
			if s := b.sectionOf(a); s != nil { // a draft has none
				one.Number, one.Href = s.number, s.address(c.file)
			}
		}
		w.Glossary = append(w.Glossary, one)
	}
	return w, nil
}

// gathered are texts with the sections in which they stand.
type gathered map[string][]*section

func (g gathered) add(text string, s *section) {
	if !slices.Contains(g[text], s) {
		g[text] = append(g[text], s)
	}
}

// each calls do with every text in the order of the alphabet.
func (g gathered) each(from string, on func(anchor string) string, do func(text string, where []entry)) {
	var texts []string
	for text := range g {
		texts = append(texts, text)
	}
	slices.SortFunc(texts, func(x, y string) int { return cmp.Or(cmp.Compare(page.Fold(x), page.Fold(y)), cmp.Compare(x, y)) })
	for _, text := range texts {
		var where []entry
		for _, s := range g[text] {
			where = append(where, entry{Number: s.number, Title: s.title, Href: s.address(from), Page: on(s.anchor)})
		}
		do(text, where)
	}
}

// index is the alphabetical index: titles, everyday words, and the terms of the glossary that have an article.
func (b *book) index(c *chapter) (any, error) {
	found := gathered{}
	for _, ch := range b.chapters {
		for _, s := range ch.sections {
			found.add(s.title, s)
			if s.article != nil {
				for _, w := range b.parts.Local(s.article).Head.AlsoCalled {
					found.add(w, s)
				}
			}
		}
	}
	for i := range b.manual.Glossary {
		t := &b.manual.Glossary[i]
		if a := b.manual.At(t.Article); a != nil && b.sectionOf(a) != nil {
			for _, w := range append([]string{t.Term}, t.AlsoCalled...) {
				found.add(w, b.sectionOf(a))
			}
		}
	}
	var w words
	found.each(c.file, b.pageOf, func(text string, where []entry) {
		name := "0–9"
		if first := []rune(page.Fold(text)); len(first) > 0 && unicode.IsLetter(first[0]) {
			name = strings.ToUpper(string(first[0]))
		}
		if n := len(w.Letters); n == 0 || w.Letters[n-1].Letter != name {
			w.Letters = append(w.Letters, letter{Letter: name})
		}
		last := &w.Letters[len(w.Letters)-1]
		last.Words = append(last.Words, indexed{text, where})
	})
	return w, nil
}

// sources lists what the articles are based on, each with the sections that name it.
func (b *book) sources(c *chapter) (any, error) {
	found := gathered{}
	for _, ch := range b.chapters {
		for _, s := range ch.sections {
			if s.article != nil {
				for _, text := range s.article.Head.Sources {
					found.add(text, s)
				}
			}
		}
	}
	var w words
	found.each(c.file, b.pageOf, func(text string, where []entry) { w.Sources = append(w.Sources, source{text, where}) })
	return w, nil
}

// approvals lists who answers for each article, and what nobody has approved.
func (b *book) approvals(c *chapter) (any, error) {
	var w words
	for _, ch := range b.chapters {
		for _, s := range ch.sections {
			if s.article != nil {
				w.Approvals = append(w.Approvals, approval{s.number, s.title, s.address(c.file), b.parts.Control(s.article)})
			}
		}
	}
	return w, nil
}

// signOff lists what a trainee is signed off for: each lesson and each procedure.
func (b *book) signOff(c *chapter) (any, error) {
	var w words
	for _, ch := range b.chapters {
		for _, s := range ch.sections {
			if a := s.article; a != nil && (a.Kind == manual.Lesson || a.Kind == manual.Procedure) {
				w.SignOff = append(w.SignOff, lesson{s.number, s.title, s.address(c.file), a.Head.Revision})
			}
		}
	}
	return w, nil
}
