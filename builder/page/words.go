package page

import (
	"errors"
	"fmt"
	"html/template"
	"io/fs"
	"path"
	"strings"

	"go.yaml.in/yaml/v3"

	"tankside/builder/language"
	"tankside/builder/manual"
	"tankside/themes"
)

// words are the interface's words in one language, by the English ones.
type words map[string]string

// english is the language of a manual that names none.
const english = language.English

// readWords reads the words of a language, a BCP 47 tag, out of a folder of the theme. What the shop's own file does not say the program's does, and
// where there are none for a region the language's own serve: those of es for es-MX. It gives nil where there are none at all.
func readWords(theme themes.Theme, folder, tag string) (words, error) {
	var all words
	for _, tag := range []string{language.General(tag), tag} {
		for _, of := range []themes.Theme{theme.BuiltIn(), theme} {
			w, err := wordsFile(of, folder+"/"+tag+".yaml")
			if err != nil {
				return nil, err
			}
			if w != nil && all == nil {
				all = words{}
			}
			for phrase, shown := range w {
				if shown != "" {
					all[phrase] = shown
				}
			}
		}
	}
	return all, nil
}

// wordsFile reads a file of words; nil where the theme has none of that name.
func wordsFile(theme themes.Theme, file string) (words, error) {
	data, err := theme.Read(file)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, fmt.Errorf("theme file %s: %w", file, err)
	}
	w := words{}
	if err := yaml.Unmarshal(data, &w); err != nil {
		return nil, fmt.Errorf("theme file %s: %w", file, err)
	}
	return w, nil
}

// interfaceWords reads the words of the interface. English needs none, but a shop may have its own for some.
func interfaceWords(theme themes.Theme, tag string) (words, error) {
	w, err := readWords(theme, "words", tag)
	if w != nil || err != nil || language.General(tag) == english {
		return w, err
	}
	files, err := theme.List("words")
	if err != nil {
		return nil, err
	}
	there := []string{english}
	for _, file := range files {
		there = append(there, strings.TrimSuffix(path.Base(file), ".yaml"))
	}
	return nil, fmt.Errorf("shop.yaml says “language: %[1]s”, and the interface has words in %[2]s only; choose one of these, or put theme/words/%[3]s.yaml into the manual: tankside words %[3]s writes it for you to fill in",
		tag, strings.Join(there, ", "), language.General(tag))
}

// sumWords reads the phrases of the calculators, but for those that are shown as they are: nothing for English, and nothing for a language
// for which a shop gives words of the interface only, whose sums then stay English.
func sumWords(theme themes.Theme, tag string) (language.Words, error) {
	w, err := readWords(theme, "words/calculators", tag)
	if err != nil {
		return nil, err
	}
	var said language.Words
	for phrase, shown := range w {
		if shown == phrase {
			continue
		}
		if said == nil {
			said = language.Words{}
		}
		said[phrase] = shown
	}
	return said, nil
}

// say gives the words in the manual's language. A phrase that the language lacks stays English.
func (w words) say(english string) string {
	if t := w[english]; t != "" {
		return t
	}
	return english
}

// kinds are the words for what the search finds, as attributes that its script reads: of each kind of article and of what else can be found.
func (w words) kinds() template.HTMLAttr {
	var list []string
	for _, name := range manual.Findable() {
		list = append(list, fmt.Sprintf(`data-say-kind-%s="%s"`, name, template.HTMLEscapeString(w.say(name))))
	}
	return template.HTMLAttr(strings.Join(list, " "))
}
