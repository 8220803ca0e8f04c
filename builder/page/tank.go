package page

import (
	"fmt"
	"html/template"
	"math"
	"strings"

	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sums"
)

// tankCard is a tank as it stands, with its drawing.
type tankCard struct {
	Href, Name string
	Drawing    template.HTML
	Facts      []fact
}

// tankContent is what the page of a tank shows.
type tankContent struct {
	ID               string
	Title            string
	Summary, Drawing template.HTML
	Facts            []fact
	Bench            *bench   // nil on paper
	Checked          *checked // nil on paper, and where there are no readings
	Writing          *writing // nil on paper
	If               *whatIf
	Sums             []section
	Calculators      []link
	Suits            *suits
	Lists            []group
	Card, Book       string    // where it stands on paper
	Current          *cardCode // nil on paper
}

// section is a heading with finished content.
type section struct {
	Title string
	Body  template.HTML
}

// tankFacts lists what a reader must know of a tank.
func (s *site) tankFacts(root string, t *manual.Tank) []fact {
	l := factList{s: s, root: root}
	holds := ""
	if t.Chemistry.Name != "" {
		holds = l.name(manual.Chemistry, t.Chemistry)
		if strength := s.shown(t.Strength); strength != "" {
			holds += ", " + string(strength)
		}
	}
	l.html("Holds", string(s.shown(t.Volume))+" "+holds)
	l.limit("Runs at", t.Temperature)
	l.limit("Frequency", t.Frequency)
	l.orNone("Ultrasonics", t.Power, s.density(t))
	l.limit("Heater", t.Heater)
	l.html("Inside", string(s.inside(t)))
	l.limit("From the mark to the rim", t.Freeboard)
	l.limit("Parts carry over", t.DragOut)
	l.limit("Sound runs, share of the time", t.Duty)
	l.limit("Cooling", t.Cooling)
	if _, said := t.Keys["lid"]; said {
		l.text("Lid", map[bool]string{true: "yes", false: "no"}[t.Lid])
	}
	l.orNone("Insulation", t.Insulation, "")
	return l.facts
}

// orNone writes an amount that a tank can be without, and what goes with it.
func (l *factList) orNone(name string, amount manual.Limit, more template.HTML) {
	if amount.Set && amount.High == 0 {
		l.text(name, "none")
		return
	}
	l.html(name, string(l.s.shown(amount)+more))
}

// density is the power per litre, in brackets.
func (s *site) density(t *manual.Tank) template.HTML {
	power, ok1 := single(t.Power)
	volume, ok2 := single(t.Volume)
	if !ok1 || !ok2 || volume == 0 {
		return ""
	}
	return " (" + s.both(func(in quantity.System) string { return quantity.Show(power/volume, quantity.PowerDensity, in) }) + ")"
}

func (s *site) inside(t *manual.Tank) template.HTML {
	if !t.Length.Set || !t.Width.Set || !t.Depth.Set {
		return ""
	}
	return s.both(func(in quantity.System) string {
		return t.Length.In(in) + " × " + t.Width.In(in) + " × " + t.Depth.In(in) + " " + s.words.say("of liquid")
	})
}

func (s *site) tankCard(root string, t *manual.Tank) (tankCard, error) {
	facts := s.tankFacts(root, t)
	answers, err := s.tankAnswers(t)
	if err != nil {
		return tankCard{}, err
	}
	return tankCard{Href: root + s.to(tankPage(t.ID)), Name: t.Name, Drawing: drawTank(t), Facts: append(facts[:min(4, len(facts))], answers...)}, nil
}

// tank fills the page of a tank: how it stands, its make-up, heat-up and degas, who uses it.
func (s *site) tank(f *frame, t *manual.Tank) error {
	f.Title = t.Name
	f.here("wash", t.ID)
	c := tankContent{ID: t.ID, Title: t.Name, Drawing: drawTank(t), Facts: s.tankFacts(f.Root, t), Card: f.Root + s.to(CardsPage+"#"+t.ID), Book: f.Root + BookPage}
	c.Summary = s.tankSummary(t)
	var err error
	if c.Suits, err = s.tankSuits(f.Root, t.ID); err != nil {
		return err
	}
	for _, sum := range tankSums {
		if !sums.For(t, sum.calculator) {
			continue
		}
		html, err := s.sum("sum-"+sum.calculator, sum.calculator, []manual.Input{{Name: "tank", Value: t.ID}})
		if err != nil {
			return fmt.Errorf("%s: %w", t.At, err)
		}
		c.Sums = append(c.Sums, section{s.words.say(sum.title), template.HTML(html)})
	}
	if s.paper == nil {
		s.together(f)
		if err := s.interactive(f, t, &c); err != nil {
			return err
		}
	}
	var parts []*manual.Article
	for _, a := range s.Manual.Articles {
		if a.Kind == manual.Part {
			for _, st := range a.Part.Steps {
				if st.Tank.Name == t.ID {
					parts = append(parts, a)
					break
				}
			}
		}
	}
	if len(parts) > 0 {
		c.Lists = append(c.Lists, group{s.words.say("Parts that are washed here"), s.links(f.Root, parts)})
	}
	f.Content = c
	return nil
}

// interactive fills what is asked and answered on the screen.
func (s *site) interactive(f *frame, t *manual.Tank, c *tankContent) error {
	var err error
	if c.Bench, err = s.bench(t); err != nil {
		return fmt.Errorf("%s: %w", t.At, err)
	}
	if c.Checked, err = s.checked(f.Root, t); err != nil {
		return err
	}
	if c.Calculators, err = s.sumLinks(f.Root, t.ID); err != nil {
		return err
	}
	if c.Current, err = s.cardOf(f.Root, t.ID); err != nil {
		return err
	}
	s.script(f, "fold.js")
	s.script(f, "card.js")
	s.withSums(f)
	s.script(f, "bench.js")
	if c.Writing, err = s.writing(f, t.ID, t.Name); err != nil {
		return err
	}
	if c.If = s.whatIf(f.Root, t); c.If != nil {
		s.script(f, "what-if.js")
	}
	return nil
}

// tankSummary says what is in a tank, in a line.
func (s *site) tankSummary(t *manual.Tank) template.HTML {
	var parts []string
	if a := s.Manual.Named(manual.Chemistry, t.Chemistry.Name); a != nil {
		parts = append(parts, template.HTMLEscapeString(s.local(a).Head.Title))
	}
	for _, l := range []manual.Limit{t.Volume, t.Strength, t.Temperature, t.Frequency} {
		if text := s.shown(l); text != "" {
			parts = append(parts, string(text))
		}
	}
	return template.HTML(strings.Join(parts, " · ")) // every part is escaped
}

// drawTank draws a tank in cross-section, its liquid to scale with its depth and width.
func drawTank(t *manual.Tank) template.HTML {
	w, okW := single(t.Length)
	d, okD := single(t.Depth)
	ratio := 0.75
	if okW && okD && w > 0 {
		ratio = math.Min(1.6, math.Max(0.3, d/w))
	}
	const width = 84.0
	depth := width * ratio
	wall := depth * 1.22
	lid := ""
	if t.Lid {
		lid = `<path d="M4 10h92M44 10v-6h12v6"/>`
	}
	return template.HTML(fmt.Sprintf(`<svg viewBox="0 0 100 %.0f" fill="none" stroke="currentColor" stroke-width="3" aria-hidden="true" focusable="false">`+
		`<rect class="water" x="8" y="%.1f" width="84" height="%.1f" stroke="none"/>%s<path d="M8 14v%.1fh84v-%.1f"/><path d="M22 %.1fh12M44 %.1fh12M66 %.1fh12" stroke-width="6"/></svg>`,
		wall+24, 14+wall-depth, depth, lid, wall, wall, 14+wall+5, 14+wall+5, 14+wall+5))
}
