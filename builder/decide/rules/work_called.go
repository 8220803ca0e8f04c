package rules

import (
	"slices"
	"strings"

	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// workCalled gives the material that a sentence calls by another name of its header, where it names none by its title: “gold contacts”, “decorative chrome”, “bolts of 12.9”.
// Pages of materials, parts and chemistries have a subject of their own. A single word is a name where it is an abbreviation or a designation: a spring may be of anything.
func (p *proof) workCalled(a *manual.Article, s *sentence.Sentence, bath *sentence.Mention) spokenOf {
	if a.Material != nil || a.Part != nil || a.Chemistry != nil || bath == nil {
		return spokenOf{}
	}
	words := s.Tokens()
	for i, w := range words {
		if w.Clause > s.ClauseOf(bath) || w.Clause < s.ClauseOf(bath)-1 || i > 0 && calledOtherwise[words[i-1].Text] {
			continue
		}
		for n := min(4, len(words)-i); n > 0; n-- {
			if m := p.materialCalled(words[i : i+n]); m != nil && !hasAny(words[:i], matters) && !hasAny(words[i+n:], matters) {
				return spokenOf{materials: []*manual.Article{m}}
			}
		}
	}
	return spokenOf{}
}

// materialCalled gives the one material that some words are a name of.
func (p *proof) materialCalled(words []sentence.Token) *manual.Article {
	list := make([]string, len(words))
	for i, w := range words {
		list[i] = w.Text
	}
	m := p.called(plainName(strings.Join(list, " ")))
	if m == nil || m.Material == nil || m.Partial || len(list) == 1 && !designates(m, list[0]) {
		return nil
	}
	return m
}

// designates tells whether a word is an abbreviation or a designation among an article's other names: “PTFE”, “6082”.
func designates(a *manual.Article, w string) bool {
	return len(w) > 2 && slices.ContainsFunc(a.Head.AlsoCalled, func(name string) bool {
		return strings.EqualFold(name, w) && strings.ToUpper(name) == name
	})
}

var calledOtherwise = sentence.Set("no not like than as except but beside without")
