package page

import (
	"html/template"

	"tankside/builder/decide/admit"
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sums"
	"tankside/calculators"
)

// Where package book puts what it makes, to be linked from the pages.
const (
	BookPage  = "book.html"
	CardsPage = "cards.html"
)

// Sheet is a page that another package makes of the parts of these.
type Sheet struct {
	Path, Template string
	Fill           func() (Filled, error) // called once
}

// Filled is what a Sheet shows within the frame that all pages have.
type Filled struct {
	Title, Summary string
	Content        any
}

func (s *site) beside(sheet Sheet) job {
	return s.page(sheet.Path, sheet.Template, func(_ *site, f *frame) error {
		filled, err := sheet.Fill()
		if filled.Summary != "" {
			f.Summary = filled.Summary
		}
		f.Title, f.Content = filled.Title, filled.Content
		return err
	})
}

// Parts lends what the pages are made of, for pages beside them. It is immutable; its methods may be called from several goroutines.
type Parts struct {
	s     *site
	pages map[string]job
}

func newParts(s *site, pages []job) *Parts {
	p := &Parts{s, make(map[string]job, len(pages))}
	for _, j := range pages {
		p.pages[j.path] = j
	}
	return p
}

// Input is what the pages are made of.
func (p *Parts) Input() *Input { return &p.s.Input }

// Line is the line with a station marked; at the tanks and rinses only the one that is named. An empty station marks none.
func (p *Parts) Line(st manual.Station, name string) []Stop {
	f := frame{Line: p.s.line()}
	for i := range f.Line {
		stop := &f.Line[i]
		stop.Current = stop.station == st && (name == "" || stop.Name == name)
	}
	return f.Line
}

// Mark is the file of the shop's mark.
func (p *Parts) Mark() string { return p.s.mark() }

// Tables are the pages of tables that follow from the manual, in their order: path and title.
func (p *Parts) Tables() [][2]string {
	var list [][2]string
	for _, d := range p.s.derived() {
		if d.sheet == "table" {
			list = append(list, [2]string{d.path, p.s.words.say(d.title)})
		}
	}
	return list
}

// Say gives a phrase of the interface in the manual's language.
func (p *Parts) Say(english string) string { return p.s.words.say(english) }

// KindTitle is the heading of the articles of a kind.
func (p *Parts) KindTitle(k manual.Kind) string { return p.s.words.say(k.Heading()) }

// Both writes a text in the shop's units and in the other family's; the page shows one of the two.
func (p *Parts) Both(say func(quantity.System) string) template.HTML { return p.s.both(say) }

// Shown writes a limit in both families of units, or "".
func (p *Parts) Shown(l manual.Limit) template.HTML { return p.s.shown(l) }

// Reading gives one result of a calculator in both families of units, or "" where the shop file does not tell enough for it.
func (p *Parts) Reading(calculator, reading string, given map[string]string) (template.HTML, error) {
	return p.s.reading(calculator, reading, given)
}

// Answer gives the answer of a calculator in the shop's units; false where the shop file does not tell enough for it.
func (p *Parts) Answer(calculator string, given map[string]string) (calculators.Answer, bool, error) {
	values, err := sums.Values(p.s.Manual, calculator, given)
	if err != nil {
		return calculators.Answer{}, false, err
	}
	c, known := calculators.Named(calculator)
	if !known {
		return calculators.Answer{}, false, calculators.Unknown(calculator)
	}
	a, err := c.RunIn(p.s.sums, values, p.s.system)
	return a, err == nil, nil
}

// Drawing draws a tank in cross-section.
func (p *Parts) Drawing(t *manual.Tank) template.HTML { return drawTank(t) }

// Verdicts sorts the manual's materials by whether they may go into a tank as this edition has it: their titles, each with what to keep to, in the
// order of the manual. It is false where nothing is known of what the tank holds.
func (p *Parts) Verdicts(tank string) (map[admit.Verdict][]template.HTML, bool, error) {
	b := p.s.sheet.Table.Bath(tank)
	if b == nil || b.Tank == nil {
		return nil, false, nil
	}
	sorted := map[admit.Verdict][]template.HTML{}
	for i := range p.s.sheet.Table.Materials {
		m := &p.s.sheet.Table.Materials[i].Item
		one, err := p.s.suit("", m, b)
		if err != nil {
			return nil, false, err
		}
		text := escaped(m.Title)
		if one.Verdict != admit.No && one.Fact != "" {
			text += " (" + one.Fact + ")"
		}
		sorted[one.Verdict] = append(sorted[one.Verdict], text)
	}
	return sorted, true, nil
}

// Stands is the temperature that the most sensitive of the materials which may go into a tank at its set-point stands, where that is less than what
// the chemistry allows; false where none is so sensitive.
func (p *Parts) Stands(tank string) (manual.Limit, bool, error) {
	b := p.s.sheet.Table.Bath(tank)
	if b == nil || b.Tank == nil || !b.Temperature.Set {
		return manual.Limit{}, false, nil
	}
	var least manual.Limit
	for i := range p.s.sheet.Table.Materials {
		m := &p.s.sheet.Table.Materials[i]
		if stands := m.Temperature; stands.Set && stands.High >= b.Temperature.High && (!least.Set || stands.High < least.High) {
			one, err := p.s.suit("", &m.Item, b)
			if err != nil {
				return manual.Limit{}, false, err
			}
			if one.Verdict != admit.No {
				least = stands
			}
		}
	}
	if ceiling := b.Chemistry.Ceiling; least.Set && ceiling.Set && ceiling.High < least.High {
		return manual.Limit{}, false, nil
	}
	least.Low = least.High
	return least, least.Set, nil
}

// Drifts tells whether its own sound warms a tank past its set-point.
func (p *Parts) Drifts(tank string) bool {
	b := p.s.sheet.Table.Bath(tank)
	return b != nil && b.Tank != nil && b.Tank.WarmsItself()
}

// RinsePH is the pH of a rinse while parts run; it says what is not known where something is missing for it.
func (p *Parts) RinsePH(id string) template.HTML { return p.s.runsPH(id) }

// Fold brings a word into the form by which it is sorted: without case and accents.
func Fold(word string) string { return fold(word) }
