package page

import (
	"cmp"
	"html/template"
	"slices"
	"strings"

	"tankside/builder/decide/admit"
	"tankside/builder/decide/admit/markup"
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/quantity"
)

// suit is the verdict on one thing in another, with the fact that decides it.
type suit struct {
	Verdict     admit.Verdict
	Class, Mark string
	Word, Short string        // “with conditions”, “if”
	Fact        template.HTML // what decides it, in a few words: every condition, or what stands against it; empty where nothing does
	Brief       template.HTML // the same for a narrow cell
	Reasons     []reasonText  // the same in full sentences
	Anchor      string
	Title, Href string // of what the row of a list is about
	Lang        string // of the title, where it is not the page's
	Hreflang    string // of the page that Href leads to, where it is in another language
	Number      string // on paper, of the section that Href leads to
	Reason      int    // in a table: the number of what its cell has no room to say
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
	Safety      []warnings // of a part's sheet: of what it is made of, what is on it and what it is washed in
	Wear        string
}

// reasonText is a sentence with the page on which what it says stands.
type reasonText struct {
	Text   template.HTML
	Href   string
	Number string // on paper, of the section that Href leads to
}

// suit asks about a material in a bath: no soil, so that what is said holds for every part of that material.
func (s *site) suit(root string, m *admit.Item, b *admit.Bath) (suit, error) {
	return s.answered(root, admit.Question{Materials: []string{m.Name}, Bath: b.Name}, b)
}

// answered puts a question, and writes what decides it.
func (s *site) answered(root string, q admit.Question, b *admit.Bath) (suit, error) {
	a, err := s.sheet.Table.Answer(q)
	if err != nil {
		return suit{}, err
	}
	one := s.decided(root, a, b)
	one.Ask = s.address(root, markup.Ask(q))
	return one, nil
}

// decided writes a verdict with what decides it: every condition, or the gravest of what stands against it.
func (s *site) decided(root string, a admit.Answer, b *admit.Bath) suit {
	one := suit{
		Verdict: a.Verdict, Class: string(a.Verdict), Mark: markup.Marks[a.Verdict],
		Word: s.words.say(verdictWords[a.Verdict].long), Short: s.words.say(verdictWords[a.Verdict].short),
	}
	for _, r := range a.Reasons {
		if a.Verdict == admit.No || r.Keeps() {
			at := markup.Href(r.Place, b)
			one.Reasons = append(one.Reasons, reasonText{s.both(func(in quantity.System) string { return r.Says.In(s.sheet.Words, in) }), s.address(root, at), s.number(at)})
		}
	}
	switch a.Verdict {
	case admit.Yes, admit.Conditions:
		one.Fact = s.both(func(in quantity.System) string { return a.Brief(s.sheet.Words, in) })
		one.Brief = one.Fact
	case admit.No:
		one.Fact = one.Reasons[0].Text
		one.Brief = escaped(s.words.say(cmp.Or(briefly[a.Reasons[0].Rule], "see why")))
	}
	return one
}

func escaped(text string) template.HTML { return template.HTML(template.HTMLEscapeString(text)) }

// verdictWords are the verdicts in lists and in narrow cells.
var verdictWords = map[admit.Verdict]struct{ long, short, group string }{
	admit.Yes: {"yes", "yes", "May go in"}, admit.Conditions: {"with conditions", "if", "With conditions"}, admit.No: {"no", "no", "Must not go in"},
}

// briefly says in a word what the rule behind a reason is about.
var briefly = map[finding.RuleName]string{
	"ph-outside-material": "pH", "too-hot-for-material": "heat", "too-long-for-material": "time", "frequency-outside-material": "frequency",
	"other-frequency": "frequency", "low-frequency-on-soft-surface": "frequency", "outside-chemistry-window": "window", "above-ceiling": "ceiling",
	"above-cloud-point": "cloud point", "near-flash-point": "flash point", "flammable-in-ordinary-tank": "flammable", "acid-on-hard-steel": "acid",
	"acid-on-reactive-material": "acid", "ammonia-on-copper-alloy": "ammonia", "chloride-on-stainless": "chloride", "constituent-attacks-material": "attack",
	"solvent-on-plastic": "solvent", "strong-alkali-on-light-metal": "alkali", "emulsion-in-pores": "pores", "sealed-part": "sealed",
	"sound-on-sensitive-device": "sound", "enzyme-killed": "enzyme", "attack-on-purpose": "attack", "dissimilar-metals": "two metals",
	"cadmium-in-a-bath": "cadmium", "jar-with-heat-or-sound": "jar", "strength-not-comparable": "not checked", "never-meet": "never together",
	"soil-needs-clearance": "stop", "soil-not-removed": "does not lift",
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
	baths := s.sheet.Table.Baths()
	for i := range baths {
		if (baths[i].Tank != nil) == tanks {
			list = append(list, &baths[i])
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
	if b == nil || b.Tank == nil {
		return &suits{Title: title, Note: s.words.say("The shop file names no chemistry of this manual for this tank, so nothing can be said.")}, nil
	}
	var list []suit
	for i := range s.sheet.Table.Materials {
		m := &s.sheet.Table.Materials[i].Item
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
	if a.Kind == manual.Part {
		return s.sheetSuits(root, a)
	}
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
	}{{"The tanks of this edition", s.tankBaths()}, {"Chemistries by themselves", s.chemistries()}} {
		var list []suit
		for _, b := range set.baths {
			one, err := s.suit(root, item, b)
			if err != nil {
				return nil, err
			}
			one.Title, one.Href, one.Hreflang = b.Title, one.Ask, s.foreign(markup.Page)
			if b.Tank == nil {
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

// barred are the tanks that what an article is about must not enter: of a material those that its decision forbids, of a chemistry those that hold
// another, where the article names none.
func (s *site) barred(a *manual.Article) ([]string, error) {
	var tanks []string
	shop := &s.Manual.Shop
	for i := range shop.Tanks {
		id := shop.Tanks[i].ID
		switch {
		case a.Kind == manual.Chemistry && !slices.Contains(s.tanksOf(a), id):
			tanks = append(tanks, id)
		case a.Kind == manual.Material && s.Manual.Named(manual.Material, a.Name) == a:
			b := s.sheet.Table.Bath(id)
			if b == nil || b.Tank == nil {
				continue // nothing is known of what it holds
			}
			answer, err := s.sheet.Table.Answer(admit.Question{Materials: []string{a.Name}, Bath: id})
			if err != nil {
				return nil, err
			}
			if answer.Verdict == admit.No {
				tanks = append(tanks, id)
			}
		}
	}
	return tanks, nil
}

// sheetSuits tells on a part's page what its process sheet does to it: the decision about all washes, rinses and the dryer together.
func (s *site) sheetSuits(root string, a *manual.Article) ([]suits, error) {
	if s.Manual.Named(manual.Part, a.Name) != a {
		return nil, nil
	}
	s.Manual.Count() // so that a trace knows: what is in a rinse hangs on every part that goes through it
	answer, err := s.sheet.Table.Sheet(a.Name)
	if err != nil {
		return nil, err
	}
	one := s.decided(root, answer, nil)
	group := suitGroup{Class: one.Class, Mark: one.Mark, Title: s.words.say(markup.Verdict(one.Verdict))}
	for _, r := range answer.Reasons {
		if answer.Verdict != admit.Yes && r.Verdict == admit.Yes && !r.Keeps() {
			continue
		}
		at := markup.Href(r.Place, nil)
		group.Suits = append(group.Suits, suit{
			Title: s.sourceOf(r.Article), Href: s.address(root, s.to(at)), Hreflang: s.foreign(at), Number: s.number(at),
			Fact: s.both(func(in quantity.System) string { return s.ofWash(r.Wash) + r.Says.In(s.sheet.Words, in) }),
		})
	}
	met := s.metBy(a.Part)
	safety, err := s.safetyOf(root, met)
	if err != nil {
		return nil, err
	}
	var wear []string
	for _, m := range met {
		if c := s.local(m).Chemistry; c != nil {
			for _, w := range c.ProtectiveEquipment {
				if !slices.Contains(wear, w) {
					wear = append(wear, w)
				}
			}
		}
	}
	return []suits{{Title: s.words.say("By this process sheet"), Groups: []suitGroup{group}, Safety: safety, Wear: strings.Join(wear, ", ")}}, nil
}

// dangersOf takes the DANGER messages out of what is said of a part's sheet: they stand at the head of the page, behind its own DANGER and before all else, and not
// below its text.
func dangersOf(list []suits) []template.HTML {
	var dangers []template.HTML
	for i := range list {
		list[i].Safety = slices.DeleteFunc(list[i].Safety, func(w warnings) bool {
			if gravity(w.Head) != 0 {
				return false
			}
			html := string(w.Head) + "</p>\n"
			for _, text := range w.Texts {
				html += string(text)
			}
			dangers = append(dangers, template.HTML(html+"</div>\n")) // all of it was rendered
			return true
		})
	}
	return dangers
}

// metBy gives the articles whose safety messages hold for a part: of what it is made of, of what is on it, and of the chemistries of its washes.
func (s *site) metBy(p *manual.PartFacts) []*manual.Article {
	var list []*manual.Article
	add := func(kind manual.Kind, name string) {
		if a := s.Manual.Named(kind, name); a != nil && !slices.Contains(list, a) {
			list = append(list, a)
		}
	}
	for _, r := range p.Soils {
		add(manual.Soil, r.Name)
	}
	for _, r := range p.Materials {
		add(manual.Material, r.Name)
	}
	return append(list, s.Manual.Washes(p)...)
}

// ofWash begins what is said of a sheet with several washes.
func (s *site) ofWash(number int) string {
	if number == 0 {
		return ""
	}
	return admit.WashName(number, s.words.say) + ": "
}

// sourceOf is the title of an article by its path, or the shop's name for its file.
func (s *site) sourceOf(path string) string {
	if a := s.Manual.At(path); a != nil {
		return s.local(a).Head.Title
	}
	return s.Manual.Shop.Name
}
