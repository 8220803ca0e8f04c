package browser

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// Without scripts the pages and trees still read, the calculators show the published values, and the index leads everywhere.
func TestWithoutScripts(t *testing.T) {
	bothSchemes(t, func(t *testing.T, base string) {
		b := open(t, base, "symptoms/spotty-parts.html", withoutScripts())
		var steps, answers []string
		b.do(chromedp.Evaluate(`[...document.querySelectorAll(".walk > section h2")].filter(h => h.checkVisibility()).map(h => h.textContent)`, &steps))
		b.do(chromedp.Evaluate(`[...document.querySelectorAll(".answers a")].filter(a => a.getAttribute("href").startsWith("#") && !document.getElementById(decodeURIComponent(a.hash.slice(1)))).map(a => a.href)`, &answers))
		if len(steps) < 8 {
			t.Errorf("only %d steps are visible without scripts", len(steps))
		}
		if len(answers) > 0 {
			t.Errorf("answers that lead nowhere: %v", answers)
		}

		b = open(t, base, "tanks/wash-1.html", withoutScripts())
		var text string
		b.do(chromedp.Text(`main`, &text))
		for _, want := range []string{"4.8 L", "115"} { // 120 L at 4 % v/v
			if !strings.Contains(strings.ReplaceAll(text, "\u00a0", " "), want) {
				t.Errorf("the tank's page does not show %q without scripts", want)
			}
		}
		b.do(chromedp.Click(`.find-without a`))
		b.do(chromedp.Text(`main`, &text))
		if !strings.Contains(text, "white spots") {
			t.Error("the index of all words lacks “white spots”")
		}
	})
}
