package browser

import (
	"strings"
	"testing"

	"tankside/builder/manual"
	"tankside/builder/page"
)

// screenOf measures every step of a symptom's walk on a phone: how many answers it has, how many of them and whether the question stand on the
// screen above the bar with Back, without scrolling.
const screenOf = `(async () => {
	const list = [];
	const frame = () => new Promise(done => requestAnimationFrame(() => setTimeout(done, 0)));
	for (const s of document.querySelectorAll(".walk > section.step")) {
		location.hash = s.id;
		await frame(); await frame();
		const bar = document.querySelector(".walk-nav").getBoundingClientRect().top;
		const top = document.querySelector(".bar").getBoundingClientRect().bottom;
		const on = e => { const r = e.getBoundingClientRect(); return r.height > 0 && r.top >= top - 1 && r.bottom <= bar + 1; };
		const answers = [...s.querySelectorAll(".answers a")];
		list.push({ id: s.id, question: on(s.querySelector("h2")), answers: answers.length, shown: answers.filter(on).length });
	}
	return list;
})()`

type stepScreen struct {
	ID       string `json:"id"`
	Question bool   `json:"question"`
	Answers  int    `json:"answers"`
	Shown    int    `json:"shown"`
}

// One step is one screen, in both languages: on a phone of 360 × 740 every first step has its question and two answers on it, and of all steps
// 85 of 100 have all their answers.
func TestEveryStepIsAScreen(t *testing.T) {
	t.Parallel()
	var pages []string
	for _, a := range demoManual(t).Articles {
		if a.Kind == manual.Symptom {
			pages = append(pages, page.Path(a), page.Translated(page.Path(a), "es"))
		}
	}
	if len(pages) < 44 {
		t.Fatalf("%d pages of symptoms", len(pages))
	}
	steps, whole := 0, 0
	eachPage(t, serveUnkept(t, published(t)), pages, []step{size(360, 740)}, func(b *tab, page string) {
		list := ask[[]stepScreen](b, screenOf)
		if len(list) == 0 {
			t.Fatalf("%s has no steps", page)
		}
		if first := list[0]; !first.Question || first.Shown < min(2, first.Answers) {
			t.Errorf("%s: the first screen has its question: %v, and %d of %d answers", page, first.Question, first.Shown, first.Answers)
		}
		for _, s := range list {
			steps++
			if s.Question && s.Shown == s.Answers {
				whole++
			} else {
				t.Logf("%s#%s: question %v, %d of %d answers", page, s.ID, s.Question, s.Shown, s.Answers)
			}
		}
	})
	t.Logf("%d of %d steps stand on one screen", whole, steps)
	if float64(whole) < 0.85*float64(steps) {
		t.Errorf("%d of %d steps stand on one screen, fewer than 85 in 100", whole, steps)
	}
}

// A step that asks for a measurement takes the number, in the reader's unit, and picks the answer that states it; the number goes into the visit
// report. Where no answer states it, or one asks for more than a number, it says so and goes nowhere.
func TestANumberPicksTheAnswer(t *testing.T) {
	t.Parallel()
	bothSchemes(t, func(t *testing.T, base string) {
		feed := "is-the-feed-water-salty-before-it-reaches-the-rinse"
		b := open(t, base, "symptoms/spotty-parts.html#"+feed, size(360, 740))
		b.until(shown + `.id === ` + quote(feed))
		take := func(step, number string) {
			ask[bool](b, `(document.getElementById(`+quote(step)+`).querySelector(".reading input").value = "", true)`)
			b.keys("#"+step+" .reading input", number+"\r")
		}
		take(feed, "10,5")
		b.until(`document.querySelector("#` + feed + ` .reading-says").textContent.includes("no number")`)
		take(feed, "10")
		b.until(shown + `.id === "cleaner-carried-into-the-last-rinse"`)
		if way := ask[string](b, `JSON.stringify(document.querySelector(".walk").way())`); !strings.Contains(way, "10 µS/cm – 10 µS/cm or less") {
			t.Errorf("the way is taken down as %s", way)
		}
		paper := "does-wet-ph-paper-on-a-spot-show-9-or-more"
		b.turn("symptoms/spotty-parts.html#"+paper, size(360, 740))
		take(paper, "8.7")
		b.until(`document.querySelector("#` + paper + ` .reading-says").textContent.includes("No answer says what to do at 8.7 pH")`)
		take(paper, "9")
		b.until(shown + `.id === "cleaner-carried-into-the-last-rinse"`)
		// In degrees Fahrenheit; and an answer that asks for more than the number is only shown.
		heat := "is-the-temperature-right-and-steady"
		b.turn("symptoms/weak-activity.html#"+heat, size(360, 740))
		ask[bool](b, `((s => { s.value = "°F"; return true; })(document.querySelector("#`+heat+` .reading select")))`)
		take(heat, "140")
		b.until(`document.querySelector("#` + heat + ` .answers a.picked")?.dataset.answer === "35–75 °C and steady"`)
		take(heat, "176")
		b.until(shown + `.id === "too-hot-for-strong-cavitation"`)
	})
}

// On a phone a bar has the place of the line and of the search; each comes back at a touch. The first page has both.
func TestTheLineComesBackAtATouch(t *testing.T) {
	t.Parallel()
	b := open(t, serveUnkept(t, published(t)), "soils/wax.html", size(360, 740))
	visible := func(selector string) bool {
		return ask[bool](b, `document.querySelector(`+quote(selector)+`).checkVisibility()`)
	}
	if visible(".line") || visible("#find-words") {
		t.Error("line or search stand on the page before they are asked for")
	}
	if height := ask[float64](b, `document.querySelector(".bar").getBoundingClientRect().height`); height > 60 {
		t.Errorf("the bar is %g px high", height)
	}
	b.press(".bar-here")
	b.until(`document.querySelector(".line").checkVisibility() && document.querySelector(".bar-here").getAttribute("aria-expanded") === "true"`)
	b.press(".bar-find")
	b.until(`document.activeElement === document.querySelector("#find-words")`)
	b.press(".bar-home")
	b.until(`document.querySelector(".swatches")`)
	if !visible(".line") || !visible("#find-words") {
		t.Error("the first page has no line or no search")
	}
}
