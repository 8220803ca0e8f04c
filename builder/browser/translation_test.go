package browser

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp/kb"
)

// Somebody who reads Spanish changes from the English page of a symptom to the Spanish one, walks it to a remedy, and asks the search in Spanish;
// the pages that are reached stay Spanish.
func TestReadInAnotherLanguage(t *testing.T) {
	t.Parallel()
	bothSchemes(t, func(t *testing.T, base string) {
		b := open(t, base, "symptoms/spotty-parts.html", size(360, 780))
		b.press(".bar-here")
		b.press(".languages a[hreflang=es]")
		b.until(`location.pathname.endsWith("/symptoms/spotty-parts.es.html") && document.documentElement.lang === "es"`)
		for _, answer := range []string{"Sí, la mancha desaparece", "Más de 30 µS/cm, o más de 20 por encima del agua de entrada", "Más de 10 µS/cm"} {
			b.until(`[...document.querySelectorAll(".walk > section:not([hidden]) .answers a")].some(a => a.dataset.answer === ` + quote(answer) + `)`)
			ask[bool](b, `([...document.querySelectorAll(".walk > section:not([hidden]) .answers a")].find(a => a.dataset.answer === `+quote(answer)+`).click(), true)`)
		}
		b.until(`[...document.querySelectorAll(".walk > section.remedy:not([hidden])")].some(s => s.querySelector("h2").innerText.trim().startsWith("Agua de entrada con sal"))`)
		if text := b.text(".walk > section.remedy:not([hidden])"); !strings.Contains(text, "Compruebe.") {
			t.Errorf("the remedy is not read in Spanish:\n%s", text)
		}

		b.press(".bar-find")
		b.keys("#find-words", "cómo desgasificar")
		b.until(`document.querySelectorAll(".find-hit").length > 0`)
		if first := b.text(".find-hit"); !strings.Contains(first, "Desgasificar el baño") || !strings.Contains(first, "procedimiento") {
			t.Errorf("the first hit is not the Spanish procedure:\n%s", first)
		}
		b.keys("#find-words", kb.ArrowDown)
		b.keys("#find-words", kb.Enter)
		b.until(`location.pathname.endsWith("/procedures/degas.es.html")`)
		if lang := ask[string](b, `document.documentElement.lang`); lang != "es" {
			t.Errorf("the page found is in %q", lang)
		}

		// A question in English, asked on a Spanish page, leads to the page that its reader can read.
		b.press(".bar-find")
		b.keys("#find-words", "white spots")
		b.until(`new URL(document.querySelector(".find-hit").href).pathname.endsWith(".es.html")`)
	})
}
