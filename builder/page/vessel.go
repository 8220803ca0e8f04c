package page

import (
	"cmp"
	"html/template"
	"slices"
	"strconv"
	"strings"

	"tankside/builder/decide/line"
	"tankside/builder/manual"
	"tankside/builder/sums"
	"tankside/calculators/markup"
)

// vesselContent is what the page of a rinse, or of the dryer, shows.
type vesselContent struct {
	Title       string
	Summary     template.HTML
	All         link // everything at this station
	Safety      []warnings
	Purpose     []string
	Checks      []vesselCheck // before the first load
	Sums        []template.HTML
	Facts       []fact
	Calculators []link
	Lists       []group // who uses it
	Station     []group // the articles of the station
	Card        link
	Writing     *writing  // nil on paper
	Current     *cardCode // nil where there is no card
}

// vesselCheck is something to be looked at before the first load, with the value that it should have.
type vesselCheck struct {
	What  string
	Value template.HTML
}

// vesselPage is the page of a rinse or of the dryer: beside those of the tanks. What has no name of its own, or that of a tank, has the page of
// its station.
func (s *site) vesselPage(id string, st manual.Station) string {
	if id == "" || s.Manual.Shop.Tank(id) != nil {
		return stationPage(st)
	}
	return tankPage(id)
}

// vessels are the pages of the rinses and the dryer.
func (s *site) vessels() []job {
	var jobs []job
	add := func(id string, st manual.Station, fill func(*site, *frame) error) {
		path := s.vesselPage(id, st)
		taken := slices.ContainsFunc(jobs, func(j job) bool { return j.base == path })
		if path != stationPage(st) && !taken {
			jobs = append(jobs, s.page(path, "vessel", fill))
		}
	}
	shop := &s.Manual.Shop
	for i := range shop.Rinses {
		r := &shop.Rinses[i]
		add(r.ID, "rinse", func(s *site, f *frame) error { return s.rinse(f, r) })
	}
	add(shop.Dryer.ID, "dry", (*site).dryer)
	return jobs
}

// rinse fills the page of a rinse: what it is for in this line, what stands in it while parts run, what to look at first.
func (s *site) rinse(f *frame, r *manual.Rinse) error {
	c := s.vessel(f, r.ID, r.Name, "rinse")
	way := s.ways(f.Root, r.ID)
	if way.first {
		c.Purpose = append(c.Purpose, s.words.say("Here the film of bath on the parts is thinned. What stays in this water goes on with them."))
	} else {
		c.Purpose = append(c.Purpose, s.words.say("Here the parts leave behind what the rinse before has left on them."))
	}
	if way.last {
		c.Purpose = append(c.Purpose, s.words.say("It is the last water on the parts: what is dissolved in it stays on them when they dry."))
	}
	l := factList{s: s, root: f.Root}
	l.inManualLanguage("Water", r.Water)
	l.limit("Filled to the mark", r.Volume)
	l.limit("Fresh water", r.Flow)
	if r.Stages > 0 {
		l.text("Stages", strconv.Itoa(r.Stages))
	}
	l.limit("Temperature", r.Temperature)
	l.limit("Conductivity, parts running", r.Conductivity)
	l.html("pH, parts running", string(s.runsPH(r.ID)))
	left, err := s.leftOfBaths(r)
	if err != nil {
		return err
	}
	l.html("Left of the bath in it, parts running", left)
	l.html("Parts come from", l.several(way.from))
	l.html("and go on to", l.several(way.to))
	c.Facts = l.facts
	c.Summary = joined(r.Water, s.shown(r.Volume), s.shown(r.Flow), s.shown(r.Temperature))
	c.check(s.words.say("Level at the mark"), "")
	c.check(s.words.say("Temperature, by a second thermometer"), s.shown(r.Temperature))
	if r.Conductivity.Set {
		c.check(s.words.say("Conductivity before the first load"), "")
	}
	if err := s.sumsOfRinse(f, &c, r, way); err != nil {
		return err
	}
	return s.finish(f, &c, r.ID, "rinse")
}

// dryer fills the page of the dryer.
func (s *site) dryer(f *frame) error {
	d := &s.Manual.Shop.Dryer
	c := s.vessel(f, d.ID, cmp.Or(d.Name, s.words.say("Dry")), "dry")
	way := s.ways(f.Root, d.ID)
	c.Purpose = []string{s.words.say("Here the water goes: the drops first, then the film. What is dissolved in a drop that dries stays on the part as a spot.")}
	l := factList{s: s, root: f.Root}
	l.inManualLanguage("How", d.Means)
	l.limit("Temperature", d.Temperature)
	l.html("Parts come from", l.several(way.from))
	c.Facts = l.facts
	c.Summary = joined(d.Means, s.shown(d.Temperature))
	c.check(s.words.say("Temperature, by a second thermometer"), s.shown(d.Temperature))
	c.check(s.words.say("Filter clean, its floor dry"), "")
	if err := s.askedSum(f, &c, "drying", ""); err != nil {
		return err
	}
	var err error
	if c.Calculators, err = s.sumsTo(f.Root, "", "drying"); err != nil {
		return err
	}
	return s.finish(f, &c, d.ID, "dry")
}

// vessel begins the page of a rinse or the dryer.
func (s *site) vessel(f *frame, id, name string, st manual.Station) vesselContent {
	f.Title = name + ", " + s.words.say("on the line") // an article may have the same name
	f.here(st, id)
	return vesselContent{
		Title: name, All: s.toPage(f.Root, stationPage(st), s.words.say(stationTitles[st])),
		Card: s.toPage(f.Root, CardsPage+"#"+id, s.words.say("Card for the wall")),
	}
}

func (c *vesselContent) check(what string, value template.HTML) {
	c.Checks = append(c.Checks, vesselCheck{what, value})
}

// finish adds what the manual's articles say of a rinse or the dryer.
func (s *site) finish(f *frame, c *vesselContent, id string, st manual.Station) error {
	var procedures, parts []*manual.Article
	for _, a := range s.Manual.Articles {
		switch {
		case a.Kind == manual.Procedure && slices.ContainsFunc(a.Procedure.Tanks, func(r manual.Ref) bool { return r.Name == id }):
			procedures = append(procedures, a)
		case a.Kind == manual.Part && goesThrough(a.Part, id):
			parts = append(parts, a)
		}
	}
	s.sort(procedures)
	s.sort(parts)
	for _, list := range []group{
		{s.words.say("What is done here"), s.links(f.Root, procedures)}, {s.words.say("Parts that go through it"), s.links(f.Root, parts)},
	} {
		if len(list.Links) > 0 {
			c.Lists = append(c.Lists, list)
		}
	}
	var err error
	if c.Current, err = s.cardOf(f.Root, id); err != nil {
		return err
	}
	s.script(f, "card.js")
	if c.Safety, err = s.safetyAtHeadOf(f.Root, procedures, st); err != nil {
		return err
	}
	if s.paper == nil && id != "" {
		s.together(f)
		if c.Writing, err = s.writing(f, id, c.Title); err != nil {
			return err
		}
	}
	c.Station = s.atStation(f.Root, st, procedures)
	f.Summary = c.Title + ": " + strings.Join(c.Purpose, " ")
	f.Content = *c
	return nil
}

func goesThrough(p *manual.PartFacts, id string) bool {
	return p.Dry.Name == id || slices.ContainsFunc(p.Rinse, func(r manual.Ref) bool { return r.Name == id })
}

// ways is where parts come from before they come to a vessel, and where they go: by the process sheets, and by what the line does with a bath that
// no sheet names.
type ways struct {
	from, to    []string // links
	first, last bool     // a wash comes right before it; nothing but the dryer comes after it
}

func (s *site) ways(root, id string) ways {
	w := ways{last: true}
	l := factList{s: s, root: root}
	add := func(list *[]string, link string) {
		if link != "" && !slices.Contains(*list, link) {
			*list = append(*list, link)
		}
	}
	walk := func(wash manual.Ref, rinses []manual.Ref, dry manual.Ref) {
		if dry.Name == id && len(rinses) > 0 {
			add(&w.from, l.rinses(rinses[len(rinses)-1:]))
		} else if dry.Name == id {
			add(&w.from, l.tank(wash))
		}
		for i, r := range rinses {
			if r.Name != id {
				continue
			}
			if i == 0 {
				w.first = true
				add(&w.from, l.tank(wash))
			} else {
				add(&w.from, l.rinses(rinses[i-1:i]))
			}
			if i+1 < len(rinses) {
				w.last = false
				add(&w.to, l.rinses(rinses[i+1:i+2]))
			} else if dry.Name != "" {
				add(&w.to, l.dryer(dry))
			}
		}
	}
	for _, a := range s.Manual.Articles {
		if a.Kind == manual.Part && len(a.Part.Steps) > 0 {
			walk(a.Part.Steps[len(a.Part.Steps)-1].Tank, a.Part.Rinse, a.Part.Dry)
		}
	}
	shop := &s.Manual.Shop
	for i := range shop.Tanks {
		var rinses []manual.Ref
		for _, r := range line.Route(s.Manual, &shop.Tanks[i]) {
			rinses = append(rinses, manual.Ref{Name: r.ID})
		}
		walk(manual.Ref{Name: shop.Tanks[i].ID}, rinses, manual.Ref{Name: shop.Dryer.ID})
	}
	return w
}

// leftOfBaths says of every wash from which parts come how much of its bath is left in a rinse while they run.
func (s *site) leftOfBaths(r *manual.Rinse) (string, error) {
	var lines []string
	for i := range s.Manual.Shop.Tanks {
		t := &s.Manual.Shop.Tanks[i]
		route := line.Route(s.Manual, t)
		at := slices.IndexFunc(route, func(o *manual.Rinse) bool { return o.ID == r.ID })
		reading := ""
		switch {
		case at < 0:
			continue
		case at == len(route)-1:
			reading = "last-stage"
		case at < len(leftIn):
			reading = leftIn[at]
		}
		left, err := s.reading("rinse", reading, map[string]string{"tank": t.ID})
		if err != nil {
			return "", err
		}
		if left != "" {
			lines = append(lines, template.HTMLEscapeString(t.Name)+": "+string(left))
		}
	}
	return strings.Join(lines, "<br>"), nil
}

// leftIn are the readings of the sum of the rinses that tell what is left of the bath in the first and in the second.
var leftIn = []string{"first-rinse", "second-rinse"}

// sumsOfRinse adds the sums that apply to a rinse: the stages behind a wash from which parts come, and for the last water the spots that it leaves,
// which waits for a measurement.
func (s *site) sumsOfRinse(f *frame, c *vesselContent, r *manual.Rinse, way ways) error {
	for i := range s.Manual.Shop.Tanks {
		t := &s.Manual.Shop.Tanks[i]
		if !slices.Contains(line.Route(s.Manual, t), r) {
			continue
		}
		if err := s.askedSum(f, c, "rinse", t.ID); err != nil {
			return err
		}
		break
	}
	if way.last {
		if err := s.askedSum(f, c, "spotting", r.ID); err != nil {
			return err
		}
	}
	var err error
	c.Calculators, err = s.sumsTo(f.Root, r.ID, "rinse", "spotting", "hardness", "scale")
	return err
}

// askedSum adds a calculator with what the shop file knows for it. What has to be measured stays empty.
func (s *site) askedSum(f *frame, c *vesselContent, calculator, tank string) error {
	known, err := sums.Known(s.Manual, calculator, tank)
	if err != nil {
		return err
	}
	html, err := markup.SumIn(s.sums, "sum-"+calculator, calculator, known, s.system)
	if err != nil {
		return err
	}
	c.Sums = append(c.Sums, template.HTML(html)) // the package escapes every text
	if len(c.Sums) == 1 {
		s.withSums(f)
	}
	return nil
}

// runsPH is the pH of a rinse while parts run; it says what is not known where something is missing for it.
func (s *site) runsPH(id string) template.HTML {
	for i := range s.sheet.Table.Rinses {
		r := &s.sheet.Table.Rinses[i]
		switch {
		case r.ID != id:
		case r.Missing.Phrase != "":
			return escaped(s.words.say("not checked"))
		default:
			return s.shown(r.RunsPH)
		}
	}
	return ""
}

// safetyAtHeadOf gives the safety messages that stand before everything else in the procedures of a station.
func (s *site) safetyAtHeadOf(root string, procedures []*manual.Article, st manual.Station) ([]warnings, error) {
	return s.safetyOf(root, slices.DeleteFunc(slices.Clone(procedures), func(a *manual.Article) bool { return a.Head.Station != st }))
}

// safetyOf gives the safety messages that stand before everything else in some articles, each once, grouped under their signal words as ANSI Z535.6 has it,
// the gravest first. The sources that they name stand in the article.
func (s *site) safetyOf(root string, articles []*manual.Article) ([]warnings, error) {
	var all []warnings
	for _, a := range articles {
		own := s.local(a)
		b := body{s: s, a: own, root: root, source: own.Body}
		messages, _, err := b.render(true)
		if err != nil {
			return nil, err
		}
		sources := `href="` + template.HTMLEscapeString(s.toArticle(root, a).Href) + `#source-`
		for _, message := range messages {
			head, text, _ := strings.Cut(strings.ReplaceAll(string(message), `href="#source-`, sources), "</p>\n")
			text = strings.TrimSuffix(text, "</div>\n")
			at := slices.IndexFunc(all, func(w warnings) bool { return w.Head == template.HTML(head) })
			if at < 0 {
				at = len(all)
				all = append(all, warnings{Head: template.HTML(head)})
			}
			if !slices.Contains(all[at].Texts, template.HTML(text)) {
				all[at].Texts = append(all[at].Texts, template.HTML(text))
			}
		}
	}
	slices.SortStableFunc(all, func(a, b warnings) int { return gravity(a.Head) - gravity(b.Head) })
	return all, nil
}

// warnings are safety messages of one signal word: how such a message begins, up to the word, and what follows in each.
type warnings struct {
	Head  template.HTML
	Texts []template.HTML
}

// gravity is the place of a safety message among the signal words, the gravest first.
func gravity(head template.HTML) int {
	return slices.IndexFunc(manual.SignalWords, func(word string) bool {
		return strings.HasPrefix(string(head), `<div class="safety `+strings.ToLower(word))
	})
}

// joined puts what is known of a vessel into a line.
func joined(word string, more ...template.HTML) template.HTML {
	var parts []string
	for _, text := range append([]template.HTML{escaped(word)}, more...) {
		if text != "" {
			parts = append(parts, string(text))
		}
	}
	return template.HTML(strings.Join(parts, " · ")) // every part is escaped
}
