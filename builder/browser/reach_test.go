package browser

import (
	"testing"

	"github.com/chromedp/chromedp"
)

// reach finds what is wrong for a finger, or runs out of the page, on the page as it stands: links in lists, buttons and fields lower than 48 px or narrower
// than 44, that are not in running text (WCAG 2.2, success criterion 2.5.8, leaves those out). What is folded is opened first.
const reach = `(folded => {
	if (folded) for (const d of document.querySelectorAll("details")) d.open = true;
	const wrong = [], root = document.documentElement;
	if (root.scrollWidth > root.clientWidth) {
		const wide = [...document.querySelectorAll("body *")].filter(e => e.getBoundingClientRect().right > innerWidth + 1 && !e.closest(".line, .wide, .listing, .matrix-frame, .overview-paper"));
		wrong.push("runs over by " + (root.scrollWidth - root.clientWidth) + " px: " + wide.slice(0, 3).map(e => e.outerHTML.slice(0, 100)).join(" | "));
	}
	const running = e => e.closest(".rests, .safety, .note, figcaption, .summary, .curve, .overview-paper")
		|| e.closest(".text, .look, .why, .seen-how, .glossary dd, .leaf-body") && e.matches("p a, li a, td a, dd a, strong a") && said(e.closest("p, li, td, dd")) > said(e) && getComputedStyle(e).display === "inline";
	const said = e => e.textContent.replaceAll(/[\s.,;:()→]+/g, "").length;
	for (const e of document.querySelectorAll("main :is(a[href], button, input, select, textarea, summary), footer :is(a[href], button), .bar :is(a, button), .line a, .search :is(a, button, input), .languages a")) {
		if (!e.checkVisibility({ visibilityProperty: true }) || e.matches("label input, [type=file]") || e.closest("svg") || running(e)) continue;
		const r = (e.matches("td a, th a") ? e.closest("td, th") : e).getBoundingClientRect();
		if (r.height < 48 || r.width < 44) wrong.push(Math.round(r.width) + " × " + Math.round(r.height * 10) / 10 + " px: " + (e.parentElement.className || e.parentElement.tagName) + " > " + e.outerHTML.slice(0, 100));
	}
	return wrong.slice(0, 8);
})`

// Every kind of page is within a finger's reach and within its screen: at 320, 360 and 1280 px, in both languages and, for what runs over, in both themes. Each is
// opened once and made wider in its place; at 360 px all that folds is open.
func TestEveryPageIsWithinReach(t *testing.T) {
	t.Parallel()
	pages := append([]string{"tanks/rinse-1.html", "tanks/dryer.html", "tanks/rinse-2.es.html", "rests-on.html", "book/sign-off.html", "book/index-of-words.html", "book/tables.html",
		"procedures/titration.html", "glossary.html", "lessons/rinsing-and-drying.es.html", "materials/index.html"}, pageKinds...)
	themed(t, func(t *testing.T, theme, base string) {
		eachPage(t, base, pages, []step{size(320, 800)}, func(b *tab, page string) {
			for _, width := range []int64{320, 360, 1280} {
				b.do(size(width, 800))
				wrong := ask[[]string](b, reach+map[bool]string{true: "(true)", false: "(false)"}[width == 360])
				for _, w := range wrong {
					if theme == "tank-side" || w[0] == 'r' { // the desk's is for a mouse
						t.Errorf("%s at %d px: %s", page, width, w)
					}
				}
			}
		})
	})
}

// Two hundred visits are a dozen rows that name place and day, shortened by words and shown more of at a touch; no row is lower than a finger needs.
func TestTwoHundredVisitsAreShortened(t *testing.T) {
	t.Parallel()
	b := open(t, "file://"+published(t)+"/", "visit.html", size(360, 740))
	b.until(visitReady)
	ask[bool](b, `new Promise((done, failed) => {
		const opening = indexedDB.open("tankside-visits");
		opening.onerror = () => failed(opening.error);
		opening.onsuccess = () => {
			const t = opening.result.transaction(["records", "summaries"], "readwrite"), put = v => { t.objectStore("records").put(v); t.objectStore("summaries").put({ ...v, words: "" }); };
			for (let i = 0; i < 200; i++) put({ id: "visit-" + i, sort: "visit", version: 1, tank: "Wash " + (1 + i % 2), place: "Hall " + i, started: new Date(Date.UTC(2026, 0, 1 + i)).toISOString() });
			t.oncomplete = () => { opening.result.close(); done(true); };
			t.onerror = () => failed(t.error);
		};
	})`)
	b.do(chromedp.Reload())
	b.until(visitReady + ` && document.querySelectorAll(".visit-list button").length === 12`)
	if high := ask[float64](b, `document.querySelector(".visit-others").getBoundingClientRect().height`); high > 1300 {
		t.Errorf("the list is %g px high", high)
	}
	if low := ask[float64](b, `Math.min(...[...document.querySelectorAll(".visit-list button, .visit-more button, #visit-filter")].map(e => e.getBoundingClientRect().height))`); low < 48 {
		t.Errorf("a row is %g px high", low)
	}
	b.press(".visit-more button")
	b.until(`document.querySelectorAll(".visit-list button").length === 60`)
	b.keys("#visit-filter", "wash 2 hall 199")
	b.until(`document.querySelectorAll(".visit-list button").length === 1`)
	b.press(".visit-list button")
	b.until(`document.querySelector(".visit-name").innerText.includes("Wash 2")`)
}
