package browser

import (
	"path/filepath"
	"testing"
)

// A shop whose language is Spanish has the interface in Spanish, that of the scripts too; its articles stay as they are written.
func TestSpanishInterface(t *testing.T) {
	base := "file://" + filepath.ToSlash(publishedWith(t, "language: en", "language: es")) + "/"
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
	b.until(`["Un paso atrás", "Empezar de nuevo"].every(t => document.querySelector(".walk-nav").innerText.includes(t))`)
}
