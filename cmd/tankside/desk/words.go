package desk

import (
	"embed"

	"go.yaml.in/yaml/v3"
)

//go:embed words/*.yaml
var wordFiles embed.FS

// words are the phrases of the desk in a language, by the English ones.
type words struct {
	language string
	phrases  map[string]string
}

// wordsIn gives the words of a language, the English ones where there are no others.
func wordsIn(language string) words {
	w := words{language: "en"}
	data, err := wordFiles.ReadFile("words/" + language + ".yaml")
	if err == nil && yaml.Unmarshal(data, &w.phrases) == nil {
		w.language = language
	}
	return w
}

// say gives a phrase.
func (w words) say(english string) string {
	if text := w.phrases[english]; text != "" {
		return text
	}
	return english
}
