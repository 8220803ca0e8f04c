package page

import (
	"tankside/builder/decide/admit"
	"tankside/builder/decide/admit/markup"
	"tankside/builder/manual"
)

// soilsChemistries fills the table of what lifts which soil. A cell leads to the window, further down on the page.
func (s *site) soilsChemistries(f *frame) error {
	f.here("wash")
	chemistries := s.chemistries()
	c := tableContent{
		Title: s.words.say("What lifts which soil"), Corner: s.words.say("Soil"), ListTitle: s.words.say("Soil by soil"),
		Summary: s.words.say("Which chemistry lifts a soil, and how strong, how hot and how long. Whether the part can stand it is another question."),
		Dense:   true, Links: s.derivedLinks(f.Root, manual.Soil),
		Legend: []legendEntry{
			{string(admit.Yes), markup.Marks[admit.Yes], s.words.say("lifts"), s.words.say("the chemistry lifts the soil")},
			{string(admit.Conditions), markup.Marks[admit.Conditions], s.words.say(verdictWords[admit.Conditions].short), s.words.say("it lifts it in the window given")},
			{string(admit.No), markup.Marks[admit.No], s.words.say(verdictWords[admit.No].short), s.words.say("it must not be used on it, or not before it is cleared")},
			{"", "–", "", s.words.say("not known to lift it")},
		},
	}
	f.Title, f.Summary = c.Title, c.Summary
	for _, b := range chemistries {
		c.Columns = append(c.Columns, s.column(f, b, s.heldIn(b), pageOf(b.Chemistry.Path)))
	}
	for i := range s.sheet.Table.Soils {
		item := &s.sheet.Table.Soils[i]
		row := s.row(f, &item.Item)
		var list []suit
		for _, b := range chemistries {
			if _, lifts := admit.Lifts(b.Chemistry, item); !lifts {
				row.Cells = append(row.Cells, tableCell{Word: s.words.say("not known to lift it")})
				continue
			}
			one, err := s.answered(f.Root, admit.Question{Soil: item.Name, Bath: b.Name}, b)
			if err != nil {
				return err
			}
			at := pageOf(b.Chemistry.Path)
			one.Title, one.Href, one.Number, one.Anchor = b.Title, s.address(f.Root, at), s.number(at), s.anchor(item.Name+"."+b.Name)
			if one.Verdict == admit.Yes {
				one.Short = s.words.say("lifts")
			}
			row.Cells = append(row.Cells, tableCell{Href: "#" + one.Anchor, Class: one.Class, Mark: one.Mark, Word: one.Short, Note: one.Brief})
			list = append(list, one)
		}
		row.Groups = s.grouped(list)
		if len(list) == 0 {
			row.Groups = []suitGroup{{Class: string(admit.No), Mark: markup.Marks[admit.No], Title: s.words.say("No chemistry of this manual lifts it")}}
		}
		c.Rows = append(c.Rows, row)
	}
	c.numberReasons()
	f.Content = c
	return nil
}
