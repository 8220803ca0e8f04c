package book

import (
	"slices"
	"strings"

	"tankside/builder/manual"
)

// grouped are the safety messages of one signal word, gathered from all articles.
type grouped struct {
	Word, Class string
	Texts       []gatheredText
}

// gatheredText is a message with the sections in which it stands.
type gatheredText struct {
	Text  string
	Where []entry
}

// gravest are the signal words that are gathered in front of the book: of what can kill or injure for good. The others stand where they are needed.
var gravest = manual.SignalWords[:2]

// dangers gathers what the articles say under the gravest signal words, each message once, in the order of the book.
func (b *book) dangers(c *chapter) (any, error) {
	var w words
	for _, word := range gravest {
		g := grouped{Word: word, Class: strings.ToLower(word)}
		for _, ch := range b.chapters {
			for _, s := range ch.sections {
				if s.article == nil {
					continue
				}
				for _, m := range b.parts.Local(s.article).Signals {
					if m.Word == word {
						g.Word = m.Shown
						g.add(m.Text, entry{Number: s.number, Title: s.title, Href: s.address(c.file), Page: b.pageOf(s.anchor)})
					}
				}
			}
		}
		if len(g.Texts) > 0 {
			w.Dangers = append(w.Dangers, g)
		}
	}
	return w, nil
}

func (g *grouped) add(text string, where entry) {
	at := slices.IndexFunc(g.Texts, func(t gatheredText) bool { return t.Text == text })
	if at < 0 {
		at = len(g.Texts)
		g.Texts = append(g.Texts, gatheredText{Text: text})
	}
	if t := &g.Texts[at]; len(t.Where) == 0 || t.Where[len(t.Where)-1] != where {
		t.Where = append(t.Where, where)
	}
}
