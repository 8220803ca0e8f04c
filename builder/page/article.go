package page

import (
	"html/template"
	"slices"
	"strings"

	"tankside/builder/manual"
)

// articleContent is what the article and symptom templates show.
type articleContent struct {
	Class, Title, Summary, AlsoCalled string
	KindName, KindHref                string
	Safety                            []template.HTML
	Gauges                            gauges
	Facts                             []fact
	Body                              template.HTML
	Suits                             []suits // materials
	Contents                          []link  // of a long text: its parts
	Used, SeeAlso                     []link
	Next                              *link
	Provenance                        provenance

	Swatch   string // symptoms
	Label    string // the title in two to four words
	Gate     gate
	Intro    template.HTML // what its text says before the first step and the gate has not
	Steps    []step
	Overview template.HTML
}

// A text of so many parts and bytes is read by its parts: it takes more than a screen of a desk, and half a dozen of a phone.
const (
	longParts   = 4
	longLetters = 3500
)

// contentsOf links the parts of a long text, in their order; none of one that is read in a look.
func contentsOf(a *manual.Article) []link {
	if len(a.Body) < longLetters {
		return nil
	}
	var parts []link
	for _, section := range a.Sections {
		if section.Level == 2 {
			parts = append(parts, link{Href: "#" + section.Anchor, Title: section.Heading})
		}
	}
	if len(parts) < longParts {
		return nil
	}
	return parts
}

// fact is one row of a table of facts.
type fact struct {
	Name  string
	Value template.HTML
}

// link is a link to a page, with a remark.
type link struct {
	Href, Title, Note string

	// Where they are not the page's: the languages of the page it leads to, of the title, of the remark.
	Hreflang, Lang, NoteLang string

	Number string // on paper, of the section that it leads to
}

// provenance is where an article's content comes from and who answers for it.
type provenance struct {
	Sources  []numbered
	Rests    *link // to what rests on what
	Accepted []string
	Lang     string // of the sources, where it is not the page's
	Control  Control
}

// numbered is a source with its number, by which marks in the text name it.
type numbered struct {
	Number int
	Text   string
}

// article fills the page of an article.
func (s *site) article(f *frame, a *manual.Article) error {
	f.Title, f.Summary = nameOf(a), a.Head.Summary
	f.here(a.Head.Station, s.tanksOf(a)...)
	root, of := f.Root, original(a)
	c := articleContent{
		Class: string(a.Kind), Title: nameOf(a), Summary: a.Head.Summary,
		AlsoCalled: strings.Join(a.Head.AlsoCalled, ", "),
		KindName:   s.words.say(a.Kind.Heading()), KindHref: root + s.to(kindPage(a.Kind)),
		Gauges: s.gauges(a), Facts: s.facts(root, a),
		Used: s.usedBy(root, of), SeeAlso: s.seeAlso(root, of), Next: s.nextLesson(root, of),
		Provenance: s.provenance(root, a),
	}
	var err error
	if c.Suits, err = s.materialSuits(root, of); err != nil {
		return err
	}
	barred, err := s.barred(of)
	if err != nil {
		return err
	}
	f.dark(barred)
	b := body{s: s, a: a, root: root, source: a.Body}
	if s.Preview != nil {
		b.faults = s.Preview.faultsOf(a.Path)
	}
	safety, parts, err := b.render(a.Kind != manual.Symptom)
	if err != nil {
		return err
	}
	c.Safety, c.Body = safety, parts[0].html
	if dangers := dangersOf(c.Suits); len(dangers) > 0 {
		c.Safety = append(c.Safety, dangers...)
		slices.SortStableFunc(c.Safety, func(a, b template.HTML) int { return gravity(a) - gravity(b) })
	}
	if s.Preview != nil {
		f.Faults, f.Beside = placed(b.faults)
	}
	if a.Kind != manual.Symptom { // whose steps are walked
		c.Contents = contentsOf(a)
	}
	if a.Kind == manual.Symptom {
		c.Label = a.Symptom.Label
		if a.Symptom.Swatch != "" {
			c.Swatch = root + s.pics["drawings/swatches/"+a.Symptom.Swatch+".svg"]
		}
		c.Gate, c.Intro = b.gate, parts[0].screen.More
		c.Steps = b.steps(parts[1:])
		c.Overview = b.overview(a)
		s.script(f, "fold.js")
		s.script(f, "walk.js")
		s.notes(f)
		if slices.ContainsFunc(c.Steps, func(st step) bool { return st.Reading != nil && st.Reading.Asks != "" }) {
			s.writes(f)
		}
	}
	if b.sums > 0 {
		s.withSums(f)
	}
	if slices.ContainsFunc(of.Sums, func(sum manual.Sum) bool { return sum.Calculator == "titration" }) {
		s.writes(f)
	}
	f.Content = c
	return nil
}

// sumsWords is the parcel with the calculators' phrases in a language. English has none.
const sumsWords = "calculators-words"

// withSums has the page load what its calculators need.
func (s *site) withSums(f *frame) {
	f.Sums, f.SumsWords = true, s.parcels[s.parcelOf(sumsWords)]
	s.asking(f, "sums.js")
	s.notes(f)
}

func (s *site) provenance(root string, a *manual.Article) provenance {
	p := provenance{Lang: s.written(), Control: s.control(a)}
	for i, source := range a.Head.Sources {
		p.Sources = append(p.Sources, numbered{i + 1, source})
	}
	if s.paper == nil {
		rests := s.toPage(root, restsPage, s.words.say("What rests on what"))
		p.Rests = &rests
	}
	for _, acc := range a.Head.Accept {
		p.Accepted = append(p.Accepted, acc.Reason)
	}
	return p
}

// tanksOf gives the tanks that an article speaks of: those that its header names, and those that hold the chemistry.
func (s *site) tanksOf(a *manual.Article) []string {
	ids := a.Vessels()
	if a.Kind == manual.Chemistry { // the shop file says which
		for _, t := range s.Manual.Shop.Tanks {
			if t.Chemistry.Name == a.Name {
				ids = append(ids, t.ID)
			}
		}
	}
	return ids
}

// nextLesson is the lesson that follows in the course.
func (s *site) nextLesson(root string, a *manual.Article) *link {
	if a.Kind != manual.Lesson {
		return nil
	}
	var next *manual.Article
	for _, b := range s.Manual.Articles {
		if b.Kind == manual.Lesson && b.Lesson.Order > a.Lesson.Order && (next == nil || b.Lesson.Order < next.Lesson.Order) {
			next = b
		}
	}
	if next == nil {
		return nil
	}
	l := s.toArticle(root, next)
	return &l
}
