package page

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"sync/atomic"

	"tankside/builder/changes"
	"tankside/builder/decide/relate"
	"tankside/builder/edition"
	"tankside/builder/finding"
	"tankside/builder/ledger"
	"tankside/builder/manual"
	"tankside/builder/workers"
	"tankside/themes"
)

// Input is what the pages are made of.
type Input struct {
	Manual *manual.Manual
	Theme  themes.Theme
	Mark   edition.Mark
	Day    string      // year-month-day: of publication; which reviews are overdue, and which readings there are, is said as of it
	Used   relate.Uses // of the manual; nil has them worked out
	Since  Since
	Ledger ledger.Ledger
	Rules  []finding.Rule // of the proof-reader
	Index  []Index

	// Forwards says of files of older editions which article has taken their place, by their paths in the manual.
	Forwards map[string]string

	// What an edition before has left. All are left out where an edition stands by itself.
	Look  string                          // digest of the theme
	Memo  *Memo                           // of what that edition was made
	Keep  func(path string) (bool, error) // keeps a file of that edition if it is still there
	First map[string]bool                 // pages that somebody waits for
	Ready func(path string, page []byte)  // is told of those as soon as they are written

	Preview *Preview // where it is not nil, findings stop publication, and each page says so

	// Beside, where it is not nil, gives pages that stand beside these and are made of the same parts.
	Beside func(*Parts) []Sheet

	// Progress, where it is not nil, is told how many of the pages are done. It may be called from several goroutines.
	Progress func(done, total int)
}

// Index is the search index to be, or one of the pieces of which that of a large manual is made.
type Index struct {
	From func() string          // changes with everything that the piece is made from
	Make func() ([]byte, error) // makes the piece
}

// Sink takes a finished file of the edition. It is called from several goroutines at once.
type Sink func(path string, data []byte) error

// Result is what the edition's list has to know of the pages.
type Result struct {
	Pages   int
	Parcels map[string]string // what scripts load on demand: name → file
	Worker  []byte            // script of the offline worker
	Printed changes.Printed   // codes of what is printed
	First   []byte            // the page that leads in where the edition is carried as one file
}

// Render renders every page and asset of the edition. An error names the article or template that it comes from.
func Render(ctx context.Context, in Input, add Sink) (Result, error) {
	s, err := newSite(in, add)
	if err != nil {
		return Result{}, err
	}
	pages := s.pages()
	if in.Beside != nil {
		for _, sheet := range in.Beside(newParts(s, pages)) {
			pages = append(pages, s.beside(sheet))
		}
	}
	pages = append(pages, s.lostPages(pages)...)
	for i := range pages {
		pages[i] = s.shownAnyway(pages[i])
	}
	named := make([]string, len(in.Index))
	rest := s.index(named) // which takes longest
	for _, j := range pages {
		if !in.First[j.path] {
			rest = append(rest, j)
			continue
		}
		err := j.render(func(path string, data []byte) error {
			err := add(path, data)
			if err == nil && in.Ready != nil {
				in.Ready(path, data)
			}
			return err
		})
		if err != nil {
			return Result{}, fmt.Errorf("%s: %w", j.path, err)
		}
	}
	if err := inParallel(ctx, rest, func(j job) error { return j.render(add) }, in.Progress); err != nil {
		return Result{}, err
	}
	installed, err := s.installed()
	if err != nil {
		return Result{}, err
	}
	if err := errors.Join(add(ReviewsFile, s.calendar()), add(InstalledFile, installed), s.tellCurrent(add)); err != nil {
		return Result{}, err
	}
	worker, err := s.worker()
	if err != nil {
		return Result{}, err
	}
	if err := s.nameIndex(named, add); err != nil {
		return Result{}, err
	}
	first, err := s.first()
	if err != nil {
		return Result{}, err
	}
	printed, err := s.printed()
	if err != nil {
		return Result{}, err
	}
	return Result{Pages: len(pages), Parcels: s.parcels, Worker: worker, Printed: printed, First: first}, nil
}

// Open lends what pages are made of, in a language of the edition, for pages that another package makes and [Parts.Render] renders. The assets that pages share are
// written. The empty language is the manual's own.
func Open(in Input, tag string, add Sink) (*Parts, error) {
	s, err := newSite(in, add)
	if err != nil {
		return nil, err
	}
	own := newParts(s, s.jobs())
	if tag == "" || tag == s.language {
		return own, nil
	}
	at := slices.IndexFunc(s.all, func(o *site) bool { return o.language == tag })
	if at < 0 {
		return nil, fmt.Errorf("the manual has nothing in the language %q", tag)
	}
	p := newParts(s.all[at], s.all[at].jobs())
	p.own = own
	return p, nil
}

// Render renders a page that another package makes.
func (p *Parts) Render(sheet Sheet, add Sink) error { return p.s.beside(sheet).render(add) }

// worker is the script of the offline worker with the sentence that it has to say by itself.
func (s *site) worker() ([]byte, error) {
	script, err := s.Theme.Read("scripts/" + edition.WorkerName)
	if err != nil {
		return nil, err
	}
	damaged, err := json.Marshal(s.words.say("This page of the manual, as this device keeps it, is damaged. Connect to the server and open it again."))
	if err != nil {
		return nil, err
	}
	return slices.Concat([]byte("const sayDamaged = "), damaged, []byte(";\n"), script), nil
}

// job is one file to be made.
type job struct {
	base   string // its name in the manual's own language
	path   string
	render func(Sink) error

	// Of a page: its template, and what fills the frame, for the page itself and for the book.
	sheet string
	fill  func(*site, *frame) error
}

// inParallel runs the jobs on every core and stops at the first error, or panic, and says of which page it is.
func inParallel(ctx context.Context, jobs []job, run func(job) error, progress func(done, total int)) error {
	var done atomic.Int64
	return workers.Each(ctx, len(jobs), func(i int) error {
		defer func() {
			if fault := recover(); fault != nil {
				panic(fmt.Sprintf("%s: %v", jobs[i].path, fault))
			}
		}()
		if err := run(jobs[i]); err != nil {
			return fmt.Errorf("%s: %w", jobs[i].path, err)
		}
		if progress != nil {
			progress(int(done.Add(1)), len(jobs))
		}
		return nil
	})
}
