package page

import (
	"html/template"

	"tankside/builder/decide/admit"
	"tankside/builder/decide/admit/markup"
	"tankside/builder/manual"
)

// tableContent is what the table template shows: everything at a glance where there is room, and the same as a list with the reasons
// in full, which is also what a phone shows.
type tableContent struct {
	Title, Summary, Corner, ListTitle string
	Dense                             bool // too many columns for sentences: a word, a mark and the sentence in the list
	Legend                            []legendEntry
	Columns                           []tableColumn
	Rows                              []tableRow
	Links                             []link
}

type legendEntry struct{ Class, Mark, Short, Means string }

type tableColumn struct{ Title, Note, Href, Number string }

type tableRow struct {
	Title, Href, Anchor string
	Number              string // on paper, of the section that Href leads to
	Ask                 string // the page that asks, with what the row is about
	Cells               []tableCell
	Groups              []suitGroup
}

// tableCell is a cell; without Href there is nothing to say, and Word is only read out.
type tableCell struct {
	Href, Class, Mark, Word string
	Note                    template.HTML
	Reason                  int // the number of the reason in the list, where the cell leads there
}

// legend explains the marks, and the words that narrow cells have.
func (s *site) legend(narrow bool) []legendEntry {
	var list []legendEntry
	for _, v := range []admit.Verdict{admit.Yes, admit.Conditions, admit.No} {
		w := verdictWords[v]
		one := legendEntry{Class: string(v), Mark: markup.Marks[v], Means: s.words.say(w.group)}
		if narrow {
			one.Short = s.words.say(w.short)
		}
		list = append(list, one)
	}
	return list
}

// pageOf is the page of an article by its path in the manual.
func pageOf(path string) string { return articlePage(&manual.Article{Path: path}) }

// materialsTanks fills the table of materials and tanks as this edition has them. A cell says which fact decides, and leads to the answer.
func (s *site) materialsTanks(f *frame) error {
	f.here("wash")
	tanks := s.tankBaths()
	c := tableContent{
		Title: s.words.say("Which material in which tank"), Corner: s.words.say("Material"), ListTitle: s.words.say("Material by material"),
		Summary: s.words.say("May this part go in this tank, by what this edition says of the tanks? Whether the soil comes off is another question; an assembly is as weak as its softest part."),
		Dense:   len(tanks) > 4, Legend: s.legend(len(tanks) > 4), Links: s.derivedLinks(f.Root, manual.Material),
	}
	f.Title, f.Summary = c.Title, c.Summary
	for _, b := range tanks {
		c.Columns = append(c.Columns, s.column(f, b, b.Chemistry.Title, tankPage(b.Name)))
	}
	return s.fillMaterials(f, c, tanks, true)
}

// chemistriesMaterials fills the table of materials and chemistries. A cell leads to its reason in full, further down on the page.
func (s *site) chemistriesMaterials(f *frame) error {
	f.here("wash")
	chemistries := s.chemistries()
	c := tableContent{
		Title: s.words.say("What a chemistry does to a material"), Corner: s.words.say("Material"), ListTitle: s.words.say("Material by material"),
		Summary: s.words.say("Each chemistry by itself, in a tank made up for it, at values that both it and the material can live with, if there are any."),
		Dense:   true, Legend: s.legend(true), Links: s.derivedLinks(f.Root, manual.Chemistry),
	}
	f.Title, f.Summary = c.Title, c.Summary
	for _, b := range chemistries {
		c.Columns = append(c.Columns, s.column(f, b, s.heldIn(b), pageOf(b.Chemistry.Path)))
	}
	return s.fillMaterials(f, c, chemistries, false)
}

// fillMaterials fills the rows of a table of materials. asking has the cells lead to the page that asks, which knows the tanks even
// without scripts; otherwise they lead to the list.
func (s *site) fillMaterials(f *frame, c tableContent, baths []*admit.Bath, asking bool) error {
	for i := range s.sheet.Table.Materials {
		m := &s.sheet.Table.Materials[i].Item
		row := s.row(f, m)
		row.Ask = s.address(f.Root, markup.Ask(admit.Question{Materials: []string{m.Name}}))
		var list []suit
		for _, b := range baths {
			one, err := s.suit(f.Root, m, b)
			if err != nil {
				return err
			}
			at := pageOf(b.Chemistry.Path)
			if b.Tank != nil {
				at = tankPage(b.Name)
			}
			one.Title, one.Anchor, one.Href, one.Number = b.Title, s.anchor(m.Name+"."+b.Name), s.address(f.Root, at), s.number(at)
			cell := tableCell{Href: "#" + one.Anchor, Class: one.Class, Mark: one.Mark, Word: one.Word, Note: one.Fact}
			if c.Dense {
				cell.Word, cell.Note = one.Short, one.Brief
			}
			if asking && (s.paper == nil || !c.Dense) { // paper answers nothing: there a narrow cell has the number of its reason
				cell.Href = one.Ask
			}
			row.Cells = append(row.Cells, cell)
			list = append(list, one)
		}
		row.Groups = s.grouped(list)
		c.Rows = append(c.Rows, row)
	}
	c.numberReasons()
	f.Content = c
	return nil
}

// column is the head of a bath's column, which leads to a page.
func (s *site) column(f *frame, b *admit.Bath, note, page string) tableColumn {
	return tableColumn{b.Title, note, s.address(f.Root, page), s.number(page)}
}

// row begins the row of a material or a soil.
func (s *site) row(f *frame, of *admit.Item) tableRow {
	page := pageOf(of.Path)
	return tableRow{Title: of.Title, Href: s.address(f.Root, page), Number: s.number(page), Anchor: s.anchor(of.Name)}
}

// numberReasons numbers what the list says with reasons, in its order, and the cells that lead there.
func (c *tableContent) numberReasons() {
	numbers := map[string]int{}
	for _, row := range c.Rows {
		for _, g := range row.Groups {
			for i := range g.Suits {
				if one := &g.Suits[i]; len(one.Reasons) > 0 {
					numbers["#"+one.Anchor] = len(numbers) + 1
					one.Reason = len(numbers)
				}
			}
		}
	}
	for _, row := range c.Rows {
		for i := range row.Cells {
			row.Cells[i].Reason = numbers[row.Cells[i].Href]
		}
	}
}

// heldIn names the tanks that hold a chemistry today.
func (s *site) heldIn(chemistry *admit.Bath) string {
	text := ""
	for _, t := range s.tankBaths() {
		if t.Chemistry.Path == chemistry.Chemistry.Path {
			if text != "" {
				text += ", "
			}
			text += t.Title
		}
	}
	return text
}
