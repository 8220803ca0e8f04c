package book

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"tankside/builder/handout"
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
	whole    string              // the one file that it is in; "" where each chapter has its own

	pages map[string]int // of a printed book: the sheet on which a place of the whole stands; nil where it is not printed as one document
}

// chapter is a numbered chapter with its sections.
type chapter struct {
	number   int
	title    string
	file     string         // of its first file
	anchor   string         // of its first heading
	station  manual.Station // of which it is
	sections []*section

	// words fills a chapter that is not made of pages.
	words func(*chapter) (any, error)
}

// section is an article, a tank or a table, with its number.
type section struct {
	number, title, anchor, file string
	whole                       bool // the book is one document
	page                        string
	group                       string          // the heading in the chapter under which it stands
	article                     *manual.Article // where it is one
	card                        *handout.Sheet  // of a rinse or dryer: what its card says
}

func (s *section) place() page.Place {
	return page.Place{File: s.file, Anchor: s.anchor, Number: s.number, Whole: s.whole}
}

// address gives the address of a section from a file of the book.
func (s *section) address(from string) string {
	if s.file == from {
		return "#" + s.anchor
	}
	return relative(from, s.file) + "#" + s.anchor
}

// relative gives the address of a file of the edition from another.
func relative(from, to string) string {
	return strings.Repeat("../", strings.Count(from, "/")) + to
}

// lay lays out the book: where whole is not empty, in that one file.
//
// Who reads a book at the line looks for a place first: so the chapters are the stations, each with its tanks, rinses or dryer and with every article that
// belongs there, kind by kind. What comes before the line among the kinds, the course, is a chapter of its own, and so is what has no place: tables, forms, lists.
func lay(p *page.Parts, whole string) *book {
	b := &book{parts: p, manual: p.Input().Manual, sections: map[string]*section{}, whole: whole}
	b.chapter(&chapter{title: p.Say("How to use this manual"), file: cover, anchor: "how-to-use"})
	b.chapter(&chapter{title: p.Say("Dangers and warnings"), file: folder + "dangers.html", words: b.dangers})
	var placed []manual.Kind
	for _, k := range manual.Chapters() {
		if k.Declared().Chapter > manual.LineChapter {
			placed = append(placed, k)
			continue
		}
		c := &chapter{title: p.KindTitle(k), file: folder + k.Folder() + ".html"}
		b.articles(c, k, "")
		b.unlessEmpty(c)
	}
	for _, st := range manual.Stations {
		c := &chapter{title: p.StationTitle(st), file: folder + string(st) + ".html", station: st}
		b.vessels(c)
		for _, k := range placed {
			b.articles(c, k, st)
		}
		b.unlessEmpty(c)
	}
	tables := &chapter{title: p.Say("Tables"), file: folder + "tables.html"}
	for _, t := range p.Tables() {
		name := strings.TrimSuffix(t[0][strings.LastIndex(t[0], "/")+1:], ".html")
		tables.sections = append(tables.sections, &section{title: t[1], anchor: "tables." + name, page: t[0]})
	}
	b.unlessEmpty(tables)
	b.chapter(&chapter{title: p.Say("Sums by hand"), file: folder + "sums.html", words: b.forms})
	b.chapter(&chapter{title: p.Say("Sheets to print"), file: folder + "sheets.html", words: b.handouts})
	if len(b.manual.Glossary) > 0 {
		b.chapter(&chapter{title: p.Say("Glossary"), file: folder + "glossary.html", words: b.glossary})
	}
	b.chapter(&chapter{title: p.Say("Index"), file: folder + "index-of-words.html", words: b.index})
	b.chapter(&chapter{title: p.Say("Sources"), file: folder + "sources.html", words: b.sources})
	b.chapter(&chapter{title: p.Say("Approvals"), file: folder + "approvals.html", words: b.approvals})
	b.chapter(&chapter{title: p.Say("Sign-off sheet"), file: folder + "sign-off.html", words: b.signOff})
	return b
}

// unlessEmpty takes a chapter that is made of sections into the book, if it has any.
func (b *book) unlessEmpty(c *chapter) {
	if len(c.sections) > 0 {
		b.chapter(c)
	}
}

// chapter takes a chapter into the book and numbers it.
func (b *book) chapter(c *chapter) {
	c.number = len(b.chapters) + 1
	if c.anchor == "" {
		c.anchor = "chapter." + strings.TrimSuffix(strings.TrimPrefix(c.file, folder), ".html")
	}
	for i, s := range c.sections {
		s.number = fmt.Sprintf("%d.%d", c.number, i+1)
		s.file = c.fileOf(i / FileSize)
		if b.whole != "" {
			s.file, s.whole = b.whole, true
		}
		if s.page != "" {
			b.sections[s.page] = s
		}
	}
	if b.whole != "" {
		c.file = b.whole
	}
	b.chapters = append(b.chapters, c)
}

// inFile are the sections in a part of the chapter that has a file of its own.
func (c *chapter) inFile(part int) []*section {
	return c.sections[min(part*FileSize, len(c.sections)):min((part+1)*FileSize, len(c.sections))]
}

// fileOf is the file with that part of the chapter.
func (c *chapter) fileOf(part int) string {
	if part == 0 {
		return c.file
	}
	return fmt.Sprintf("%s-%d.html", strings.TrimSuffix(c.file, ".html"), part+1)
}

// vessels gives a chapter what stands at its station: tanks, or rinses, or the dryer.
func (b *book) vessels(c *chapter) {
	if c.station == "wash" {
		for _, t := range b.manual.Shop.Tanks {
			c.sections = append(c.sections, &section{title: t.Name, anchor: "tanks." + t.ID, page: page.TankPath(t.ID), group: b.parts.Say("Tanks")})
		}
	}
	behind := b.parts.Behind()
	for i := range behind {
		if behind[i].Station == c.station {
			c.sections = append(c.sections, &section{title: behind[i].Name, anchor: "tanks." + behind[i].ID, page: page.TankPath(behind[i].ID), card: &behind[i], group: b.parts.Say("What stands here")})
		}
	}
}

// articles gives a chapter the articles of a kind, of a station or, where that is empty, of all.
func (b *book) articles(c *chapter, k manual.Kind, st manual.Station) {
	group := ""
	if st != "" {
		group = b.parts.KindTitle(k)
	}
	for _, a := range b.listed(k, st) {
		c.sections = append(c.sections, &section{title: b.parts.TitleOf(a), anchor: k.Folder() + "." + a.Name, page: page.Path(a), article: a, group: group})
	}
}

// listed gives the articles of a kind, of a station or, where that is empty, of all, as they are taught: lessons by the course, procedures along the line,
// symptoms by where they are seen, others by title.
func (b *book) listed(k manual.Kind, st manual.Station) []*manual.Article {
	var list []*manual.Article
	for _, a := range b.manual.Articles {
		if a.Kind == k && (st == "" || a.Head.Station == st) {
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
		return cmp.Or(place(x)-place(y), cmp.Compare(page.Fold(b.parts.TitleOf(x)), page.Fold(b.parts.TitleOf(y))), cmp.Compare(x.Path, y.Path))
	})
	return list
}
