package manual

import (
	"strings"
	"testing"
	"testing/fstest"

	"go.yaml.in/yaml/v3"

	"tankside/themes"
)

// The signal words of the languages that the program speaks are those of its own files of words.
func TestSignalWordsAreThoseOfTheWords(t *testing.T) {
	files, err := themes.New(nil).List("words")
	if err != nil || len(files) < 2 {
		t.Fatal(files, err)
	}
	for _, file := range files {
		data, err := themes.New(nil).Read(file)
		if err != nil {
			t.Fatal(err)
		}
		words := map[string]string{}
		if err := yaml.Unmarshal(data, &words); err != nil {
			t.Fatal(err)
		}
		tag := strings.TrimSuffix(strings.TrimPrefix(file, "words/"), ".yaml")
		for _, w := range SignalWords {
			if got := ownSignals(nil).in(tag).meaning(words[w]); got != w {
				t.Errorf("%s: %q means %q, not %s", file, words[w], got, w)
			}
		}
	}
}

// A language that only the manual's own words declare has its signal words: in its articles, in translations and in the blocks of their text. Where another
// language has the same word for something else, the article's own language counts. A changed word is a changed article.
func TestSignalWordsOfADeclaredLanguage(t *testing.T) {
	message := func(word string) string { return strings.Replace(degas, "CAUTION", word, 1) }
	files := map[string]string{
		"shop.yaml":              smallShopFile,
		"theme/words/pt.yaml":    "\"DANGER\": \"PERIGO\"\n\"WARNING\": \"AVISO\"\n\"CAUTION\": \"CUIDADO\"\n\"NOTICE\": \"NOTA\"\n",
		"procedures/degas.md":    message("CAUTION"),
		"procedures/fill.md":     message("CUIDADO"),
		"procedures/degas.pt.md": "---\ntitle: Desgaseificar\nsummary: Antes de usar.\ntranslates: C\napproved: not yet\n---\n> **AVISO** O banho queima.\n",
		"procedures/degas.es.md": "---\ntitle: Desgasificar\nsummary: Antes de usar.\ntranslates: C\napproved: not yet\n---\n> **AVISO** El baño quema.\n",
	}
	fsys := fstest.MapFS{}
	for name, text := range files {
		fsys[name] = &fstest.MapFile{Data: []byte(text)}
	}
	var r Reader
	m, _, err := r.Read(t.Context(), fsys, nil)
	if err != nil {
		t.Fatal(err)
	}
	means := func(m *Manual, path string) string {
		a := m.At(path)
		if a == nil {
			for _, tr := range m.translations {
				if tr.Path == path {
					a = tr
				}
			}
		}
		if a == nil || len(a.Signals) != 1 {
			t.Fatalf("%s: %+v", path, a)
		}
		for _, b := range a.ReadBlocks() {
			if b.Signal != "" && b.Signal != a.Signals[0].Word {
				t.Errorf("%s: a block says %s, the article %s", path, b.Signal, a.Signals[0].Word)
			}
		}
		return a.Signals[0].Word
	}
	for path, want := range map[string]string{"procedures/fill.md": "CAUTION", "procedures/degas.md": "CAUTION", "procedures/degas.pt.md": "WARNING", "procedures/degas.es.md": "NOTICE"} {
		if got := means(m, path); got != want {
			t.Errorf("%s: %s, want %s", path, got, want)
		}
	}
	if w := m.SignalWordsIn("pt-BR"); len(w) != 4 || w[1] != "AVISO" {
		t.Errorf("words of pt-BR: %v", w)
	}
	fsys["theme/words/pt.yaml"] = &fstest.MapFile{Data: []byte("\"CAUTION\": \"ATENÇÃO\"\n")}
	m, findings, err := r.Read(t.Context(), fsys, []string{"theme/words/pt.yaml"})
	if err != nil || len(m.At("procedures/fill.md").Signals) != 0 {
		t.Errorf("a word that is declared no longer is still one: %v, %v", findings, err)
	}
}
