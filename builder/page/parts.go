package page

import (
	"html/template"

	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/calculators"
)

// BookPage is where package book puts the beginning of what it makes.
const BookPage = "book.html"

// Sheet is a page that another package makes of the parts of these.
type Sheet struct {
	Path, Template string
	Still          bool                   // it has no scripts
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
		if sheet.Still {
			f.HeadScript, f.Scripts = "", nil
		}
		return err
	})
}

// Parts lends what the pages are made of, for pages beside them. It is immutable; its methods may be called from several goroutines.
type Parts struct {
	s     *site
	pages map[string]job // by their names in the manual's own language
	own   *Parts         // in that language, where these are in another
}

func newParts(s *site, pages []job) *Parts {
	p := &Parts{s: s, pages: make(map[string]job, len(pages))}
	for _, j := range pages {
		if j.path == s.name(j.base) { // in the site's language
			p.pages[j.base] = j
		}
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

// StationTitle is the heading of what belongs to a station.
func (p *Parts) StationTitle(st manual.Station) string { return p.s.words.say(stationTitles[st]) }

// TitleOf is the title of an article in the language of the paper, where it is there in it.
func (p *Parts) TitleOf(a *manual.Article) string { return nameOf(p.s.local(a)) }

// Local is an article in the language of the paper, where it is there in it, or the article.
func (p *Parts) Local(a *manual.Article) *manual.Article { return p.s.local(a) }

// Called is a calculator's title, and what it answers.
func (p *Parts) Called(c *calculators.Calculator) (title, summary string) {
	return p.s.sums.Say(c.Title), p.s.sums.Say(c.Summary)
}

// Work has a calculator answer for inputs as people write them, in the words and the units of the paper.
func (p *Parts) Work(c *calculators.Calculator, values map[string]string) (calculators.Answer, error) {
	return c.RunIn(p.s.sums, values, p.s.system)
}

// Both writes a text in the shop's units and in the other family's; the page shows one of the two.
func (p *Parts) Both(say func(quantity.System) string) template.HTML { return p.s.both(say) }

// Fold brings a word into the form by which it is sorted: without case and accents.
func Fold(word string) string { return fold(word) }
