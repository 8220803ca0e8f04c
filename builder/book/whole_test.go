package book

import (
	"html"
	"strings"
	"testing"

	marks "tankside/builder/edition"
	"tankside/builder/manual"
	"tankside/builder/page"
	"tankside/themes"
)

// partsOf are what the pages of a manual are made of.
func partsOf(t *testing.T, m *manual.Manual) *page.Parts {
	t.Helper()
	in := page.Input{Manual: m, Theme: themes.New(nil), Mark: marks.Mark{Edition: 7, Date: "2026-12-01", Code: "234-567-89A"}, Day: "2026-12-01"}
	parts, err := page.Open(in, "", func(string, []byte) error { return nil })
	if err != nil {
		t.Fatal(err)
	}
	return parts
}

// whole renders the page with the whole book.
func whole(t *testing.T, parts *page.Parts, set Setting) string {
	t.Helper()
	text := ""
	keep := func(path string, data []byte) error {
		if path == WholePage {
			_, text, _ = strings.Cut(string(data), "<main")
			text, _, _ = strings.Cut(text, "</main>")
		}
		return nil
	}
	sheet, err := Whole(parts, set)
	if err != nil {
		t.Fatal(err)
	}
	if err := parts.Render(sheet, keep); err != nil {
		t.Fatal(err)
	}
	return text
}

// One document has no edition beside it: its links lead into it, or to where the edition is served.
func TestEveryLinkOfTheWholeBookLeadsSomewhere(t *testing.T) {
	t.Parallel()
	demo, files := demoEdition(t)
	for _, address := range []string{demo.Shop.Address, ""} {
		own := *demo
		own.Shop.Address = address
		text := whole(t, partsOf(t, &own), Setting{Size: A4})
		ids := map[string]bool{}
		for _, m := range anyID.FindAllStringSubmatch(text, -1) {
			if ids[html.UnescapeString(m[1])] {
				t.Errorf("two places have the name %s", m[1])
			}
			ids[html.UnescapeString(m[1])] = true
		}
		links, outward := 0, 0
		for _, m := range anyLink.FindAllStringSubmatch(text, -1) {
			to := html.UnescapeString(m[1])
			inside, is := strings.CutPrefix(to, "#")
			beyond, served := strings.CutPrefix(to, address)
			switch {
			case is && !ids[inside]:
				t.Errorf("a link leads to %s, which is nowhere in the book", to)
			case is:
				links++
			case address != "" && served:
				file, _, _ := strings.Cut(beyond, "#")
				if outward++; files[file] == "" {
					t.Errorf("a link leads to %s, which the edition has not", to)
				}
			case !strings.HasPrefix(to, "https:"):
				t.Errorf("a link leads to %s, and no such file is beside the document", to)
			}
		}
		if links < 1000 || address != "" && outward < 10 {
			t.Errorf("with the address %q only %d links lead into the book and %d to the edition", address, links, outward)
		}
	}
}

// The sheets that are printed one by one stand in the book with their addresses: all that the edition has.
func TestBookListsTheSheetsToPrint(t *testing.T) {
	t.Parallel()
	demo, files := demoEdition(t)
	text := whole(t, partsOf(t, demo), Setting{Size: A4, Only: map[string]bool{"chapter.sheets": true}})
	listed := 0
	for _, sheet := range []string{"cards", "process-sheets", "pocket-sheet", "first-aid-card", "log-sheets", "whiteboards", "trial-form", "bath-change-forms", "waste-forms", "visit-form"} {
		if files[sheet+".html"] == "" {
			t.Errorf("the edition has no %s.html", sheet)
		}
		if address := demo.Shop.Address + sheet + ".html"; strings.Contains(text, `<dd class="sheet-address">`+address+`</dd>`) {
			listed++
		} else {
			t.Errorf("the book does not say that there is %s", address)
		}
	}
	if n := strings.Count(text, `<dd class="sheet-address">`); n != listed {
		t.Errorf("the book lists %d pages of sheets, and %d of them were looked for", n, listed)
	}
}

// What is measured by itself is laid out like the same chapter among the others.
func TestChapterByItselfIsTheSame(t *testing.T) {
	t.Parallel()
	demo, _ := demoEdition(t)
	const glossary = "chapter.glossary"
	set := Setting{Size: Letter, Fits: map[string]Fit{glossary: {Shorter: 12}, "chapter.sums": {Closer: 2}}}
	parts := partsOf(t, demo)
	all := whole(t, parts, set)
	set.Only = map[string]bool{glossary: true}
	alone := whole(t, parts, set)
	_, chapter, _ := strings.Cut(alone, `<section class="chapter-run`)
	chapter, _, _ = strings.Cut(chapter, "</main>")
	chapter = `<section class="chapter-run` + chapter[:strings.LastIndex(chapter, `<span id="end.`)]
	if !strings.Contains(all, chapter) || !strings.HasPrefix(chapter, `<section class="chapter-run shorter-12" id="`+glossary+`"`) {
		t.Errorf("by itself the chapter is %.200s, and that does not stand in the book", chapter)
	}
	if strings.Count(alone, `<section class="chapter-run`) != 1 || strings.Contains(alone, "title-page") {
		t.Error("with one chapter named there is more than that")
	}
	style := string(Style(set))
	for _, want := range []string{"size: 8.5in 11in", "@page shorter-12 { margin-bottom: 23mm; }", ".shorter-12 { page: shorter-12; }"} {
		if !strings.Contains(style, want) {
			t.Errorf("the sheets' style has no %q:\n%s", want, style)
		}
	}
}

// Who works a sum by hand writes the answer in the unit of the example.
func TestBlanksOfAFormHaveUnits(t *testing.T) {
	t.Parallel()
	for text, want := range map[string]string{
		"120\u00a0L": "L", "4\u00a0% v/v": "% v/v", "31.7\u00a0US\u00a0gal": "US gal", "31.7 US gal (120 L)": "US gal", "−2.5\u00a0K": "K", "1:24": "", "0.4": "", "no limit": "",
	} {
		if got := unitOf(text); got != want {
			t.Errorf("the unit of %q is %q, not %q", text, got, want)
		}
	}
	demo, _ := demoEdition(t)
	text := whole(t, partsOf(t, demo), Setting{Size: A4, Only: map[string]bool{"chapter.sums": true}})
	for _, row := range []string{`<tr><th scope="row">Volume of the bath</th>`, `<tr><th scope="row">Concentrate</th>`} {
		_, rest, _ := strings.Cut(text, row)
		if cell, _, _ := strings.Cut(rest, "</tr>"); !strings.Contains(cell, `<td class="form-blank">L</td>`) {
			t.Errorf("the row %s has no blank in litres: %.200s", row, cell)
		}
	}
}
