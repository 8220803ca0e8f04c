package browser

import (
	"encoding/json"
	"fmt"
	"os"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/chromedp/chromedp"
)

// pageKinds is one page of each kind.
var pageKinds = []string{
	"index.html", "symptoms/spotty-parts.html", "chemistries/mild-alkaline.html", "soils/wax.html", "materials/brass.html",
	"parts/impeller-bronze.html", "procedures/heat-the-bath.html", "lessons/how-cavitation-cleans.html", "tanks/wash-1.html", "calculators.html", "calculators/spotting.html",
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
			test(t, name, serveUnkept(t, folder))
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
//
// Contrast takes most of the engine's time, in a large table minutes, so colours are judged for three of all texts of all pages that are alike in everything
// that the judgement depends on. And where the dark page has nothing but other colours, the rules about anything else have their answer from the light one;
// where a page has the same elements, names and attributes, seen and unseen, in another theme or on a wider screen, only the rules that ask for places and
// sizes have not had theirs.
func accessible(b *tab, page string) {
	for _, width := range []int64{360, 1280} {
		shape := ""
		for _, scheme := range []string{"light", "dark"} {
			b.do(size(width, 800), paper(scheme))
			how := fmt.Sprintf("%s, %d px", scheme, width)
			texts := markTexts(b)
			if texts < 10 {
				b.t.Errorf("%s: only %d kinds of text", how, texts)
			}
			var rules []string
			if ask[bool](b, `document.querySelector("[data-text]") !== null`) {
				rules = colourRules
			}
			before := shape
			if shape = ask[string](b, shapeOfPage); shape != before {
				if _, judged := wordsJudged.LoadOrStore(page+"\n"+withoutPlaces(shape), true); !judged {
					engine(b, how, `{}`) // which looks at the marked texts' colours as well
					continue
				}
				rules = append(slices.Clone(rules), "scrollable-region-focusable")
			}
			if len(rules) > 0 {
				engine(b, how, `{runOnly: ["`+strings.Join(rules, `", "`)+`"]}`)
			}
		}
	}
	b.do(paper("light"))
}

// colourRules are the engine's rules about colours.
var colourRules = []string{"color-contrast", "link-in-text-block"}

// wordsJudged has the pages whose elements, names and attributes the engine has judged, whatever they look like.
var wordsJudged sync.Map

// withoutPlaces leaves place and size out of a shape. A style of its own, which a table may be given for its width, is neither said nor named.
func withoutPlaces(shape string) string {
	var out strings.Builder
	for line := range strings.Lines(shape) {
		f := strings.SplitN(line, " ", 6)
		if f[0] == "LINK" { // the style sheet, which has the theme's name
			continue
		}
		out.WriteString(f[0] + " " + f[len(f)-1])
	}
	return out.String()
}

// shapeOfPage gives the place and size of everything on the page, whether it is seen, and what is named and said by attributes.
const shapeOfPage = `[...document.querySelectorAll("*")].map(e => { const r = e.getBoundingClientRect();
	return [e.tagName, r.x, r.y, r.width, r.height, e.checkVisibility({visibilityProperty: true, opacityProperty: true}), ...[...e.attributes].filter(a => a.name !== "data-text").map(a => a.name + "=" + a.value)].join(" "); }).join("\n")`

// textsJudged counts the texts of each kind that were judged, on whatever page.
var textsJudged struct {
	sync.Mutex
	many map[string]int
}

// markTexts marks for the engine texts and fields of kinds of which fewer than three have been judged, and gives the number of kinds on the page. Alike
// are those of one element, class and state in elements of the same, with the same letters, colours, backgrounds and opacity all the way up.
func markTexts(b *tab) int {
	textsJudged.Lock()
	defer textsJudged.Unlock()
	known, err := json.Marshal(textsJudged.many)
	if err != nil {
		b.t.Fatal(err)
	}
	found := ask[struct {
		Kinds int            `json:"kinds"`
		Many  map[string]int `json:"many"`
	}](b, `(`+markTextsIn+`)(`+string(known)+` ?? {})`)
	textsJudged.many = found.Many
	return found.Kinds
}

const markTextsIn = `many => {
	const kinds = new Set(), chains = new Map([[null, ""]]);
	const hash = text => { // FNV-1a, twice, of 32 bits
		let a = 0x811c9dc5, b = 0x01000193;
		for (let i = 0; i < text.length; i++) { a = Math.imul(a ^ text.charCodeAt(i), 0x01000193); b = Math.imul(b ^ text.charCodeAt(i), 0x811c9dc5); }
		return (a >>> 0).toString(36) + (b >>> 0).toString(36);
	};
	const chain = e => {
		if (!chains.has(e)) {
			const s = getComputedStyle(e);
			chains.set(e, hash([chain(e.parentElement), e.tagName, e.getAttribute("class"), e.getAttribute("aria-current"), e.getAttribute("aria-pressed"), e.disabled, s.color, s.backgroundColor, s.backgroundImage,
				s.opacity, s.fontSize, s.fontWeight, s.textShadow, s.filter, s.mixBlendMode, s.position, s.visibility].join("|")));
		}
		return chains.get(e);
	};
	for (const e of document.querySelectorAll("body, body *")) {
		e.removeAttribute("data-text");
		const says = [...e.childNodes].some(n => n.nodeType === Node.TEXT_NODE && n.data.trim() !== "");
		if (!says && !e.matches("input, select, textarea, button") || !e.checkVisibility()) continue;
		const kind = chain(e);
		kinds.add(kind);
		if ((many[kind] ?? 0) >= 3) continue;
		many[kind] = (many[kind] ?? 0) + 1;
		e.setAttribute("data-text", "");
	}
	return { kinds: kinds.size, many };
}`

// judgeAccess has axe-core judge a page as it stands; how names that.
func judgeAccess(b *tab, how string) {
	b.t.Helper()
	ask[bool](b, `(document.querySelectorAll("body, body *").forEach(e => e.setAttribute("data-text", "")), true)`)
	engine(b, how, `{}`)
}

// engine has axe-core judge the page by some of its rules, colours of marked texts alone. Style sheets are not fetched beforehand for it: of all rules css-orientation-lock alone, an
// experiment that is off, reads them.
func engine(b *tab, how, options string) {
	t := b.t
	t.Helper()
	if !ask[bool](b, `"axe" in window`) {
		script, err := os.ReadFile("../../testdata/npm/node_modules/axe-core/axe.min.js")
		if err != nil {
			t.Fatalf("axe-core is not here: %v. make test installs it with npm.", err)
		}
		if _, err := chromedp.Run(b.ctx, chromedp.Evaluate[any](string(script)+`; axe.configure({ rules: ["color-contrast", "link-in-text-block"].map(id => ({ id, selector: (id === "color-contrast" ? "" : "a[href]") + "[data-text]" })) }); undefined`)); err != nil {
			t.Fatal(err)
		}
	}
	found := ask[string](b, `axe.run(document, {resultTypes: ["violations"], preload: {assets: ["media"]}, ...`+options+`}).then(r => JSON.stringify(r.violations.map(v => ({id: v.id, help: v.help, nodes: v.nodes.slice(0, 4).map(n => n.html.slice(0, 160) + " — " + n.failureSummary)}))))`)
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
	small := ask[[]string](b, `[...document.querySelectorAll(".line a, .find input, .find button, .swatches a, .answers a, .walk-nav button:not([hidden]), .entries a, .letters a, .admit-form input[type=search], .admit-form select, .admit-form button, .admit-materials li label, .instead a, .matrix a, .sum input, .sum select, .sum button, .sum summary, .drawn a rect, .seen-group summary, .look-choice label, .seen-tools button, .seen-filter input, .seen-bar a, .visit input, .visit select, .visit textarea, .visit button")]
			.filter(e => e.checkVisibility()).map(e => [e, e.getBoundingClientRect()]).filter(([, r]) => r.height < 48 || r.width < 44).map(([e, r]) => Math.round(r.width) + "×" + Math.round(r.height) + " " + e.outerHTML.slice(0, 100))`)
	for _, s := range small {
		b.t.Errorf("%s: too small for a gloved finger: %s", page, s)
	}
}
