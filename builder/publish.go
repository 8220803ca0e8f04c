package builder

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"time"

	"tankside/builder/book"
	"tankside/builder/carry"
	"tankside/builder/changes"
	"tankside/builder/decide/relate"
	"tankside/builder/decide/rules"
	"tankside/builder/edition"
	"tankside/builder/finding"
	"tankside/builder/ledger"
	"tankside/builder/manual"
	"tankside/builder/page"
	"tankside/themes"
)

// Options says what to publish, and where.
type Options struct {
	Manual string    // folder of the manual
	To     string    // folder of the edition
	Now    time.Time // gives an entry in the ledger its date, and rules and pages their today

	// Sitting, where it is not nil, remembers from one edition to the next what need not be made again. Changed are the files and folders of
	// the manual that may be otherwise than at the edition before; with nil everything may be.
	Sitting *Sitting
	Changed []string

	// Ready, where it is not nil, is told of the page of each article in Changed as soon as it is written, long before the edition is whole:
	// its path in the edition and its content.
	Ready func(path string, page []byte)

	// Base, where it is not nil, is what the manual lies over: Manual is then the folder of a shop. Its Shelf has what editions have in common.
	Base *Base

	// Enter, where it is not nil, enters the edition in the manual's ledger. It gives the edition its number and date.
	Enter *Entering

	// Earlier, where it is not nil, asks version control for an edition that is entered. It gives nil where that cannot be had.
	Earlier func(context.Context, ledger.Entry) (*Earlier, error)

	// Draft has the pages say that they are being written, in the place of number, date and code: so a page that has not changed need not be written again
	// because another has. What an edition in a sitting is stands on the page about the edition, and in its list.
	Draft bool

	// Preview, where it is not nil, is given in a sitting what can be shown of a manual that findings keep from being published: pages and what they
	// need, by path. None of it is written.
	Preview func(files map[string][]byte)

	// Progress, where it is not nil, is told what is being done. It may be called from several goroutines.
	Progress func(doing string, done, total int)

	// Inputs, with a Base, gives a digest of all that the edition is made from, for its list: by that it can be told that it need not be made again. It is asked
	// when an entry in the ledger, which is among it, has been made.
	Inputs func() (string, error)

	// Carry, where it is not "", is the file into which the edition is put as well, to be carried.
	Carry string
}

func (o Options) progress(doing string, done, total int) {
	if o.Progress != nil {
		o.Progress(doing, done, total)
	}
}

// Report is what a publication did.
type Report struct {
	Mark     edition.Mark
	Entered  bool   // it was entered in the ledger, now
	Revision string // of version control, which the entry names, or ""
	Before   int    // number of the edition before in the ledger; 0: there is none
	Compared bool   // it was compared with that one
	Apart    string // why it was not, where something has gone wrong; half a sentence
	Pages    int
	Files    int
	Bytes    int64 // without compressed neighbours
	Findings []finding.Finding
	Carried  int64        // bytes of the file to be carried, where one was asked for
	Told     edition.Told // what became of somebody's files in the edition's folder
}

// ErrStopped says that findings kept the manual from being published. The Report has them; the old edition is as it was.
var ErrStopped = errors.New("the manual has findings that stop publication")

// errByTheme is an ErrStopped that came when pages were made already.
var errByTheme = fmt.Errorf("%w, in its theme", ErrStopped)

// Read reads a manual's folder and proof-reads it. Links that lead out of the folder are not followed.
func Read(ctx context.Context, folder string, now time.Time) (*manual.Manual, []finding.Finding, error) {
	root, err := openManual(folder)
	if err != nil {
		return nil, nil, err
	}
	m, _, findings, err := new(Sitting).read(ctx, root, nil, Options{Now: now})
	return m, findings, errors.Join(err, root.Close())
}

// Against adds to what was found in a manual what has changed since an edition without a new revision.
func Against(m *manual.Manual, findings []finding.Finding, since *edition.List, now time.Time) []finding.Finding {
	findings = append(findings, rules.ProofAgainst(m, earlier(since))...)
	finding.Sort(findings)
	return findings
}

func openManual(folder string) (*os.Root, error) {
	root, err := os.OpenRoot(folder)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, &manual.UnusableError{Problem: fmt.Sprintf("There is no folder %s.", folder), Remedy: "Name the folder that holds shop.yaml, or make a manual with tankside start.", Err: err}
	}
	if err != nil {
		return nil, &manual.UnusableError{Problem: fmt.Sprintf("%s cannot be opened as a folder: %v.", folder, err), Remedy: "Name the folder that holds shop.yaml.", Err: err}
	}
	return root, nil
}

// GarbagePercent is a good value of debug.SetGCPercent for a program that publishes: a large manual is then published in two thirds of the
// memory that Go would take by itself, in hardly more time. Proof-reading alone needs little memory, and a third more time with it.
const GarbagePercent = 40

// Publish proof-reads the manual and writes its edition, whole or not at all.
// The same manual gives the same edition, to the byte, whatever the folder; all but the list of what has changed since the edition before, which
// needs that edition: the one in the folder, or version control. The day changes no number and no code, and of the pages what they say as of it: which
// reviews are overdue or due, and which readings there are.
//
// In a sitting the revisions of articles are compared as if the edition were the first: against the one that was in place before the sitting.
func Publish(ctx context.Context, o Options) (Report, error) {
	if o.Sitting == nil {
		return new(Sitting).publish(ctx, o)
	}
	r, err := o.Sitting.publish(ctx, o)
	if err != nil && (!errors.Is(err, ErrStopped) || errors.Is(err, errByTheme)) {
		err = errors.Join(err, o.Sitting.forget())
	}
	return r, err
}

func (s *Sitting) publish(ctx context.Context, o Options) (Report, error) {
	o.progress("reading", 0, 0)
	root, err := openManual(o.Manual)
	if err != nil {
		return Report{}, err
	}
	defer root.Close()
	since, err := s.since(o)
	if err != nil {
		return Report{}, err
	}
	fsys, m, used, findings, err := s.readOver(ctx, root, since, o)
	r := Report{Findings: findings}
	if err != nil {
		return r, err
	}
	stopped := finding.Stopping(findings) > 0
	if stopped && (o.Preview == nil || s.memo == nil || m.Undecided) {
		return r, ErrStopped
	}
	theme, err := themeOf(fsys, m.Shop.Look.Theme)
	if err != nil {
		return r.stoppedBy(err)
	}
	if stopped {
		files, err := s.memo.preview.make(ctx, o, m, used, theme, findings)
		if err == nil {
			o.Preview(files)
		}
		return r, errors.Join(ErrStopped, err)
	}
	is, err := s.issueOf(ctx, o, m, theme)
	if err != nil {
		return r.stoppedBy(err)
	}
	if more := is.unrevised(m); finding.Stopping(more) > 0 {
		r.Findings = append(r.Findings, more...)
		finding.Sort(r.Findings)
		return r, ErrStopped
	}
	w, err := edition.BeginIn(s.places(), o.To)
	if err != nil {
		return r, err
	}
	o.Base.share(w)
	list, made, err := s.write(ctx, o, w, m, used, theme, since, is, root)
	if err != nil {
		return r.stoppedBy(err)
	}
	r.Told = w.Told()
	r.Mark, r.Pages, r.Files = list.Mark, made.Pages, len(list.Files)
	r.Entered, r.Revision, r.Apart = is.entry != nil, is.revision, is.why
	r.Compared = is.earlier != nil
	if is.before != nil {
		r.Before = is.before.Number
	}
	for _, f := range list.Files {
		r.Bytes += f.Bytes
	}
	if o.Carry != "" {
		o.progress("packing", 0, 0)
		if r.Carried, err = carry.Write(ctx, o.To, o.Carry, made.First); err != nil {
			return r, fmt.Errorf("the edition is in place, but not in one file: %w", err)
		}
	}
	return r, nil
}

// stoppedBy makes a finding of what is wrong with the manual's own theme.
func (r Report) stoppedBy(err error) (Report, error) {
	fault, err := inTheme(err)
	if fault == nil {
		return r, err
	}
	r.Findings = append(r.Findings, *fault)
	finding.Sort(r.Findings)
	return r, errByTheme
}

// write renders the edition into the writer and commits it, or abandons it.
func (s *Sitting) write(ctx context.Context, o Options, w *edition.Writer, m *manual.Manual, used relate.Uses, theme themes.Theme, since *edition.List, is issue, root *os.Root) (edition.List, page.Result, error) {
	look, err := theme.Digest()
	var list edition.List
	if err == nil {
		list, err = s.listOf(w, m, since, is)
	}
	if err == nil {
		err = is.pack(w, &list)
	}
	if err == nil {
		err = w.Add(page.NoticesFile, themes.Notices)
	}
	if err == nil && list.Before != nil && is.printed != nil {
		var was changes.Printed
		was, err = is.printed()
		list.Before.Cards, list.Before.Sheets = was.Cards, was.Sheets
	}
	var tools []page.Tool
	if err == nil {
		tools, err = page.Tools(m, theme)
	}
	var result page.Result
	if err == nil {
		in := inputOf(m, theme, used, list.Mark, o.Now)
		in.Since, in.Ledger, in.Forwards, in.Index = is.since(), is.ledger, is.forwards, index(m, tools)
		in.Look, in.Memo, in.Keep, in.First, in.Ready = look, s.pages(o.Base), w.Keep, waitedFor(m, o.Changed), o.Ready
		in.Progress = func(done, total int) { o.progress("writing pages", done, total) }
		result, err = page.Render(ctx, in, w.Add)
	}
	if err == nil && is.entry != nil {
		err = enter(root, m.Ledger, is.entry)
	}
	if err == nil {
		list.Base, err = o.Base.told(o.Inputs)
	}
	if err != nil {
		return edition.List{}, result, errors.Join(err, w.Abandon())
	}
	list.Parcels, list.First = result.Parcels, edition.Sum(result.First)
	list.Cards, list.Sheets = result.Printed.Cards, result.Printed.Sheets
	o.progress("putting the edition in place", 0, 0)
	list, err = w.Commit(list, result.Worker)
	return list, result, err
}

// inputOf is what the pages of a manual are made from, whatever becomes of them: an edition, what is looked at, a trial of the theme.
func inputOf(m *manual.Manual, theme themes.Theme, used relate.Uses, mark edition.Mark, now time.Time) page.Input {
	return page.Input{Manual: m, Theme: theme, Mark: mark, Day: now.Format(time.DateOnly), Used: used, Beside: book.Sheets, Rules: rules.All()}
}

// waitedFor are the pages of the articles among some files.
func waitedFor(m *manual.Manual, changed []string) map[string]bool {
	pages := make(map[string]bool, len(changed))
	for _, path := range changed {
		if a := m.At(path); a != nil {
			pages[page.Path(a)] = true
		}
	}
	return pages
}

// listOf begins the edition's list.
func (s *Sitting) listOf(w *edition.Writer, m *manual.Manual, since *edition.List, is issue) (edition.List, error) {
	if err := s.begin(w, since); err != nil {
		return edition.List{}, err
	}
	l := edition.List{Shop: m.Shop.Name, Address: m.Shop.Address, Mark: is.mark, Source: is.content.Digest()}
	for _, a := range m.Articles {
		l.Articles = append(l.Articles, told(a))
	}
	for _, t := range m.Translations {
		l.Translations = append(l.Translations, told(t))
	}
	return l, nil
}

// themeOf is the built-in theme, with the shop's own files over it where the manual has a folder theme/.
func themeOf(manual fs.FS, name string) (themes.Theme, error) {
	info, err := fs.Stat(manual, "theme")
	if errors.Is(err, fs.ErrNotExist) {
		return called(themes.New(nil), name), nil
	}
	if err != nil {
		return themes.Theme{}, err
	}
	if !info.IsDir() {
		return themes.Theme{}, &themes.FaultError{Err: errors.New("it has to be a folder of the shop's own templates, styles and drawings")}
	}
	own, err := fs.Sub(manual, "theme")
	return called(themes.New(own), name), err
}

// called gives the theme of a name; without a name, the usual one.
func called(t themes.Theme, name string) themes.Theme {
	if name == "" {
		return t
	}
	return t.Called(name)
}
