package page

import (
	"fmt"

	"go.yaml.in/yaml/v3"

	"tankside/themes"
)

// words are the interface's words in one language, by the English ones.
type words map[string]string

// readWords reads the words of a language. English needs no translation, but its file lists every word there is.
func readWords(theme themes.Theme, language string) (words, error) {
	file := "words/" + language + ".yaml"
	data, err := theme.Read(file)
	if err != nil {
		return nil, fmt.Errorf("the interface has no words for the language %q: %w", language, err)
	}
	var w words
	if err := yaml.Unmarshal(data, &w); err != nil {
		return nil, fmt.Errorf("theme file %s: %w", file, err)
	}
	return w, nil
}

// say gives the words in the manual's language. A phrase that the language lacks stays English.
func (w words) say(english string) string {
	if t := w[english]; t != "" {
		return t
	}
	return english
}
