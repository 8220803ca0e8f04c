package builder

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"math"
	"os"
	"path"
	"path/filepath"
	"time"

	"tankside/builder/book"
	"tankside/builder/decide/relate"
	"tankside/builder/edition"
	"tankside/builder/page"
	"tankside/builder/press"
	"tankside/builder/quantity"
)

// BookOptions says which book to print, and how.
type BookOptions struct {
	Manual   string
	Mark     edition.Mark // of the edition that the manual is published as
	Now      time.Time
	Program  string           // a browser of the Chromium family
	Size     string           // book.A4 or book.Letter
	Units    *quantity.System // that are printed; nil: the shop's
	Language string           // "": the manual's own
	Progress func(doing string, done, total int)
}

// How often a book is printed at most: to measure chapters once more that were set otherwise, and whole.
const (
	mostMeasures = 5
	mostPrints   = 3
)

// ErrRestless says that the numbers of the sheets did not come to rest.
var ErrRestless = errors.New("each print moved the sections to other sheets, so that no contents could be right")

// PrintedBook is a book as one document.
type PrintedBook struct {
	PDF    []byte
	Sheets int
	Page   []byte // from which it was printed
}

// PrintBook prints a manual's book as one document, with the sheets' numbers in contents and index. It is to be a manual that can be published.
func PrintBook(ctx context.Context, o BookOptions) (b PrintedBook, err error) {
	root, err := openManual(o.Manual)
	if err != nil {
		return b, err
	}
	defer func() { err = errors.Join(err, root.Close()) }()
	m, used, _, err := new(Sitting).read(ctx, root, nil, Options{Now: o.Now})
	if err != nil {
		return b, err
	}
	theme, err := themeOf(root.FS(), m.Shop.Look.Theme)
	if err != nil {
		return b, err
	}
	folder, err := os.MkdirTemp("", "tankside-book-")
	if err != nil {
		return b, err
	}
	defer func() { err = errors.Join(err, os.RemoveAll(folder)) }()
	own := *m
	if o.Units != nil {
		own.Shop.US = *o.Units == quantity.US
	}
	in := inputOf(&own, theme, relate.Uses(used), o.Mark, o.Now)
	put := into(folder)
	parts, err := page.Open(in, o.Language, put)
	if err != nil {
		return b, err
	}
	w := &bookWork{o: &o, folder: folder, put: put, parts: parts, stretches: book.Stretches(parts), set: book.Setting{Size: o.Size, Fits: map[string]book.Fit{}}}
	if err := w.measure(ctx); err != nil {
		return b, err
	}
	return w.print(ctx)
}

// bookWork is a book that is being printed.
type bookWork struct {
	o         *BookOptions
	folder    string
	put       page.Sink
	parts     *page.Parts
	stretches []book.Stretch
	set       book.Setting
	page      string // the file in the folder that was laid out last; its name has the language
}

// press lays out the book as it is set and prints it. Without chapters named, all of it.
func (w *bookWork) press(ctx context.Context, only map[string]bool, purpose press.Purpose) (pdf []byte, d press.Document, err error) {
	set := w.set
	set.Only = only
	sheet, err := book.Whole(w.parts, set)
	if err != nil {
		return nil, d, err
	}
	err = w.parts.Render(sheet, func(to string, data []byte) error {
		w.page = to // in a language of translations its name has the language
		return errors.Join(w.put(to, data), w.put(path.Join(path.Dir(to), book.StylePage), book.Style(set)))
	})
	if err != nil {
		return nil, d, err
	}
	if pdf, err = press.Print(ctx, w.o.Program, filepath.Join(w.folder, filepath.FromSlash(w.page)), purpose); err != nil {
		return nil, d, err
	}
	d, err = press.Read(pdf)
	return pdf, d, err
}

// measure finds how the chapters are to be set, and on which sheets everything comes to stand. All of them are printed once to see it; after that only those that are
// set otherwise than before.
func (w *bookWork) measure(ctx context.Context) error {
	ends := map[string]extent{}
	var only map[string]bool
	for n := range mostMeasures {
		w.o.tell("measuring the book", n, ", the chapters that end badly once more")
		_, d, err := w.press(ctx, only, press.ToMeasure)
		if err != nil {
			return err
		}
		if err := w.extents(d, only, ends); err != nil {
			return err
		}
		if only = w.fit(ends); len(only) == 0 {
			break
		}
	}
	w.number(ends)
	return nil
}

// print prints the book whole, and once more where something has come to stand elsewhere than was measured.
func (w *bookWork) print(ctx context.Context) (b PrintedBook, err error) {
	for n := range mostPrints {
		w.o.tell("printing the book", n, ", with the numbers of its sheets set right")
		pdf, d, err := w.press(ctx, nil, press.ToRead)
		if err != nil {
			return b, err
		}
		pages := map[string]int{}
		for anchor := range w.set.Pages {
			pages[anchor] = d.Places[anchor].Sheet
		}
		if maps.Equal(pages, w.set.Pages) {
			html, err := os.ReadFile(filepath.Join(w.folder, filepath.FromSlash(w.page)))
			return PrintedBook{pdf, d.Sheets, html}, err
		}
		w.set.Pages = pages
	}
	return b, ErrRestless
}

// extent is how far a chapter goes.
type extent struct {
	before   int            // sheets in front of it, where it was printed with the others
	sheets   int            // that it has
	down     float64        // how far down its last line stands on the last, from 0 at the top edge to 1
	sections map[string]int // on which of its sheets they begin, from 1
}

// extents reads where the chapters that were printed stand.
func (w *bookWork) extents(d press.Document, only map[string]bool, ends map[string]extent) error {
	for _, s := range w.stretches {
		if only != nil && !only[s.From] {
			continue
		}
		first, last := d.Places[s.From].Sheet, d.Places[s.To]
		one := extent{before: first - 1, sheets: last.Sheet - first + 1, down: last.Down, sections: map[string]int{}}
		for _, anchor := range append([]string{s.From, s.To}, s.Sections...) {
			sheet := d.Places[anchor].Sheet
			if sheet == 0 {
				return fmt.Errorf("in the printed book there is no %s; print it with a newer browser", anchor)
			}
			one.sections[anchor] = sheet - first + 1
		}
		ends[s.From] = one
	}
	return nil
}

// number tells on which sheets everything stands. A chapter begins on a sheet of its own, so that the sheets of all can be counted through.
func (w *bookWork) number(ends map[string]extent) {
	w.set.Pages = map[string]int{}
	before := ends[w.stretches[0].From].before
	for _, s := range w.stretches {
		for anchor, sheet := range ends[s.From].sections {
			w.set.Pages[anchor] = before + sheet
		}
		before += ends[s.From].sheets
	}
}

// Of the height of a sheet: where its text begins and ends, and what a chapter's last sheet has on it at least.
const (
	textTop, textFoot = 0.08, 0.95
	leastOnSheet      = 0.22
	perStep           = 0.015 // that lines a step closer save
)

// fit sets chapters otherwise whose last sheet has less on it than a fifth, and tells which. Where so little is left over that closer lines hold it, these do.
// Otherwise all sheets of the chapter are a little shorter, so that more is left over for the last.
func (w *bookWork) fit(ends map[string]extent) map[string]bool {
	changed := map[string]bool{}
	for _, s := range w.stretches {
		end, fit := ends[s.From], w.set.Fits[s.From]
		on := (end.down - textTop) / (textFoot - textTop)
		if end.sheets < 2 || on >= leastOnSheet {
			continue
		}
		full := float64(end.sheets - 1)
		closer := int(math.Ceil(max(on, 0.01) / full / perStep))
		switch {
		case fit.Shorter == 0 && fit.Closer+closer <= book.Closest:
			fit.Closer += closer
		default:
			fit.Closer = 0
			fit.Shorter += int(math.Ceil((leastOnSheet + 0.03 - min(on, leastOnSheet)) / full * float64(book.TextHeight(w.set.Size))))
			fit.Shorter = min(fit.Shorter, book.Shortest)
		}
		if fit != w.set.Fits[s.From] {
			w.set.Fits[s.From], changed[s.From] = fit, true
		}
	}
	return changed
}

// tell says what is done, and when it is done once more, why.
func (o *BookOptions) tell(doing string, n int, why string) {
	if o.Progress == nil {
		return
	}
	if n > 0 {
		doing += why
	}
	o.Progress(doing, 0, 0)
}

// into writes files into a folder of ours.
func into(folder string) page.Sink {
	return func(path string, data []byte) error {
		to := filepath.Join(folder, filepath.FromSlash(path))
		if err := os.MkdirAll(filepath.Dir(to), 0o700); err != nil {
			return err
		}
		return os.WriteFile(to, data, 0o600)
	}
}
