package page

import (
	"html/template"
	"strings"

	"tankside/builder/admit"
	"tankside/builder/admit/markup"
	"tankside/builder/manual"
	"tankside/builder/relate"
	"tankside/calculators/quantity"
)

// soilsChemistries fills the table of what lifts which soil. A cell leads to the window, further down on the page.
func (s *site) soilsChemistries(f *frame) error {
	f.here("wash")
	chemistries := s.chemistries()
	c := tableContent{
		Title: s.words.say("What lifts which soil"), Corner: s.words.say("Soil"), ListTitle: s.words.say("Soil by soil"),
		Summary: s.words.say("Which chemistry lifts a soil, and how strong, how hot and how long. Whether the part can stand it is another question."),
		Dense:   true, Links: s.derivedLinks(f.Root, manual.Soil),
		Legend: []legendEntry{{string(admit.Yes), markup.Marks[admit.Yes], s.words.say("lifts"), s.words.say("the chemistry lifts the soil")},
			{"", "–", "", s.words.say("not known to lift it")}},
	}
	f.Title, f.Summary = c.Title, c.Summary
	for _, b := range chemistries {
		c.Columns = append(c.Columns, tableColumn{b.Title, s.heldIn(b), pageOf(f.Root, b.Path)})
	}
	for _, item := range s.sheet.Table.Soils {
		soil := s.Manual.Named(manual.Soil, item.Name)
		row := tableRow{Title: item.Title, Href: f.Root + articlePage(soil), Anchor: item.Name}
		group := suitGroup{Class: string(admit.Yes), Mark: markup.Marks[admit.Yes], Title: s.words.say("Lifted by")}
		for _, b := range chemistries {
			r, lifts := relate.Lifts(s.Manual.Named(manual.Chemistry, b.Name), soil)
			if !lifts {
				row.Cells = append(row.Cells, tableCell{Word: s.words.say("not known to lift it")})
				continue
			}
			one := suit{Title: b.Title, Href: pageOf(f.Root, b.Path), Anchor: item.Name + "." + b.Name, Fact: s.windowText(r.Window), FactHref: row.Href + "#" + markup.Anchor}
			if one.Fact == "" {
				one.Fact, one.FactHref = escaped(s.words.say("no window of its own: the chemistry's counts")), one.Href+"#"+markup.Anchor
			}
			group.Suits = append(group.Suits, one)
			row.Cells = append(row.Cells, tableCell{Href: "#" + one.Anchor, Class: string(admit.Yes), Mark: markup.Marks[admit.Yes], Word: s.words.say("lifts")})
		}
		if len(group.Suits) == 0 {
			group.Class, group.Mark, group.Title = string(admit.No), markup.Marks[admit.No], s.words.say("No chemistry of this manual lifts it")
		}
		row.Groups = []suitGroup{group}
		c.Rows = append(c.Rows, row)
	}
	f.Content = c
	return nil
}

// windowText writes how strong, hot, long and at what frequency.
func (s *site) windowText(w manual.Window) template.HTML {
	var set []manual.Limit
	for _, l := range []manual.Limit{w.Strength, w.Temperature, w.Time, w.Frequency} {
		if l.Set {
			set = append(set, l)
		}
	}
	if len(set) == 0 {
		return ""
	}
	return s.both(func(in quantity.System) string {
		var out []string
		for _, l := range set {
			out = append(out, l.In(in))
		}
		return strings.Join(out, ", ")
	})
}
