package page

import (
	"context"
	"fmt"
	"slices"
	"sync/atomic"

	"tankside/builder/edition"
	"tankside/builder/manual"
	"tankside/builder/workers"
	"tankside/themes"
)

// Input is what the pages are made of.
type Input struct {
	Manual  *manual.Manual
	Theme   themes.Theme
	Edition int
	Date    string // year-month-day
	Changes edition.Changes
	Index   Index

	// Progress, where it is not nil, is told how many of the pages are done. It may be called from several goroutines.
	Progress func(done, total int)
}

// Index is the search index to be. It is made while the pages are rendered.
type Index struct {
	From string                 // changes with everything that the index is made from
	Make func() ([]byte, error) // called once
}

// Sink takes a finished file of the edition. It is called from several goroutines at once.
type Sink func(path string, data []byte) error

// Result is what the edition's list has to know of the pages.
type Result struct {
	Pages   int
	Parcels map[string]string // what scripts load on demand: name → file
	Worker  []byte            // script of the offline worker
}

// Render renders every page and asset of the edition. An error names the article or template that it comes from.
func Render(ctx context.Context, in Input, add Sink) (Result, error) {
	s, err := newSite(in, add)
	if err != nil {
		return Result{}, err
	}
	pages := s.pages()
	jobs := slices.Concat([]job{s.index(in)}, pages) // the index takes longest
	if err := inParallel(ctx, jobs, func(j job) error { return j.render(add) }, in.Progress); err != nil {
		return Result{}, err
	}
	worker, err := in.Theme.Read("scripts/" + edition.WorkerName)
	if err != nil {
		return Result{}, err
	}
	return Result{Pages: len(pages), Parcels: s.parcels, Worker: worker}, nil
}

// job is one file to be made.
type job struct {
	path   string
	render func(Sink) error
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
