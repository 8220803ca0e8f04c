package book

import (
	"fmt"
	"html/template"

	"tankside/builder/manual"
	"tankside/builder/page"
)

// Where the book stands in the edition.
const (
	cover  = page.BookPage
	folder = "book/"
)

// Sheets gives the pages of the book and of the cards.
func Sheets(p *page.Parts) []page.Sheet {
	b := &book{parts: p, manual: p.Input().Manual, sections: map[string]*section{}}
	if b.manual.Count() <= MostArticles {
		b = lay(p)
	}
	sheets := []page.Sheet{{Path: cover, Template: "book", Fill: b.cover}, {Path: page.CardsPage, Template: "cards", Fill: b.cards}}
	for _, c := range b.chapters {
		if c.file == cover {
			continue
		}
		for part := 0; part == 0 || part*FileSize < len(c.sections); part++ {
			sheets = append(sheets, page.Sheet{Path: c.fileOf(part), Template: "book-chapter", Fill: func() (page.Filled, error) { return b.fill(c, part) }})
		}
	}
	return sheets
}

// runningHead is what stands at the head of every sheet.
type runningHead struct {
	Shop                  string
	Edition               string // number, date and code
	Number, Title, Remark string
	Line                  []page.Stop
}

func (b *book) head(number, title, remark string, line []page.Stop) runningHead {
	return runningHead{b.manual.Shop.Name, b.parts.Edition(), number, title, remark, line}
}

// coverContent is what the page with title, directions and contents shows.
type coverContent struct {
	Shop, Note, Mark string
	Edition          string // number, date and code
	Number           int    // of the chapter with the directions
	Head             runningHead
	Chapters         []contents
	TooLarge         string // why there is no book
	Cards            string
}

// contents is a chapter in the table of contents.
type contents struct {
	Number      int
	Title, Href string
	Sections    []entry
}

type entry struct{ Number, Title, Href string }

func (b *book) cover() (page.Filled, error) {
	title := b.parts.Say("The manual on paper")
	c := coverContent{
		Shop: b.manual.Shop.Name, Note: b.manual.Shop.Note, Mark: b.parts.Mark(), Edition: b.parts.Edition(), Number: 1,
		Head: b.head("", title, "", b.parts.Line("", "")), Cards: page.CardsPage,
	}
	if len(b.chapters) == 0 {
		c.TooLarge = fmt.Sprintf(b.parts.Say("This manual has %s articles: too many for a book. Print the pages that you need one by one; each has its edition and code."),
			fmt.Sprint(b.manual.Count()))
	}
	for _, ch := range b.chapters {
		one := contents{Number: ch.number, Title: ch.title, Href: ch.file}
		if ch.file == cover {
			one.Href = "#how-to-use"
		}
		for _, s := range ch.sections {
			one.Sections = append(one.Sections, entry{s.number, s.title, s.address(cover)})
		}
		c.Chapters = append(c.Chapters, one)
	}
	return page.Filled{Title: title, Content: c}, nil
}

// chapterContent is what a file of the book shows.
type chapterContent struct {
	Number      int
	Title, Part string
	Contents    string // the address of the contents
	Leaves      []leaf
	Words       any // the template of a chapter that is not made of pages takes what it needs of it
	Head        runningHead
}

// leaf is a section with its running head. It begins on a sheet of its own.
type leaf struct {
	Anchor, Number, Title string
	Head                  runningHead
	Control               *page.Control // of an article: who answers for it, and until when
	HTML                  template.HTML
	Facts                 []fact
}

func (b *book) fill(c *chapter, part int) (page.Filled, error) {
	content := chapterContent{Number: c.number, Title: c.title, Contents: relative(c.file, cover) + "#contents",
		Head: b.head(fmt.Sprint(c.number), c.title, "", b.parts.Line("", ""))}
	if part > 0 {
		content.Part = fmt.Sprint(part + 1)
	}
	if c.words != nil {
		content.Words = c.words(c)
	}
	for _, s := range c.sections[min(part*FileSize, len(c.sections)):min((part+1)*FileSize, len(c.sections))] {
		l, err := b.leaf(s)
		if err != nil {
			return page.Filled{}, fmt.Errorf("%s: %w", s.title, err)
		}
		content.Leaves = append(content.Leaves, l)
	}
	return page.Filled{Title: fmt.Sprintf("%d %s", c.number, c.title), Content: content}, nil
}

func (b *book) leaf(s *section) (leaf, error) {
	l := leaf{Anchor: s.anchor, Number: s.number, Title: s.title}
	if s.card != nil {
		l.Facts, l.Head = s.card.Facts, b.head(s.number, s.title, "", b.parts.Line(s.card.station, s.card.Name))
		return l, nil
	}
	printed, err := b.parts.Print(s.page, s.place(), b.placeOf)
	if err != nil {
		return l, err
	}
	l.HTML = printed.HTML
	remark := ""
	if a := s.article; a != nil {
		remark = b.parts.Say("Revision") + " " + a.Head.Revision
		control := b.parts.Control(a)
		l.Control = &control
		if control.Approved == "" {
			remark += ", " + control.StateOfRelease
		}
	}
	l.Head = b.head(s.number, s.title, remark, printed.Line)
	return l, nil
}

// placeOf tells where a page of the edition stands in the book.
func (b *book) placeOf(path string) (page.Place, bool) {
	s := b.sections[path]
	if s == nil {
		return page.Place{}, false
	}
	return s.place(), true
}

// sectionOf gives the section of an article, or nil where there is no book.
func (b *book) sectionOf(a *manual.Article) *section { return b.sections[page.Path(a)] }
