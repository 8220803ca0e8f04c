package book

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"tankside/builder/manual"
	"tankside/builder/page"
)

// FileSize is the number of articles that a file of the book holds at most: what a browser lays out for paper within seconds.
const FileSize = 100

// MostArticles is the number of articles of the largest manual that has a book.
const MostArticles = 1000

// book is the manual as it is printed: its chapters, numbered.
type book struct {
	parts    *page.Parts
	manual   *manual.Manual
	chapters []*chapter
	sections map[string]*section // by the page that they are made of
}

// chapter is a numbered chapter with its sections.
type chapter struct {
	number   int
	title    string
	file     string // of its first file
	sections []*section

	// words fills a chapter that is not made of pages.
	words func(*chapter) any
}

// section is an article, a tank or a table, with its number.
type section struct {
	number, title, anchor, file string
	page                        string
	article                     *manual.Article // where it is one
	card                        *card           // of a rinse or dryer, which has no page
}

func (s *section) place() page.Place {
	return page.Place{File: s.file, Anchor: s.anchor, Number: s.number}
}

// address gives the address of a section from a file of the book.
func (s *section) address(from string) string {
	if s.file == from {
		return "#" + s.anchor
	}
	return relative(from, s.file) + "#" + s.anchor
}

// order gives the chapters of articles in their order, "" for the chapter of the line.
func order() []manual.Kind {
	kinds := manual.Chapters()
	after := slices.IndexFunc(kinds, func(k manual.Kind) bool { return k.Declared().Chapter > manual.LineChapter })
	if after < 0 {
		after = len(kinds)
	}
	return slices.Insert(kinds, after, "")
}

// relative gives the address of a file of the edition from another.
func relative(from, to string) string {
	return strings.Repeat("../", strings.Count(from, "/")) + to
}

// lay lays out the book.
func lay(p *page.Parts) *book {
	b := &book{parts: p, manual: p.Input().Manual, sections: map[string]*section{}}
	b.chapter(&chapter{title: p.Say("How to use this manual"), file: cover})
	for _, k := range order() {
		if k == "" {
			b.line()
			continue
		}
		c := &chapter{title: p.KindTitle(k), file: folder + k.Folder() + ".html"}
		for _, a := range b.articles(k) {
			c.sections = append(c.sections, &section{title: a.Head.Title, anchor: a.Name, page: page.Path(a), article: a})
		}
		if len(c.sections) > 0 {
			b.chapter(c)
		}
	}
	tables := &chapter{title: p.Say("Tables"), file: folder + "tables.html"}
	for _, t := range p.Tables() {
		tables.sections = append(tables.sections, &section{title: t[1], anchor: strings.TrimSuffix(t[0][strings.LastIndex(t[0], "/")+1:], ".html"), page: t[0]})
	}
	if len(tables.sections) > 0 {
		b.chapter(tables)
	}
	if len(b.manual.Glossary) > 0 {
		b.chapter(&chapter{title: p.Say("Glossary"), file: folder + "glossary.html", words: b.glossary})
	}
	b.chapter(&chapter{title: p.Say("Index"), file: folder + "index-of-words.html", words: b.index})
	b.chapter(&chapter{title: p.Say("Sources"), file: folder + "sources.html", words: b.sources})
	b.chapter(&chapter{title: p.Say("Approvals"), file: folder + "approvals.html", words: b.approvals})
	b.chapter(&chapter{title: p.Say("Sign-off sheet"), file: folder + "sign-off.html", words: b.signOff})
	return b
}

// chapter takes a chapter into the book and numbers it.
func (b *book) chapter(c *chapter) {
	c.number = len(b.chapters) + 1
	for i, s := range c.sections {
		s.number = fmt.Sprintf("%d.%d", c.number, i+1)
		s.file = c.fileOf(i / FileSize)
		if s.page != "" {
			b.sections[s.page] = s
		}
	}
	b.chapters = append(b.chapters, c)
}

// fileOf is the file with that part of the chapter.
func (c *chapter) fileOf(part int) string {
	if part == 0 {
		return c.file
	}
	return fmt.Sprintf("%s-%d.html", strings.TrimSuffix(c.file, ".html"), part+1)
}

// line is the chapter of the shop's line: each tank, then rinses and dryer.
func (b *book) line() {
	c := &chapter{title: b.parts.Say("The line and its tanks"), file: folder + "line.html"}
	for _, t := range b.manual.Shop.Tanks {
		c.sections = append(c.sections, &section{title: t.Name, anchor: t.ID, page: page.TankPath(t.ID)})
	}
	for _, card := range b.afterWash() {
		c.sections = append(c.sections, &section{title: card.Name, anchor: card.Anchor, card: &card})
	}
	if len(c.sections) > 0 {
		b.chapter(c)
	}
}

// articles gives the articles of a kind as they are taught: lessons by the course, procedures along the line, symptoms by where they
// are seen, others by title.
func (b *book) articles(k manual.Kind) []*manual.Article {
	var list []*manual.Article
	for _, a := range b.manual.Articles {
		if a.Kind == k {
			list = append(list, a)
		}
	}
	seen := []string{"part", "bath", "tank", "people"}
	place := func(a *manual.Article) int {
		switch k {
		case manual.Lesson:
			return a.Lesson.Order
		case manual.Procedure:
			return slices.Index(manual.Stations, a.Head.Station)
		case manual.Symptom:
			return slices.Index(seen, a.Symptom.SeenOn)
		}
		return 0
	}
	slices.SortStableFunc(list, func(x, y *manual.Article) int {
		return cmp.Or(place(x)-place(y), cmp.Compare(page.Fold(x.Head.Title), page.Fold(y.Head.Title)), cmp.Compare(x.Path, y.Path))
	})
	return list
}
