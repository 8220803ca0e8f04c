package page

import (
	"bytes"
	"fmt"
	"html/template"
	"strings"
)

// What stands on paper is filled by the functions that fill the pages, and shown by templates of its own: the site that fills it is told where
// in the book it writes. Then its links lead into the book and know the number of the section they lead to, addresses inside a page carry the
// section's, and the text of an article is made ready for paper. So a template of the pages, which a shop may replace, has no part in the book.

// Place is where a page of the edition stands in the book.
type Place struct {
	File   string // of the book
	Anchor string // of the section in that file, with which every address inside it begins
	Number string // of the section
	Whole  bool   // the book is one document, which has no edition beside it
}

// paper is what a site knows that writes for the book; a site that writes pages has none.
type paper struct {
	Place
	places func(page string) (Place, bool) // where a page stands, if it is in the book
}

// printed is what a paper template shows.
type printed struct {
	Place
	Content any // the same as on the page
}

// Printed is what stands in the book for a page, with the line on which the page's station is marked.
type Printed struct {
	HTML template.HTML
	Line []Stop
	Lang string // of what it says, where it is not the book's
}

// Print gives what stands in the book for a page, at that place. A page NAME.html of the theme's templates is printed with paper-NAME.html.
func (p *Parts) Print(page string, at Place, places func(page string) (Place, bool)) (Printed, error) {
	j := p.pages[page]
	if j.fill == nil && p.own != nil {
		printed, err := p.own.Print(page, at, places)
		printed.Lang = p.own.s.language
		return printed, err
	}
	if j.fill == nil {
		return Printed{}, fmt.Errorf("the edition has no page %s", page)
	}
	sheet := p.s.sheets[paperPrefix+j.sheet]
	if sheet == nil {
		return Printed{}, fmt.Errorf("theme: there is no template %s%s to print %s with", paperPrefix, j.sheet, page)
	}
	s := *p.s
	s.paper = &paper{at, places}
	f := s.frame(page)
	f.Root = rootOf(at.File)
	if err := j.fill(&s, f); err != nil {
		return Printed{}, err
	}
	var b bytes.Buffer
	b.Grow(usualPage)
	if err := sheet.ExecuteTemplate(&b, "content", printed{at, f.Content}); err != nil {
		return Printed{}, s.fault(paperPrefix+j.sheet, err)
	}
	return Printed{HTML: template.HTML(b.String()), Line: f.Line}, nil
}

// paperPrefix begins the names of the templates that print a page.
const paperPrefix = "paper-"

// address is where a link leads to a page of the edition, or with # to a place in it; root leads from the page with the link to the edition's
// root. On paper it leads into the book, and out of it to pages that the book has not.
func (s *site) address(root, page string) string {
	if s.paper == nil {
		return root + page
	}
	base, inside, _ := strings.Cut(page, "#")
	at, there := s.paper.places(s.ownName(base))
	if !there {
		return s.beyond(root, page)
	}
	address := "#" + at.Anchor
	if at.File != s.paper.File {
		address = root + at.File + address
	}
	if inside != "" {
		address += "." + inside
	}
	return address
}

// beyond is the address on paper of a page that the book has not: in the edition beside it. From one document a link leads to where the edition is served; where the
// shop file does not name that, to the section in which the link stands, for there is nowhere else.
func (s *site) beyond(root, page string) string {
	switch {
	case !s.paper.Whole:
		return root + page
	case s.Manual.Shop.Address != "":
		return s.Manual.Shop.Address + page
	}
	return "#" + s.paper.Anchor
}

// number is the number of the section to which a link to a page leads on paper. It is empty where there is none to be told: on the screen, in the
// section itself, and for a page that the book has not.
func (s *site) number(page string) string {
	if s.paper == nil {
		return ""
	}
	base, _, _ := strings.Cut(page, "#")
	at, there := s.paper.places(base)
	if !there || at.Number == s.paper.Number {
		return ""
	}
	return at.Number
}

// anchor is an address inside a page; on paper it begins with the section's.
func (s *site) anchor(inside string) string {
	if s.paper == nil {
		return inside
	}
	return s.paper.Anchor + "." + inside
}

// label is the name of a part of a page for those who hear it. On paper many pages stand in one file, and each may have a “Table 1”.
func (s *site) label(text string) string {
	if s.paper == nil {
		return text
	}
	return s.paper.Number + " " + text
}
