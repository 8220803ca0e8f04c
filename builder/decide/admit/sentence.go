package admit

import (
	"slices"
	"strings"

	"tankside/builder/decide/fact"
	"tankside/builder/language"
	"tankside/builder/quantity"
)

// Sentence is something that can be said in every language and in both families of units: an English phrase, as package language has them, and
// what fills its holes in their order.
//
//	admit.Say("the limit of {material} is {limit}", admit.Title("brass"), admit.Amount(limit))
type Sentence struct {
	Phrase string
	Fill   []Part
}

// Part fills a hole.
type Part struct {
	sort   sort
	text   string
	amount quantity.Range
	clause *Sentence
	list   []Part
}

type sort uint8

const (
	title  sort = iota // stands as it is
	word               // a phrase by itself
	amount             // is written in the reader's units
	clause             // another sentence, within this one
	list               // several, joined by “and”
)

// Say makes a sentence.
func Say(phrase string, fill ...Part) Sentence { return Sentence{phrase, fill} }

// Title is a text that stands as the manual's author wrote it.
func Title(text string) Part { return Part{sort: title, text: text} }

// Word is a phrase by itself, such as a word of a header.
func Word(phrase string) Part { return Part{sort: word, text: phrase} }

// Amount is a quantity.
func Amount(r quantity.Range) Part { return Part{sort: amount, amount: r} }

// Clause is a sentence within another.
func Clause(s Sentence) Part { return Part{sort: clause, clause: &s} }

// List is several things, joined as a sentence joins them.
func List(parts ...Part) Part { return Part{sort: list, list: parts} }

// In is the sentence in a language and a family of units, with a capital letter. Without words it is English.
func (s Sentence) In(w language.Words, units quantity.System) string {
	return capital(s.Within(w, units))
}

// Within is the sentence as it stands within another: without the capital letter.
func (s Sentence) Within(w language.Words, units quantity.System) string {
	var fill []string
	for _, p := range s.Fill {
		fill = append(fill, p.in(w, units))
	}
	return w.Fill(s.Phrase, fill...)
}

func (p Part) in(w language.Words, units quantity.System) string {
	switch p.sort {
	case word:
		return w.Say(p.text)
	case amount:
		return p.amount.In(units)
	case clause:
		return p.clause.Within(w, units)
	case list:
		text := ""
		for i, one := range p.list {
			switch {
			case i > 0 && i == len(p.list)-1:
				text += " " + w.Say("and") + " "
			case i > 0:
				text += ", "
			}
			text += one.in(w, units)
		}
		return text
	}
	return p.text
}

// capital begins a sentence with a capital letter, unless it begins with pH.
func capital(s string) string {
	if strings.HasPrefix(s, "pH") {
		return s
	}
	for _, first := range s {
		return language.Upper(string(first)) + s[len(string(first)):]
	}
	return s
}

// same tells whether two sentences say the same.
func (s Sentence) same(other Sentence) bool {
	return s.Phrase == other.Phrase && slices.EqualFunc(s.Fill, other.Fill, Part.same)
}

func (p Part) same(other Part) bool {
	return p.sort == other.sort && p.text == other.text && p.amount == other.amount && slices.EqualFunc(p.list, other.list, Part.same) &&
		(p.sort != clause || p.clause.same(*other.clause))
}

// phrases tells every phrase that the sentence needs words for.
func (s Sentence) phrases(tell func(string)) {
	tell(s.Phrase)
	for _, p := range s.Fill {
		p.phrases(tell)
	}
}

func (p Part) phrases(tell func(string)) {
	switch p.sort {
	case word:
		tell(p.text)
	case clause:
		p.clause.phrases(tell)
	case list:
		for _, one := range p.list {
			one.phrases(tell)
		}
	}
}

// Phrases tells every phrase that answers of the table may say.
func (t *Table) Phrases(tell func(string)) {
	for _, p := range phrases {
		tell(p)
	}
	refs := func(lists ...[]fact.Ref) {
		for _, list := range lists {
			for _, r := range list {
				spoken(r).phrases(tell)
			}
		}
	}
	for i := range t.Materials {
		m := &t.Materials[i]
		refs(m.MadeOf, m.Features, m.AttackedBy)
	}
	for i := range t.Soils {
		refs(t.Soils[i].MayContain)
	}
	for i := range t.Chemistries {
		c := &t.Chemistries[i]
		refs(c.Contains)
		for _, never := range c.NeverWith {
			if named(t.Chemistries, never.Name) == nil { // what is an article has a title
				refs([]fact.Ref{never})
			}
		}
	}
	for i := range t.Parts {
		refs(t.Parts[i].Features)
	}
	for i := range t.Rinses {
		if t.Rinses[i].Missing.Phrase != "" {
			t.Rinses[i].Missing.phrases(tell)
		}
	}
}
