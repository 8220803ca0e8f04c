package browser

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

const shown = `document.querySelector(".walk > section:not([hidden])")`

// An operator with spotty parts goes from the home page's drawing to a remedy, answer by answer.
func TestWalkASymptomToARemedy(t *testing.T) {
	t.Parallel()
	bothSchemes(t, func(t *testing.T, base string) {
		b := open(t, base, "index.html", size(360, 780))
		b.press(`.swatches a[href="symptoms/spotty-parts.html"]`)
		b.until(`document.querySelectorAll(".walk > section:not([hidden])").length === 1`)
		for range 12 {
			if ask[bool](b, shown+`.classList.contains("remedy")`) {
				break
			}
			from := ask[string](b, shown+`.id`)
			b.press(`.walk > section:not([hidden]) .answers a[href^="#"]`)
			b.until(shown + `.id !== ` + quote(from))
		}
		if text := b.text(`.walk > section:not([hidden])`); !strings.Contains(text, "Recheck") {
			t.Errorf("the walk did not end at a remedy with a recheck:\n%s", text)
		}
		if focus := ask[string](b, `document.activeElement.tagName`); focus != "H2" {
			t.Errorf("after an answer the focus is on %s, not on the step's heading", focus)
		}
		// Back to where one came from, by the page's button and by the browser's.
		at := ask[string](b, `location.hash`)
		b.press(`.walk-nav button:not([hidden])`)
		b.until(`location.hash !== ` + quote(at))
		b.do(chromedp.NavigateBack())
		b.until(`location.hash === ` + quote(at))
		// The way is kept when the page is loaded again, and when another page was looked at in between.
		trail := `[...document.querySelectorAll(".trail li")].map(l => l.textContent).join("|")`
		way := ask[string](b, trail)
		if way == "" {
			t.Error("there is no trail")
		}
		b.do(chromedp.Reload())
		b.until(`document.querySelector(".trail") && ` + trail + ` === ` + quote(way))
		b.do(chromedp.Navigate(base + "index.html"))
		ask[bool](b, `(setTimeout(() => history.back()), true)`) // a page that comes back whole is not loaded, for which the driver would wait
		b.until(`document.querySelector(".trail") && ` + trail + ` === ` + quote(way))
		b.do(chromedp.Navigate(base + "symptoms/spotty-parts.html"))
		b.press(".walk-on")
		b.until(trail + ` === ` + quote(way))
		// The whole tree on request.
		b.press(".walk-tree")
		b.until(`document.querySelector(".overview").open && document.querySelectorAll(".outline > li").length === document.querySelectorAll(".walk > section").length`)
	})
}

// A search result or a colleague's link may lead into the middle of a tree.
func TestAnAddressLeadsToItsStep(t *testing.T) {
	t.Parallel()
	bothSchemes(t, func(t *testing.T, base string) {
		id := ask[string](open(t, base, "symptoms/weak-activity.html"), `document.querySelectorAll(".walk > section")[2].id`)
		b := open(t, base, "symptoms/weak-activity.html#"+id)
		b.until(shown + `.id === ` + quote(id))
	})
}
