package press_test

import (
	"context"
	"html"
	"os"
	"os/exec"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"tankside/builder"
	"tankside/builder/book"
	"tankside/builder/edition"
	"tankside/builder/quantity"
)

func printed(t *testing.T, o builder.BookOptions) (builder.PrintedBook, document) {
	t.Helper()
	if os.Getenv("TANKSIDE_BOOK") == "" {
		t.Skip("the whole book is printed and read back by make book, which takes minutes")
	}
	program, err := exec.LookPath("chromium")
	if err != nil {
		t.Fatalf("Chromium does not run here: %v. make test installs Debian's chromium; elsewhere put a program of that name on the PATH.", err)
	}
	o.Program, o.Now = program, time.Date(2026, 12, 1, 0, 0, 0, 0, time.UTC)
	o.Mark = edition.Mark{Edition: 7, Date: "2026-12-01", Code: "234-567-89A"}
	begin, prints := time.Now(), 0
	o.Progress = func(doing string, _, _ int) {
		prints++
		t.Logf("%5.1f s: %s", time.Since(begin).Seconds(), doing)
	}
	b, err := builder.PrintBook(context.Background(), o)
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("%5.1f s: %d sheets in %d prints", time.Since(begin).Seconds(), b.Sheets, prints)
	return b, read(t, b.PDF)
}

// The demo manual is one document on A4 that other people's programs can read, and what its contents and its index say is so.
func TestBookIsOneDocument(t *testing.T) {
	t.Parallel()
	b, d := printed(t, builder.BookOptions{Manual: "../../content", Size: book.A4})
	if b.Sheets != len(d.sheets) || b.Sheets > 330 {
		t.Errorf("the book has %d sheets, by pdftotext %d; at most 330 were to be", b.Sheets, len(d.sheets))
	}
	sizeIs(t, d, 595.28, 841.89) // ISO 216: 210 × 297 mm
	contentsHold(t, b, d)
	nothingIsCut(t, d)
	noHeadingIsAlone(t, b, d)
	everySheetIsFilled(t, b, d)
	tagged(t, d, "en", "The manual on paper")
}

// The demo manual is one document in its other language, in US units and on Letter, too: everything runs longer there.
func TestBookInSpanishAndUSUnits(t *testing.T) {
	t.Parallel()
	us := quantity.US
	b, d := printed(t, builder.BookOptions{Manual: "../../content", Size: book.Letter, Units: &us, Language: "es"})
	sizeIs(t, d, 612, 792)
	contentsHold(t, b, d)
	nothingIsCut(t, d)
	noHeadingIsAlone(t, b, d)
	everySheetIsFilled(t, b, d)
	tagged(t, d, "es", "El manual en papel")
}

// On Letter, in US units, from a manual that somebody has just begun.
func TestBookOnLetterInUSUnits(t *testing.T) {
	t.Parallel()
	us := quantity.US
	b, d := printed(t, builder.BookOptions{Manual: "../../testdata/woodwinds/manual", Size: book.Letter, Units: &us})
	sizeIs(t, d, 612, 792) // ANSI Y14.1: 8.5 × 11 in
	contentsHold(t, b, d)
	nothingIsCut(t, d)
	noHeadingIsAlone(t, b, d)
	everySheetIsFilled(t, b, d)
	tagged(t, d, "en", "The manual on paper")
	whole := ""
	for _, s := range d.sheets {
		whole += s.text()
	}
	if !strings.Contains(whole, "°F") {
		t.Error("a book in US units has no degree Fahrenheit")
	}
}

func sizeIs(t *testing.T, d document, width, height float64) {
	t.Helper()
	for i, s := range d.sheets {
		if s.Width < width-1 || s.Width > width+1 || s.Height < height-1 || s.Height > height+1 {
			t.Fatalf("sheet %d is %.1f × %.1f pt, not %.1f × %.1f", i+1, s.Width, s.Height, width, height)
		}
	}
}

var (
	inContents        = regexp.MustCompile(`<a href="#([^"]+)"><span class="section-number">([^<]*)</span> ([^<]*) <span class="on-page">(\d+)</span></a>`)
	chapterInContents = regexp.MustCompile(`<li><p><a href="#[^"]+"><span class="section-number">\d+</span> [^<]* <span class="on-page">(\d+)</span></a></p>`)

	inIndex  = regexp.MustCompile(` <a href="#([^"]+)" aria-label="([0-9.]+) ([^"]*)">(\d+)</a>`)
	headings = regexp.MustCompile(`(?s)<h[1-6][^>]*>(.*?)</h[1-6]>`)
	tags     = regexp.MustCompile(`<[^>]*>`)
)

// number reads a positive number of a few digits.
func number(digits string) (n int) {
	for _, d := range digits {
		n = 10*n + int(d-'0')
	}
	return n
}

// contentsHold: on the sheet that contents, index and lists of sources and dangers name, the section of that number and title begins: all of them.
func contentsHold(t *testing.T, b builder.PrintedBook, d document) {
	t.Helper()
	texts := make([]string, len(d.sheets))
	for i, s := range d.sheets {
		texts[i] = s.text()
	}
	looked := map[string]int{}
	look := func(list, sectionNumber, title, sheet string) {
		looked[list]++
		n := number(sheet)
		want := closed(html.UnescapeString(sectionNumber + title))
		if n < 1 || n > len(texts) || !strings.Contains(texts[n-1], want) {
			t.Errorf("%s names sheet %s for %s %s, and it is not there", list, sheet, sectionNumber, title)
		}
	}
	page := string(b.Page)
	for _, m := range inContents.FindAllStringSubmatch(page, -1) {
		look("the contents", m[2], m[3], m[4])
	}
	for _, m := range inIndex.FindAllStringSubmatch(page, -1) {
		look("a list", m[2], m[3], m[4])
	}
	sections := strings.Count(page, `class="leaf-title"`)
	if looked["the contents"] < sections || sections == 0 || looked["a list"] < sections {
		t.Errorf("of %d sections the contents name %d and the lists have %d entries", sections, looked["the contents"], looked["a list"])
	}
}

// aboveNumber is the share of a sheet's height that has text; beneath stands the sheet's number.
const aboveNumber = .97

// nothingIsCut: every word stands whole on its sheet, and no two on one another.
func nothingIsCut(t *testing.T, d document) {
	t.Helper()
	for i, s := range d.sheets {
		var words []word
		for _, l := range s.Lines {
			words = append(words, l.Words...)
		}
		for _, w := range words {
			if w.Left < 10 || w.Right > s.Width-10 || w.Top < 10 || w.Bottom > s.Height-10 {
				t.Errorf("sheet %d: %q stands at the edge: %.0f–%.0f × %.0f–%.0f of %.0f × %.0f", i+1, w.Text, w.Left, w.Right, w.Top, w.Bottom, s.Width, s.Height)
			}
		}
		slices.SortFunc(words, func(a, b word) int { return int(a.Top - b.Top) })
		for j, a := range words {
			for _, b := range words[j+1:] {
				if b.Top > a.Bottom {
					break
				}
				wide := min(a.Right, b.Right) - max(a.Left, b.Left)
				high := min(a.Bottom, b.Bottom) - max(a.Top, b.Top)
				if wide > 2 && high > .6*min(a.Bottom-a.Top, b.Bottom-b.Top) && wide > .3*min(a.Right-a.Left, b.Right-b.Left) {
					t.Errorf("sheet %d: %q and %q stand on one another", i+1, a.Text, b.Text)
				}
			}
		}
	}
}

// noHeadingIsAlone: no heading is the last line of a sheet or, where that has several columns, of a column.
func noHeadingIsAlone(t *testing.T, b builder.PrintedBook, d document) {
	t.Helper()
	known := map[string]bool{}
	for _, m := range headings.FindAllStringSubmatch(string(b.Page), -1) {
		known[closed(html.UnescapeString(tags.ReplaceAllString(m[1], "")))] = true
	}
	if len(known) < 100 {
		t.Errorf("the page has only %d different headings", len(known))
	}
	for i, s := range d.sheets[afterContents(t, b)-1:] {
		for _, l := range s.Lines {
			if known[closed(l.text())] && l.Bottom > .75*s.Height && s.endsWith(l) {
				t.Errorf("sheet %d ends with the heading %q", afterContents(t, b)+i, l.text())
			}
		}
	}
}

// endsWith tells whether a line is in larger letters than the text and nothing stands beneath it but the number of the sheet.
func (s sheet) endsWith(l line) bool {
	heights := make([]float64, len(s.Lines))
	for i, other := range s.Lines {
		heights[i] = other.Bottom - other.Top
		if other.Top > l.Top+2 && other.Bottom < aboveNumber*s.Height && other.Right > l.Left-20 && other.Left < l.Right+20 {
			return false
		}
	}
	slices.Sort(heights)
	return l.Bottom < aboveNumber*s.Height && l.Bottom-l.Top > 1.1*heights[len(heights)/2]
}

// afterContents is the sheet of the first chapter: the contents in front of it repeat every heading.
func afterContents(t *testing.T, b builder.PrintedBook) int {
	t.Helper()
	first := inContents.FindSubmatch(b.Page)
	if first == nil {
		t.Fatal("the contents have no lines")
	}
	return number(string(first[4]))
}

// everySheetIsFilled: each sheet but the title, and but those on which a chapter has room that is shorter than that, has something on at least a fifth of the height of
// its text.
func everySheetIsFilled(t *testing.T, b builder.PrintedBook, d document) {
	t.Helper()
	begins := map[int]bool{len(d.sheets) + 1: true} // sheets on which a chapter begins
	for _, m := range chapterInContents.FindAllSubmatch(b.Page, -1) {
		begins[number(string(m[1]))] = true
	}
	for i, s := range d.sheets[1:] {
		down := 0.0
		for _, l := range s.Lines {
			if l.Bottom < aboveNumber*s.Height {
				down = max(down, l.Bottom)
			}
		}
		if top := .08 * s.Height; !(begins[i+2] && begins[i+3]) && down < top+.2*(.95*s.Height-top) {
			t.Errorf("sheet %d has text on %.0f of %.0f pt", i+2, down, s.Height)
		}
	}
}

// tagged: the document is sound, has title, language, tags and bookmarks, and its pictures are described.
func tagged(t *testing.T, d document, language, title string) {
	t.Helper()
	d.tool(t, "qpdf", "--check", d.file)
	info := d.tool(t, "pdfinfo", d.file)
	for _, want := range []string{"Tagged:          yes", "Title:           " + title + " · "} {
		if !strings.Contains(info, want) {
			t.Errorf("pdfinfo does not say %q:\n%s", want, info)
		}
	}
	root := d.tool(t, "qpdf", "--json", "--json-key=outlines", "--json-key=qpdf", d.file)
	if n := strings.Count(root, `"title":`); n < 10 {
		t.Errorf("there are only %d bookmarks", n)
	}
	if !strings.Contains(root, `"/Lang": "u:`+language+`"`) {
		t.Errorf("the document does not say that it is in %s", language)
	}
	if links := regexp.MustCompile(`"/URI": "u:(file:[^"]*|[^":]*)"`).FindAllString(root, -1); links != nil {
		t.Errorf("%d links lead to places of the machine that printed: %.300s", len(links), links)
	}
	for _, figure := range regexp.MustCompile(`(?s)\{[^{}]*"/S": "/Figure"[^{}]*\}`).FindAllString(root, -1) {
		if !strings.Contains(figure, `"/Alt": "u:`) {
			t.Errorf("a picture is not described: %.300s", figure)
		}
	}
}
