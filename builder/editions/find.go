package editions

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"tankside/builder/edition"
	"tankside/builder/manual"
)

// Bounds of what is looked through.
const (
	mostEditions = 200_000
	mostFolders  = 1_000_000
	deepest      = 12 // folders below the one that is looked through
)

// ErrTooMany says that a folder is more than is looked through at once.
var ErrTooMany = errors.New("too much is in the folder to be looked through at once; name a folder within it")

// place is where an edition is, or should be.
type place struct {
	path    string // within the folder, with /
	kind    kind
	problem string // why it cannot be read, of closed
}

type kind int

const (
	inFolder kind = iota
	inFile        // carried
	listless      // files of an edition without its list
	empty         // a folder directly below, not that of a manual, with no edition in it
	closed        // a folder that cannot be read
)

// find finds the editions in a folder, by path. It goes into no edition, into no folder whose name begins with a dot, and through no link, of which it gives the number.
func find(ctx context.Context, root string) (list []place, links int, err error) {
	folders, has := 0, map[string]bool{} // folders directly below that are no manual's: whether there is an edition in them
	add := func(path string, k kind, problem string) error {
		if len(list) == mostEditions {
			return ErrTooMany
		}
		top, _, _ := strings.Cut(path, "/")
		has[top] = true
		list = append(list, place{path, k, problem})
		return nil
	}
	err = fs.WalkDir(os.DirFS(root), ".", func(path string, e fs.DirEntry, err error) error {
		if ctx.Err() != nil {
			return ctx.Err()
		}
		switch {
		case err != nil && path != ".":
			if err := add(path, closed, err.Error()); err != nil {
				return err
			}
			return skip(e)
		case err != nil:
			return err
		case path != "." && strings.HasPrefix(e.Name(), "."):
			if e.IsDir() {
				return fs.SkipDir
			}
			return nil
		case e.Type()&fs.ModeSymlink != 0:
			links++
			return nil
		case !e.IsDir() && strings.EqualFold(filepath.Ext(path), ".zip"):
			return add(path, inFile, "")
		case !e.IsDir():
			return nil
		}
		if folders++; folders > mostFolders || strings.Count(path, "/") >= deepest {
			return fmt.Errorf("%w: %q", ErrTooMany, path)
		}
		if path != "." && !strings.Contains(path, "/") && !isFile(filepath.Join(root, path, manual.ShopFile)) {
			has[path] = has[path] || false
		}
		for _, sign := range signs {
			if (path != "." || sign.kind == inFolder) && isFile(filepath.Join(root, path, sign.name)) {
				if err := add(path, sign.kind, ""); err != nil {
					return err
				}
				return fs.SkipDir
			}
		}
		return nil
	})
	if err != nil {
		return nil, links, err
	}
	for top, is := range has {
		if !is {
			list = append(list, place{path: top, kind: empty})
		}
	}
	slices.SortFunc(list, func(a, b place) int { return strings.Compare(a.path, b.path) })
	return list, links, nil
}

// pageOfAll is a page that every edition has.
const pageOfAll = "this-edition.html"

// signs are the files by which a folder of an edition is known, the first that is there.
var signs = []struct {
	name string
	kind kind
}{{edition.ListName, inFolder}, {edition.WorkerName, listless}, {pageOfAll, listless}}

// skip leaves a folder out, where it is one.
func skip(e fs.DirEntry) error {
	if e != nil && e.IsDir() {
		return fs.SkipDir
	}
	return nil
}

func isFile(path string) bool {
	info, err := os.Lstat(path)
	return err == nil && !info.IsDir()
}

// Any tells whether there is an edition in a folder, or what is left of one.
func Any(ctx context.Context, root string) (bool, error) {
	list, _, err := find(ctx, root)
	return slices.ContainsFunc(list, func(p place) bool { return p.kind == inFolder || p.kind == inFile || p.kind == listless }), err
}
