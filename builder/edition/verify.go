package edition

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io"
	"io/fs"
)

// Report is what Verify found. Paths are in the order of the checksum list.
type Report struct {
	OK      bool     `json:"ok"`
	Damaged []string `json:"damaged"`
	Missing []string `json:"missing"`
	Extra   []string `json:"extra"` // files that no edition put there
	Edition int      `json:"edition"`
	Date    string   `json:"date"`
	Files   int      `json:"files"` // files compared
}

// Verify compares every file of an edition with its checksum list.
// An error means that the comparison could not be made; a damaged edition is no error but a Report.
func Verify(ctx context.Context, fsys fs.FS) (Report, error) {
	r := Report{Damaged: []string{}, Missing: []string{}, Extra: []string{}}
	l, err := ReadList(fsys)
	if err != nil {
		return r, err
	}
	r.Edition, r.Date = l.Edition, l.Date
	known := map[string]bool{ListName: true}
	check := func(path, want string) error {
		known[path] = true
		r.Files++
		got, err := hashFile(fsys, path)
		switch {
		case errors.Is(err, fs.ErrNotExist):
			r.Missing = append(r.Missing, path)
		case err != nil:
			return err
		case got != want:
			r.Damaged = append(r.Damaged, path)
		}
		return nil
	}
	for _, f := range l.Files {
		if err := ctx.Err(); err != nil {
			return r, err
		}
		if err := check(f.Path, f.SHA256); err != nil {
			return r, err
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
	err = fs.WalkDir(fsys, ".", func(path string, e fs.DirEntry, err error) error {
		if err == nil && !e.IsDir() && !known[path] {
			r.Extra = append(r.Extra, path)
		}
		return err
	})
	r.OK = len(r.Damaged)+len(r.Missing)+len(r.Extra) == 0
	return r, err
}

func hashFile(fsys fs.FS, path string) (string, error) {
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
