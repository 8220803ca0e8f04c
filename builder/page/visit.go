package page

import (
	_ "embed"

	"tankside/builder/record"
)

const (
	visitPage       = "visit.html"
	visitSchemaFile = "visit-schema.json"
)

// visitSchema is the JSON Schema (draft 2020-12) of a saved visit report. It is published with the edition, and the page checks with it what it
// reads in.
//
//go:embed visit-schema.json
var visitSchema []byte

// visitContent is what the page of the visit report shows.
type visitContent struct {
	Schema string // parcel, relative to the page
	File   string // the schema as a file
	Manual string // the edition, in a line
	Tanks  []string
	Lines  []int // of the paper form

	Baths      []visitBath // of which a chart can be taken along
	Quantities []work      // that can be charted
}

// visitBath is a bath with the parcel of its published record, or "".
type visitBath struct{ ID, Name, Parcel string }

// visit fills the page on which a technician keeps a visit report.
func (s *site) visit(f *frame) error {
	f.Title = s.words.say("Visit report")
	f.Summary = s.words.say("What was found, measured, worked out and tried at a tank. It stays on this device.")
	c := visitContent{Schema: s.parcels["visit-schema"], File: visitSchemaFile, Lines: make([]int, 14)}
	c.Manual = s.Manual.Shop.Name + ", " + s.edition()
	for i := range s.Manual.Shop.Tanks {
		c.Tanks = append(c.Tanks, s.Manual.Shop.Tanks[i].Name)
	}
	add := func(id, name string) {
		b := visitBath{ID: id, Name: name}
		if file := s.parcels["record-"+id]; file != "" {
			b.Parcel = f.Root + file
		}
		c.Baths = append(c.Baths, b)
	}
	shop := &s.Manual.Shop
	for i := range shop.Tanks {
		add(shop.Tanks[i].ID, shop.Tanks[i].Name)
	}
	for i := range shop.Rinses {
		add(shop.Rinses[i].ID, shop.Rinses[i].Name)
	}
	for _, q := range record.Quantities {
		if q.Name != "loads" && q.Name != "added" {
			c.Quantities = append(c.Quantities, work{q.Name, s.words.say(q.Title)})
		}
	}
	f.Content = c
	for _, name := range []string{"rows.js", "readings.js", "chart.js", "visit-things.js"} {
		s.script(f, name)
	}
	s.script(f, "visit-store.js")
	s.script(f, "visit.js")
	return nil
}

// notes has a page offer to note something in the visit report.
func (s *site) notes(f *frame) {
	if f.Notes {
		return
	}
	f.Notes = true
	s.script(f, "visit-store.js")
	s.script(f, "note.js")
}

// visitSchema publishes the schema, as a file for other programs and as a parcel for the page.
func (a *assets) visitSchema(Input) error {
	return a.addParcel("visit-schema", visitSchema)
}
