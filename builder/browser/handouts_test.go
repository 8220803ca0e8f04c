package browser

import (
	"context"
	"encoding/xml"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// printed is a document as poppler's pdftotext reads it, in points.
type printed struct {
	Pages []struct {
		Width  float64 `xml:"width,attr"`
		Height float64 `xml:"height,attr"`
		Words  []struct {
			Left   float64 `xml:"xMin,attr"`
			Top    float64 `xml:"yMin,attr"`
			Right  float64 `xml:"xMax,attr"`
			Bottom float64 `xml:"yMax,attr"`
			Text   string  `xml:",chardata"`
		} `xml:"word"`
	} `xml:"body>doc>page"`
}

// boxHeight is how high pdftotext draws the box of a word of DejaVu Sans, in sizes of its letters: ascender and descender of that font, 0.928 and 0.236.
const boxHeight = 1.164

// prints prints the page of a tab and has pdftotext read it. The size of the paper is in inches; a size that the page's styles name goes before.
func (b *tab) prints(width, height float64) printed {
	b.t.Helper()
	var data []byte
	b.do(func(ctx context.Context, t *chromedp.Target) (chromedp.Void, error) {
		background, own := true, true
		r, err := cdp.Call(ctx, t, page.PrintToPDF, page.PrintToPDFParams{PaperWidth: width, PaperHeight: height, PrintBackground: &background, PreferCSSPageSize: &own})
		data = r.Data
		return chromedp.Void{}, err
	})
	file := filepath.Join(b.t.TempDir(), "printed.pdf")
	if err := os.WriteFile(file, data, 0o600); err != nil {
		b.t.Fatal(err)
	}
	out, err := exec.Command("pdftotext", "-bbox", file, "-").Output()
	if err != nil {
		b.t.Fatalf("pdftotext does not run: %v. make test installs it (poppler-utils).", err)
	}
	var p printed
	d := xml.NewDecoder(strings.NewReader(string(out)))
	d.Strict, d.Entity = false, xml.HTMLEntity
	if err := d.Decode(&p); err != nil {
		b.t.Fatal(err)
	}
	return p
}

// smallest is the size of the smallest letters, with a word in them.
func (p *printed) smallest() (points float64, word string) {
	points = math.Inf(1)
	for _, page := range p.Pages {
		for _, w := range page.Words {
			if size := (w.Bottom - w.Top) / boxHeight; size < points {
				points, word = size, w.Text
			}
		}
	}
	return points, word
}

// sizeOf is the size of the largest letters in which a page has a word.
func (p *printed) sizeOf(sheet int, word string) float64 {
	most := 0.0
	for _, w := range p.Pages[sheet].Words {
		if w.Text == word {
			most = max(most, (w.Bottom-w.Top)/boxHeight)
		}
	}
	return most
}

// handoutPages are the pages of sheets, each with how many sheets of paper the demo manual's take and a word of the first one's head.
var handoutPages = []struct {
	page   string
	sheets int
	head   string
	metre  []string // what is read at a metre on the first sheet besides
}{
	{"cards.html", 5, "Wash", []string{"62", "°C", "4", "WARNING"}},
	{"process-sheets.html", 14, "Actuator", []string{"WARNING"}},
	{"pocket-sheet.html", 1, "Pocket", nil},
	{"first-aid-card.html", 2, "First", []string{"DANGER"}},
	{"log-sheets.html", 5, "Wash", []string{"WARNING"}},
	{"whiteboards.html", 2, "Wash", []string{"62", "4", "120", "WARNING"}},
	{"trial-form.html", 1, "First-article", []string{"DANGER"}},
	{"bath-change-forms.html", 2, "Wash", []string{"WARNING"}},
	{"waste-forms.html", 2, "Wash", []string{"WARNING"}},
	{"visit-form.html", 1, "Visit", []string{"DANGER"}},
}

// least are the sizes of letters in points: of all, and of what is read at a metre. The last digits of a size in em are forgiven.
const (
	leastPoints = 9 - 0.05
	metrePoints = 24 - 0.05
)

// Every sheet, printed on A4 and on Letter, for readers of either family of units and in each language: as many sheets as meant, no letter below 9 points, heads and what is
// read at a metre not below 24, nothing over the edge of the paper.
func TestSheetsOnPaper(t *testing.T) {
	t.Parallel()
	base := serveUnkept(t, published(t))
	b := open(t, base, "sheets.html")
	for _, h := range handoutPages {
		for _, language := range []string{"", ".es"} {
			b.turn(strings.TrimSuffix(h.page, ".html") + language + ".html")
			for _, units := range []string{"SI", "US"} {
				ask[bool](b, fmt.Sprintf(`(document.documentElement.dataset.units = %q) !== ""`, units))
				for name, paper := range paperSizes {
					p := b.prints(paper[0], paper[1])
					where := fmt.Sprintf("%s%s, %s on %s", h.page, language, units, name)
					if len(p.Pages) != h.sheets && language == "" {
						t.Errorf("%s: %d sheets, wants %d", where, len(p.Pages), h.sheets)
					}
					p.check(t, where)
					if language != "" {
						continue
					}
					for _, word := range append([]string{h.head}, h.metre...) {
						if units == "US" && (word == "62" || word == "120" || word == "°C") {
							continue
						}
						if size := p.sizeOf(0, word); size < metrePoints {
							t.Errorf("%s: %s is read at a metre and is %.1f points", where, word, size)
						}
					}
				}
			}
		}
	}
}

// check tells letters that are too small, and words that reach over the edge of the paper or into its last 3 mm, where printers print nothing.
func (p *printed) check(t *testing.T, where string) {
	t.Helper()
	if size, word := p.smallest(); size < leastPoints {
		t.Errorf("%s: “%s” is %.1f points", where, word, size)
	}
	const free = 3 * 72 / 25.4
	for i, page := range p.Pages {
		if len(page.Words) < 8 {
			t.Errorf("%s: sheet %d has %d words", where, i+1, len(page.Words))
		}
		for _, w := range page.Words {
			if w.Left < free || w.Top < free || w.Right > page.Width-free || w.Bottom > page.Height-free {
				t.Errorf("%s: sheet %d: “%s” stands at %.0f–%.0f, %.0f–%.0f of %.0f × %.0f points", where, i+1, w.Text, w.Left, w.Right, w.Top, w.Bottom, page.Width, page.Height)
			}
		}
	}
}

// A card on A5 has two sheets, front and back; on A3 it has one, √2 times as large. One card alone is printed by its address, or without those whose tick was taken.
func TestChoiceOfCards(t *testing.T) {
	t.Parallel()
	b := open(t, serveUnkept(t, published(t)), "cards.html", withoutScripts())
	mm := func(points float64) int { return int(math.Round(points * 25.4 / 72)) }
	for _, c := range []struct {
		choose              string
		sheets, high, broad int // mm
		points, metre       float64
	}{
		{"#paper-a5", 10, 210, 148, leastPoints, metrePoints}, {"#paper-a3", 5, 297, 420, 12.6, 33.9}, {"#paper-folded", 5, 210, 297, leastPoints, metrePoints},
	} {
		b.do(chromedp.Click(c.choose))
		p := b.prints(paperSizes["A4"][0], paperSizes["A4"][1])
		p.check(t, c.choose)
		if size, word := p.smallest(); len(p.Pages) != c.sheets || mm(p.Pages[0].Height) != c.high || mm(p.Pages[0].Width) != c.broad || size < c.points {
			t.Errorf("%s: %d sheets of %d × %d mm, %q in %.1f points", c.choose, len(p.Pages), mm(p.Pages[0].Width), mm(p.Pages[0].Height), word, size)
		}
		if size := p.sizeOf(0, "Wash"); size < c.metre {
			t.Errorf("%s: the head is %.1f points", c.choose, size)
		}
	}
	b.do(chromedp.Click("#wash-1 .handout-choice input"), chromedp.Click("#dryer .handout-choice input"))
	if p := b.prints(paperSizes["A4"][0], paperSizes["A4"][1]); len(p.Pages) != 3 || p.sizeOf(0, "2") == 0 {
		t.Errorf("without Wash 1 and the dryer: %d sheets", len(p.Pages))
	}
	b.turn("cards.html#wash-2", withoutScripts())
	if p := b.prints(paperSizes["A4"][0], paperSizes["A4"][1]); len(p.Pages) != 1 || p.sizeOf(0, "48") < metrePoints {
		t.Errorf("Wash 2 alone: %d sheets", len(p.Pages))
	}
}

// Printed grey, the four signal words are told apart: by the word, by the frame, which is the heavier the graver it is and broken for the lesser two, and by the alert sign, which
// NOTICE has not. Their letters stand out from their ground, by luminance alone, as WCAG 2.2 wants of large letters: 3 to 1.
func TestSignalWordsInGrey(t *testing.T) {
	t.Parallel()
	b := open(t, serveUnkept(t, published(t)), "cards.html#rinse-2", command(emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"}))
	type look struct {
		Word, Style string
		Frame       float64
		Alert       bool
		Contrast    float64
		Slant       string
	}
	looks := ask[[]look](b, `(() => {
		const grey = c => { const [r, g, b] = c.match(/[\d.]+/g).map(x => { x /= 255; return x <= .04045 ? x / 12.92 : ((x + .055) / 1.055) ** 2.4; }); return .2126 * r + .7152 * g + .0722 * b; };
		return [...document.querySelectorAll("#rinse-2 .safety")].map(e => {
			const s = getComputedStyle(e), w = e.querySelector(".signal"), l = getComputedStyle(w), a = grey(l.color), b = grey(l.backgroundColor);
			return { Word: w.textContent.trim(), Style: s.borderTopStyle, Frame: parseFloat(s.borderTopWidth), Alert: !!w.querySelector(".alert"), Contrast: (Math.max(a, b) + .05) / (Math.min(a, b) + .05), Slant: l.fontStyle };
		});
	})()`)
	seen := map[string]look{}
	for _, l := range looks {
		seen[l.Word] = l
		if l.Contrast < 3 {
			t.Errorf("%s stands on its ground at %.1f to 1", l.Word, l.Contrast)
		}
	}
	d, w, c, n := seen["DANGER"], seen["WARNING"], seen["CAUTION"], seen["NOTICE"]
	if len(seen) != 4 || !(d.Frame > w.Frame && w.Frame > c.Frame && c.Frame > 0 && n.Frame > 0) || d.Style != "solid" || w.Style != "solid" || c.Style == n.Style || c.Style == "solid" || n.Style == "solid" ||
		!d.Alert || !w.Alert || !c.Alert || n.Alert || n.Slant != "italic" {
		t.Errorf("the signal words look alike in grey: %+v", looks)
	}
}

// The leaves of the pocket sheet are imposed: folded and cut, the numbers follow each other, and the upper row stands upside down.
func TestPocketSheetIsImposed(t *testing.T) {
	t.Parallel()
	b := open(t, serveUnkept(t, published(t)), "pocket-sheet.html", command(emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"}), size(1123, 794))
	type leaf struct {
		Number, Row, Column int
		Turned              bool
	}
	leaves := ask[[]leaf](b, `[...document.querySelectorAll("#pocket-1 .handout-side")].map(e => { const r = e.getBoundingClientRect(), s = e.closest(".handout-sides").getBoundingClientRect();
		return { Number: +e.className.match(/leaf-(\d)/)[1], Row: Math.round((r.top - s.top) / (s.height / 2)), Column: Math.round((r.left - s.left) / (s.width / 4)), Turned: getComputedStyle(e).rotate === "180deg" }; })`)
	at := map[[2]int]leaf{}
	for _, l := range leaves {
		at[[2]int{l.Row, l.Column}] = l
	}
	// Round the cut the leaves hang together as a ring: the lower row from its right end to the left is 1, 8, 7, 6, the upper one goes on from the left with 5 to 2.
	ring := [][2]int{{1, 3}, {0, 3}, {0, 2}, {0, 1}, {0, 0}, {1, 0}, {1, 1}, {1, 2}}
	for i, place := range ring {
		if l := at[place]; l.Number != i+1 || l.Turned != (place[0] == 0) {
			t.Errorf("leaf %d stands at %v: %+v", i+1, place, l)
		}
	}
}
