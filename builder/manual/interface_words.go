package manual

import (
	"io/fs"
	"reflect"
	"strings"

	"go.yaml.in/yaml/v3"

	"tankside/builder/finding"
)

// WordsFile is a file of the interface's words in the manual's own theme.
type WordsFile struct {
	Path    string // within the manual
	Phrases []ShownPhrase
}

// ShownPhrase is a phrase of such a file and what is shown for it.
type ShownPhrase struct {
	English, Shown string
	At             finding.Place
}

// InTheme is the file's path within the theme.
func (f *WordsFile) InTheme() string { return strings.TrimPrefix(f.Path, "theme/") }

// spoken is what articles are read with of the manual's own words: its signal words, and the manual's own language, which is looked up only where there
// are some.
type spoken struct {
	signals  ownSignals
	language string
}

// readSignals reads the signal words that the manual's own words declare; where they have changed, every article is read again.
func (r *Reader) readSignals(fsys fs.FS, stale map[string]bool) {
	now := spoken{}
	for _, f := range r.files {
		tag, is := strings.CutSuffix(strings.TrimPrefix(f.path, "theme/words/"), ".yaml")
		if f.sort != wordsFile || !is || strings.Contains(tag, "/") {
			continue
		}
		if words := signalsOf(r.yaml(fsys, f)); len(words) > 0 {
			if now.signals == nil {
				now.signals = ownSignals{}
			}
			now.signals[strings.ToLower(tag)] = words
		}
	}
	if at, there := r.at[ShopFile]; now.signals != nil && there {
		now.language = r.yaml(fsys, r.files[at])["language"]
	}
	if reflect.DeepEqual(now, r.spoken) {
		return
	}
	r.spoken = now
	for _, f := range r.files {
		if f.sort == articleFile {
			stale[f.path] = true
		}
	}
}

// signalsOf gives the signal words that a file of words has, gravest first.
func signalsOf(words map[string]string) []signalWord {
	var list []signalWord
	for _, means := range SignalWords {
		if shown := words[means]; shown != "" {
			list = append(list, signalWord{shown, means})
		}
	}
	return list
}

// yaml reads the scalars at the top of a file; what is wrong with it is told when the file itself is read.
func (r *Reader) yaml(fsys fs.FS, f source) map[string]string {
	d := &decoder{file: f.path}
	data, ok := d.load(fsys, f)
	if !ok {
		return nil
	}
	if data, ok = d.clean(data); !ok {
		return nil
	}
	var doc yaml.Node
	if yaml.Unmarshal(data, &doc) != nil || len(doc.Content) == 0 || doc.Content[0].Kind != yaml.MappingNode {
		return nil
	}
	words := map[string]string{}
	for m, i := doc.Content[0], 0; i+1 < len(m.Content); i += 2 {
		if k, v := m.Content[i], m.Content[i+1]; k.Kind == yaml.ScalarNode && v.Kind == yaml.ScalarNode {
			words[k.Value] = v.Value
		}
	}
	return words
}

// readWords looks whether a file of the interface's words can be read: a list of phrases, each with what is shown for it. What it holds is
// package page's affair.
func (r *result) readWords(data []byte) {
	text, ok := r.d.clean(data)
	if !ok {
		return
	}
	if r.conflict = r.d.conflict(text); r.conflict {
		return
	}
	mapping := r.d.mapping(text, "list of words")
	if mapping == nil {
		return
	}
	first := make(map[string]*yaml.Node, len(mapping.Content)/2)
	r.phrases = &WordsFile{Path: r.path}
	for i := 0; i+1 < len(mapping.Content); i += 2 {
		phrase, shown := mapping.Content[i], mapping.Content[i+1]
		switch before := first[phrase.Value]; {
		case phrase.Kind != yaml.ScalarNode || shown.Kind != yaml.ScalarNode:
			r.d.report(ruleWrongValue, r.d.at(phrase), "A list of words has phrases, and behind each a colon and what is shown for it.", `Write for example: "Edition": "Ausgabe"`)
		case before != nil:
			r.d.report(ruleDuplicateKey, r.d.at(phrase), "The phrase “"+clip(phrase.Value, 40)+"” is written twice.", "Keep one of the two.", r.d.at(before))
		}
		first[phrase.Value] = phrase
		if phrase.Kind == yaml.ScalarNode && shown.Kind == yaml.ScalarNode {
			p := ShownPhrase{English: phrase.Value, Shown: shown.Value, At: r.d.at(phrase)}
			if shown.Tag == "!!null" {
				p.Shown = ""
			}
			r.phrases.Phrases = append(r.phrases.Phrases, p)
		}
	}
}
