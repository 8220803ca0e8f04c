package browser

import (
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// spanish gives the folder of the demo manual's edition of a shop whose language is Spanish, which has no translations into it.
func spanish(t *testing.T) string {
	t.Helper()
	return publishedWith(t, "language: en", "language: es", "*/*.es.md")
}

// A shop whose language is Spanish has the interface in Spanish, that of the scripts too; its articles stay as they are written.
func TestSpanishInterface(t *testing.T) {
	t.Parallel()
	base := "file://" + filepath.ToSlash(spanish(t)) + "/"
	b := open(t, base, "index.html")
	if lang := ask[string](b, "document.documentElement.lang"); lang != "es" {
		t.Errorf("the page says that it is in %q", lang)
	}
	if h1 := b.text("h1"); h1 != "¿Qué le pasa a la pieza?" {
		t.Errorf("home asks %q", h1)
	}
	b.keys("#find-words", "zzqqxx")
	b.until(`document.querySelector(".find-say").textContent.includes("No se encontró nada.")`)
	b = open(t, base, "symptoms/spotty-parts.html")
	b.press(".answers a")
	b.until(`["Atrás", "Empezar de nuevo"].every(t => document.querySelector(".walk-nav").innerText.includes(t))`)
}

// A calculator on a Spanish page answers in Spanish, before any key is pressed and after, with the same sentences; a wrong input is explained
// in Spanish, read out and beside its field.
func TestSpanishCalculator(t *testing.T) {
	t.Parallel()
	inBothSchemes(t, spanish(t), func(t *testing.T, base string) {
		b := open(t, base, "tanks/wash-1.html#at.sums")
		if published := b.text("#sum-heat-up .sum-answer"); !strings.Contains(published, "Tiempo para calentar") || !strings.Contains(published, "ADVERTENCIA") || strings.Contains(published, "WARNING") {
			t.Errorf("published is %q", published)
		}
		b.change("#sum-heat-up-target", "70")
		b.until(`tankside.shown(document.querySelector("#sum-heat-up .sum-given")).replace(/\s/g, " ").includes("Temperatura deseada 70 °C")`)
		answer := b.text("#sum-heat-up .sum-answer")
		for _, want := range []string{"ADVERTENCIA", "Un baño a 70 °C escalda en segundos", "Desarrollo"} {
			if !strings.Contains(answer, want) {
				t.Errorf("after a key press the answer lacks %q: %s", want, answer)
			}
		}
		b.until(`document.querySelector("#sum-heat-up .sum-say").textContent.startsWith("Tiempo para calentar")`)
		b.change("#sum-heat-up-target", "hot")
		b.until(`document.querySelector("#sum-heat-up-target").getAttribute("aria-invalid") === "true"`)
		if problem := b.text("#sum-heat-up-target-error"); problem != "«hot»: debería haber un número donde está «hot»; escribir una temperatura, por ejemplo 60 °C o 140 °F." {
			t.Errorf("a wrong input is explained as %q", problem)
		}
		if place := b.text("#sum-heat-up .sum-wanting"); !strings.HasPrefix(place, "Sin respuesta todavía") {
			t.Errorf("in the answer's place stands %q", place)
		}
	})
}

// “May it go in?” on a Spanish page says its verdict, its reasons and what has to be done in Spanish, in the page and read out.
func TestSpanishReasons(t *testing.T) {
	t.Parallel()
	inBothSchemes(t, spanish(t), func(t *testing.T, base string) {
		b := open(t, base, "may-it-go-in.html#material=aluminium-wrought&soil=wax&bath=wash-1")
		b.until(`document.querySelector(".verdict.no")`)
		text := b.text(".admit-answer")
		for _, want := range []string{"Por qué no", "El baño de mild alkaline cleaner está a pH 9–11, pero el límite de aluminium, wrought and machined es pH 5–9.", "ADVERTENCIA"} {
			if !strings.Contains(text, want) {
				t.Errorf("the answer lacks %q:\n%s", want, text)
			}
		}
		b.until(`document.querySelector(".admit-say").textContent.includes("El baño de mild alkaline cleaner está a pH 9–11")`)
		b = open(t, base, "may-it-go-in.html#material=brass&bath=wash-2")
		b.until(`document.querySelector(".recipe")`)
		if text := b.text(".admit-answer"); !strings.Contains(text, "La receta respeta lo que aguanta brass: pH") || !strings.Contains(text, "temperatura") {
			t.Errorf("the answer is %s", text)
		}
		// The same reason stands in the table, which no script wrote.
		b = open(t, base, "tables/materials-tanks.html", withoutScripts())
		if text := b.text("main"); !strings.Contains(text, "pero el límite de aluminium, wrought and machined es pH 5–9") {
			t.Error("the table does not give its reasons in Spanish")
		}
	})
}

// Spanish needs more room than English: its pages still fit the narrowest screen.
func TestSpanishPagesFitANarrowScreen(t *testing.T) {
	t.Parallel()
	pages := slices.DeleteFunc(slices.Clone(pageKinds), func(page string) bool { return strings.HasSuffix(page, ".es.html") })
	eachPage(t, "file://"+filepath.ToSlash(spanish(t))+"/", pages, nil, notSideways)
}
