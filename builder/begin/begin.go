// Package begin writes an article to go on from: the header of its kind with every key explained, and nothing that somebody would have to
// know. What decides about a load, who approved and on what it rests is left open, so that the proof-reader asks for it until it is there.
package begin

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"tankside/builder/manual"
)

// wide is how many characters a line of explanation has at most, where its words allow it.
const wide = 110

// known are the keys that need nobody's judgement: what they say of a new article.
var known = map[string]func(title string) string{
	"title":    Quoted,
	"revision": func(string) string { return "A" },
	"approved": func(string) string { return "not yet" },
}

// Article gives the text of a new article of a kind. Its title is one line of at most 80 characters; without one it is made of the name.
// Keys that an article must have and that say something of the trade stand there without a value, all others as remarks; it is approved by nobody.
func Article(kind manual.Kind, name, title string) ([]byte, error) {
	return Knowing(kind, name, title, nil)
}

// Knowing is Article with values, as a header writes them, for keys that need nobody's judgement any more.
func Knowing(kind manual.Kind, name, title string, values map[string]string) ([]byte, error) {
	if title == "" {
		title = Title(name)
	}
	if strings.ContainsFunc(title, unicode.IsControl) || !utf8.ValidString(title) || utf8.RuneCountInString(title) > 80 {
		return nil, fmt.Errorf("a title is one line of at most 80 characters")
	}
	w := &writer{title: title, values: values}
	w.line("---")
	w.remark("", fmt.Sprintf("A new article of the kind “%s”. Lines that begin with a number sign are remarks: they are on no page, and you may take them out.", kind))
	w.remark("", "Fill in what has no value. For a key that is a remark, take the number sign away and write the value, as far as you know it from "+
		"the data sheet, a measurement or a standard. Guess nothing: what is left out is compared with nothing.")
	w.keys(manual.HeadKeys(), "")
	w.line("")
	w.remark("", "Of this kind alone")
	w.keys(manual.Keys(kind), "")
	w.line("")
	w.remark("", "The text stands below the header.")
	for _, sentence := range kind.Declared().Text {
		w.remark("", sentence)
	}
	w.line("---")
	return []byte(w.text.String()), nil
}

// Title makes a title of an article's name: "hard-wax" is “Hard wax”.
func Title(name string) string {
	words := strings.ReplaceAll(name, "-", " ")
	first, size := utf8.DecodeRuneInString(words)
	return string(unicode.ToUpper(first)) + words[size:]
}

// Quoted writes a text as a value of a header.
func Quoted(text string) string {
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(text) + `"`
}

type writer struct {
	title  string
	values map[string]string
	text   strings.Builder
}

func (w *writer) line(text string) { w.text.WriteString(text + "\n") }

// keys explains keys and writes those that an article must have. Those of mappings below another key are explained and not written.
func (w *writer) keys(keys []manual.Key, under string) {
	for _, k := range keys {
		if under == "" {
			w.line("")
		}
		w.explain(k, under)
		w.keys(k.Under, under+k.Name+" → ")
		if under != "" {
			continue
		}
		value, given := known[k.Name]
		switch {
		case w.values[k.Name] != "":
			w.line(k.Name + ": " + w.values[k.Name])
		case given:
			w.line(k.Name + ": " + value(w.title))
		case k.Required:
			w.line(k.Name + ":")
		default:
			w.line("#" + k.Name + ":")
		}
	}
}

// explain says what a key means, how its value is written and what one looks like.
func (w *writer) explain(k manual.Key, under string) {
	text := under + k.Name + ": " + k.Means
	if k.Required {
		text += "; it must be there"
	}
	if k.Harm {
		text += "; harm hangs on it"
	}
	text += ". Value: " + k.Form
	if k.Example != "" {
		text += ", for example " + k.Example
	}
	w.remark(strings.Repeat("  ", strings.Count(under, "→")), text)
}

// remark writes a text as remarks of YAML, broken into lines between words.
func (w *writer) remark(indent, text string) {
	line := "# " + indent
	begun := len(line)
	for _, word := range strings.Fields(text) {
		if len(line) > begun && utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > wide {
			w.line(line)
			line = "#   " + indent
			begun = len(line)
		}
		if len(line) > begun {
			line += " "
		}
		line += word
	}
	w.line(line)
}
