package builder

import (
	"errors"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"tankside/builder/finding"
)

// A shop's language is that of the interface: Spanish for es and for a region's Spanish, English where none is named. What the shop wrote stays.
func TestShopChoosesItsLanguage(t *testing.T) {
	t.Parallel()
	for language, want := range map[string][]string{
		"language: es\n":    {`lang="es"`, "¿Qué le pasa a la pieza?", "Los tanques de esta edición", "Aún no hay ninguna edición asentada", `data-say-none="No se encontró nada."`},
		"language: es-MX\n": {`lang="es-MX"`, "¿Qué le pasa a la pieza?"},
		"language: en\n":    {`lang="en"`, "What is wrong with the part?", `data-say-none="Nothing found."`},
		"":                  {`lang="en"`, "What is wrong with the part?"},
	} {
		src := folder(t, map[string]string{
			"shop.yaml": strings.Replace(smallShop, "language: en\n", language, 1), "procedures/fill.md": head + "## Fill\n\n> **WARNING** Hot.\n\nWords.\n",
		})
		to := filepath.Join(t.TempDir(), "edition")
		if r, err := publish(t, src, to, day); err != nil {
			t.Fatal(language, err, r.Findings)
		}
		all := files(t, to)
		for _, w := range want {
			if !strings.Contains(all["index.html"], w) {
				t.Errorf("with %q the home page lacks %s", language, w)
			}
		}
		if article := all["procedures/fill.html"]; !strings.Contains(article, "WARNING") || !strings.Contains(article, "Words.") {
			t.Errorf("with %q the article is not as it was written", language)
		}
	}
}

// A language that the interface does not have is a finding that says which there are, and the old edition stays; a file of words
// in the manual makes it one.
func TestUnknownLanguage(t *testing.T) {
	t.Parallel()
	src := folder(t, map[string]string{"shop.yaml": smallShop, "procedures/fill.md": head + "## Fill\n\nWords.\n"})
	to := filepath.Join(t.TempDir(), "edition")
	if r, err := publish(t, src, to, day); err != nil {
		t.Fatal(err, r.Findings)
	}
	before := files(t, to)
	write := func(name, text string) {
		t.Helper()
		file := filepath.Join(src, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	for _, language := range []string{"cy", "../templates/page", "no such language"} {
		write("shop.yaml", strings.Replace(smallShop, "language: en", "language: "+language, 1))
		r, err := publish(t, src, to, day)
		r.Findings = slices.DeleteFunc(r.Findings, func(f finding.Finding) bool { return !f.Severity.Stops() })
		if !errors.Is(err, ErrStopped) || len(r.Findings) != 1 || r.Findings[0].Rule != "unknown-language" || r.Findings[0].File != "shop.yaml" || r.Findings[0].Line == 0 {
			t.Errorf("%s: %v %v", language, err, r.Findings)
			continue
		}
		if f := r.Findings[0]; language == "cy" && !strings.Contains(f.Message, "en, es") || !strings.Contains(f.Message, language) {
			t.Errorf("%s: the finding does not say which languages there are: %s", language, f.Message)
		}
		if !maps.Equal(before, files(t, to)) {
			t.Error("a manual in an unknown language changed the edition")
		}
	}
	write("shop.yaml", strings.Replace(smallShop, "language: en", "language: cy", 1))
	write("theme/words/cy.yaml", `"What is wrong with the part?": "Beth sydd o'i le ar y darn?"`)
	if r, err := publish(t, src, to, day); err != nil {
		t.Fatal(err, r.Findings)
	}
	if home := files(t, to)["index.html"]; !strings.Contains(home, "Beth sydd o&#39;i le ar y darn?") {
		t.Error("the shop's own words are not said")
	}
	if tank := files(t, to)["tanks/wash-1.html"]; !strings.Contains(tank, ">Dilution</p>") || strings.Contains(tank, "data-sums-words") {
		t.Error("without the calculators' phrases the sums are not in English")
	}
	write("theme/words/calculators/cy.yaml", `"Dilution": "Gwanhau"`)
	if r, err := publish(t, src, to, day); err != nil {
		t.Fatal(err, r.Findings)
	}
	if tank := files(t, to)["tanks/wash-1.html"]; !strings.Contains(tank, ">Gwanhau</p>") || !strings.Contains(tank, `data-sums-words="../assets/calculators-words.`) {
		t.Error("the shop's own phrases of the calculators are not said")
	}
}
