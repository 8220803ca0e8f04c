package page

import (
	"strings"

	"tankside/builder/decide/admit/markup"
	"tankside/builder/decide/relate"
	"tankside/builder/language"
	"tankside/builder/manual"
)

// derivedPage is a page that nobody writes: it follows from what the articles' headers and the shop file say.
type derivedPage struct {
	path, sheet string
	title, note string // as they are linked; English
	about       []manual.Kind
	spoken      bool // it is there in the site's language
	fill        func(*site, *frame) error
}

// derived lists the pages that follow from the manual, those that have something to show.
func (s *site) derived() []derivedPage {
	var list []derivedPage
	t := s.sheet.Table
	tanks, chemistries := len(s.tankBaths()), len(s.chemistries())
	if len(s.known.Observations) > 0 {
		list = append(list, derivedPage{seenPage, "what-is-seen", "Several things at once", "tick what is seen, read the causes",
			[]manual.Kind{manual.Symptom}, s.ranks(), (*site).seen})
	}
	if s.asks() {
		list = append(list, derivedPage{markup.Page, "may-it-go-in", "May it go in?", "pick material, soil and tank",
			[]manual.Kind{manual.Material, manual.Part}, s.isOwn(), (*site).ask})
	}
	if len(t.Materials) > 0 && tanks > 0 {
		list = append(list, derivedPage{"tables/materials-tanks.html", "table", "Which material in which tank", "by what this edition says of the tanks",
			[]manual.Kind{manual.Material}, s.isOwn(), (*site).materialsTanks})
	}
	if len(t.Materials) > 0 && chemistries > 0 {
		list = append(list, derivedPage{"tables/chemistries-materials.html", "table", "What a chemistry does to a material", "each no with its reason",
			[]manual.Kind{manual.Chemistry, manual.Material}, s.isOwn(), (*site).chemistriesMaterials})
	}
	if len(t.Soils) > 0 && chemistries > 0 {
		list = append(list, derivedPage{"tables/soils-chemistries.html", "table", "What lifts which soil", "how strong, how hot, how long",
			[]manual.Kind{manual.Soil, manual.Chemistry}, s.isOwn(), (*site).soilsChemistries})
	}
	return list
}

// derivedLinks links the derived pages; those about a kind of article, or all for "".
func (s *site) derivedLinks(root string, about manual.Kind) []link {
	var links []link
	for _, d := range s.derived() {
		for i, k := range d.about {
			if k == about || about == "" && i == 0 {
				l := s.toPage(root, d.path, s.words.say(d.title))
				l.Note = s.words.say(d.note)
				links = append(links, l)
			}
		}
	}
	return links
}

// asks tells whether there is anything to ask: a material, and a bath that it may go into or not.
func (s *site) asks() bool { return len(s.sheet.Table.Materials) > 0 && len(s.sheet.Table.Baths()) > 0 }

// openSheet makes what all answers in the site's language are made of, and the parcels with which its page answers in the browser.
func (s *site) openSheet() error {
	s.sheet = markup.Sheet{Table: relate.Table(s.Manual), Words: language.Words(s.words)}
	if !s.asks() {
		return nil
	}
	return s.addParcelAs(s.parcelOf(admitTable), admitTable, s.sheet.Pack())
}

// admitTable is the parcel with the facts of “may it go in?”. There is one for each language of the edition's pages.
const admitTable = "admit-table"

// parcelOf is the key of a parcel of which each language has its own.
func (s *site) parcelOf(name string) string {
	if s.language == s.manualLanguage() {
		return name
	}
	return name + "-" + strings.ToLower(s.language)
}
