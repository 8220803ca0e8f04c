package edition

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io"
	"io/fs"
	"maps"
	"slices"
)

// Report is what Verify found. Paths are in the order of the checksum list.
type Report struct {
	OK      bool     `json:"ok"`
	Damaged []string `json:"damaged"`
	Missing []string `json:"missing"`
	Extra   []string `json:"extra"` // files that no edition put there
	Mark    Mark     `json:"mark"`
	Files   int      `json:"files"` // files compared
}

// mostTries bounds how often a comparison is begun again because another edition was put in place during it.
const mostTries = 5

// Verify compares every file of an edition with its checksum list.
// An error means that the comparison could not be made; a damaged edition is no error but a Report. Where another edition is put in place
// meanwhile, that one is compared.
func Verify(ctx context.Context, fsys fs.FS) (Report, error) {
	var r Report
	var err error
	for range mostTries {
		var l *List
		if l, err = ReadList(fsys); err != nil {
			return r, err
		}
		if r, err = l.verify(ctx, fsys, false); err == nil && r.OK || ctx.Err() != nil {
			return r, err
		}
		if now, err := ReadList(fsys); err == nil && now.sum == l.sum {
			break
		}
	}
	return r, err
}

// VerifyCarried compares the files of an edition that is carried as one file with its list: what does not go along is not missed, and what cannot be unpacked is damaged.
func VerifyCarried(ctx context.Context, fsys fs.FS, l *List) (Report, error) {
	return l.verify(ctx, fsys, true)
}

// verify compares the files of a folder with the list.
func (l *List) verify(ctx context.Context, fsys fs.FS, carried bool) (Report, error) {
	r := Report{Damaged: []string{}, Missing: []string{}, Extra: []string{}}
	r.Mark = l.Mark
	there := map[string]fs.FileMode{} // types, by path
	err := fs.WalkDir(fsys, ".", func(path string, e fs.DirEntry, err error) error {
		if err == nil && !e.IsDir() {
			there[path] = e.Type()
		}
		return err
	})
	if err != nil {
		return r, err
	}
	if there[ListName].IsRegular() {
		delete(there, ListName)
	}
	if there[ListName+".sig"].IsRegular() { // a signature of the list cannot be in it
		delete(there, ListName+".sig")
	}
	check := func(path, want string) error {
		mode, is := there[path]
		delete(there, path)
		r.Files++
		if is && !mode.IsRegular() {
			r.Damaged = append(r.Damaged, path) // a link, which leads to what may change, and is not copied by everybody
			return nil
		}
		got, err := SumOf(fsys, path)
		switch {
		case errors.Is(err, fs.ErrNotExist):
			r.Missing = append(r.Missing, path)
		case err != nil && carried:
			r.Damaged = append(r.Damaged, path)
		case err != nil:
			return err
		case got != want, !is: // behind a link to a folder
			r.Damaged = append(r.Damaged, path)
		}
		return nil
	}
	for _, f := range l.Files {
		if err := ctx.Err(); err != nil {
			return r, err
		}
		if carried && !IsCarried(f.Path) {
			continue
		}
		if err := check(f.Path, f.SHA256); err != nil {
			return r, err
		}
		if carried {
			continue
		}
		if f.Gzip != "" {
			if err := check(f.Path+".gz", f.Gzip); err != nil {
				return r, err
			}
		}
		if f.Brotli != "" {
			if err := check(f.Path+".br", f.Brotli); err != nil {
				return r, err
			}
		}
	}
	r.Extra = slices.AppendSeq(r.Extra, maps.Keys(there))
	slices.Sort(r.Extra)
	r.OK = len(r.Damaged)+len(r.Missing)+len(r.Extra) == 0
	return r, nil
}

// SumOf is [Sum] of a file, read in pieces.
func SumOf(fsys fs.FS, path string) (string, error) {
	f, err := fsys.Open(path)
	if err != nil {
		return "", err
	}
	h := sha256.New()
	_, err = io.Copy(h, f)
	if err := errors.Join(err, f.Close()); err != nil {
		return "", err
	}
	return hex.EncodeToString(h.Sum(nil)), nil
}
