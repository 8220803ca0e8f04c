package book

import (
	"fmt"
	"html/template"

	"tankside/builder/handout"
	"tankside/builder/manual"
	"tankside/builder/page"
)

// Where the book stands in the edition.
const (
	cover  = page.BookPage
	folder = "book/"
)

// Sheets gives the pages of the book.
func Sheets(p *page.Parts) []page.Sheet {
	b := &book{parts: p, manual: p.Input().Manual, sections: map[string]*section{}}
	if b.manual.Count() <= MostArticles {
		b = lay(p, "")
	}
	sheets := []page.Sheet{{Path: cover, Template: "book", Fill: b.cover}}
	for _, c := range b.chapters {
		if c.file == cover {
			continue
		}
		for part := 0; part == 0 || part*FileSize < len(c.sections); part++ {
			sheets = append(sheets, page.Sheet{Path: c.fileOf(part), Template: "book-chapter", Fill: func() (page.Filled, error) { return b.fill(c, c.inFile(part), part) }})
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
	Sheet            string // of a book that is printed whole, the size of its sheets
	Cards            string
}

// contents is a chapter in the table of contents.
type contents struct {
	Number      int
	Title, Href string
	Page        string
	Groups      []entries
}

// entries are the sections of a chapter under one heading, which may be empty.
type entries struct {
	Title    string
	Sections []entry
}

// entry leads to a section. Page is its sheet in a document that is printed whole.
type entry struct{ Number, Title, Href, Page string }

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
		c.Chapters = append(c.Chapters, b.contentsOf(ch))
	}
	return page.Filled{Title: title, Content: c}, nil
}

// contentsOf is a chapter in the table of contents.
func (b *book) contentsOf(ch *chapter) contents {
	one := contents{Number: ch.number, Title: ch.title, Href: ch.file, Page: b.pageOf(ch.anchor)}
	if ch.file == cover || b.whole != "" {
		one.Href = "#" + ch.anchor
	}
	for _, s := range ch.sections {
		if n := len(one.Groups); n == 0 || one.Groups[n-1].Title != s.group {
			one.Groups = append(one.Groups, entries{Title: s.group})
		}
		last := &one.Groups[len(one.Groups)-1]
		last.Sections = append(last.Sections, entry{s.number, s.title, s.address(b.coverFile()), b.pageOf(s.anchor)})
	}
	return one
}

// coverFile is the file with the contents.
func (b *book) coverFile() string {
	if b.whole != "" {
		return b.whole
	}
	return cover
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
	Group                 string // the heading of its part of the chapter, where it is the first under it
	Lang                  string // of what it says, where it is not the book's
	Head                  runningHead
	Control               *page.Control // of an article: who answers for it, and until when
	HTML                  template.HTML
	Facts                 []fact
}

// fact is what is known of a rinse or the dryer.
type fact struct {
	Name  string
	Value template.HTML
}

// fill fills a stretch of a chapter: a file of it, or all of it.
func (b *book) fill(c *chapter, sections []*section, part int) (page.Filled, error) {
	content := chapterContent{Number: c.number, Title: c.title, Contents: relative(c.file, b.coverFile()) + "#contents",
		Head: b.head(fmt.Sprint(c.number), c.title, "", b.parts.Line("", ""))}
	if part > 0 {
		content.Part = fmt.Sprint(part + 1)
	}
	if c.words != nil {
		words, err := c.words(c)
		if err != nil {
			return page.Filled{}, fmt.Errorf("%s: %w", c.title, err)
		}
		content.Words = words
	}
	group := ""
	for _, s := range sections {
		l, err := b.leaf(s)
		if err != nil {
			return page.Filled{}, fmt.Errorf("%s: %w", s.title, err)
		}
		if s.group != group {
			group = s.group
			l.Group = group
		}
		content.Leaves = append(content.Leaves, l)
	}
	return page.Filled{Title: fmt.Sprintf("%d %s", c.number, c.title), Content: content}, nil
}

func (b *book) leaf(s *section) (leaf, error) {
	l := leaf{Anchor: s.anchor, Number: s.number, Title: s.title}
	if s.card != nil {
		for i := range s.card.Sides {
			for _, part := range s.card.Sides[i].Blocks {
				if part.Sort != handout.Large && part.Sort != handout.Facts {
					continue
				}
				for _, r := range part.Rows {
					l.Facts = append(l.Facts, fact{r.Name, b.parts.Both(r.Value.In)})
				}
			}
		}
		l.Head = b.head(s.number, s.title, "", b.parts.Line(s.card.Station, s.card.Name))
		return l, nil
	}
	printed, err := b.parts.Print(s.page, s.place(), b.placeOf)
	if err != nil {
		return l, err
	}
	l.HTML, l.Lang = printed.HTML, printed.Lang
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
