package book

import (
	"fmt"
	"strconv"

	"tankside/builder/page"
)

// The sizes of sheet on which the book can be printed.
const (
	A4     = "A4"     // ISO 216
	Letter = "Letter" // ANSI Y14.1
)

// WholePage is the page with the whole book, from which one document is printed. It is no page of an edition.
const WholePage = "book-whole.html"

// TooLargeError says that a manual has more articles than a book may.
type TooLargeError struct{ Articles int }

func (e *TooLargeError) Error() string {
	return fmt.Sprintf("the manual has %d articles, and a book has room for %d; print the chapters or pages that you need", e.Articles, MostArticles)
}

// Setting is how a whole book is set.
type Setting struct {
	Size string // of its sheets

	// Pages are the sheets of the printed document on which places of the page stand, where they are known. Whatever they are, the page takes the same room.
	Pages map[string]int

	// Fits are how chapters are set, by their anchors, where that is not as usual.
	Fits map[string]Fit

	// Only are the anchors of the chapters that are laid out, where it is not nil: to measure these alone. A chapter begins on a sheet of its own, so it is the same
	// without the others.
	Only map[string]bool
}

// Fit is how a chapter is set so that its last sheet has more on it than a few lines, or none.
type Fit struct {
	Closer  int // its lines stand closer, in steps up to Closest
	Shorter int // its sheets have that many millimetres less for the text, up to Shortest
}

// How far a chapter may be set otherwise. A sheet that is shorter by the most has two thirds of the text that it could have.
const (
	Closest  = 3
	Shortest = 90
)

// Whole gives the page with the whole book.
func Whole(p *page.Parts, set Setting) (page.Sheet, error) {
	if n := p.Input().Manual.Count(); n > MostArticles {
		return page.Sheet{}, &TooLargeError{n}
	}
	b := lay(p, WholePage)
	b.pages = set.Pages
	if b.pages == nil {
		b.pages = map[string]int{}
	}
	return page.Sheet{Path: WholePage, Template: "book-whole", Still: true, Fill: func() (page.Filled, error) { return b.fillWhole(set) }}, nil
}

// wholeContent is what the page with the whole book shows.
type wholeContent struct {
	coverContent
	Style                string // the file with what holds for its sheets
	All                  bool   // it has a title in front
	Beginning, Directing *stretch
	Runs                 []run
}

// stretch is what is printed under one running head: it begins on a sheet of its own.
type stretch struct{ Anchor, End, Class string }

// run is a chapter as it is printed in the whole.
type run struct {
	chapterContent
	stretch
}

func (b *book) fillWhole(set Setting) (page.Filled, error) {
	filled, err := b.cover()
	if err != nil {
		return filled, err
	}
	c := wholeContent{coverContent: filled.Content.(coverContent)}
	c.Sheet, c.Style, c.All = set.Size, StylePage, set.Only == nil
	c.Beginning, c.Directing = set.stretch(contentsAnchor), set.stretch(b.chapters[0].anchor)
	for _, ch := range b.chapters[1:] { // the first is the directions
		of := set.stretch(ch.anchor)
		if of == nil {
			continue
		}
		filled, err := b.fill(ch, ch.sections, 0)
		if err != nil {
			return page.Filled{}, err
		}
		one := run{filled.Content.(chapterContent), *of}
		one.Head = b.head(strconv.Itoa(ch.number), ch.title, "", b.parts.Line(ch.station, ""))
		c.Runs = append(c.Runs, one)
	}
	return page.Filled{Title: b.parts.Say("The manual on paper"), Content: c}, nil
}

// pageOf writes on which sheet a place stands: three digits while that is not known, so that they take the room that they will need, and nothing where the book is
// not printed as one document.
func (b *book) pageOf(anchor string) string {
	switch {
	case b.pages == nil:
		return ""
	case b.pages[anchor] == 0:
		return "000"
	}
	return strconv.Itoa(b.pages[anchor])
}

// contentsAnchor is where the table of contents begins.
const contentsAnchor = "contents"

// endOf is the anchor behind the last line of a chapter.
func endOf(anchor string) string { return "end." + anchor }

// stretch is how the chapter at an anchor is printed; nil where it is not.
func (s *Setting) stretch(anchor string) *stretch {
	if s.Only != nil && !s.Only[anchor] {
		return nil
	}
	class, fit := "", s.Fits[anchor]
	if fit.Closer > 0 {
		class += fmt.Sprintf(" closer-%d", fit.Closer)
	}
	if fit.Shorter > 0 {
		class += " " + shorter(fit.Shorter)
	}
	return &stretch{anchor, endOf(anchor), class}
}

// Stretch is a chapter of the whole book, or its contents, from one anchor to another, with the anchors of its sections.
type Stretch struct {
	From, To string
	Sections []string
}

// Stretches are the contents and the chapters of the whole book, in their order.
func Stretches(p *page.Parts) []Stretch {
	list := []Stretch{{From: contentsAnchor, To: endOf(contentsAnchor)}}
	for _, c := range lay(p, WholePage).chapters {
		one := Stretch{From: c.anchor, To: endOf(c.anchor)}
		for _, s := range c.sections {
			one.Sections = append(one.Sections, s.anchor)
		}
		list = append(list, one)
	}
	return list
}
