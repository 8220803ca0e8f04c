package book

import (
	"crypto/sha256"
	"encoding/base32"
	"fmt"
	"html/template"
	"math"
	"slices"
	"strings"

	"tankside/builder/decide/admit"
	"tankside/builder/manual"
	"tankside/builder/page"
	"tankside/builder/quantity"
	"tankside/builder/sums"
	"tankside/calculators"
)

// card is what hangs at a tank, a rinse or the dryer.
type card struct {
	Anchor, Name, Kind string
	Code               string // changes with what the card says
	Drawing            template.HTML
	Holds              string // the chemistry, or the water
	HoldsNumber        string
	Facts              []fact
	Fill               []fact // for a fresh fill
	Weak               []weak
	Level              template.HTML
	MayNot, If, May    template.HTML // materials, each with what to keep to
	Never              string        // what the bath must never meet
	Unknown            bool          // nothing is known of what the tank holds
	Checks             []check
	Procedures         []entry
	Safety             []messages
	Wear, Hazards      string
	Ask                string
	Checked            string       // when its record was last written in; no part of its code
	Control            page.Control // of the chemistry's article: who answers for it

	station manual.Station
}

type fact struct {
	Name  string
	Value template.HTML
}

// weak is a strength that may be measured, what has to be let out of a full tank to make room, and the concentrate that it takes to put the
// bath right.
type weak struct{ Measured, Out, Add template.HTML }

// check is something to be looked at before the first load.
type check struct {
	What   string
	Value  template.HTML
	Number string
}

// messages are the safety messages of one signal word, grouped under it as ANSI Z535.6 has it.
type messages struct {
	Word, Class string
	Texts       []string
}

// say adds a safety message, once.
func (c *card) say(word, text string) {
	at := slices.IndexFunc(c.Safety, func(m messages) bool { return m.Word == word })
	if at < 0 {
		at = 0
		for at < len(c.Safety) && slices.Index(manual.SignalWords, c.Safety[at].Word) < slices.Index(manual.SignalWords, word) {
			at++
		}
		c.Safety = slices.Insert(c.Safety, at, messages{Word: word, Class: strings.ToLower(word)})
	}
	if m := &c.Safety[at]; !slices.Contains(m.Texts, text) {
		m.Texts = append(m.Texts, text)
	}
}

// cardsContent is what the page of the cards shows.
type cardsContent struct {
	Shop, Mark, Book string
	Edition          string // number, date and code
	Cards            []card
}

func (b *book) cards() (page.Filled, error) {
	c := cardsContent{Shop: b.manual.Shop.Name, Mark: b.parts.Mark(), Edition: b.parts.Edition(), Book: cover}
	for i := range b.manual.Shop.Tanks {
		one, err := b.tank(&b.manual.Shop.Tanks[i])
		if err != nil {
			return page.Filled{}, err
		}
		c.Cards = append(c.Cards, one)
	}
	c.Cards = append(c.Cards, b.afterWash()...)
	for i := range c.Cards {
		c.Cards[i].Code = code(c.Cards[i]) // before what changes from day to day
		c.Cards[i].Checked = b.parts.LastChecked(c.Cards[i].Anchor)
	}
	return page.Filled{Title: b.parts.Say("Cards for the tanks"), Content: c}, nil
}

// code is four letters that two cards share only if they say the same, as good as certainly.
func code(c card) string {
	sum := sha256.Sum256(fmt.Appendf(nil, "%+v", c))
	return base32.StdEncoding.EncodeToString(sum[:])[:4]
}

// facts gathers facts and leaves out the empty ones.
type facts []fact

func (f *facts) add(name string, value template.HTML) {
	if value != "" {
		*f = append(*f, fact{name, value})
	}
}

func escaped(text string) template.HTML { return template.HTML(template.HTMLEscapeString(text)) }

// tank fills the card of a tank.
func (b *book) tank(t *manual.Tank) (card, error) {
	p := b.parts
	c := card{Anchor: t.ID, Name: t.Name, Kind: p.Say("Tank"), Drawing: p.Drawing(t), station: "wash"}
	if t.Vessel == manual.Jar {
		c.Kind = p.Say("Jar")
	}
	chemistry := b.manual.Named(manual.Chemistry, t.Chemistry.Name)
	var list facts
	list.add(p.Say("Temperature"), p.Shown(t.Temperature))
	list.add(p.Say("Strength"), p.Shown(t.Strength))
	if chemistry != nil && t.Sounds() { // it is the time under ultrasonics
		list.add(p.Say("Time"), p.Shown(chemistry.Chemistry.Time))
	}
	list.add(p.Say("Frequency"), p.Shown(t.Frequency))
	drift, stop := "drift-open", p.Say("Stop the sound at")
	if t.Lid {
		drift, stop = "drift-shut", p.Say("Stop the sound, lid off, at")
	}
	var fill facts
	fill.add(p.Say("Filled to the mark"), p.Shown(t.Volume))
	for _, ask := range []struct {
		calculator, reading, name string
		to                        *facts
	}{
		{"heat-up", "time", p.Say("Heats up in"), &list},
		{"degas", "time", p.Say("Degas after filling"), &list},
		{"holding", drift, p.Say("Its own sound warms it to about"), &list},
		{"holding", "stop-at", stop, &list},
		{"dilution", "concentrate-volume", p.Say("Concentrate"), &fill},
		{"dilution", "concentrate-mass", p.Say("or by mass"), &fill},
		{"dilution", "water-volume", p.Say("Water"), &fill},
	} {
		if ask.to == &list && !sums.For(t, ask.calculator) {
			continue
		}
		given := map[string]string{"tank": t.ID}
		if ask.calculator == "holding" {
			given["hours"] = "1 h"
			if ask.reading == "stop-at" { // no hotter than what goes in may stand
				stands, some, err := p.Stands(t.ID)
				if err != nil {
					return c, err
				}
				if some {
					given["ceiling"] = stands.String()
				}
			}
			if !b.parts.Drifts(t.ID) {
				continue
			}
		}
		value, err := p.Reading(ask.calculator, ask.reading, given)
		if err != nil {
			return c, err
		}
		if start := p.Shown(b.manual.Shop.Water.Temperature); ask.calculator == "heat-up" && value != "" && start != "" {
			value += escaped(" "+p.Say("from")+" ") + start
		}
		ask.to.add(ask.name, value)
	}
	if t.Vessel == manual.Jar {
		list.add(p.Say("How"), escaped(p.Say("cold, covered, no heat, no sound")))
	}
	c.Facts, c.Fill = list, fill
	if err := b.weaker(&c, t); err != nil {
		return c, err
	}
	c.Level = b.level(t)
	verdicts, known, err := p.Verdicts(t.ID)
	if err != nil {
		return c, err
	}
	c.Unknown = !known
	c.MayNot, c.If, c.May = inRow(verdicts[admit.No]), inRow(verdicts[admit.Conditions]), inRow(verdicts[admit.Yes])
	if chemistry != nil {
		b.holds(&c, chemistry)
	}
	if t.Vessel != manual.Jar {
		if err := b.running(&c, t); err != nil {
			return c, err
		}
	}
	c.check(b, p.Say("Level at the mark"), "", nil)
	c.check(b, p.Say("Temperature, by a second thermometer"), p.Shown(t.Temperature), nil)
	if chemistry != nil {
		if test := b.manual.Named(manual.Procedure, chemistry.Chemistry.ControlTest.Name); test != nil {
			c.check(b, test.Head.Title, p.Shown(t.Strength), test)
		}
	}
	switch {
	case t.Vessel == manual.Jar:
		c.check(b, p.Say("Lid on, nothing near that sparks or burns"), "", nil)
	case t.Sounds():
		c.check(b, p.Say("Sound: even, the same as yesterday"), "", nil)
	}
	b.goesInto(&c, t.ID, b.procedures(&c, t.ID))
	return c, nil
}

// inRow writes titles one after the other. They have commas of their own.
func inRow(titles []template.HTML) template.HTML {
	var all template.HTML
	for i, t := range titles {
		if i > 0 {
			all += "; "
		}
		all += t
	}
	return all
}

// weaker says what a bath takes that has grown weak.
func (b *book) weaker(c *card, t *manual.Tank) error {
	if !t.Strength.Set || t.Strength.Low != t.Strength.High {
		return nil
	}
	for _, share := range []float64{0.9, 0.8, 0.7} {
		now := t.Strength
		now.Low, now.High = share*now.Low, share*now.High
		var found [2]template.HTML
		for i, reading := range []string{"drain-volume", "concentrate-volume"} {
			var err error
			if found[i], err = b.parts.Reading("top-up", reading, map[string]string{"tank": t.ID, "strength-now": now.Range.String()}); err != nil {
				return err
			}
		}
		if found[1] != "" {
			c.Weak = append(c.Weak, weak{b.parts.Shown(now), found[0], found[1]})
		}
	}
	return nil
}

// level says how much water a centimetre of level is.
func (b *book) level(t *manual.Tank) template.HTML {
	if !t.Length.Set || !t.Width.Set || t.Length.Low != t.Length.High || t.Width.Low != t.Width.High {
		return ""
	}
	const fall = 0.01 // m
	volume := t.Length.Low * t.Width.Low * fall
	return b.parts.Both(func(in quantity.System) string {
		return fmt.Sprintf(b.parts.Say("%s of level is %s of water."), quantity.Show(fall, quantity.Length, in), quantity.Show(volume, quantity.Volume, in))
	})
}

// holds says what the chemistry's article says of the bath.
func (b *book) holds(c *card, a *manual.Article) {
	p := b.parts
	c.Holds = a.Head.Title
	c.Control = p.Control(a)
	if s := b.sectionOf(a); s != nil {
		c.HoldsNumber = s.number
	}
	c.opening(a)
	c.Wear = strings.Join(a.Chemistry.ProtectiveEquipment, ", ")
	var hazards, never []string
	for _, h := range a.Chemistry.Hazards {
		hazards = append(hazards, strings.TrimSpace(h.Name+" "+p.Say(manual.HazardStatements[h.Name])))
	}
	for _, n := range a.Chemistry.NeverWith {
		if other := b.manual.Named(manual.Chemistry, n.Name); other != nil {
			never = append(never, other.Head.Title)
		} else {
			never = append(never, p.Say(strings.ReplaceAll(n.Name, "-", " ")))
		}
	}
	c.Hazards, c.Never, c.Ask = strings.Join(hazards, "; "), strings.Join(never, ", "), a.Head.Approval.Role
}

// opening takes over the safety messages that stand before everything else in an article.
func (c *card) opening(a *manual.Article) {
	before := math.MaxInt
	for _, s := range a.Sections {
		if s.Level > 0 {
			before = s.At.Line
			break
		}
	}
	for _, s := range a.Signals {
		if s.At.Line < before {
			c.say(s.Word, s.Text)
		}
	}
}

// running adds the calculators' cautions for a bath that runs: it scalds, and no hand goes into it.
func (b *book) running(c *card, t *manual.Tank) error {
	a, known, err := b.parts.Answer("degas", map[string]string{"tank": t.ID})
	if err != nil || !known {
		return err
	}
	for _, caution := range a.Cautions {
		if caution.Signal <= calculators.Careful {
			c.say(caution.Signal.String(), caution.Text)
		}
	}
	return nil
}

func (c *card) check(b *book, what string, value template.HTML, a *manual.Article) {
	one := check{What: what, Value: value}
	if a != nil {
		if s := b.sectionOf(a); s != nil {
			one.Number = s.number
		}
	}
	c.Checks = append(c.Checks, one)
}

// procedures lists the procedures that name the tank, rinse or dryer.
func (b *book) procedures(c *card, id string) []*manual.Article {
	var list []*manual.Article
	for _, a := range b.articles(manual.Procedure) {
		if !slices.ContainsFunc(a.Procedure.Tanks, func(r manual.Ref) bool { return r.Name == id }) {
			continue
		}
		list = append(list, a)
		one := entry{Title: a.Head.Title, Href: page.Path(a)}
		if s := b.sectionOf(a); s != nil {
			one.Number = s.number
		}
		c.Procedures = append(c.Procedures, one)
	}
	return list
}

// goesInto takes over the safety messages of everything that goes into a vessel beside what it holds: of the procedures on the line that name it,
// of the chemistries that they bring, and of soils that may hold what hurts people, on parts that go through it. A tank that holds a chemistry has
// that one's messages, so that of the procedures only those count that bring something else or have a hazard that it has not.
func (b *book) goesInto(c *card, id string, procedures []*manual.Article) {
	var holds *manual.Article
	if t := b.manual.Shop.Tank(id); t != nil && t.Vessel != manual.Jar {
		holds = b.manual.Named(manual.Chemistry, t.Chemistry.Name)
	}
	for _, a := range procedures {
		brings := b.brings(a)
		onLine := a.Head.Station == "wash" || a.Head.Station == "rinse" || a.Head.Station == "dry"
		if onLine && (holds == nil || len(brings) > 0) || b.hazardous(a, holds) {
			c.opening(a)
		}
		for _, chemistry := range brings {
			if onLine {
				c.opening(chemistry)
			}
		}
	}
	for _, a := range b.articles(manual.Part) {
		if !goesThrough(a.Part, id) {
			continue
		}
		for _, r := range a.Part.Soils {
			if soil := b.manual.Named(manual.Soil, r.Name); soil != nil && len(soil.Soil.MayContain) > 0 {
				c.opening(soil)
			}
		}
	}
}

// brings gives the chemistries of a procedure where none of the vessels holds one of them which it names: otherwise they are what is in the
// vessels, or in others that the procedure is for as well.
func (b *book) brings(a *manual.Article) []*manual.Article {
	var list []*manual.Article
	for _, r := range a.Procedure.Chemistries {
		for _, v := range a.Procedure.Tanks {
			if t := b.manual.Shop.Tank(v.Name); t != nil && t.Chemistry.Name == r.Name {
				return nil
			}
		}
		if chemistry := b.manual.Named(manual.Chemistry, r.Name); chemistry != nil {
			list = append(list, chemistry)
		}
	}
	return list
}

// hazardous tells whether a procedure has a hazard that the chemistry of the vessel has not: fire, above all.
func (b *book) hazardous(a, holds *manual.Article) bool {
	return slices.ContainsFunc(a.Procedure.Hazards, func(h manual.Ref) bool {
		return strings.HasPrefix(h.Is(), "H2") && h.Is() != "H290" && (holds == nil || !slices.ContainsFunc(holds.Chemistry.Hazards, func(o manual.Ref) bool { return o.Is() == h.Is() }))
	})
}

// goesThrough tells whether a part's sheet sends it through a vessel.
func goesThrough(p *manual.PartFacts, id string) bool {
	return p.Dry.Name == id || slices.ContainsFunc(p.Rinse, func(r manual.Ref) bool { return r.Name == id }) ||
		slices.ContainsFunc(p.Steps, func(s manual.Step) bool { return s.Tank.Name == id })
}

// afterWash gives the cards of rinses and dryer.
func (b *book) afterWash() []card {
	var cards []card
	shop, p := &b.manual.Shop, b.parts
	for _, r := range shop.Rinses {
		c := card{Anchor: r.ID, Name: r.Name, Kind: p.Say("Rinse"), Holds: r.Water, station: "rinse"}
		var list facts
		list.add(p.Say("Filled to the mark"), p.Shown(r.Volume))
		if r.Stages > 0 {
			list.add(p.Say("Stages"), escaped(fmt.Sprint(r.Stages)))
		}
		list.add(p.Say("Fresh water"), p.Shown(r.Flow))
		list.add(p.Say("Temperature"), p.Shown(r.Temperature))
		list.add(p.Say("Conductivity, parts running"), p.Shown(r.Conductivity))
		list.add(p.Say("pH, parts running"), p.RinsePH(r.ID))
		c.Facts = list
		c.check(b, p.Say("Level at the mark"), "", nil)
		c.check(b, p.Say("Temperature, by a second thermometer"), p.Shown(r.Temperature), nil)
		if r.Conductivity.Set {
			c.check(b, p.Say("Conductivity before the first load"), "", nil)
		}
		cards = append(cards, c)
	}
	if d := shop.Dryer; d.ID != "" || d.Name != "" {
		c := card{Anchor: d.ID, Name: d.Name, Kind: p.Say("Dryer"), Holds: d.Means, station: "dry"}
		if c.Anchor == "" {
			c.Anchor = "dryer"
		}
		if c.Name == "" {
			c.Name = p.Say("Dry")
		}
		var list facts
		list.add(p.Say("Temperature"), p.Shown(d.Temperature))
		c.Facts = list
		c.check(b, p.Say("Temperature, by a second thermometer"), p.Shown(d.Temperature), nil)
		c.check(b, p.Say("Filter clean, its floor dry"), "", nil)
		cards = append(cards, c)
	}
	for i := range cards {
		c := &cards[i]
		named := b.procedures(c, c.Anchor)
		b.goesInto(c, c.Anchor, named)
		for _, a := range named {
			if a.Head.Station == c.station {
				c.Wear = strings.Join(a.Procedure.ProtectiveEquipment, ", ")
				c.Ask = a.Head.Approval.Role
			}
		}
	}
	return cards
}
