package editions

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"sync/atomic"

	"tankside/builder/carry"
	"tankside/builder/edition"
	"tankside/builder/workers"
)

// Found is what a folder has in it.
type Found struct {
	Editions []One `json:"editions"` // by path
	Links    int   `json:"links"`    // links, which are not followed
}

// Look compares every edition of a folder with its list, and with the others of its shop, or with the base where that is not nil. It holds one line for each edition, and not their
// files. progress may be nil, and may be called from several goroutines.
func Look(ctx context.Context, root string, base *Base, progress func(done, total int)) (Found, error) {
	places, links, err := find(ctx, root)
	if err != nil {
		return Found{}, err
	}
	f := Found{Editions: make([]One, len(places)), Links: links}
	var done atomic.Int64
	err = workers.Each(ctx, len(places), func(i int) error {
		o, err := look(ctx, root, places[i])
		if err != nil {
			return err
		}
		if base != nil {
			base.compare(&o)
		}
		o.articles = nil
		f.Editions[i] = o
		if n := int(done.Add(1)); progress != nil {
			progress(n, len(places))
		}
		return nil
	})
	if err == nil && base == nil {
		compareShops(f.Editions)
		compareBases(f.Editions)
	}
	return f, err
}

// look compares what is in one place with its list. Only that the work was broken off is an error.
func look(ctx context.Context, root string, p place) (One, error) {
	o := One{Path: p.path, State: NoList, Standing: NotCompared, Why: "it is not known what it is", Damaged: paths(nil), Missing: paths(nil), Extra: paths(nil)}
	at := filepath.Join(root, filepath.FromSlash(p.path))
	switch p.kind {
	case listless:
		o.Problem = "its list " + edition.ListName + " is missing"
		return o, nil
	case closed:
		o.Problem = p.problem
		return o, nil
	case empty:
		o.State, o.Problem = None, "there is no edition in it"
		return o, nil
	}
	l, r, signed, err := read(ctx, at)
	if ctx.Err() != nil {
		return o, ctx.Err()
	}
	if err != nil {
		o.Problem = err.Error()
		return o, nil
	}
	o.Shop, o.Mark, o.Base, o.Signed, o.articles = l.Shop, l.Mark, l.Base, signed, l.Articles
	o.State, o.Why, o.Files = Whole, "", r.Files
	o.Damaged, o.Missing, o.Extra = paths(r.Damaged), paths(r.Missing), paths(r.Extra)
	if !r.OK {
		o.State = Damaged
	}
	return o, nil
}

// read reads the list of an edition, in a folder or a file, and compares the files with it.
func read(ctx context.Context, at string) (l *edition.List, r edition.Report, signed bool, err error) {
	if !carry.IsArchive(at) {
		fsys := os.DirFS(at)
		l, err := edition.ReadList(fsys)
		if err == nil {
			r, err = edition.Verify(ctx, fsys)
		}
		if err == nil && r.Mark != l.Mark {
			err = errors.New("another edition was put in place meanwhile; look again")
		}
		return l, r, isSigned(fsys), err
	}
	a, err := carry.Open(at)
	if err != nil {
		return nil, r, false, err
	}
	l = a.List()
	r, err = a.Verify(ctx)
	signed = isSigned(a.FS())
	return l, r, signed, errors.Join(err, a.Close())
}

func isSigned(fsys fs.FS) bool {
	_, err := fs.Stat(fsys, edition.ListName+".sig")
	return err == nil
}
