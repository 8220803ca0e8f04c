package browser

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"tankside/builder"
)

// A shop whose language is Spanish has the interface in Spanish, that of the scripts too; its articles stay as they are written.
func TestSpanishInterface(t *testing.T) {
	source := t.TempDir()
	if err := os.CopyFS(source, os.DirFS("../../content")); err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(source, "shop.yaml")
	shop, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(file, []byte(strings.Replace(string(shop), "language: en", "language: es", 1)), 0o644); err != nil {
		t.Fatal(err)
	}
	to := filepath.Join(t.TempDir(), "edition")
	if _, err := builder.Publish(context.Background(), builder.Options{Manual: source, To: to, Now: time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC)}); err != nil {
		t.Fatal(err)
	}
	base := "file://" + filepath.ToSlash(to) + "/"
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
