package page

import (
	"cmp"
	"html/template"

	"tankside/builder/admit"
	"tankside/builder/admit/markup"
	"tankside/builder/manual"
	"tankside/calculators/quantity"
)

// suit is the verdict on one thing in another, with the fact that decides it.
type suit struct {
	Verdict     admit.Verdict
	Class, Mark string
	Word, Short string        // “with conditions”, “if”
	Fact        template.HTML // a sentence; empty where nothing stands against it
	FactHref    string        // the article that says so
	Brief       string        // the fact in a word, for a narrow cell
	Anchor      string
	Title, Href string // of what the row of a list is about
	Lang        string // of the title, where it is not the page's
	Hreflang    string // of the page that Href leads to, where it is in another language
	Ask         string
}

// suitGroup is the suits of one verdict.
type suitGroup struct {
	Class, Mark, Title string
	Suits              []suit
}

// suits is a titled set of groups.
type suits struct {
	Title, Note string
	Groups      []suitGroup
	Links       []link
}

// suit asks about a material in a bath: no soil, so that what is said holds for every part of that material.
func (s *site) suit(root string, m *admit.Item, b *admit.Bath) (suit, error) {
	q := admit.Question{Materials: []string{m.Name}, Bath: b.Name}
	a, err := s.sheet.Table.Answer(q)
	if err != nil {
		return suit{}, err
	}
	one := suit{
		Verdict: a.Verdict, Class: string(a.Verdict), Mark: markup.Marks[a.Verdict],
		Word: s.words.say(verdictWords[a.Verdict].long), Short: s.words.say(verdictWords[a.Verdict].short), Ask: root + markup.Ask(q),
	}
	if a.Verdict != admit.Yes {
		r := a.Reasons[0] // the gravest comes first
		one.Fact = s.both(func(in quantity.System) string { return r.Says.In(s.sheet.Words, in) })
		one.FactHref, one.Brief = root+markup.Href(r.Place, b), s.words.say(cmp.Or(briefly[r.Rule], "see why"))
	}
	return one, nil
}

func escaped(text string) template.HTML { return template.HTML(template.HTMLEscapeString(text)) }

// verdictWords are the verdicts in lists and in narrow cells.
var verdictWords = map[admit.Verdict]struct{ long, short, group string }{
	admit.Yes: {"yes", "yes", "May go in"}, admit.Conditions: {"with conditions", "if", "With conditions"}, admit.No: {"no", "no", "Must not go in"},
}

// briefly says in a word what the rule behind a reason is about.
var briefly = map[string]string{
	"ph-outside-material": "pH", "too-hot-for-material": "heat", "too-long-for-material": "time", "frequency-outside-material": "frequency",
	"other-frequency": "frequency", "low-frequency-on-soft-surface": "frequency", "outside-chemistry-window": "window", "above-ceiling": "ceiling",
	"above-cloud-point": "cloud point", "near-flash-point": "flash point", "flammable-in-ordinary-tank": "flammable", "acid-on-hard-steel": "acid",
	"acid-on-reactive-material": "acid", "ammonia-on-copper-alloy": "ammonia", "chloride-on-stainless": "chloride", "constituent-attacks-material": "attack",
	"solvent-on-plastic": "solvent", "strong-alkali-on-light-metal": "alkali", "emulsion-in-pores": "pores", "sealed-part": "sealed",
	"sound-on-sensitive-device": "sound", "enzyme-killed": "enzyme", "attack-on-purpose": "attack", "dissimilar-metals": "two metals",
}

// title is the title of an article in the site's language where there is one, otherwise the one given and its language.
func (s *site) title(kind manual.Kind, name, title string) (text, language string) {
	if a := s.Manual.Named(kind, name); a != nil && s.local(a) != a {
		return s.local(a).Head.Title, ""
	}
	return title, s.written()
}

// grouped parts suits by their verdicts: in the order no, conditions, yes, for who looks what must not happen.
func (s *site) grouped(list []suit) []suitGroup {
	var groups []suitGroup
	for _, v := range []admit.Verdict{admit.No, admit.Conditions, admit.Yes} {
		g := suitGroup{Class: string(v), Mark: markup.Marks[v], Title: s.words.say(verdictWords[v].group)}
		for _, one := range list {
			if one.Verdict == v {
				g.Suits = append(g.Suits, one)
			}
		}
		if len(g.Suits) > 0 {
			groups = append(groups, g)
		}
	}
	return groups
}

// tankBaths are the tanks that hold a chemistry which the manual knows.
func (s *site) tankBaths() []*admit.Bath { return s.baths(true) }

// chemistries are the chemistries by themselves.
func (s *site) chemistries() []*admit.Bath { return s.baths(false) }

func (s *site) baths(tanks bool) []*admit.Bath {
	var list []*admit.Bath
	for i := range s.sheet.Table.Baths {
		if b := &s.sheet.Table.Baths[i]; b.Tank == tanks {
			list = append(list, b)
		}
	}
	return list
}

// tankSuits tells on a tank's page what it may and may not take today.
func (s *site) tankSuits(root, tank string) (*suits, error) {
	if len(s.sheet.Table.Materials) == 0 {
		return nil, nil
	}
	title := s.words.say("What may go in today")
	b := s.sheet.Table.Bath(tank)
	if b == nil || !b.Tank {
		return &suits{Title: title, Note: s.words.say("The shop file names no chemistry of this manual for this tank, so nothing can be said.")}, nil
	}
	var list []suit
	for i := range s.sheet.Table.Materials {
		m := &s.sheet.Table.Materials[i]
		one, err := s.suit(root, m, b)
		if err != nil {
			return nil, err
		}
		one.Title, one.Lang = s.title(manual.Material, m.Name, m.Title)
		one.Href, one.Hreflang = one.Ask, s.foreign(markup.Page)
		list = append(list, one)
	}
	return &suits{Title: title, Note: s.words.say("By the tank's chemistry, strength, temperature and frequency today. Whether a soil comes off is another question."), Groups: s.grouped(list), Links: s.derivedLinks(root, manual.Material)[:1]}, nil
}

// materialSuits tells on a material's page in which tanks and chemistries it may go.
func (s *site) materialSuits(root string, a *manual.Article) ([]suits, error) {
	if a.Kind != manual.Material || s.Manual.Named(manual.Material, a.Name) != a {
		return nil, nil
	}
	s.Manual.Count() // so that a trace knows: the answers are made of the whole manual
	if !s.asks() {
		return nil, nil
	}
	item := &admit.Item{Name: a.Name}
	var all []suits
	for _, set := range []struct {
		title string
		baths []*admit.Bath
	}{{"The tanks as they stand", s.tankBaths()}, {"Chemistries by themselves", s.chemistries()}} {
		var list []suit
		for _, b := range set.baths {
			one, err := s.suit(root, item, b)
			if err != nil {
				return nil, err
			}
			one.Title, one.Href, one.Hreflang = b.Title, one.Ask, s.foreign(markup.Page)
			if !b.Tank {
				one.Title, one.Lang = s.title(manual.Chemistry, b.Name, b.Title)
			}
			list = append(list, one)
		}
		if len(list) > 0 {
			all = append(all, suits{Title: s.words.say(set.title), Groups: s.grouped(list)})
		}
	}
	return all, nil
}
