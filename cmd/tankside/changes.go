package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
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
		asJSON := o.yes("json", "the changes for programs: a list of article, heading, kind, before, after")
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
			if *asJSON {
				return c.json(orEmpty(list))
			}
			writeChanges(c.out, from, to, list, c.strong)
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
}

// question is what is asked for two sides.
type question struct {
	ctx    context.Context
	folder string // of the manual whose ledger and checkout are asked
	to     string
	ledger ledger.Ledger
	at     *checkout.Checkout // nil where there is none
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
		c, _, err := builder.ContentOfFolder(q.ctx, name)
		if err != nil {
			return side{}, fmt.Errorf("%s cannot be compared: %w", quoted(name), err)
		}
		return side{name: "the manual in " + quoted(name), content: c, manual: true}, nil
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
	c, _, err := builder.ContentIn(q.ctx, files)
	if err != nil {
		return side{}, fmt.Errorf("revision %s cannot be compared: %w", name, err)
	}
	return side{name: "revision " + name, content: c, revision: revision}, nil
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
	return side{name: fmt.Sprintf("%s, in %s", l.Mark, quoted(folder)), content: c, entry: l.Edition}, nil
}

// entered gives an edition of the ledger: the one in the usual folder, or what git has. The content is nil where neither has it.
func (q *question) entered(e ledger.Entry) (side, error) {
	name := fmt.Sprintf("edition %d of %s, code %s", e.Number, e.Date, e.Code())
	if c, err := builder.ContentOnceIn(usualEdition, e.Digest); err == nil && c != nil { // what cannot be read there, git may have
		return side{name: name, content: c, entry: e.Number}, nil
	}
	if q.at == nil {
		return side{}, nil
	}
	found, err := entered(q.ctx, q.at, e)
	if err != nil || found == nil {
		return side{}, err
	}
	return side{name: name, content: found.Content, entry: e.Number}, nil
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

// writeChanges says what has changed, in words.
func writeChanges(w io.Writer, from, to side, list []changes.Change, strong func(string) string) {
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
	writeFollows(w, changes.Consequences(from.content, to.content, list))
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
func writeFollows(w io.Writer, f changes.Follows) {
	for _, part := range []struct {
		what string
		list []string
	}{
		{"Cards that may say something else (compare their four letters)", f.Cards}, {"Cards to take down", f.Down}, {"Process sheets to be replaced", f.Sheets}, {"Lessons to be replaced", f.Lessons},
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
