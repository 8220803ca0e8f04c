package page

import (
	"fmt"
	"html/template"
	"slices"
	"strings"

	"tankside/builder/handout"
	"tankside/builder/language"
	"tankside/builder/manual"
	"tankside/builder/record"
)

// CardsPage has the cards for the tanks.
const CardsPage = "cards.html"

// sheetsPage lists everything that is to be printed sheet by sheet.
const sheetsPage = "sheets.html"

// handoutPage is a page of sheets of one kind.
type handoutPage struct {
	path          string
	title, note   string // as it is listed; English
	says          string // how it is printed and what is done with it; English
	make          func(*handout.Kit) ([]handout.Sheet, error)
	papers        bool // they can be printed on other paper than A4 and Letter
	coded, signed bool // each sheet has a code by which an old one is told; somebody answers for it
}

// handoutPages are the pages of sheets, in the order in which they are listed.
var handoutPages = []handoutPage{
	{path: CardsPage, title: "Cards for the tanks", note: "to hang at the tank", papers: true, coded: true, signed: true, make: (*handout.Kit).Cards,
		says: "A card for each tank, rinse and dryer. Folded in the middle it is a card of A5 or half a Letter, printed on both sides: laminate it in a pouch, hang it at the tank. On A3 it hangs on the wall."},
	{path: "process-sheets.html", title: "Process sheets", note: "a part on a sheet, with what can hurt", signed: true, make: (*handout.Kit).ProcessSheets,
		says: "A sheet for each part: how it is run, every condition, what can hurt, what is worn."},
	{path: "pocket-sheet.html", title: "Pocket sheets", note: "folded, for the technician", make: (*handout.Kit).Pockets,
		says: "A sheet of eight leaves for who services the tanks. Print it on one side, cut along the broken line with the scissors, fold along the dotted lines, push both ends together: leaf 1 is the front."},
	{path: "first-aid-card.html", title: "First-aid card", note: "to hang at the telephone and at the eyewash", signed: true, make: firstAid,
		says: "What to do in the first minutes. Write the numbers in before you hang it up."},
	{path: "log-sheets.html", title: "Log sheets", note: "empty, with limits", make: (*handout.Kit).Logs,
		says: "Empty sheets to write readings on, each column with what it has to keep to."},
	{path: "whiteboards.html", title: "Whiteboards of the day", note: "a tank on a sheet", make: (*handout.Kit).Boards,
		says: "A sheet for each tank and day: what it is set to, what was found, what was poured."},
	{path: "trial-form.html", title: "Form for a first-article trial", note: "a new part, step by step", make: plainly((*handout.Kit).Trial),
		says: "To be filled in while a new part, soil or cleaner is tried."},
	{path: "bath-change-forms.html", title: "Bath change forms", note: "out, in, signed", make: (*handout.Kit).Changes,
		says: "A form for each tank that holds a cleaner, with what a fill takes."},
	{path: "waste-forms.html", title: "Waste hand-over forms", note: "what it was, what it is, who took it", make: (*handout.Kit).Waste,
		says: "A form for each tank that holds a cleaner, with its hazards. The shop that makes the waste says what it is."},
	{path: "visit-form.html", title: "Blank visit report", note: "on paper, with every set-point", make: plainly((*handout.Kit).Visit),
		says: "For a service visit without a device: every set-point, room for what was found and left."},
}

func firstAid(k *handout.Kit) ([]handout.Sheet, error) { return k.FirstAid(), nil }

// plainly makes sheets that nothing can go wrong with.
func plainly(of func(*handout.Kit) []handout.Sheet) func(*handout.Kit) ([]handout.Sheet, error) {
	return func(k *handout.Kit) ([]handout.Sheet, error) { return of(k), nil }
}

// handoutJobs are the pages of sheets and the page that lists them.
func (s *site) handoutJobs() []job {
	jobs := []job{s.page(sheetsPage, "list", (*site).sheetList)}
	for i := range handoutPages {
		p := &handoutPages[i]
		jobs = append(jobs, s.page(p.path, "handouts", func(s *site, f *frame) error { return s.handouts(f, p) }))
	}
	return jobs
}

// kit is what sheets are made of in the site's language.
func (s *site) kit() *handout.Kit {
	return handout.New(s.Manual, s.sheet.Table, language.Words(s.words), s.sums, s.local)
}

// handoutContent is what a page of sheets shows.
type handoutContent struct {
	Title, Says, Mark, Edition string
	Class                      string // of the size of paper
	Papers                     bool
	Several                    bool // there is more than one sheet to choose from
	All                        link
	Sheets                     []handoutSheet
	None                       string // why there are none
}

type handoutSheet struct {
	ID, Name, Kind, Holds, Class string
	Drawing                      template.HTML
	Code                         string
	Square                       template.HTML // a QR code that leads to the page of what it is about
	Href                         string
	Control                      *Control
	Checked                      string // when its record was last written in
	Folded                       bool
	Sides                        []handoutSide
}

type handoutSide struct {
	Number int
	Title  string // of a leaf that is folded: which it is
	Turned bool   // it stands upside down, so that it is upright when the sheet is folded
	Blocks []handoutBlock
}

type handoutBlock struct {
	Sort             handout.Sort
	Head, Mark, Kind string
	Text             template.HTML
	Rows             []handoutRow
	Columns          []handoutColumn
	Limited          bool // some column has a limit
	Lines            []struct{}
	Across           int
	Alert            bool // of a message: somebody can be hurt
}

type handoutRow struct {
	Name  string
	Value template.HTML
	Href  string
	Cells []template.HTML
}

type handoutColumn struct {
	Head  string
	Limit template.HTML
	Share int // of the width, in hundredths
}

// sheetList fills the page that lists everything to print: each kind, and of each the single sheets.
func (s *site) sheetList(f *frame) error {
	f.Title = s.words.say("Sheets to print")
	f.Summary = s.words.say("Each can be printed by itself. None is set smaller to fit: what does not fit is a finding of the proof-reader.")
	c := listContent{Title: f.Title, Summary: f.Summary}
	for i := range handoutPages {
		p := &handoutPages[i]
		list, err := p.make(s.kit())
		if err != nil {
			return err
		}
		if len(list) == 0 {
			continue
		}
		all := s.toPage(f.Root, p.path, s.words.say(p.title))
		all.Note = s.words.say(p.note)
		g := group{Title: s.words.say(p.title), Links: []link{all}}
		for j := range list {
			if len(list) > 1 {
				g.Links = append(g.Links, s.toPage(f.Root, p.path+"#"+list[j].ID, list[j].Name))
			}
		}
		c.Groups = append(c.Groups, g)
	}
	book := s.toPage(f.Root, BookPage, s.words.say("The manual on paper"))
	book.Note = s.words.say("chapter by chapter, for the printer")
	c.Groups = append(c.Groups, group{Title: s.words.say("The whole manual"), Links: []link{book}})
	f.Content = c
	return nil
}

// Handouts are the pages of sheets that a manual has something for, in the order in which they are listed.
func (lent *Parts) Handouts() ([]Handouts, error) {
	s := lent.s
	var all []Handouts
	for i := range handoutPages {
		p := &handoutPages[i]
		sheets, err := p.make(s.kit())
		if err != nil {
			return nil, err
		}
		if len(sheets) == 0 {
			continue
		}
		one := Handouts{Path: s.to(p.path), Title: s.words.say(p.title), Says: s.words.say(p.says)}
		for j := range sheets {
			one.Names = append(one.Names, sheets[j].Name)
		}
		all = append(all, one)
	}
	return all, nil
}

// Handouts are the sheets of one kind: their page, what is done with them, and what each is called.
type Handouts struct {
	Path, Title, Says string
	Names             []string
}

// handouts fills a page of sheets.
func (s *site) handouts(f *frame, p *handoutPage) error {
	f.Title = s.words.say(p.title)
	f.Summary = s.words.say(p.says)
	list, err := p.make(s.kit())
	if err != nil {
		return err
	}
	own := list // a card's code is the same in every language
	if !s.isOwn() && p.coded {
		if own, err = p.make(s.all[0].kit()); err != nil {
			return err
		}
	}
	c := handoutContent{Title: f.Title, Says: f.Summary, Mark: f.Root + s.mark(), Edition: f.Edition, Class: "papers-whole", Papers: p.papers, Several: len(list) > 1,
		All: s.toPage(f.Root, sheetsPage, s.words.say("Sheets to print"))}
	if len(list) == 0 {
		c.None = s.words.say("Nothing in this manual asks for such a sheet.")
	}
	for i := range list {
		c.Class = "papers-" + list[i].Format.Name
		one, err := s.handout(f.Root, p, &list[i])
		if err != nil {
			return err
		}
		if p.coded {
			one.Code = codeOfCard(&own[i])
			if one.Square, err = s.square(own[i].ID, one.Code); err != nil {
				return err
			}
		} else if page := list[i].Leads; page != "" && s.Manual.Shop.Address != "" {
			if one.Square, err = square(s.Manual.Shop.Address + s.to(page)); err != nil {
				return err
			}
		}
		c.Sheets = append(c.Sheets, one)
	}
	f.Content = c
	return nil
}

// square is the QR code on the card of a tank, a rinse or the dryer, or "" where it has no page of its own or the shop file names no address.
func (s *site) square(id, code string) (template.HTML, error) {
	page := tankPage(id)
	if !s.mine[page] || s.Manual.Shop.Address == "" {
		return "", nil
	}
	return square(s.Manual.Shop.Address + page + CardFragment + code)
}

// CardFragment stands between the address of a tank's page and the code of a card.
const CardFragment = "#card-"

func (s *site) handout(root string, p *handoutPage, of *handout.Sheet) (handoutSheet, error) {
	one := handoutSheet{ID: of.ID, Name: of.Name, Kind: of.Kind, Holds: of.Holds, Class: of.Format.Name, Folded: of.Folded}
	if of.Leads != "" {
		one.Href = root + s.to(of.Leads)
	}
	if of.Tank != nil {
		one.Drawing = drawTank(of.Tank)
	}
	if of.Of != nil && p.signed {
		control := s.control(s.local(of.Of))
		one.Control = &control
	}
	if h := s.history(of.ID); h != nil && p.coded {
		one.Checked = strings.ReplaceAll(record.Stamp(h.Last.When, h.Last.Day), " ", "\u00a0")
	}
	for i := range of.Sides {
		side := handoutSide{Number: i + 1}
		if of.Folded {
			side.Title = fmt.Sprintf(s.words.say("Leaf %s"), fmt.Sprint(i+1))
			side.Turned = slices.Contains(handout.Imposed[0][:], i+1)
		}
		for j := range of.Sides[i].Blocks {
			side.Blocks = append(side.Blocks, s.block(root, &of.Sides[i].Blocks[j]))
		}
		one.Sides = append(one.Sides, side)
	}
	return one, nil
}

func (s *site) block(root string, of *handout.Block) handoutBlock {
	b := handoutBlock{Sort: of.Sort, Head: of.Head, Mark: of.Mark, Kind: of.Class, Text: s.both(of.Text.In), Lines: make([]struct{}, of.Lines), Across: of.Side(), Alert: of.Sort == handout.Message && of.Class != "notice"}
	if of.Sort == handout.Message {
		b.Head = s.words.say(of.Head)
	}
	all := 0.0
	for _, c := range of.Columns {
		all += c.Share
	}
	for _, c := range of.Columns {
		limit := s.both(c.Limit.In)
		b.Columns = append(b.Columns, handoutColumn{c.Head, limit, int(100*c.Share/all + 0.5)})
		b.Limited = b.Limited || limit != ""
	}
	for _, r := range of.Rows {
		row := handoutRow{Name: r.Name, Value: s.both(r.Value.In)}
		if a := s.Manual.At(r.Of); a != nil {
			row.Href = s.toArticle(root, a).Href
		}
		for _, cell := range r.Cells {
			row.Cells = append(row.Cells, s.both(cell.In))
		}
		b.Rows = append(b.Rows, row)
	}
	return b
}

// Behind lends the cards of the rinses and the dryer, for what the book says of them.
func (p *Parts) Behind() []handout.Sheet { return p.s.kit().Behind() }

// asksForSheets tells whether a manual has tanks, of which most sheets are.
func asksForSheets(m *manual.Manual) bool { return len(m.Shop.Tanks) > 0 }
