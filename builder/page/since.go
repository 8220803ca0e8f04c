package page

import (
	"fmt"
	"slices"
	"strings"

	"tankside/builder/changes"
	"tankside/builder/content"
	"tankside/builder/ledger"
	"tankside/builder/manual"
)

// Since is what has changed since the edition before in the ledger.
type Since struct {
	Entry    ledger.Entry // of that edition; its Number is 0 where there is none
	Compared bool         // its content was at hand
	Why      string       // why it was not, where something has gone wrong; half a sentence
	List     []changes.Change
	Files    changes.Files
	Follows  changes.Follows
	Title    func(path string) string // of an article of that edition

	// Printed, where it is not nil, gives the codes of what is printed of that edition, as far as anybody knows them.
	Printed func() (changes.Printed, error)
}

// changesPage shows what has changed, old beside new.
const changesPage = "changes.html"

// noNews says why there are no changes to be listed.
func (s *site) noNews() string {
	switch e := s.Since.Entry; {
	case e.Number == 0 && s.Mark.Edition > 0:
		return s.words.say("This is the first edition.")
	case e.Number == 0:
		return s.words.say("No edition has been entered in the ledger yet, so there is none to compare with.")
	case !s.Since.Compared:
		return fmt.Sprintf(s.words.say("What edition %s said was not at hand when this was published, so the two were not compared."), fmt.Sprint(e.Number))
	}
	return s.words.say("Nothing has changed since the edition before.")
}

// news lists the articles that have changed, at most so many.
func (s *site) news(root string, most int) []link {
	var links []link
	f := &s.Since.Files
	for _, list := range []struct {
		word  string
		files []string
	}{{"new", f.Added}, {"revised", f.Changed}, {"renamed", f.Renamed}} {
		for _, path := range list.files {
			if list.word == "renamed" && slices.Contains(f.Changed, path) {
				continue
			}
			a := s.Manual.At(path)
			if a == nil || a.Language != "" {
				continue
			}
			if len(links) == most {
				return append(links, s.toPage(root, changesPage, s.words.say("all changes")))
			}
			l := s.toArticle(root, a)
			l.Note = s.words.say(list.word)
			links = append(links, l)
		}
	}
	if len(links) == 0 && len(s.Since.List) > 0 {
		links = append(links, s.toPage(root, changesPage, s.words.say("all changes")))
	}
	return links
}

// editionContent is what the page about the edition shows.
type editionContent struct {
	Mark, Summary, Note string
	Code                string
	Groups              []group
	None                string
	Changes             *link
	Readings            bool // there are some, which the code does not stand for
	Ledger              []ledgerRow
}

// ledgerRow is an entry of the ledger.
type ledgerRow struct {
	Number                  int
	Date, Code, By, Changed string
	Here                    bool
	Lang                    string // of what somebody wrote, where it is not the page's
}

// thisEdition fills the page that says what this edition is, what it changed, and which editions there have been.
func (s *site) thisEdition(f *frame) error {
	f.Title = s.words.say("This edition")
	c := editionContent{Mark: s.named(s.Mark), Code: s.Mark.Code, Note: s.Manual.Shop.Note, Readings: len(s.histories) > 0,
		Summary: fmt.Sprintf("%s. %d %s.", s.Manual.Shop.Name, s.Manual.Count(), s.words.say("articles"))}
	files := &s.Since.Files
	for _, list := range []struct {
		word string
		of   []string
	}{{"New articles", files.Added}, {"Revised articles", files.Changed}, {"Renamed articles", files.Renamed}, {"Removed articles", files.Removed}} {
		g := group{Title: s.words.say(list.word)}
		for _, path := range withoutTwins(list.of) {
			if content.IsArticle(path) {
				g.Links = append(g.Links, s.fileLink(f.Root, path))
			}
		}
		c.Groups = append(c.Groups, g)
	}
	if len(s.Since.List) == 0 {
		c.None = s.noNews()
	}
	changed := s.toPage(f.Root, changesPage, s.words.say("What changed"))
	c.Changes = &changed
	for _, e := range slices.Backward(s.Ledger.Entries()) {
		c.Ledger = append(c.Ledger, ledgerRow{e.Number, e.Date, e.Code(), e.By, e.Changed, e.Code() == s.Mark.Code && e.Number == s.Mark.Edition, s.written()})
	}
	f.Content = c
	return nil
}

// withoutTwins leaves out translations beside their originals.
func withoutTwins(paths []string) []string {
	return slices.DeleteFunc(slices.Clone(paths), func(path string) bool {
		original, language := manual.OriginalOf(path)
		return language != "" && slices.Contains(paths, original)
	})
}

// fileLink links a file of the manual that has changed, as far as it has a page; a file that is gone has its old title.
func (s *site) fileLink(root, path string) link {
	if a := s.Manual.At(path); a != nil {
		l := s.toArticle(root, a)
		l.Note = s.words.say("revision") + " " + a.Head.Revision
		if a.Language != "" {
			page := articlePage(a)
			l = link{Href: root + page, Title: a.Head.Title, Note: l.Note, Hreflang: a.Language, Lang: a.Language}
		}
		return l
	}
	l := link{Title: path}
	switch {
	case path == manual.GlossaryFile:
		l = s.toPage(root, glossaryPage, s.words.say("Glossary"))
	case path == manual.ShopFile:
		l.Title = s.words.say("The shop file")
	case path == manual.VocabularyFile:
		l.Title = s.words.say("The shop's own words")
	case s.Since.Title != nil && content.IsArticle(path):
		l.Title, l.Lang = s.Since.Title(path), s.written()
	}
	return l
}

// changesContent is what the page of the changes shows.
type changesContent struct {
	Summary string
	None    string // why there is nothing to show
	Why     string
	Cards   []link
	Down    []string // cards of what is not there any more
	Sheets  []link
	Lessons []link
	Gone    []link // parts and lessons that are not there any more
	Readers []group
	Files   []changedFile
	More    int // files that are named, but not shown
}

// changedFile is a file with what has changed in it.
type changedFile struct {
	link
	Anchor, Path string
	What         string // what has happened to the file as a whole
	Folded       bool
	Rows         []changedRow
}

// changedRow is a part of a file, old and new.
type changedRow struct {
	Heading, Kind, Note string
	Before, After       []changes.Run
	Sides               bool
}

// mostShown is how many files are shown with old and new text.
const mostShown = 300

// follows is what follows from the changes. Where the codes of what is printed of both editions are known, only that is named which says something else.
func (s *site) follows() (changes.Follows, error) {
	f := s.Since.Follows
	if s.Since.Printed == nil {
		return f, nil
	}
	was, err := s.Since.Printed()
	if err != nil {
		return f, err
	}
	is, err := s.printed()
	return f.With(was, is, s.Since.List), err
}

// changed fills the page that shows what has changed.
func (s *site) changed(f *frame) error {
	f.Title = s.words.say("What changed")
	c := changesContent{}
	since := &s.Since
	if since.Entry.Number > 0 {
		c.Summary = fmt.Sprintf(s.words.say("From edition %s of %s, code %s."), fmt.Sprint(since.Entry.Number), since.Entry.Date, since.Entry.Code())
	}
	if len(since.List) == 0 {
		c.None, c.Why = s.noNews(), since.Why
		f.Content = c
		return nil
	}
	follows, err := s.follows()
	if err != nil {
		return err
	}
	for _, id := range follows.Cards {
		c.Cards = append(c.Cards, s.toPage(f.Root, CardsPage+"#"+id, s.standName(id)))
	}
	c.Down = follows.Down
	for _, path := range withoutTwins(follows.Sheets) {
		c.Sheets = append(c.Sheets, s.fileLink(f.Root, path))
	}
	for _, path := range withoutTwins(follows.Lessons) {
		c.Lessons = append(c.Lessons, s.fileLink(f.Root, path))
	}
	for _, path := range withoutTwins(follows.Gone) {
		c.Gone = append(c.Gone, s.fileLink(f.Root, path))
	}
	for _, r := range since.Follows.Readers {
		g := group{Title: r.Role}
		if r.Role == "" {
			g.Title = s.words.say("Everybody: no lesson says who works at the station")
		}
		for _, path := range withoutTwins(r.Files) {
			l := s.fileLink(f.Root, path)
			l.Note = ""
			g.Links = append(g.Links, l)
		}
		c.Readers = append(c.Readers, g)
	}
	for from := 0; from < len(since.List); {
		to := from
		for to < len(since.List) && since.List[to].Article == since.List[from].Article {
			to++
		}
		if len(c.Files) < mostShown {
			c.Files = append(c.Files, s.changedFile(f.Root, len(c.Files), since.List[from:to]))
		} else {
			c.More++
		}
		from = to
	}
	f.Content = c
	return nil
}

// standName is the name of a tank, a rinse or the dryer.
func (s *site) standName(id string) string {
	shop := &s.Manual.Shop
	for i := range shop.Tanks {
		if shop.Tanks[i].ID == id {
			return shop.Tanks[i].Name
		}
	}
	for i := range shop.Rinses {
		if shop.Rinses[i].ID == id {
			return shop.Rinses[i].Name
		}
	}
	if shop.Dryer.ID == id && shop.Dryer.Name != "" {
		return shop.Dryer.Name
	}
	return id
}

func (s *site) changedFile(root string, n int, list []changes.Change) changedFile {
	path := list[0].Article
	c := changedFile{link: s.fileLink(root, path), Anchor: fmt.Sprintf("file-%d", n+1), Path: path}
	switch since := &s.Since.Files; {
	case slices.Contains(since.Added, path):
		c.What = s.words.say("new")
		if c.Href != "" || !content.IsArticle(path) {
			return c // it is to be read where it stands
		}
	case slices.Contains(since.Removed, path):
		c.What, c.Folded = s.words.say("taken out"), true
	}
	for _, one := range list {
		if one.Kind == changes.Renamed && one.Heading == "" {
			c.What = fmt.Sprintf(s.words.say("renamed: it was %s"), one.Before)
			continue
		}
		c.Rows = append(c.Rows, s.changedRow(path, one))
	}
	return c
}

// below gives two texts of a section without their heading, which stands above them, where both have the same.
func below(path, before, after string) (string, string) {
	old, oldText, _ := strings.Cut(before, "\n")
	now, nowText, _ := strings.Cut(after, "\n")
	isHeading := func(line string) bool { return strings.HasPrefix(line, "#") }
	if content.IsArticle(path) && (isHeading(old) && (isHeading(now) && old == now || after == "") || before == "" && isHeading(now)) {
		return strings.TrimLeft(oldText, "\n"), strings.TrimLeft(nowText, "\n")
	}
	return before, after
}

func (s *site) kindOfChange(k changes.Kind) string {
	switch k {
	case changes.Added:
		return s.words.say("added")
	case changes.Removed:
		return s.words.say("taken out")
	case changes.Moved:
		return s.words.say("moved")
	case changes.Renamed:
		return s.words.say("renamed")
	}
	return s.words.say("changed")
}

func (s *site) changedRow(path string, c changes.Change) changedRow {
	row := changedRow{Heading: s.partName(path, c.Heading), Kind: s.kindOfChange(c.Kind), Sides: true}
	switch c.Kind {
	case changes.Moved:
		row.Note = fmt.Sprintf(s.words.say("It stood behind “%s” and stands behind “%s”."), s.partName(path, c.Before), s.partName(path, c.After))
		row.Sides = false
		return row
	case changes.Added:
		if !strings.HasPrefix(c.Heading, content.HeaderKey) && content.IsArticle(path) && c.Heading != "" {
			row.Note = fmt.Sprintf(s.words.say("It stands behind “%s”."), s.partName(path, c.Behind()))
		}
	}
	row.Before, row.After = changes.Words(below(path, c.Before, c.After))
	return row
}

// partName is the name of a part as people read it.
func (s *site) partName(path, heading string) string {
	switch key, ofHeader := strings.CutPrefix(heading, content.HeaderKey); {
	case ofHeader:
		return s.words.say("Header") + ": " + key
	case heading == "" && content.IsArticle(path):
		return s.words.say("Text before the first heading")
	case heading == "":
		return s.words.say("The file as a whole")
	}
	return heading
}
