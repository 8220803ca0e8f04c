// Package shops publishes an edition for each of many shops over one base: see package layer for what a shop has of its own, and README.md for what a thousand cost.
//
// One shop is in memory at a time, beside the base. What goes wrong in one stops that one alone. A shop whose edition is whole, and was made of the very same files by the same
// program on the same day, is not made again: so a run that was broken off goes on where it was.
package shops

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"tankside/builder"
	"tankside/builder/edition"
	"tankside/builder/finding"
)

// GarbagePercent is a good value of debug.SetGCPercent for a program that publishes many shops: some 30 MB live, so that collecting often would take a sixth of the time and save nothing
// that a machine lacks.
const GarbagePercent = 200

// Options says what to publish.
type Options struct {
	Base  string // folder of the manual that all shops lie over
	Shops string // folder with a folder for each shop
	To    string // folder of the editions, one below it for each shop, of the same name
	Part  Part   // which of the shops
	Now   time.Time

	// Program is a digest of the program that publishes: editions of another are made again.
	Program string

	// Shelf is where files lie that editions have in common; with nil, beside the editions. Editions of several folders may share one, on one file system.
	Shelf *edition.Shelf

	Enter *builder.Entering // as in builder.Options, for each shop's own ledger

	Begun    func(of *builder.Base, shops int) // is told of the base when that has been read, and how many shops there are in the part
	Progress func(shop, doing string, done, total int)
	Done     func(Result) // is told of each shop, one after the other
}

// State is what became of a shop.
type State string

// The states.
const (
	Published State = "published"
	Current   State = "current" // its edition is whole, and made of what it would be made of
	Stopped   State = "stopped" // by findings
	Failed    State = "failed"  // it could not be read or written
)

// Result is what became of one shop.
type Result struct {
	Shop   string // its folder below Options.Shops
	State  State
	Report builder.Report    // Findings are all of the shop's
	Own    []finding.Finding // those that the base by itself does not have
	Err    error             // of Failed
}

// Summary is what a run did.
type Summary struct {
	Count     map[State]int
	Elsewhere int      // shops of other parts
	NoShops   []string // what lies in the folder of shops and is no folder
	Nobodys   []string // folders beside the editions that have no shop
}

// Fine tells whether every shop of the part has its edition.
func (s *Summary) Fine() bool { return s.Count[Stopped]+s.Count[Failed] == 0 }

// Publish publishes the shops of a part, in the order of their names. Only what concerns all of them is an error.
func Publish(ctx context.Context, o Options) (Summary, error) {
	sum := Summary{Count: map[State]int{}}
	all, none, err := shopsIn(o.Shops)
	if err != nil {
		return sum, err
	}
	sum.NoShops = none
	shelf := o.Shelf
	if shelf == nil {
		if shelf, err = edition.OpenShelf(o.To); err != nil {
			return sum, err
		}
	}
	if sum.Nobodys, err = nobodys(o.To, all); err != nil {
		return sum, err
	}
	base, err := builder.OpenBase(ctx, o.Base, shelf, o.Now)
	if err != nil {
		return sum, fmt.Errorf("the base: %w", err)
	}
	defer base.Close()
	mine := slices.DeleteFunc(slices.Clone(all), func(shop string) bool { return !o.Part.Has(shop) })
	sum.Elsewhere = len(all) - len(mine)
	r, err := newRun(o, base)
	if err != nil {
		return sum, err
	}
	if o.Begun != nil {
		o.Begun(base, len(mine))
	}
	for _, shop := range mine {
		got := r.publish(ctx, shop)
		if ctx.Err() != nil {
			return sum, ctx.Err()
		}
		sum.Count[got.State]++
		if o.Done != nil {
			o.Done(got)
		}
	}
	return sum, nil
}

// shopsIn gives the folders of the shops by name, and what else lies beside them. What begins with a dot is nobody's matter.
func shopsIn(folder string) (shops, none []string, err error) {
	entries, err := os.ReadDir(folder)
	if err != nil {
		return nil, nil, err
	}
	for _, e := range entries {
		switch {
		case strings.HasPrefix(e.Name(), "."):
		case e.IsDir():
			shops = append(shops, e.Name())
		default:
			none = append(none, e.Name())
		}
	}
	if len(shops) == 0 {
		return nil, nil, fmt.Errorf("there is no shop in %s: each has a folder of its own there, with its shop.yaml", folder)
	}
	return shops, none, nil
}

// nobodys are the folders beside the editions that are of no shop.
func nobodys(to string, shops []string) ([]string, error) {
	entries, err := os.ReadDir(to)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, err
	}
	var list []string
	for _, e := range entries {
		if _, is := slices.BinarySearch(shops, e.Name()); e.IsDir() && !is && !strings.HasPrefix(e.Name(), ".") {
			list = append(list, e.Name())
		}
	}
	return list, nil
}

// run is one run over the shops of a part.
type run struct {
	Options
	base   *builder.Base
	under  string        // digest of what all shops are made of
	shared map[note]bool // what is found in the base by itself
}

// note is a finding as far as two are the same.
type note struct {
	rule finding.RuleName
	finding.Place
	message string
}

func noteOf(f finding.Finding) note { return note{f.Rule, f.Place, f.Message} }

func newRun(o Options, base *builder.Base) (*run, error) {
	under, err := inputsOf(base.FS())
	if err != nil {
		return nil, err
	}
	r := &run{Options: o, base: base, under: join("tankside shop 1", o.Program, o.Now.Format(time.DateOnly), under), shared: map[note]bool{}}
	for _, f := range base.Findings {
		r.shared[noteOf(f)] = true
	}
	return r, nil
}

// publish publishes one shop. A panic is the fault of this shop alone.
func (r *run) publish(ctx context.Context, shop string) (got Result) {
	got.Shop = shop
	defer func() {
		if fault := recover(); fault != nil {
			got.State, got.Err = Failed, fmt.Errorf("a fault of tankside's own: %v", fault)
		}
	}()
	folder, to := filepath.Join(r.Shops, shop), filepath.Join(r.To, shop)
	inputs := func() (string, error) {
		own, err := inputsIn(folder)
		return join(r.under, own), err
	}
	if mark, is := r.isCurrent(ctx, to, inputs); is {
		got.State, got.Report.Mark = Current, mark
		return got
	}
	o := builder.Options{Manual: folder, To: to, Now: r.Now, Base: r.base, Inputs: inputs, Enter: r.Enter}
	if r.Progress != nil {
		o.Progress = func(doing string, done, total int) { r.Progress(shop, doing, done, total) }
	}
	report, err := builder.Publish(ctx, o)
	got.Report, got.State = report, Published
	for _, f := range report.Findings {
		if !r.shared[noteOf(f)] || FileIn(folder, f.File) {
			got.Own = append(got.Own, f)
		}
	}
	switch {
	case errors.Is(err, builder.ErrStopped):
		got.State = Stopped
	case err != nil:
		got.State, got.Err = Failed, err
	}
	return got
}

// isCurrent tells whether the edition of a shop is whole and need not be made again. What cannot be told is no.
func (r *run) isCurrent(ctx context.Context, to string, inputs func() (string, error)) (edition.Mark, bool) {
	fsys := os.DirFS(to)
	l, err := edition.ReadList(fsys)
	if err != nil || l.Base == nil || r.Enter != nil && l.Edition == 0 {
		return edition.Mark{}, false
	}
	if now, err := inputs(); err != nil || now != l.Base.Inputs {
		return edition.Mark{}, false
	}
	v, err := edition.Verify(ctx, fsys)
	return l.Mark, err == nil && v.OK && v.Mark == l.Mark
}

// FileIn tells whether a file of a shop's manual is the shop's own. Otherwise it is the base's.
func FileIn(folder, file string) bool {
	_, err := os.Lstat(filepath.Join(folder, filepath.FromSlash(file)))
	return err == nil
}
