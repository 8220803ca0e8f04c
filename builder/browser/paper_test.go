package browser

import (
	"regexp"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// paperWidths are the widths between margins of 15 mm in CSS pixels, 96 to the inch: A4 (ISO 216, 210 mm) and Letter (ANSI Y14.1, 8.5 in).
var paperWidths = map[string]int64{"A4": 680, "Letter": 702}

// On paper a page has no navigation, says where it is from, and keeps within the sheet; a tree is numbered steps; a sum has its inputs,
// its readings and its working.
func TestPagesOnPaper(t *testing.T) {
	t.Parallel()
	themed(t, func(t *testing.T, _, base string) { pagesOnPaper(t, base) })
}

// editionCode is how the code of an edition is written.
var editionCode = regexp.MustCompile(`\b[2-9A-Y]{3}-[2-9A-Y]{3}-[2-9A-Y]{3}\b`)

func pagesOnPaper(t *testing.T, base string) {
	onPaper := command(emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"})
	eachPage(t, base, pageKinds, []step{onPaper}, func(b *tab, page string) {
		for sheet, width := range paperWidths {
			if page == "cards.html" { // it is printed across, with margins of 5 mm
				width = map[string]int64{"A4": 1085, "Letter": 1018}[sheet]
			}
			b.do(size(width, 900))
			if shown := ask[[]string](b, `[...document.querySelectorAll(".skip, .search, .walk-nav, .trail, .units, .sum:has(.sum-reading) .sum-inputs, .sum-tools, .line a:not([aria-current])")].filter(e => e.checkVisibility()).map(e => e.className || e.tagName)`); len(shown) > 0 {
				t.Errorf("%s on %s shows what is only for the screen: %v", page, sheet, shown)
			}
			file, _, _ := strings.Cut(page, "#")
			edition := "Not entered" // the demo manual has no ledger
			if strings.HasSuffix(file, ".es.html") {
				edition = "Sin asentar"
			}
			if foot := b.text(".printed"); !strings.Contains(foot, file) || !strings.Contains(foot, edition) || !editionCode.MatchString(foot) {
				t.Errorf("%s on %s says only %q of where it is from", page, sheet, foot)
			}
			if wide := ask[int](b, `document.documentElement.scrollWidth - document.documentElement.clientWidth`); wide > 0 {
				t.Errorf("%s is %d px wider than %s", page, wide, sheet)
			}
		}
	})
	b := open(t, base, "symptoms/spotty-parts.html", onPaper)
	numbers := ask[[]string](b, `[...document.querySelectorAll(".walk > section .number")].filter(e => e.checkVisibility()).map(e => e.textContent)`)
	steps := ask[int](b, `document.querySelectorAll(".walk > section").length`)
	if len(numbers) != steps || steps < 5 || numbers[0] != "1" || numbers[1] != "2" {
		t.Errorf("of %d steps these have a number on paper: %v", steps, numbers)
	}
	b.turn("tanks/wash-1.html", onPaper)
	ask[bool](b, `dispatchEvent(new Event("beforeprint"))`)
	for _, part := range []string{".sum-given", ".sum-readings", ".sum-working"} {
		if !ask[bool](b, `document.querySelector("#sum-heat-up `+part+`").checkVisibility()`) {
			t.Errorf("a sum on paper lacks %s", part)
		}
	}
}

// Where the reader has a palette of the system's (forced colours), what is current, chosen or drawn can still be told apart; where movement
// is not wanted, nothing moves.
func TestForcedColoursAndReducedMotion(t *testing.T) {
	t.Parallel()
	base := serveUnkept(t, published(t))
	features := []*emulation.MediaFeature{{Name: "forced-colors", Value: "active"}, {Name: "prefers-reduced-motion", Value: "reduce"}}
	b := open(t, base, "chemistries/mild-alkaline.html", command(emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: features}))
	if smooth := ask[string](b, `getComputedStyle(document.documentElement).scrollBehavior`); smooth != "auto" {
		t.Errorf("the page still scrolls with movement: %s", smooth)
	}
	if moving := ask[int](b, `document.getAnimations().length`); moving > 0 {
		t.Errorf("%d things move", moving)
	}
	for _, c := range []struct{ what, one, other string }{
		{"the gauge's band and its scale", `getComputedStyle(document.querySelector(".gauge .band")).fill`, `getComputedStyle(document.querySelector(".gauge .scale")).stroke`},
		{"the current station's bar and the others'", `getComputedStyle(document.querySelector(".line [aria-current]")).borderBottomColor`, `getComputedStyle(document.querySelector(".line a:not([aria-current])")).borderBottomColor`},
		{"the chosen units and the others", `getComputedStyle(document.querySelector(".units [aria-pressed=true]")).backgroundColor`, `getComputedStyle(document.querySelector(".units [aria-pressed=false]")).backgroundColor`},
	} {
		if a, b := ask[string](b, c.one), ask[string](b, c.other); a == b {
			t.Errorf("%s have one colour, %s", c.what, a)
		}
	}
}

// wideSpacing: with the spacing of WCAG 2.2, success criterion 1.4.12 (line height 1.5, paragraphs 2, letters 0.12 and words 0.16 times the size of the
// letters), on a phone and at 200 % zoom, nothing is cut off.
func wideSpacing(b *tab, page string) {
	for _, width := range []int64{360, 640} {
		b.do(size(width, 800))
		// The policy of the pages forbids styles in them; a style sheet that a script makes is the reader's own tool.
		cut := ask[[]string](b, `(() => {
				const s = new CSSStyleSheet();
				s.replaceSync("* { line-height: 1.5 !important; letter-spacing: .12em !important; word-spacing: .16em !important; } p { margin-bottom: 2em !important; }");
				document.adoptedStyleSheets = [s];
				const free = document.documentElement.scrollWidth - document.documentElement.clientWidth;
				return [...(free > 0 ? ["the page is " + free + " px too wide"] : []),
					...[...document.querySelectorAll("main *, footer *")].filter(e => e.checkVisibility() && !e.closest(".visually-hidden, .wide, .listing, svg, select") && ["hidden", "clip"].includes(getComputedStyle(e).overflowX) && (e.scrollHeight > e.clientHeight + 1 || e.scrollWidth > e.clientWidth + 1)).map(e => e.outerHTML.slice(0, 100))];
			})()`)
		for _, c := range cut {
			b.t.Errorf("%s at %d px with wide spacing: %s", page, width, c)
		}
	}
}

// With the tabulator key alone one comes to everything that can be pressed, and sees where one is (WCAG 2.2, success criteria 2.1.1 and 2.4.7).
func TestKeyboardShowsWhereOneIs(t *testing.T) {
	t.Parallel()
	base := serveUnkept(t, published(t))
	pages := []string{"index.html", "chemistries/mild-alkaline.html", "symptoms/spotty-parts.html", "tanks/wash-1.html"}
	eachPage(t, base, pages, nil, func(b *tab, page string) {
		b.until(`document.readyState === "complete"`)
		want := ask[int](b, `[...document.querySelectorAll("a[href], button, input, select, summary, [tabindex='0']")].filter(e => e.checkVisibility({visibilityProperty: true}) && !e.disabled && e.tabIndex >= 0).length`)
		seen := 0
		for range want + 5 {
			b.do(chromedp.KeyEvent("\t"))
			state := ask[string](b, `(() => {
				const e = document.activeElement;
				if (!e || e === document.body) return "left";
				if (e === window.lastFocus) return "still"; // a field for a time has a stop for hours and one for minutes
				window.lastFocus = e;
				if (e.dataset.been) return "again";
				e.dataset.been = "yes";
				const s = getComputedStyle(e);
				const drawn = e.ownerSVGElement && getComputedStyle(e.querySelector("rect")); // in a drawing, the frame is the ring
				if (drawn) return parseFloat(drawn.strokeWidth) >= 4 ? "seen" : "unseen " + e.outerHTML.slice(0, 120);
				return s.outlineStyle !== "none" && parseFloat(s.outlineWidth) >= 2 ? "seen" : "unseen " + e.outerHTML.slice(0, 120);
			})()`)
			if state == "left" || state == "again" {
				break
			}
			if state == "still" {
				continue
			}
			seen++
			if state != "seen" {
				t.Errorf("%s: %s", page, state)
			}
		}
		if seen < want {
			t.Errorf("%s: the keyboard comes to %d of %d", page, seen, want)
		}
	})
}
