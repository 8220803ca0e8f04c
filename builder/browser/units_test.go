package browser

import (
	"strings"
	"testing"

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
		b.until(`document.querySelector("#sum-heat-up .sum-answer").textContent.includes("°F")`)
		b.until(`document.querySelector("#sum-heat-up-volume").nextElementSibling.value === "US gal"`)
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
