package builder

import (
	"fmt"
	"slices"
	"testing"

	"tankside/builder/manual"
)

// Who reads the demo manual in Spanish and is led on by a safety message, a numbered step, an answer or a remedy arrives at an article in Spanish; and so
// does everybody who follows any other link of a translation, of its original's see-also, or of the glossary.
func TestSpanishReadersAreLedToSpanishArticles(t *testing.T) {
	t.Parallel()
	m, findings, err := Read(t.Context(), demoManual, day)
	if err != nil || len(findings) > 0 {
		t.Fatal(err, findings)
	}
	followed, list := ledAway(m)
	if followed < 1500 { // of some 2000
		t.Errorf("only %d links of translations were followed", followed)
	}
	for _, says := range list {
		t.Error(says)
	}
}

// A link of each sort that leads to an article without a translation is seen.
func TestLinksToUntranslatedArticlesAreSeen(t *testing.T) {
	t.Parallel()
	const spanish = "---\ntitle: Llenar\nsummary: Un resumen.\ntranslates: A\napproved: 2026-09-14, process engineer\n---\n"
	for sort, text := range map[string]string{
		"message": "> **WARNING** Hot. See [heat](heat.md).\n", "step": "1. Go to [heat](heat.md).\n", "other": "Read [heat](heat.md#heat).\n",
	} {
		src := folder(t, map[string]string{
			"shop.yaml": smallShop, "procedures/fill.md": head + text, "procedures/fill.es.md": spanish + text, "procedures/heat.md": head + "## Heat\n\nWords.\n",
		})
		m, _, err := Read(t.Context(), src, day)
		if err != nil {
			t.Fatal(err)
		}
		want := "procedures/fill.es.md: a link of sort " + sort + " leads to procedures/heat.md, which is not in es"
		if followed, list := ledAway(m); followed != 1 || !slices.Equal(list, []string{want}) {
			t.Errorf("%s: %d links, %q", sort, followed, list)
		}
	}
}

// ledAway follows the links of all translations, and names those to articles that are not in the translation's language.
func ledAway(m *manual.Manual) (followed int, list []string) {
	type inLanguage struct {
		original *manual.Article
		language string
	}
	have := map[inLanguage]bool{}
	for _, t := range m.Translations {
		have[inLanguage{t.Original, t.Language}] = true
	}
	check := func(t *manual.Article, sort string, to *manual.Article) {
		if to == nil {
			return
		}
		followed++
		if to.Language != t.Language && !have[inLanguage{to, t.Language}] {
			list = append(list, fmt.Sprintf("%s: a link of sort %s leads to %s, which is not in %s", t.Path, sort, to.Path, t.Language))
		}
	}
	languages := map[string]*manual.Article{}
	for _, t := range m.Translations {
		languages[t.Language] = t
		for _, b := range manual.Blocks(t.Body) {
			for _, link := range b.Links {
				if to, problem := m.Resolve(t, link.Target); problem == nil {
					check(t, sortOf(t, &b), to.Article)
				}
			}
		}
		if t.Original == nil {
			continue
		}
		for _, entry := range t.Original.Head.SeeAlso {
			if to, problem := m.Reference(t.Original, entry.Name); problem == nil {
				check(t, "see-also", to)
			}
		}
	}
	for _, t := range languages {
		for _, term := range m.Glossary {
			check(t, "glossary", m.At(term.Article))
		}
	}
	return followed, list
}

// sortOf is the sort of a block, by how much depends on where it leads.
func sortOf(a *manual.Article, b *manual.Block) string {
	switch {
	case b.Signal != "":
		return "message"
	case b.Steps:
		return "step"
	case b.Kind == manual.ItemBlock && a.Kind == manual.Symptom:
		return "answer"
	}
	return "other"
}
