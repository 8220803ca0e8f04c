package page

import (
	"cmp"
	"fmt"
	"slices"

	"tankside/builder/decide/admit/markup"
	"tankside/builder/manual"
)

// homeContent is what the home page shows.
type homeContent struct {
	First   symptomGroup // what is seen on the part
	Rest    []symptomGroup
	Tanks   []tankCard
	Ways    []link // what is asked for most besides, at the head of the page
	Kinds   []link
	Ask     *link // the page “May it go in?”, where there is one
	Several *link // the page for several observations at once, where there is one
	Changes []link
	None    string // why there are none to be listed
}

// symptomGroup is the symptoms that are noticed at one place.
type symptomGroup struct {
	Title    string
	Symptoms []symptomLink
}

// seenOn are the places where symptoms are noticed, in the order of the home page.
var seenOn = []struct{ place, title string }{
	{"part", "What is wrong with the part?"}, {"bath", "Or with the bath?"}, {"tank", "Or with the tank?"}, {"people", "Or with somebody?"},
}

// symptomLink is a symptom as its drawn swatch.
type symptomLink struct {
	link
	Swatch string
	place  int // among the shop's commonest; those that it does not name follow
}

// home fills the first page: what is wrong with the part, the tanks, everything else.
func (s *site) home(f *frame) error {
	c := homeContent{Changes: s.news(f.Root, 8), None: s.noNews()}
	groups := map[string][]symptomLink{}
	counts := map[manual.Kind]int{}
	for _, a := range s.Manual.Articles {
		counts[a.Kind]++
		if a.Kind == manual.Symptom {
			own := s.local(a)
			l := symptomLink{link: s.toArticle(f.Root, a)}
			l.Title = cmp.Or(own.Symptom.Label, own.Head.Title)
			if a.Symptom.Swatch != "" {
				l.Swatch = s.pics["drawings/swatches/"+a.Symptom.Swatch+".svg"]
			}
			l.place = len(s.Manual.Shop.SeenMost)
			if i := slices.IndexFunc(s.Manual.Shop.SeenMost, func(r manual.Ref) bool { return r.Name == a.Name }); i >= 0 {
				l.place = i
			}
			groups[a.Symptom.SeenOn] = append(groups[a.Symptom.SeenOn], l)
		}
	}
	for _, list := range groups {
		slices.SortStableFunc(list, func(a, b symptomLink) int {
			return cmp.Or(cmp.Compare(a.place, b.place), cmp.Compare(fold(a.Title), fold(b.Title)))
		})
	}
	for i, at := range seenOn {
		g := symptomGroup{s.words.say(at.title), groups[at.place]}
		switch {
		case i == 0:
			c.First = g
		case len(g.Symptoms) > 0:
			c.Rest = append(c.Rest, g)
		}
	}
	for i := range s.Manual.Shop.Tanks {
		card, err := s.tankCard(f.Root, &s.Manual.Shop.Tanks[i])
		if err != nil {
			return err
		}
		c.Tanks = append(c.Tanks, card)
	}
	for _, k := range manual.Kinds {
		if counts[k] > 0 {
			l := s.toPage(f.Root, kindPage(k), s.words.say(k.Heading()))
			l.Note = fmt.Sprint(counts[k])
			c.Kinds = append(c.Kinds, l)
		}
	}
	c.Kinds = append(c.Kinds, s.derivedLinks(f.Root, "")...)
	if s.asks() {
		c.Ask = s.linkTo(f.Root, markup.Page)
	}
	if len(s.known.Observations) > 0 {
		c.Several = s.linkTo(f.Root, seenPage)
	}
	glossary := s.toPage(f.Root, glossaryPage, s.words.say("Glossary"))
	glossary.Note = fmt.Sprint(len(s.Manual.Glossary))
	book := s.toPage(f.Root, BookPage, s.words.say("The manual on paper"))
	book.Note = s.words.say("chapter by chapter, for the printer")
	cards := s.toPage(f.Root, CardsPage, s.words.say("Cards for the tanks"))
	cards.Note = s.words.say("to hang at the tank")
	sheets := s.toPage(f.Root, sheetsPage, s.words.say("Sheets to print"))
	sheets.Note = s.words.say("process sheets, logs, forms, first aid")
	all := s.toPage(f.Root, calculatorsPage, s.words.say("Calculators"))
	all.Note = s.words.say("every sum, for any tank")
	rests := s.toPage(f.Root, restsPage, s.words.say("What rests on what"))
	rests.Note = s.words.say("for the safety officer")
	reviews := s.toPage(f.Root, reviewsPage, s.words.say("Reviews"))
	reviews.Note = s.words.say("what has to be looked at again, and when")
	visit := s.toPage(f.Root, visitPage, s.words.say("Visit report"))
	visit.Note = s.words.say("what was found, measured and tried")
	c.Kinds = append([]link{all, visit, cards, sheets, book}, c.Kinds...)
	c.Kinds = append(c.Kinds, rests, reviews, glossary, s.toPage(f.Root, wordsPage, s.words.say("All words, A–Z")), s.toPage(f.Root, editionPage, s.words.say("This edition")))
	c.Ways = []link{s.toPage(f.Root, calculatorsPage, s.words.say("Sums"))}
	if c.Ask != nil {
		c.Ways = append(c.Ways, s.toPage(f.Root, markup.Page, s.words.say("May it go in?")))
	}
	f.Content = c
	return nil
}

// linkTo is a link whose words stand in the template.
func (s *site) linkTo(root, page string) *link {
	l := s.toPage(root, page, "")
	return &l
}
