// Package layer lays the folder of a shop over the folder of a manual that many shops share, the base: what the shop has stands in place of what the base has at
// the same path, and the rest is the base's.
//
// Some files are everybody's own and are never taken from the base: the shop file, the ledger, the records, and who may sign. Others are never a shop's:
// the glossary, what was renamed, and another picture at the path of one of the base's. Those are told of, and the base's stay.
// A translation of the base is left out where the shop replaces its original: it is of another text.
package layer

import (
	"errors"
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strings"

	"golang.org/x/text/unicode/norm"

	"tankside/builder/ledger"
	"tankside/builder/manual"
)

// Tree is what a folder has in it, read once.
type Tree struct {
	fsys    fs.FS
	entries map[string]entry // files and folders, by path with letters with an accent as one character each
}

type entry struct {
	fs.DirEntry
	fsys fs.FS
	name string // in fsys
}

// most bounds how many files and folders are looked at, which is more than a manual may have.
const most = 200_000

// ErrTooMany says that a folder is more than a manual or a shop.
var ErrTooMany = errors.New("the folder has more files than a manual may have")

// Read reads what a folder has in it. A folder that cannot be listed is an error: what is in it might be what the base's would be taken for.
func Read(fsys fs.FS) (*Tree, error) {
	t := &Tree{fsys: fsys, entries: map[string]entry{}}
	err := fs.WalkDir(fsys, ".", func(p string, e fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case p == ".":
			return nil
		case strings.HasPrefix(e.Name(), "."):
			if e.IsDir() {
				return fs.SkipDir
			}
			return nil
		case len(t.entries) == most:
			return ErrTooMany
		}
		at := norm.NFC.String(p)
		if _, twice := t.entries[at]; twice {
			return fmt.Errorf("%q is there twice, spelled with other characters for an accent", at)
		}
		t.entries[at] = entry{e, fsys, p}
		return nil
	})
	return t, err
}

// Over lays a shop's folder over the base's. It gives the folder that both make, the shop's own files in it, and those files of the shop's folder that no shop has; each
// list in the order of paths.
func (t *Tree) Over(base *Tree) (fsys fs.FS, own, apart []string) {
	both := &files{at: map[string]entry{}, in: map[string][]fs.DirEntry{}}
	for p, e := range t.entries {
		if e.IsDir() {
			continue
		}
		if under, has := base.entries[p]; neverOfAShop(p, has && !under.IsDir()) {
			apart = append(apart, p)
			continue
		}
		own = append(own, p)
		both.at[p] = e
	}
	slices.Sort(own)
	slices.Sort(apart)
	has := func(p string) bool { _, is := slices.BinarySearch(own, p); return is }
	for p, e := range base.entries {
		if original, language := manual.OriginalOf(p); e.IsDir() || has(p) || everybodysOwn(p) || language != "" && has(original) {
			continue
		}
		both.at[p] = e
	}
	both.list()
	return both, own, apart
}

// everybodysOwn tells whether a file is never taken from the base.
func everybodysOwn(p string) bool {
	folder, _, in := strings.Cut(p, "/")
	return p == manual.ShopFile || p == ledger.File || p == "understood.txt" || p == "allowed_signers" || p == "revoked_keys" || in && folder == manual.RecordFolder
}

// neverOfAShop tells whether a file in a shop's folder is none that a shop has.
func neverOfAShop(p string, baseHasIt bool) bool {
	folder, _, in := strings.Cut(p, "/")
	return p == manual.GlossaryFile || p == manual.MovedFile || in && folder == "pictures" && baseHasIt
}

// files are those of both folders, as one file system.
type files struct {
	at map[string]entry
	in map[string][]fs.DirEntry // by folder
}

// list makes the folders in which the files lie.
func (f *files) list() {
	f.in["."] = nil
	var in func(dir string)
	in = func(dir string) { // makes a folder, and those in which it lies
		if _, known := f.in[dir]; !known {
			f.in[dir] = nil
			in(path.Dir(dir))
			f.in[path.Dir(dir)] = append(f.in[path.Dir(dir)], folder{path.Base(dir)})
		}
	}
	for p, e := range f.at {
		in(path.Dir(p))
		f.in[path.Dir(p)] = append(f.in[path.Dir(p)], named{e.DirEntry, path.Base(p)})
	}
	for _, list := range f.in {
		slices.SortFunc(list, func(a, b fs.DirEntry) int { return strings.Compare(a.Name(), b.Name()) })
	}
}

// named is an entry under the name that it has here.
type named struct {
	fs.DirEntry
	name string
}

func (n named) Name() string { return n.name }

// Open opens a file, or a folder to be listed.
func (f *files) Open(name string) (fs.File, error) {
	if !fs.ValidPath(name) {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrInvalid}
	}
	if e, is := f.at[name]; is {
		return e.fsys.Open(e.name)
	}
	if list, is := f.in[name]; is {
		return &opened{folder{path.Base(name)}, list}, nil
	}
	return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrNotExist}
}

// ReadDir lists a folder.
func (f *files) ReadDir(name string) ([]fs.DirEntry, error) {
	if list, is := f.in[name]; is {
		return slices.Clone(list), nil
	}
	return nil, &fs.PathError{Op: "readdir", Path: name, Err: fs.ErrNotExist}
}
