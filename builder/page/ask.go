package page

import (
	"strings"

	"tankside/builder/decide/admit"
	"tankside/builder/decide/admit/markup"
	"tankside/builder/manual"
)

// askContent is what the page “May it go in?” shows: the fields, and for a reader without scripts every answer of one material in a tank.
type askContent struct {
	Table       string // parcel, from the edition's root
	Materials   []choice
	Soils       []choice
	Tanks       []choice
	Chemistries []choice
	Rows        []tableRow
}

// choice is one thing to pick. Words are those under which a filter finds it.
type choice struct{ Value, Title, Note, Words string }

// ask fills the page that answers whether a part may go into a bath.
func (s *site) ask(f *frame) error {
	f.Title = s.words.say("May it go in?")
	f.Summary = s.words.say("Pick what the part is made of, what is on it and which tank, and read whether it may go in, and how.")
	f.here("wash")
	c := askContent{Table: s.parcels[s.parcelOf(admitTable)]}
	pick := func(kind manual.Kind, items []admit.Item) (list []choice) {
		for _, item := range items {
			one := choice{Value: item.Name, Title: item.Title}
			if a := s.Manual.Named(kind, item.Name); a != nil {
				one.Words = fold(strings.Join(append([]string{item.Title, item.Name}, a.Head.AlsoCalled...), " "))
			}
			list = append(list, one)
		}
		return list
	}
	c.Materials, c.Soils = pick(manual.Material, s.sheet.Table.MaterialItems()), pick(manual.Soil, s.sheet.Table.SoilItems())
	for _, b := range s.tankBaths() {
		c.Tanks = append(c.Tanks, choice{Value: b.Name, Title: b.Title, Note: b.Chemistry.Title})
	}
	for _, b := range s.chemistries() {
		c.Chemistries = append(c.Chemistries, choice{Value: b.Name, Title: b.Title})
	}
	for i := range s.sheet.Table.Materials {
		m := &s.sheet.Table.Materials[i].Item
		row := tableRow{Title: m.Title, Href: f.Root + pageOf(m.Path)}
		var list []suit
		for _, b := range s.tankBaths() {
			one, err := s.suit(f.Root, m, b)
			if err != nil {
				return err
			}
			one.Title, one.Href = b.Title, f.Root+tankPage(b.Name)
			// The address of the question, so that a link to it finds its answer without scripts as well.
			one.Anchor = markup.Key(admit.Question{Materials: []string{m.Name}, Bath: b.Name})
			list = append(list, one)
		}
		row.Groups = s.grouped(list)
		row.Anchor = markup.Key(admit.Question{Materials: []string{m.Name}})
		c.Rows = append(c.Rows, row)
	}
	s.asking(f, "admit.js")
	f.Content = c
	return nil
}
