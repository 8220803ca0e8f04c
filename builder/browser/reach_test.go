package browser

import (
	"testing"
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
