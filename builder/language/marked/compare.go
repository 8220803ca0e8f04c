package marked

import (
	"maps"
	"slices"
	"testing"

	"go.yaml.in/yaml/v3"

	"tankside/builder/language"
	"tankside/builder/wording"
	"tankside/themes"
)

// Read reads a file of phrases of the built-in theme, such as words/calculators/es.yaml.
func Read(t testing.TB, file string) language.Words {
	t.Helper()
	data, err := themes.New(nil).Read(file)
	if err != nil {
		t.Fatal(err)
	}
	w := language.Words{}
	if err := yaml.Unmarshal(data, &w); err != nil {
		t.Fatal(err)
	}
	return w
}

// Phrases are the English phrases of a file, in order. Every language of the theme has all that are said, which [Complete] holds.
func Phrases(t testing.TB, file string) []string {
	t.Helper()
	return slices.Sorted(maps.Keys(Read(t, file)))
}

// Complete fails the test where another language does not say just the English phrases, with the same holes in the same order, for they are
// filled by it, and with the same figures: a limit that is lost in a translation can hurt somebody. said has who says each phrase.
func Complete(t testing.TB, file string, said map[string]string, other language.Words) {
	t.Helper()
	for p, where := range said {
		if other[p] == "" {
			t.Errorf("%s says %q, which %s lacks", where, p, file)
		}
	}
	for p, shown := range other {
		if said[p] == "" {
			t.Errorf("%s has %q, which nothing says", file, p)
		}
		if !slices.Equal(wording.Holes(p), wording.Holes(shown)) {
			t.Errorf("%s: %q has other holes than %q", file, shown, p)
		}
		if !slices.Equal(wording.Figures(p), wording.Figures(shown)) {
			t.Errorf("%s: %q has other figures than %q", file, shown, p)
		}
	}
}
