package browser

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"tankside/builder/decide/causes"
	"tankside/builder/decide/relate"
	"tankside/builder/manual"
)

// tickAddress is the page's address with some looks taken.
func tickAddress(m *causes.Model, looks []causes.Look) string {
	var seen, not []string
	for i, l := range looks {
		switch l {
		case causes.Seen:
			seen = append(seen, manual.Anchor(m.Observations[i].Name))
		case causes.NotSeen:
			not = append(not, manual.Anchor(m.Observations[i].Name))
		}
	}
	return "seen=" + strings.Join(seen, ",") + "&not=" + strings.Join(not, ",")
}

// hrefOf is where the page leads for a cause.
func hrefOf(c causes.Cause) string { return strings.Replace(c.Name, ".md#", ".html#", 1) }

// What the page tells is what the same code tells natively, to the last digit; and no cause that could hurt somebody is left out of sight.
func TestRankingInThePageIsTheNativeOne(t *testing.T) {
	t.Parallel()
	m := relate.Causes(demoManual(t)).Model
	bothSchemes(t, func(t *testing.T, base string) {
		b := open(t, base, "what-is-seen.html", size(360, 780))
		r := rand.New(rand.NewPCG(5, 6))
		for range 12 {
			looks := make([]causes.Look, len(m.Observations))
			for range 1 + r.IntN(6) {
				looks[r.IntN(len(looks))] = causes.Look(1 + r.IntN(2))
			}
			ask[bool](b, `(delete document.querySelector(".seen-page").dataset.ranking, location.hash = `+quote(tickAddress(m, looks))+`, true)`)
			b.until(`document.querySelector(".seen-page").dataset.ranking`)
			want := m.Explain(looks)
			if got := ask[string](b, `document.querySelector(".seen-page").dataset.ranking`); got != want.Text() {
				t.Fatalf("the page tells\n%s\nnatively\n%s", got, want.Text())
			}
			listed := ask[[]string](b, `[...document.querySelectorAll(".seen-answer a")].map(a => a.getAttribute("href"))`)
			for _, c := range m.Causes {
				if c.Hurts && !strings.Contains(strings.Join(listed, "\n")+"\n", hrefOf(c)+"\n") {
					t.Errorf("%s can hurt people and is not listed", c.Name)
				}
			}
			var first []string
			for _, p := range want.Sets[0].Parts {
				if p.Cause < len(m.Causes) {
					first = append(first, hrefOf(m.Causes[p.Cause]))
				}
			}
			if got := ask[[]string](b, `[...document.querySelectorAll(".seen-best .seen-head a")].map(a => a.getAttribute("href"))`); !slices.Equal(got, first) {
				t.Errorf("first are %v, natively %v", got, first)
			}
		}
	})
}

// Foam, a weak foil and rust have causes of their own: they no longer count against the cause of the spots. The page says so in a sentence, at both widths
// without scrolling sideways, and in Spanish.
func TestSeveralCausesInASentence(t *testing.T) {
	t.Parallel()
	base := serveUnkept(t, published(t))
	const ticked = "#seen=white-spots-or-rings,spots-wipe-off-with-a-damp-cloth,foam-on-the-hot-bath,orange-rust-on-steel-or-iron,foil-or-pencil-test-is-poor"
	for _, width := range []int64{360, 1280} {
		for page, want := range map[string]string{"what-is-seen.html": "causes together explain all that is seen: ", "what-is-seen.es.html": "causas juntas explican todo lo que se ve: "} {
			b := open(t, base, page+ticked, size(width, 780))
			b.until(`document.querySelector(".seen-page").dataset.ranking`)
			if text := b.text(".seen-best"); !strings.Contains(text, want) || ask[int](b, `document.querySelectorAll(".seen-best .seen-head a").length`) < 3 {
				t.Errorf("%s at %d: %s", page, width, text)
			}
			if next := ask[int](b, `document.querySelectorAll(".seen-next .seen-means").length`); next < 2 {
				t.Errorf("%s does not say what a look would mean", page)
			}
			judgeAccess(b, "with several causes told")
			if wide := ask[int](b, `document.documentElement.scrollWidth - document.documentElement.clientWidth`); wide > 0 {
				t.Errorf("%s at %d px is %d px too wide", page, width, wide)
			}
		}
	}
}

// Somebody ticks three things, reads the causes with what speaks for them and against, follows the look that is proposed and goes to the remedy.
func TestTickingAndReadingCauses(t *testing.T) {
	t.Parallel()
	bothSchemes(t, func(t *testing.T, base string) {
		b := open(t, base, "what-is-seen.html", size(360, 780))
		b.keys("#seen-filter", "spots")
		b.until(`document.querySelector("#white-spots-or-rings").checkVisibility()`)
		b.press(`#white-spots-or-rings input[value="s"]`)
		b.until(`document.querySelectorAll(".seen-cause").length > 0`)
		b.press(`#spots-wipe-off-with-a-damp-cloth input[value="n"]`)
		b.until(`document.querySelector(".seen-against").innerText.includes("spots wipe off with a damp cloth (not seen)") || document.querySelectorAll(".seen-against").length > 1`)
		if text := b.text(".seen-answer"); !strings.Contains(text, "(explains white spots or rings)") || !strings.Contains(text, "Can hurt people") {
			t.Errorf("the answer:\n%s", text)
		}
		next := ask[string](b, `document.querySelector(".seen-next a").getAttribute("href").slice(1)`)
		ask[bool](b, `(document.querySelector(".seen-next a").click(), true)`)
		if focus := ask[string](b, `document.activeElement.name`); focus != next {
			t.Errorf("the proposed look leads to %q, not to %q", focus, next)
		}
		to := ask[string](b, `document.querySelector(".seen-best a").href`)
		ask[bool](b, `(document.querySelector(".seen-best a").click(), true)`)
		b.until(`location.href === ` + quote(to))
		b.until(shown + `.classList.contains("remedy")`)
	})
}

func TestCausesByObservationWithoutScripts(t *testing.T) {
	t.Parallel()
	base := serveUnkept(t, published(t))
	b := open(t, base, "what-is-seen.html", withoutScripts())
	ask[bool](b, `([...document.querySelectorAll("details")].forEach(d => { d.open = true; }), true)`)
	if text := b.text("#white-spots-or-rings"); !strings.Contains(text, "typical: Salty feed water: renew the deioniser") {
		t.Errorf("without scripts: %s", text)
	}
}

// Where the module cannot be had, the page says so and lists the causes by observation.
func TestRankingThatCannotBeLoaded(t *testing.T) {
	t.Parallel()
	base := serveUnkept(t, published(t))
	b := open(t, base, "what-is-seen.html")
	b.forgive = func(c string) bool {
		return strings.Contains(c, "cannot be read") || strings.Contains(c, "404") || strings.Contains(c, "console") || strings.Contains(c, "nothing.js")
	}
	ask[bool](b, `(document.body.dataset.answers = "assets/nothing.js", true)`)
	ask[bool](b, `(location.hash = "seen=white-spots-or-rings", true)`)
	b.until(`document.querySelector(".seen-failed")`)
	if text := b.text("#white-spots-or-rings"); !strings.Contains(text, "typical: Salty feed water") {
		t.Errorf("the causes are not listed: %s", text)
	}
}
