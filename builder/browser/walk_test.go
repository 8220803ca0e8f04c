package browser

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// An operator with spotty parts goes from the home page's drawing to a remedy, answer by answer.
func TestWalkASymptomToARemedy(t *testing.T) {
	bothSchemes(t, func(t *testing.T, base string) {
		b := open(t, base, "index.html", size(360, 780))
		b.do(chromedp.Click(`.swatches a[href="symptoms/spotty-parts.html"]`))
		b.until(`document.querySelectorAll(".walk > section:not([hidden])").length === 1`)
		for range 12 {
			var remedy bool
			b.ask(`document.querySelector(".walk > section:not([hidden])").classList.contains("remedy")`, &remedy)
			if remedy {
				break
			}
			// The first answer that stays in this tree.
			var from string
			b.ask(`document.querySelector(".walk > section:not([hidden])").id`, &from)
			b.do(chromedp.Click(`.walk > section:not([hidden]) .answers a[href^="#"]`))
			b.until(`document.querySelector(".walk > section:not([hidden])").id !== "` + from + `"`)
		}
		var text string
		b.do(chromedp.Text(`.walk > section.remedy:not([hidden])`, &text))
		if !strings.Contains(text, "Recheck") {
			t.Errorf("the walk did not end at a remedy with a recheck:\n%s", text)
		}
		var focus string
		b.ask(`document.activeElement.tagName`, &focus)
		if focus != "H2" {
			t.Errorf("after an answer the focus is on %s, not on the step's heading", focus)
		}
		// Back to where one came from, by the page's button and by the browser's.
		var at, before string
		b.ask(`location.hash`, &at)
		b.do(chromedp.Click(`.walk-nav button:not([hidden])`))
		b.until(`location.hash !== "` + at + `"`)
		b.ask(`location.hash`, &before)
		b.do(chromedp.NavigateBack())
		b.until(`location.hash === "` + at + `"`)
		// The whole tree on request.
		b.do(chromedp.Evaluate(`[...document.querySelectorAll(".walk-nav button")].at(-1).click()`, nil))
		b.until(`document.querySelectorAll(".walk > section[hidden]").length === 0`)
	})
}

// A search result or a colleague's link may lead into the middle of a tree.
func TestAnAddressLeadsToItsStep(t *testing.T) {
	bothSchemes(t, func(t *testing.T, base string) {
		var id string
		first := open(t, base, "symptoms/weak-activity.html")
		first.ask(`document.querySelectorAll(".walk > section")[2].id`, &id)
		b := open(t, base, "symptoms/weak-activity.html#"+id)
		b.until(`document.querySelector(".walk > section:not([hidden])").id === "` + id + `"`)
	})
}
