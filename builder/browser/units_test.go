package browser

import (
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// The reader chooses the family of units on any page; it holds on the next page, and calculators follow.
// 60 °C are 140 °F, 120 L are 31.70 US gal (NIST Special Publication 811, 2008, appendix B).
func TestReaderChoosesUnits(t *testing.T) {
	t.Parallel()
	bothSchemes(t, func(t *testing.T, base string) {
		b := open(t, base, "tanks/wash-1.html#at.tank")
		if facts := b.text(".tank-row dl"); !strings.Contains(facts, "120 L") || strings.Contains(facts, "gal") {
			t.Errorf("the shop's own units do not stand alone: %s", facts)
		}
		if small := ask[int](b, `[...document.querySelectorAll("footer .units button")].filter(e => e.getBoundingClientRect().height < 48).length`); small > 0 {
			t.Errorf("%d buttons are too low for gloves", small)
		}
		b.press(`.units button[value="US"]`)
		if facts := b.text(".tank-row dl"); !strings.Contains(facts, "31.7 US gal") || strings.Contains(facts, "120 L") || !strings.Contains(facts, "144 °F") {
			t.Errorf("the tank is not in US units: %s", facts)
		}
		b.until(`tankside.shown(document.querySelector("#sum-heat-up .sum-answer")).includes("°F")`)
		b.until(`document.querySelector("#sum-heat-up-volume").nextElementSibling.value === "US gal"`)
		if unit := ask[string](b, `document.querySelector("#sum-heat-up-volume").nextElementSibling.value`); unit != "US gal" {
			t.Errorf("the field of the volume stands in %s", unit)
		}
		if left := ask[[]string](b, `[...document.querySelectorAll(".sum-amount select")].filter(s => s.dataset.si !== s.dataset.us && s.value === s.dataset.si).map(s => s.name)`); len(left) > 0 {
			t.Errorf("fields still stand in the shop's units, empty ones among them: %s", left)
		}
		b.do(chromedp.Navigate(base + "chemistries/mild-alkaline.html"))
		if gauges := b.text(".gauges"); !strings.Contains(gauges, "°F") || strings.Contains(gauges, "°C") {
			t.Errorf("the choice does not hold on the next page: %s", gauges)
		}
		b.press(`.units button[value="SI"]`)
		if gauges := b.text(".gauges"); strings.Contains(gauges, "°F") {
			t.Errorf("there is no way back: %s", gauges)
		}
	})
}

// A device without storage has the choice for the page.
func TestUnitsWithoutStorage(t *testing.T) {
	t.Parallel()
	b := open(t, "file://"+published(t)+"/", "chemistries/mild-alkaline.html")
	ask[bool](b, `Object.defineProperty(window, "localStorage", {get() { throw new Error("refused"); }}), true`)
	b.press(`.units button[value="US"]`)
	if gauges := b.text(".gauges"); !strings.Contains(gauges, "°F") {
		t.Errorf("the choice does nothing: %s", gauges)
	}
}

// Reasons follow as well: those of an answer, its recipe and what is read out, and those that tables and lists were published with. 60 °C are
// 140 °F.
func TestReasonsFollowTheUnits(t *testing.T) {
	t.Parallel()
	bothSchemes(t, func(t *testing.T, base string) {
		b := open(t, base, "may-it-go-in.html#material=acrylic&bath=wash-1")
		b.until(`document.querySelector(".verdict.no")`)
		if text := b.text(".admit-answer"); !strings.Contains(text, "the limit of acrylic") || !strings.Contains(text, "≤ 45 °C") || strings.Contains(text, "°F") {
			t.Fatalf("in the shop's own units the reasons are %s", text)
		}
		b.press(`.units button[value="US"]`)
		if text := b.text(".admit-answer .why"); !strings.Contains(text, "≤ 113 °F") || strings.Contains(text, "°C") {
			t.Errorf("the reasons do not follow: %s", text)
		}
		b.until(`/°F/.test(document.querySelector(".admit-say").textContent) && !/°C/.test(document.querySelector(".admit-say").textContent)`)
		b.do(chromedp.Navigate(base + "materials/acrylic.html"))
		if text := b.text("main"); !strings.Contains(text, "95–113 °F") || strings.Contains(text, "35–45 °C") {
			t.Error("the reasons of the list on a material's page do not follow")
		}
	})
}

// aloneInSI are the amounts of a text that stand in SI units without the US value before them: 140 °F (60 °C), or a value in both. What is written
// on a form, a compound unit, and few degrees of which nothing says what they are may; the test of every page, in package builder, counts them.
const aloneInSI = `(text => {
	const number = "[−+-]?\\d[\\d.,\\u202f]*", row = number + "(?:\\s*(?:–|±|×|to|and|or|a|y|o|,|-)\\s*" + number + ")*";
	const si = "(?:°C|mL/L|L/min|W/L|g/L|mL|L|mm|cm|m|kg|g|bar|kPa)";
	const us = "(?:°F|[A-Za-z /]*US gal(?:/min|/h)?|US fl oz|lb|oz|in|ft|ft/min|psi|mil|in²|ft²|lb/US gal)";
	const rest = text.replace(new RegExp(row + "\\s?" + us + "\\s?\\(" + row + "\\s?[^()\\s]{1,6}\\)?", "g"), "#");
	return [...rest.matchAll(new RegExp("(?:^|[^\\p{L}\\d.])(" + number + "\\s?" + si + ")(?![\\p{L}\\d²³/·])", "gu"))].map(m => rest.slice(Math.max(0, m.index - 30), m.index + 30));
})`

// With US units chosen what is seen has the US value first: ten pages, on the screen and on paper, what a calculator answers anew, and what a search
// finds. With SI units chosen again nothing of it is left.
func TestUnitsChosenStandFirst(t *testing.T) {
	t.Parallel()
	bothSchemes(t, func(t *testing.T, base string) {
		b := open(t, base, "index.html")
		b.press(`.units button[value="US"]`)
		for _, page := range []string{"index.html", "tanks/wash-1.html", "soils/wax.html", "chemistries/mild-alkaline.es.html", "symptoms/spotty-parts.html", "parts/impeller-bronze.html",
			"lessons/rinsing-and-drying.html", "cards.html", "what-is-seen.html", "procedures/heat-the-bath.html", "rests-on.html"} {
			b.do(chromedp.Navigate(base + page))
			if ask[bool](b, `!!document.querySelector("section.sum")`) {
				b.until(`[...document.querySelectorAll("section.sum")].every(s => s.dataset.system === "US")`)
			}
			if ask[bool](b, `!!document.querySelector(".write")`) { // what was read last comes from the device
				b.until(`document.querySelector(".write").dataset.ready === "yes"`)
			}
			if ask[bool](b, `!!document.querySelector(".board-text")`) { // the bench writes its lines when the sums have answered
				b.until(aloneInSI + `(document.querySelector(".board-text").innerText).length === 0`)
			}
			ask[bool](b, `(document.querySelectorAll("details").forEach(d => d.open = true), document.querySelectorAll(".walk > section").forEach(s => s.hidden = false), true)`)
			for _, medium := range []string{"screen", "print"} {
				b.do(command(emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: medium}))
				if left := ask[[]string](b, aloneInSI+`([...document.querySelectorAll("main")].map(e => e.innerText).join("\n"))`); len(left) > 2 {
					t.Errorf("%s on %s: %d amounts stand in SI units alone: %q", page, medium, len(left), left)
				}
				if n := ask[int](b, `(document.querySelector("main").innerText.match(/(°F|US gal|lb|in|psi|ft)/g) ?? []).length`); n == 0 {
					t.Errorf("%s on %s has no US units", page, medium)
				}
			}
			b.do(command(emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{}))
		}
		b.do(chromedp.Navigate(base + "index.html"))
		asking(b, "degas 60 °C")
		b.until(`document.querySelector(".find-hit .us")`)
		if left := ask[[]string](b, aloneInSI+`([...document.querySelectorAll(".find-hit")].map(e => e.innerText).join("\n"))`); len(left) > 0 {
			t.Errorf("what is found stands in SI units alone: %q", left)
		}
		b.press(`.units button[value="SI"]`)
		ask[bool](b, `(document.querySelector("#find-words").focus(), true)`)
		b.until(`!document.querySelector(".find-results").hidden`)
		if text := b.text(".find-list"); strings.Contains(text, "°F") {
			t.Errorf("what is found does not follow: %s", text)
		}
	})
}
