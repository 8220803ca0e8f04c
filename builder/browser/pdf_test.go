package browser

import (
	"bytes"
	"compress/zlib"
	"context"
	"fmt"
	"io"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"tankside/builder/edition"
)

// sheets prints the page of a tab and gives the text of each sheet. The size is in inches.
func (b *tab) sheets(width, height float64) []string {
	b.t.Helper()
	background := true
	var data []byte
	b.do(func(ctx context.Context, t *chromedp.Target) (chromedp.Void, error) {
		r, err := cdp.Call(ctx, t, page.PrintToPDF, page.PrintToPDFParams{PaperWidth: width, PaperHeight: height, PrintBackground: &background})
		data = r.Data
		return chromedp.Void{}, err
	})
	texts, err := sheetTexts(data)
	if err != nil {
		b.t.Fatal(err)
	}
	return texts
}

// What Chromium writes of the Portable Document Format (ISO 32000-1:2008): one object after the other, streams with the filter FlateDecode,
// fonts of two-byte codes with a ToUnicode map (9.10.3), text shown by Tj and TJ (9.4.3).
var (
	pdfObject  = regexp.MustCompile(`(?m)^(\d+) 0 obj\n`)
	pdfLength  = regexp.MustCompile(`/Length (\d+)`)
	pdfPage    = regexp.MustCompile(`/Type /Page\n`)
	pdfContent = regexp.MustCompile(`/Contents (\d+) 0 R`)
	pdfFonts   = regexp.MustCompile(`/Font <<([^>]*)>>`)
	pdfNamed   = regexp.MustCompile(`/(\w+) (\d+) 0 R`)
	pdfUnicode = regexp.MustCompile(`/ToUnicode (\d+) 0 R`)
	pdfShown   = regexp.MustCompile(`/(\w+) [\d.]+ Tf|<([0-9A-Fa-f]+)>|(ET)\b`)
	pdfMap     = regexp.MustCompile(`(?m)^<([0-9A-F]{4})> (?:<([0-9A-F]{4})> )?<([0-9A-F]+)>$`)
)

// sheetTexts gives the text of each page of a document that Chromium has written, in its order in the document, without blanks.
func sheetTexts(pdf []byte) ([]string, error) {
	objects := map[string][]byte{}
	places := pdfObject.FindAllSubmatchIndex(pdf, -1)
	for i, p := range places {
		end := len(pdf)
		if i+1 < len(places) {
			end = places[i+1][0]
		}
		objects[string(pdf[p[2]:p[3]])] = pdf[p[1]:end]
	}
	stream := func(number string) ([]byte, error) {
		object := objects[number]
		head, body, found := bytes.Cut(object, []byte("stream\n"))
		length := pdfLength.FindSubmatch(head)
		if !found || length == nil {
			return nil, fmt.Errorf("object %s is no stream", number)
		}
		n, err := strconv.Atoi(string(length[1]))
		if err != nil || n > len(body) {
			return nil, fmt.Errorf("object %s has no length of its own", number)
		}
		z, err := zlib.NewReader(bytes.NewReader(body[:n]))
		if err != nil {
			return nil, err
		}
		return io.ReadAll(z)
	}
	maps := map[string]map[string]string{} // by font object: code → text
	letters := func(font string) (map[string]string, error) {
		if m := maps[font]; m != nil {
			return m, nil
		}
		m := map[string]string{}
		maps[font] = m
		ref := pdfUnicode.FindSubmatch(objects[font])
		if ref == nil {
			return m, nil // of drawn letters only
		}
		text, err := stream(string(ref[1]))
		if err != nil {
			return nil, err
		}
		for _, line := range pdfMap.FindAllSubmatch(text, -1) {
			first, err1 := strconv.ParseUint(string(line[1]), 16, 16)
			last, err2 := strconv.ParseUint(string(append(line[2], line[1]...)[:4]), 16, 16)
			if err1 != nil || err2 != nil {
				return nil, fmt.Errorf("font %s: %v %v", font, err1, err2)
			}
			var units []uint16
			for h := string(line[3]); len(h) >= 4; h = h[4:] {
				u, err := strconv.ParseUint(h[:4], 16, 16)
				if err != nil {
					return nil, err
				}
				units = append(units, uint16(u))
			}
			for code := first; code <= last; code++ {
				m[fmt.Sprintf("%04X", code)] = string(utf16.Decode(units))
				units[len(units)-1]++
			}
		}
		return m, nil
	}
	var texts []string
	for _, p := range places {
		object := objects[string(pdf[p[2]:p[3]])]
		content := pdfContent.FindSubmatch(object)
		if !pdfPage.Match(object) || content == nil {
			continue
		}
		fonts := map[string]string{}
		if named := pdfFonts.FindSubmatch(object); named != nil {
			for _, f := range pdfNamed.FindAllSubmatch(named[1], -1) {
				fonts[string(f[1])] = string(f[2])
			}
		}
		data, err := stream(string(content[1]))
		if err != nil {
			return nil, err
		}
		var text strings.Builder
		var codes map[string]string
		for _, m := range pdfShown.FindAllStringSubmatch(string(data), -1) {
			if m[1] != "" {
				if codes, err = letters(fonts[m[1]]); err != nil {
					return nil, err
				}
			}
			for h := strings.ToUpper(m[2]); len(h) >= 4; h = h[4:] {
				text.WriteString(codes[h[:4]])
			}
		}
		texts = append(texts, blanks.Replace(text.String()))
	}
	return texts, nil
}

// blanks takes the blanks out of a text: where a line ends, a printed text has none.
var blanks = strings.NewReplacer(" ", "", "\u00a0", "", "\n", "", "ﬁ", "fi", "ﬂ", "fl", "ﬀ", "ff", "ﬃ", "ffi")

// paperSizes in inches: A4 (ISO 216, 210 × 297 mm) and Letter (ANSI Y14.1).
var paperSizes = map[string][2]float64{"A4": {210 / 25.4, 297 / 25.4}, "Letter": {8.5, 11}}

// markOf is what every sheet says of its edition: the demo manual has no ledger.
func markOf(t *testing.T, folder string) string {
	t.Helper()
	l, err := edition.ReadList(os.DirFS(folder))
	if err != nil {
		t.Fatal(err)
	}
	return "Not entered · " + l.Code
}

// Every sheet of a chapter has the running head: shop, edition, code, the article's number, and the whole line. The number of sheets is that
// of a book, not of an accident: at least one for each article, none without text, none with the running head alone.
func TestEverySheetOfTheBookHasItsHead(t *testing.T) {
	t.Parallel()
	folder := published(t)
	base := serveUnkept(t, folder)
	head := blanks.Replace("Brackwater Pump & Valve Rebuild · " + markOf(t, folder))
	line := blanks.Replace("Receive Wash 1 Wash 2 Rinse Last rinse Dryer Inspect Care")
	b := open(t, base, "book.html")
	for _, chapter := range []struct {
		file, number string
		most         int // sheets an article
	}{{"lessons", "3.", 6}, {"rinse", "6.", 5}, {"inspect", "8.", 5}, {"tables", "10.", 20}} {
		b.turn("book/" + chapter.file + ".html")
		articles := ask[int](b, `document.querySelectorAll(".leaf").length`)
		for name, paper := range paperSizes {
			sheets := b.sheets(paper[0], paper[1])
			if len(sheets) < articles || len(sheets) > chapter.most*articles {
				t.Errorf("%s on %s: %d sheets for %d articles", chapter.file, name, len(sheets), articles)
			}
			for i, text := range sheets {
				at := strings.Index(text, head)
				if at < 0 || !strings.HasPrefix(text[at+len(head):], chapter.number) || !strings.Contains(text, line) {
					t.Errorf("%s on %s: sheet %d of %d has no running head; it begins %.160q", chapter.file, name, i+1, len(sheets), text)
					continue
				}
				if len(text) < len(head)+len(line)+200 && i+1 < len(sheets) {
					t.Logf("%s on %s: sheet %d is nearly empty: %q", chapter.file, name, i+1, text)
				}
				if len(text) < len(head)+len(line)+60 {
					t.Errorf("%s on %s: sheet %d has nothing but its head: %q", chapter.file, name, i+1, text)
				}
			}
		}
	}
}

// On the sheets of an ordinary page stands where they are from, and of which edition.
func TestEverySheetOfAPageSaysWhereItIsFrom(t *testing.T) {
	t.Parallel()
	folder := published(t)
	base, mark := serveUnkept(t, folder), markOf(t, folder)
	pages := []string{"procedures/degas.html", "symptoms/slow-heating.html", "tables/soils-chemistries.html"}
	eachPage(t, base, pages, nil, func(b *tab, p string) {
		sheets := b.sheets(paperSizes["A4"][0], paperSizes["A4"][1])
		if len(sheets) < 2 {
			t.Errorf("%s: only %d sheets", p, len(sheets))
		}
		for i, text := range sheets {
			if want := blanks.Replace(p + " · " + mark); !strings.Contains(text, want) {
				t.Errorf("%s: sheet %d of %d does not say %q; it begins %.160q", p, i+1, len(sheets), want, text)
			}
		}
	})
}
