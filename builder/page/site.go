package page

import (
	"bytes"
	"cmp"
	"html/template"
	"strings"
	"sync"

	"github.com/yuin/goldmark/renderer"

	"tankside/builder/decide/admit/markup"
	"tankside/builder/decide/relate"
	"tankside/builder/history"
	"tankside/builder/inboth"
	"tankside/builder/language"
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sums"
	"tankside/calculators"
)

// site is what the pages of one language share. It is immutable once laid out. What does not depend on the language is the same in the
// sites of all languages: see speak.
type site struct {
	Input
	*assets
	system    quantity.System
	drawings  map[string]template.HTML // drawings of the line by station
	renderer  renderer.Renderer
	used      relate.Uses
	known     relate.Knowledge // of causes and observations
	histories []history.Tank   // what the records show on the day of publication

	language string // of the pages, as a BCP 47 tag
	words    words
	sums     language.Words                    // of the calculators
	sheets   map[string]*template.Template     // page template by name
	sheet    markup.Sheet                      // of “may it go in?”
	paper    *paper                            // nil where pages are written, not the book
	cards    func() (map[string]string, error) // the codes of the cards by what they hang at
	prints   func() (map[string]string, error) // see sheetCodes

	mine map[string]bool // pages that there are in the language, by their names in the manual's own
	all  []*site         // the sites of every language, the manual's own first
}

// sheetNames are the templates of whole pages; each fills the frame of page.html.
var sheetNames = []string{"home", "article", "symptom", "tank", "list", "a-z", "glossary", "rests-on", "this-edition", "changes", "forward", "vessel", "table", "may-it-go-in", "what-is-seen", "visit", "calculator",
	"record", "record-month", "book", "book-chapter", "book-whole", "handouts", "paper-article", "paper-symptom", "paper-tank", "paper-table"}

// sharedSheets are the templates that those use.
var sharedSheets = []string{"page", "find", "parts", "tank-card", "suits", "record-chart", "together", "write", "running-head", "paper-parts", "card-code", "card-current", "book-parts"}

func newSite(in Input, add Sink) (*site, error) {
	if in.Memo != nil {
		in.Memo.begin(in)
	}
	a, err := newAssets(in, add)
	if err != nil {
		return nil, err
	}
	s := &site{Input: in, assets: a, drawings: map[string]template.HTML{}, system: sums.System(in.Manual)}
	s.renderer = newRenderer()
	for _, st := range manual.Stations {
		data, err := in.Theme.Read("drawings/line/" + string(st) + ".svg")
		if err != nil {
			return nil, err
		}
		s.drawings[string(st)] = template.HTML(bytes.TrimSpace(data)) // the theme's own drawing, or one the shop put there knowingly
	}
	if s.used = in.Used; s.used == nil {
		s.used = relate.UsedBy(in.Manual)
	}
	s.known = relate.Causes(in.Manual)
	if s.histories, err = histories(in); err != nil {
		return nil, err
	}
	if err := a.recordParcels(s.histories); err != nil {
		return nil, err
	}
	if s, err = s.speak(s.manualLanguage()); err != nil {
		return nil, err
	}
	own := s
	s.cards = sync.OnceValues(func() (map[string]string, error) { return own.cardCodes() })
	s.prints = sync.OnceValues(func() (map[string]string, error) { return own.sheetCodes() })
	return s, s.withOthers()
}

// manualLanguage is the language in which the manual is written.
func (s *site) manualLanguage() string { return cmp.Or(s.Manual.Shop.Language, english) }

// speak gives the site in a language, a BCP 47 tag: what its pages say comes from the words of that language, and so do the templates.
// Whatever a page says in words that no article wrote has to come from the site that renders it.
func (s *site) speak(tag string) (*site, error) {
	other := *s
	other.language = tag
	if err := other.learn(); err != nil {
		return nil, err
	}
	if len(other.sums) > 0 {
		if err := other.addParcelAs(other.parcelOf(sumsWords), sumsWords, []byte(other.sums.Pack())); err != nil {
			return nil, err
		}
	}
	return &other, other.openSheet()
}

// learn reads the words of the site's language, and the templates that say them.
func (s *site) learn() error {
	if s.Memo != nil {
		if known, has := s.Memo.speech[s.language]; has {
			s.words, s.sums, s.sheets = known.words, known.sums, known.sheets
			return nil
		}
	}
	var err error
	if s.words, err = interfaceWords(s.Theme, s.language); err != nil {
		return err
	}
	if s.sums, err = sumWords(s.Theme, s.language); err != nil {
		return err
	}
	s.sheets = map[string]*template.Template{}
	if err := s.parseSheets(); err != nil {
		return err
	}
	if s.Memo != nil {
		s.Memo.speech[s.language] = speech{s.words, s.sums, s.sheets}
	}
	return nil
}

// parseSheets parses the templates. An error names the template's file and line.
func (s *site) parseSheets() error {
	kinds := s.words.kinds() // once, as settle does with what is said
	base := template.New("page").Funcs(template.FuncMap{"say": s.words.say, "kindWords": func() template.HTMLAttr { return kinds }})
	for _, name := range sharedSheets {
		if err := s.parse(base, name); err != nil {
			return err
		}
	}
	for _, name := range sheetNames {
		t, err := base.Clone()
		if err != nil {
			return err
		}
		if err := s.parse(t, name); err != nil {
			return err
		}
		if err := s.words.settle(t); err != nil {
			return s.fault(name, err)
		}
		s.sheets[name] = t
	}
	return nil
}

func (s *site) parse(t *template.Template, name string) error {
	file := "templates/" + name + ".html"
	data, err := s.Theme.Read(file)
	if err != nil {
		return err
	}
	if name == "page" {
		_, err = t.Parse(string(data))
	} else {
		_, err = t.New(name + ".html").Parse(string(data))
	}
	if err != nil {
		return s.fault(name, err)
	}
	return nil
}

// pages lists every page of the edition.
func (s *site) pages() []job {
	var jobs []job
	for _, one := range s.all {
		list := one.jobs()
		jobs = append(append(jobs, list...), one.forwards(list)...)
	}
	return jobs
}

// jobs lists every page in the site's language: in one of translations, the lists, the translations, and what is spoken in it of that which
// follows from the model. The glossary, what rests on what, and what changed, are there in the
// manual's own language only.
func (s *site) jobs() []job {
	jobs := s.lists()
	for _, d := range s.derived() {
		if d.spoken {
			jobs = append(jobs, s.page(d.path, d.sheet, d.fill))
		}
	}
	if !s.isOwn() {
		for _, t := range s.translated() {
			jobs = append(jobs, s.articleJob(t.Original, t))
		}
		return jobs
	}
	jobs = append(jobs, s.page(glossaryPage, "glossary", (*site).glossary), s.page(restsPage, "rests-on", (*site).rests),
		s.page(changesPage, "changes", (*site).changed), s.page(reviewsPage, "list", (*site).reviews))
	for _, a := range s.Manual.Articles {
		jobs = append(jobs, s.articleJob(a, a))
	}
	for _, a := range s.draftsNamed() {
		jobs = append(jobs, s.page(articlePage(a), "list", func(s *site, f *frame) error { return s.draft(f, a) }))
	}
	return jobs
}

func (s *site) articleJob(of, a *manual.Article) job {
	sheet := "article"
	if a.Kind == manual.Symptom { // its text is a tree that is walked
		sheet = "symptom"
	}
	return s.remembered(articlePage(of), a, func(s *site) job {
		return s.page(articlePage(of), sheet, func(s *site, f *frame) error { return s.article(f, a) })
	})
}

// lists are the pages that lead to the others, the visit report and the calculators.
func (s *site) lists() []job {
	jobs := []job{
		s.page(homePage, "home", (*site).home),
		s.page(wordsPage, "a-z", (*site).allWords),
		s.page(editionPage, "this-edition", (*site).thisEdition),
		s.page(visitPage, "visit", (*site).visit),
		s.page(calculatorsPage, "list", (*site).calculators),
	}
	for _, c := range calculators.All() {
		jobs = append(jobs, s.page(calculatorPage(c.Name), "calculator", func(s *site, f *frame) error { return s.calculator(f, c) }))
	}
	for i := range s.Manual.Shop.Tanks {
		t := &s.Manual.Shop.Tanks[i]
		jobs = append(jobs, s.page(tankPage(t.ID), "tank", func(s *site, f *frame) error { return s.tank(f, t) }))
	}
	jobs = append(jobs, s.vessels()...)
	jobs = append(jobs, s.handoutJobs()...)
	jobs = append(jobs, s.recordJobs()...)
	for _, st := range manual.Stations {
		jobs = append(jobs, s.page(stationPage(st), "list", func(s *site, f *frame) error { return s.station(f, st) }))
	}
	for _, k := range manual.Kinds {
		jobs = append(jobs, s.page(kindPage(k), "list", func(s *site, f *frame) error { return s.kind(f, k) }))
	}
	return jobs
}

// usualPage is the room in bytes that most pages need: one that grew into it would be copied five times.
const usualPage = 16 << 10

// page makes the job that renders one page: fill says what stands in the frame. base is the page's name in the manual's own language.
func (s *site) page(base, sheet string, fill func(*site, *frame) error) job {
	at := s.name(base)
	return job{base: base, path: at, sheet: sheet, fill: fill, render: func(add Sink) error {
		f := s.frame(base)
		if sheet == "handouts" || strings.HasPrefix(sheet, "book") {
			f.SheetStyle = s.sheetStyle
		}
		if err := fill(s, f); err != nil {
			return err
		}
		var b bytes.Buffer
		b.Grow(usualPage)
		if err := s.sheets[sheet].Execute(&b, f); err != nil {
			return s.fault(sheet, err)
		}
		return add(at, inboth.HTML(b.Bytes()))
	}}
}

// Path is the page of an article within the edition.
func Path(a *manual.Article) string { return articlePage(a) }

// Translated is the page that says in another language what a page of the manual's own says, both within the edition.
func Translated(page, language string) string { return inLanguage(page, language) }

// TankPath is the page of a tank within the edition.
func TankPath(id string) string { return tankPage(id) }

// Where pages stand in the edition.

const (
	homePage     = "index.html"
	wordsPage    = "a-z.html"
	glossaryPage = "glossary.html"
	editionPage  = "this-edition.html"
)

func articlePage(a *manual.Article) string { return strings.TrimSuffix(a.Path, ".md") + ".html" }
func tankPage(id string) string            { return "tanks/" + id + ".html" }
func stationPage(st manual.Station) string { return "stations/" + string(st) + ".html" }
func kindPage(k manual.Kind) string        { return k.Folder() + "/index.html" }
func rootOf(page string) string            { return strings.Repeat("../", strings.Count(page, "/")) }
