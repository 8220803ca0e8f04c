package page

import (
	"cmp"
	"slices"
	"strings"
	"unicode"

	"tankside/builder/manual"
)

// letter is one letter of the alphabetical index. Words that begin with no letter stand under "0–9".
type letter struct {
	Letter, Anchor string
	Words          []indexWord
}

// indexWord is an entry: a title itself, or an everyday word with the title that it leads to.
type indexWord struct {
	Word, Title, Href string
	Is                bool // the word is the title
}

// wordsContent is what the alphabetical index shows.
type wordsContent struct {
	Letters []letter
	Whole   *link // the index of the manual's own language, from that of another
}

// allWords fills the alphabetical index: titles, everyday words and the glossary.
func (s *site) allWords(f *frame) error {
	f.Title = s.words.say("All words, A–Z")
	var words []indexWord
	articles := s.translated()
	if s.isOwn() {
		for _, a := range s.Manual.Articles {
			articles = append(articles, a)
		}
	}
	for _, a := range articles {
		href := s.toArticle(f.Root, a).Href
		words = append(words, indexWord{a.Head.Title, a.Head.Title, href, true})
		for _, w := range a.Head.AlsoCalled {
			words = append(words, indexWord{w, a.Head.Title, href, false})
		}
	}
	for i := range s.Manual.Glossary {
		if !s.isOwn() {
			break // it is not translated
		}
		t := &s.Manual.Glossary[i]
		href := f.Root + glossaryPage + "#" + manual.Anchor(t.Term)
		words = append(words, indexWord{t.Term, t.Term, href, true})
		for _, w := range t.AlsoCalled {
			words = append(words, indexWord{w, t.Term, href, false})
		}
	}
	slices.SortFunc(words, func(a, b indexWord) int {
		return cmp.Or(cmp.Compare(fold(a.Word), fold(b.Word)), cmp.Compare(a.Word, b.Word), cmp.Compare(a.Title, b.Title), cmp.Compare(a.Href, b.Href))
	})
	words = slices.CompactFunc(words, func(a, b indexWord) bool { return a == b })

	letters := []letter{}
	for _, w := range words {
		name, anchor := "0–9", "digits"
		if first := []rune(fold(w.Word)); len(first) > 0 && unicode.IsLetter(first[0]) {
			anchor = string(first[0])
			name = strings.ToUpper(anchor)
		}
		if n := len(letters); n == 0 || letters[n-1].Letter != name {
			letters = append(letters, letter{Letter: name, Anchor: "letter-" + anchor})
		}
		last := &letters[len(letters)-1]
		last.Words = append(last.Words, w)
	}
	c := wordsContent{Letters: letters}
	if !s.isOwn() {
		own := s.all[0].itsLanguage()
		c.Whole = &link{Href: f.Root + wordsPage, Title: own.name, Hreflang: own.tag, Lang: own.tag}
	}
	f.Content = c
	return nil
}

// glossaryTerm is an entry of the glossary page.
type glossaryTerm struct{ Anchor, Term, Means, AlsoCalled, Href string }

// glossary fills the glossary page.
func (s *site) glossary(f *frame) error {
	f.Title = s.words.say("Glossary")
	var terms []glossaryTerm
	for _, t := range s.Manual.Glossary {
		g := glossaryTerm{Anchor: manual.Anchor(t.Term), Term: t.Term, Means: t.Means, AlsoCalled: strings.Join(t.AlsoCalled, ", ")}
		if a := s.Manual.At(t.Article); a != nil {
			g.Href = f.Root + articlePage(a)
		}
		terms = append(terms, g)
	}
	f.Content = struct{ Terms []glossaryTerm }{terms}
	return nil
}
