package browser

import (
	"encoding/json"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// pageKinds is one page of each kind.
var pageKinds = []string{
	"index.html", "symptoms/spotty-parts.html", "chemistries/mild-alkaline.html", "soils/wax.html", "materials/brass.html",
	"parts/impeller-bronze.html", "procedures/heat-the-bath.html", "lessons/how-cavitation-cleans.html", "tanks/wash-1.html",
	"stations/rinse.html", "soils/index.html", "a-z.html", "glossary.html", "this-edition.html",
	"may-it-go-in.html", "may-it-go-in.html#material=aluminium-wrought&bath=wash-1", "tables/materials-tanks.html", "tables/chemistries-materials.html",
	"tables/soils-chemistries.html", "what-is-seen.html", "what-is-seen.html#seen=white-spots-or-rings&not=white-film-or-haze", "what-is-seen.es.html", "visit.html",
	"book.html", "book/lessons.html", "cards.html",
	"index.es.html", "symptoms/spotty-parts.es.html", "procedures/fill-and-dilute.es.html", "a-z.es.html", "tanks/wash-1.es.html",
}

// themed are the demo's editions in both themes.
func themed(t *testing.T, test func(t *testing.T, theme, base string)) {
	for name, folder := range map[string]string{"tank-side": published(t), "desk": publishedWith(t, "language: en", "language: en\ntheme: desk")} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			base, _ := serve(t, folder)
			test(t, name, base)
		})
	}
}

// Each kind of page on screens, in both themes, is opened once and looked at in every way: opening takes longer than most looks.
func TestPagesOnScreens(t *testing.T) {
	t.Parallel()
	themed(t, func(t *testing.T, theme, base string) {
		eachPage(t, base, pageKinds, nil, func(b *tab, page string) {
			t.Run(strings.ReplaceAll(page, "/", "-"), func(t *testing.T) {
				look := func(name string, check func(b *tab, page string)) {
					t.Run(name, func(t *testing.T) {
						b.of(t)
						check(b, page)
					})
				}
				look("accessible", accessible)
				look("not sideways", notSideways)
				if theme == "tank-side" {
					look("large targets", largeTargets)
				}
				look("wide spacing", wideSpacing) // the last, since it leaves its style in the page
			})
		})
	})
}

// accessible: axe-core (the open accessibility engine, from npm) must have nothing to say of any kind of page, in both themes, light and dark, phone and
// desk: WCAG 2.2 levels A and AA, and its best practices.
func accessible(b *tab, _ string) {
	for _, width := range []int64{360, 1280} {
		for _, scheme := range []string{"light", "dark"} {
			b.do(size(width, 800), paper(scheme))
			judgeAccess(b, fmt.Sprintf("%s, %d px", scheme, width))
		}
	}
	b.do(paper("light"))
}

// judgeAccess has axe-core judge a page as it stands; how names that.
func judgeAccess(b *tab, how string) {
	t := b.t
	t.Helper()
	if !ask[bool](b, `"axe" in window`) {
		engine, err := os.ReadFile("../../testdata/npm/node_modules/axe-core/axe.min.js")
		if err != nil {
			t.Fatalf("axe-core is not here: %v. make test installs it with npm.", err)
		}
		if _, err := chromedp.Run(b.ctx, chromedp.Evaluate[any](string(engine)+"; undefined")); err != nil {
			t.Fatal(err)
		}
	}
	found := ask[string](b, `axe.run(document, {resultTypes: ["violations"]}).then(r => JSON.stringify(r.violations.map(v => ({id: v.id, help: v.help, nodes: v.nodes.slice(0, 4).map(n => n.html.slice(0, 160) + " — " + n.failureSummary)}))))`)
	var violations []struct {
		ID, Help string
		Nodes    []string
	}
	if err := json.Unmarshal([]byte(found), &violations); err != nil {
		t.Fatal(err)
	}
	for _, v := range violations {
		t.Errorf("%s: %s: %s\n\t%s", how, v.ID, v.Help, strings.Join(v.Nodes, "\n\t"))
	}
}

// notSideways: nothing makes a page scroll sideways, at 360 px, and at 1280 px and 200 % zoom, which is 640 px.
func notSideways(b *tab, page string) {
	for _, width := range []int64{320, 360, 640} {
		b.do(size(width, 800))
		if wide := ask[int](b, `document.documentElement.scrollWidth - document.documentElement.clientWidth`); wide > 0 {
			b.t.Errorf("%s at %d px is %d px too wide: %s", page, width, wide, ask[string](b,
				`[...document.querySelectorAll("body *")].filter(e => e.getBoundingClientRect().right > innerWidth + 1 && !e.closest(".line, .wide, .listing, .matrix-frame")).slice(0, 3).map(e => e.outerHTML.slice(0, 120)).join(" | ")`))
		}
	}
}

// largeTargets: gloved fingers need targets of 48 px, for everything to be pressed that is not a link inside a line of text.
func largeTargets(b *tab, page string) {
	b.do(size(360, 800))
	small := ask[[]string](b, `[...document.querySelectorAll(".line a, .find input, .find button, .swatches a, .answers a, .walk-nav button:not([hidden]), .entries a, .letters a, .admit-form input[type=search], .admit-form select, .admit-form button, .admit-materials li label, .instead a, .matrix a, .sum input, .sum select, .sum button, .sum summary, .overview a rect, .seen-group summary, .look-choice label, .seen-tools button, .seen-filter input, .seen-bar a, .visit input, .visit select, .visit textarea, .visit button")]
			.filter(e => e.checkVisibility()).map(e => [e, e.getBoundingClientRect()]).filter(([, r]) => r.height < 48 || r.width < 44).map(([e, r]) => Math.round(r.width) + "×" + Math.round(r.height) + " " + e.outerHTML.slice(0, 100))`)
	for _, s := range small {
		b.t.Errorf("%s: too small for a gloved finger: %s", page, s)
	}
}
