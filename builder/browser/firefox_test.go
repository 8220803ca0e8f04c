package browser

import (
	"strings"
	"testing"

	"tankside/builder/browser/drive"
)

// The main paths in Firefox: search, a walk, a calculator.
func TestFirefox(t *testing.T) {
	t.Parallel()
	f := drive.StartFirefox(t)
	inTurn(t, published(t), func(t *testing.T, base string) {
		f.Open(base + "index.html")
		f.Press(`.swatches a[href="symptoms/spotty-parts.html"]`)
		f.Until(`document.querySelectorAll(".walk > section:not([hidden])").length === 1`)
		for range 12 {
			var remedy bool
			f.Ask(`document.querySelector(".walk > section:not([hidden])").classList.contains("remedy")`, &remedy)
			if remedy {
				break
			}
			var from string
			f.Ask(`document.querySelector(".walk > section:not([hidden])").id`, &from)
			f.Press(`.walk > section:not([hidden]) .answers a[href^="#"]`)
			f.Until(`document.querySelector(".walk > section:not([hidden])").id !== ` + quote(from))
		}
		f.Until(`document.querySelector(".walk > section:not([hidden])").classList.contains("remedy")`)

		f.Type("#find-words", "white spots")
		f.Until(`document.querySelectorAll(".find-hit").length > 0`)
		var first string
		f.Ask(`document.querySelector(".find-hit").getAttribute("href")`, &first)
		if !strings.Contains(first, "spotty-parts.html") {
			t.Errorf("the first hit for white spots is %s", first)
		}

		f.Open(base + "tanks/wash-2.html#at.sums")
		f.Ask(`(document.querySelector("#sum-dilution-volume").select(), true)`, nil)
		f.Type("#sum-dilution-volume", "25")
		f.Until(`tankside.shown(document.querySelector("#sum-dilution .sum-value")).replace(/\s/g, " ") === "500 mL"`)
	})
}
