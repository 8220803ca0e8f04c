package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"unicode/utf8"

	"tankside/builder"
	"tankside/builder/changes"
	"tankside/builder/content"
	"tankside/builder/edition"
	"tankside/builder/ledger"
	"tankside/builder/manual"
	"tankside/cmd/tankside/checkout"
)

var changesCommand = command{
	name: "changes",
	args: "[FROM] [TO]",
	does: "what differs between two editions, manuals or revisions, old beside new",
	more: `Says article by article and heading by heading what has changed: texts, keys of headers, values of the shop file, pictures, files with another
name; then which cards, process sheets and lessons have to be replaced, and who has to read what again. FROM and TO are each the folder of an
edition, the folder of a manual, a number or code of its ledger, or a revision of the git checkout that the manual lies in. Without FROM it is
the newest edition of the ledger that can be had: from the folder “edition”, which also has what was otherwise before, or from git. Without TO it is the manual in “content”.`,
	setUp: func(o *options) action {
		asJSON := o.yes("json", "for programs: the changes, each with article, heading, kind, before and after; what is to be replaced; who reads what again")
		in := o.text("in", "MANUAL", "manual whose ledger and checkout are asked; without it “"+usualManual+"”, or the folder given as FROM or TO", "")
		return func(ctx context.Context, c *console, args []string) error {
			if len(args) > 2 {
				return fmt.Errorf("changes compares two things, and %d are named", len(args))
			}
			q := question{ctx: ctx, folder: *in}
			if err := q.open(args); err != nil {
				return err
			}
			c.tell("Comparing", 0, 0)
			to, err := q.find(q.to)
			if err != nil {
				return err
			}
			from, err := q.before(to, args)
			if err != nil {
				return err
			}
			history, err := q.history(from, to)
			if err != nil {
				return err
			}
			list := changes.Between(from.content, to.content, history)
			c.endProgress()
			follows, doubt := followsOf(from, to, list)
			if *asJSON {
				return c.json(comparisonOf(from, to, list, follows, doubt))
			}
			writeChanges(c.out, from, to, list, follows, doubt, c.strong)
			return nil
		}
	},
}

// side is one of the two that are compared.
type side struct {
	name     string // as it is told
	content  *content.Content
	revision string // of the checkout, or ""
	entry    int    // number in the ledger, or 0
	manual   bool   // it is the folder of a manual, as it lies there

	told *edition.List // what it tells of its articles; nil where nobody knows

	printed func() (changes.Printed, error) // codes of what is printed of it, or nil
}

// question is what is asked for two sides.
type question struct {
	ctx    context.Context
	folder string // of the manual whose ledger and checkout are asked
	to     string
	ledger ledger.Ledger

	articles bool // what was told of each article is asked as well

	at *checkout.Checkout // nil where there is none
}

// open finds the manual whose ledger is asked.
func (q *question) open(args []string) error {
	if q.to = usualManual; len(args) == 2 {
		q.to = args[1]
	}
	if q.folder == "" {
		q.folder = usualManual
		for _, arg := range append([]string{q.to}, args...) {
			if isManual(arg) {
				q.folder = arg
				break
			}
		}
	}
	text, err := os.ReadFile(filepath.Join(q.folder, ledger.File))
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	q.ledger, _ = ledger.Parse(text) // what is wrong with it is for proof to tell
	if q.at, err = checkout.Of(q.ctx, q.folder); err != nil {
		return err
	}
	return nil
}

func isManual(folder string) bool {
	info, err := os.Stat(filepath.Join(folder, manual.ShopFile))
	return err == nil && info.Mode().IsRegular()
}

// find finds a side by what it is called.
func (q *question) find(name string) (side, error) {
	if info, err := os.Stat(name); err == nil && info.IsDir() {
		if _, err := os.Stat(filepath.Join(name, edition.ListName)); err == nil {
			return q.edition(name)
		}
		had, err := builder.EarlierOfFolder(q.ctx, name)
		if err != nil {
			return side{}, fmt.Errorf("%s cannot be compared: %w", quoted(name), err)
		}
		return side{name: "the manual in " + quoted(name), content: had.Content, printed: had.Printed, manual: true, told: had.Told}, nil
	}
	if e, is := q.ledger.Called(name); is {
		s, err := q.entered(e)
		if err == nil && s.content == nil {
			err = fmt.Errorf("edition %d of the ledger cannot be had: neither the folder %q nor git has it%s", e.Number, usualEdition, q.noGit())
		}
		return s, err
	}
	if q.at == nil {
		return side{}, fmt.Errorf("there is no folder %q, no such number or code in the ledger of %s, and no git checkout in which it could be a revision", name, quoted(q.folder))
	}
	revision, err := q.at.Resolve(q.ctx, name)
	if err != nil {
		return side{}, fmt.Errorf("there is no folder %q, no such number or code in the ledger of %s, and no such revision of its checkout", name, quoted(q.folder))
	}
	files, err := q.at.Files(q.ctx, revision)
	if err != nil {
		return side{}, fmt.Errorf("revision %s: %w", name, err)
	}
	had, err := builder.EarlierIn(q.ctx, files)
	if err != nil {
		return side{}, fmt.Errorf("revision %s cannot be compared: %w", name, err)
	}
	return side{name: "revision " + name, content: had.Content, printed: had.Printed, revision: revision, told: had.Told}, nil
}

func (q *question) noGit() string {
	if q.at == nil {
		return "; " + quoted(q.folder) + " lies in no git checkout"
	}
	return ""
}

func (q *question) edition(folder string) (side, error) {
	c, l, err := builder.ContentOfEdition(folder)
	if err != nil {
		return side{}, noEdition(folder, err)
	}
	return side{name: fmt.Sprintf("%s, in %s", l.Mark, quoted(folder)), content: c, printed: builder.PrintedIn(l), entry: l.Edition, told: l}, nil
}

// entered gives an edition of the ledger: the one in the usual folder, or what git has. The content is nil where neither has it.
func (q *question) entered(e ledger.Entry) (side, error) {
	name := fmt.Sprintf("edition %d of %s, code %s", e.Number, e.Date, e.Code())
	var there side
	if had, err := builder.OnceIn(usualEdition, e.Digest); err == nil && had != nil { // what cannot be read there, git may have
		there = side{name: name, content: had.Content, printed: had.Printed, entry: e.Number, told: had.Told}
	}
	if q.at == nil || there.content != nil && (there.told != nil || !q.articles) {
		return there, nil
	}
	found, err := entered(q.ctx, q.at, e)
	if err != nil || found == nil {
		return there, err
	}
	told := *found.Told
	told.Mark = edition.Mark{Edition: e.Number, Date: e.Date, Code: e.Code()}
	return side{name: name, content: found.Content, printed: found.Printed, entry: e.Number, told: &told}, nil
}

// before is the older side: what is named, or the newest edition of the ledger that can be had.
func (q *question) before(to side, args []string) (side, error) {
	if len(args) > 0 {
		return q.find(args[0])
	}
	list := q.ledger.Entries()
	if len(list) == 0 {
		return side{}, fmt.Errorf("the ledger of %s has no edition yet to compare with: name FROM, or enter one with tankside publish --enter", quoted(q.folder))
	}
	for i := len(list) - 1; i >= 0; i-- {
		s, err := q.entered(list[i])
		if err != nil {
			return side{}, err
		}
		if s.content != nil {
			return s, nil
		}
	}
	return side{}, fmt.Errorf("no edition of the ledger can be had: the folder %q has none of them%s. Name FROM", usualEdition, q.noGit())
}

// history says which names files got between the two sides: what the ledger tells, and what git tells of its revisions.
func (q *question) history(from, to side) (map[string]string, error) {
	names := map[string]string{}
	if from.entry > 0 {
		for _, e := range q.ledger.Entries() {
			if e.Number <= from.entry || to.entry > 0 && e.Number > to.entry {
				continue
			}
			for _, r := range e.Renamed {
				first := r.From
				for before, at := range names {
					if at == r.From {
						first = before
					}
				}
				names[first] = r.To
			}
		}
	}
	if q.at == nil || from.revision == "" || to.revision == "" && !to.manual {
		return names, nil
	}
	told, err := q.at.Renamed(q.ctx, from.revision, to.revision)
	maps.Copy(names, told)
	return names, err
}

// doubts say why it cannot be told exactly what has to be replaced; each is "" where it can.
type doubts struct{ cards, sheets string }

// followsOf says what has to be done on the floor, as exactly as it is known what is printed of both sides. Where it is not, as of a manual whose findings let it come to no
// cards, those are named that may say something else.
func followsOf(from, to side, list []changes.Change) (f changes.Follows, doubt doubts) {
	f = changes.Consequences(from.content, to.content, list)
	var codes [2]changes.Printed
	for i, s := range []side{from, to} {
		if s.printed == nil {
			return f, doubts{"nobody knows the cards of " + s.name, "nobody knows the sheets of " + s.name}
		}
		var err error
		if codes[i], err = s.printed(); err != nil {
			return f, doubts{fmt.Sprintf("the cards of %s cannot be made: %v", s.name, err), fmt.Sprintf("the sheets of %s cannot be made: %v", s.name, err)}
		}
		if codes[i].Cards == nil {
			doubt.cards = "nobody knows the cards of " + s.name
		}
		if codes[i].Sheets == nil && hasSheets(s.content) { // a list of an edition without any has no codes
			doubt.sheets = "nobody knows the sheets of " + s.name
		}
	}
	return f.With(codes[0], codes[1], list), doubt
}

// hasSheets tells whether a content has parts or lessons.
func hasSheets(c *content.Content) bool {
	return slices.ContainsFunc(c.Docs(), func(d content.Doc) bool { return path.Dir(d.Path) == "parts" || path.Dir(d.Path) == "lessons" })
}

// comparison is what changes says for programs.
type comparison struct {
	From    string           `json:"from"`
	To      string           `json:"to"`
	Changes []changes.Change `json:"changes"`
	Replace replaced         `json:"replace"`
	Readers []reader         `json:"read-again"`
}

// replaced is what has to be replaced: cards by the ids of what they hang at, sheets and lessons by the paths of their articles.
type replaced struct {
	Cards   []string `json:"cards"`
	Down    []string `json:"take-down"` // cards of what is not there any more
	Sheets  []string `json:"process-sheets"`
	Lessons []string `json:"lessons"`
	Gone    []string `json:"take-away"` // parts and lessons that are not there any more
	Doubts  []string `json:"not-sure"`  // why some may say the same as before
}

// reader is who has to read what again; a role "" is everybody.
type reader struct {
	Role     string   `json:"role"`
	Articles []string `json:"articles"`
}

func comparisonOf(from, to side, list []changes.Change, f changes.Follows, doubt doubts) comparison {
	c := comparison{from.name, to.name, orEmpty(list), replaced{orEmpty(f.Cards), orEmpty(f.Down), orEmpty(f.Sheets), orEmpty(f.Lessons), orEmpty(f.Gone), []string{}}, []reader{}}
	if len(list) > 0 {
		for _, why := range []string{doubt.cards, doubt.sheets} {
			if why != "" {
				c.Replace.Doubts = append(c.Replace.Doubts, why)
			}
		}
	}
	for _, r := range f.Readers {
		c.Readers = append(c.Readers, reader{r.Role, orEmpty(r.Files)})
	}
	return c
}

// writeChanges says what has changed, in words.
func writeChanges(w io.Writer, from, to side, list []changes.Change, follows changes.Follows, doubt doubts, strong func(string) string) {
	fmt.Fprintf(w, "From %s\nto   %s\n", from.name, to.name)
	if len(list) == 0 {
		fmt.Fprintln(w, "Nothing has changed: the two are the same edition.")
		return
	}
	files := changes.ByFile(from.content, to.content, list)
	what := map[string]string{}
	for _, p := range files.Added {
		what[p] = ", new"
	}
	for _, p := range files.Removed {
		what[p] = ", taken out"
	}
	last := ""
	for _, c := range list {
		if c.Article != last {
			last = c.Article
			fmt.Fprintf(w, "\n%s%s\n", strong(shown(c.Article)), what[c.Article])
		}
		writeChange(w, c, what[c.Article] != "")
	}
	writeFollows(w, follows, doubt)
}

func writeChange(w io.Writer, c changes.Change, whole bool) {
	name := shown(c.Heading)
	if name == "" {
		name = "(before the first heading)"
		if !content.IsArticle(c.Article) {
			name = "(the file)"
		}
	}
	switch {
	case c.Kind == changes.Renamed && c.Heading == "":
		fmt.Fprintf(w, "  renamed, it was %s\n", shown(c.Before))
	case whole: // the file says it
	case c.Kind == changes.Renamed:
		fmt.Fprintf(w, "  %s: renamed, it was %s\n", name, shown(c.Before))
	case c.Kind == changes.Moved:
		fmt.Fprintf(w, "  %s: moved, from behind “%s” to behind “%s”\n", name, shown(c.Before), shown(c.After))
	default:
		word := string(c.Kind)
		if c.Kind == changes.Removed {
			word = "taken out"
		}
		fmt.Fprintf(w, "  %s: %s\n", name, word)
		was, is := changes.Words(c.Before, c.After)
		writeRuns(w, "before", was, "[-", "-]")
		writeRuns(w, "now", is, "[+", "+]")
	}
}

// Around a piece that differs so many characters of what does not are shown.
const around = 48

// writeRuns writes one side of a text in a line, with what differs between marks, and little of the rest.
func writeRuns(w io.Writer, side string, runs []changes.Run, open, end string) {
	if len(runs) == 0 {
		return
	}
	var b strings.Builder
	for i, r := range runs {
		text := strings.Join(strings.Fields(r.Text), " ")
		if text != "" && i > 0 && strings.ContainsAny(r.Text[:1], " \n\t") {
			text = " " + text
		}
		if strings.ContainsAny(r.Text[len(r.Text)-1:], " \n\t") && i+1 < len(runs) {
			text += " "
		}
		if r.Marked {
			b.WriteString(open + text + end)
			continue
		}
		n := utf8.RuneCountInString(text)
		all := []rune(text)
		switch {
		case i == 0 && i+1 == len(runs) && n > 2*around:
			text = string(all[:2*around]) + " …"
		case i == 0 && i+1 < len(runs) && n > around:
			text = "… " + string(all[n-around:])
		case i > 0 && i+1 == len(runs) && n > around:
			text = string(all[:around]) + " …"
		case i > 0 && i+1 < len(runs) && n > 2*around:
			text = string(all[:around]) + " … " + string(all[n-around:])
		}
		b.WriteString(text)
	}
	fmt.Fprintf(w, "    %-6s  %s\n", side, shown(b.String()))
}

// writeFollows says what has to be done on the floor.
func writeFollows(w io.Writer, f changes.Follows, doubt doubts) {
	cards, sheets := "Cards that say something else", "Process sheets to be replaced"
	if doubt.cards != "" {
		cards = "Cards that may say something else (compare their codes; " + shown(doubt.cards) + ")"
	}
	if doubt.sheets != "" {
		sheets = "Process sheets that may say something else (" + shown(doubt.sheets) + ")"
	}
	for _, part := range []struct {
		what string
		list []string
	}{
		{cards, f.Cards}, {"Cards to take down", f.Down}, {sheets, f.Sheets}, {"Lessons to be replaced", f.Lessons}, {"Process sheets and lessons to take away", f.Gone},
	} {
		if len(part.list) > 0 {
			fmt.Fprintf(w, "\n%s: %s\n", part.what, strings.Join(part.list, ", "))
		}
	}
	for i, r := range f.Readers {
		if i == 0 {
			fmt.Fprintf(w, "\nTo be read again\n")
		}
		role := r.Role
		if role == "" {
			role = "everybody (no lesson says who works at the station)"
		}
		fmt.Fprintf(w, "  %s: %s\n", role, strings.Join(r.Files, ", "))
	}
}
