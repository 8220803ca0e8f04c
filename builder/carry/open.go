package carry

import (
	"archive/zip"
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"strings"

	"tankside/builder/edition"
)

// Archive is an opened file that carries an edition. It is safe for use by several goroutines at once.
type Archive struct {
	file *os.File
	zip  *zip.Reader
	list *edition.List
}

// IsArchive tells whether a path is that of a file, which can only be an archive, and not of an edition's folder.
func IsArchive(path string) bool {
	info, err := os.Stat(path)
	return err == nil && info.Mode().IsRegular()
}

// Open opens a file that carries an edition. A file that is none, or not as this program writes them, gives a *RefusedError.
func Open(path string) (*Archive, error) {
	file, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	info, err := file.Stat()
	if err != nil {
		return nil, errors.Join(err, file.Close())
	}
	a, err := open(file, info.Size())
	if err != nil {
		return nil, errors.Join(err, file.Close())
	}
	a.file = file
	return a, nil
}

func open(r io.ReaderAt, size int64) (*Archive, error) {
	directory, err := checkEnd(r, size)
	if err != nil {
		return nil, err
	}
	z, err := zip.NewReader(r, size)
	if err != nil {
		return nil, &RefusedError{"its directory cannot be read", err}
	}
	if err := checkEntries(r, z.File, directory); err != nil {
		return nil, err
	}
	a := &Archive{zip: z}
	if a.list, err = edition.ReadList(a.FS()); err != nil {
		return nil, &RefusedError{err.Error(), err}
	}
	return a, checkListed(z.File, a.list)
}

// Close closes the file.
func (a *Archive) Close() error { return a.file.Close() }

// List is the checksum list of the edition.
func (a *Archive) List() *edition.List { return a.list }

// FS is the edition's folder in the file.
func (a *Archive) FS() fs.FS { return inside{a.zip} }

// inside is the folder of the edition in an archive. What is read of a file is unpacked as it is read, and never more than the directory says.
type inside struct{ zip *zip.Reader }

func (i inside) Open(name string) (fs.File, error) {
	if !fs.ValidPath(name) {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrInvalid}
	}
	if name == "." {
		return i.zip.Open(strings.TrimSuffix(Folder, "/"))
	}
	return i.zip.Open(Folder + name)
}

// Read gives a file of the edition, as it is listed. Where it is not, the error is edition.ErrDamaged.
func (a *Archive) Read(f edition.File) ([]byte, error) {
	file, err := a.FS().Open(f.Path)
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	b.Grow(int(min(f.Bytes, largestEntry)))
	_, err = io.Copy(&b, io.LimitReader(file, f.Bytes+1))
	if err := errors.Join(err, file.Close()); err != nil {
		return nil, fmt.Errorf("%s: %w: %w", f.Path, edition.ErrDamaged, err)
	}
	if sum := sha256.Sum256(b.Bytes()); hex.EncodeToString(sum[:]) != f.SHA256 {
		return nil, fmt.Errorf("%s: %w", f.Path, edition.ErrDamaged)
	}
	return b.Bytes(), nil
}

// Verify compares every file with the list, one after the other as they are unpacked, and the first page too.
func (a *Archive) Verify(ctx context.Context) (edition.Report, error) {
	r, err := edition.VerifyCarried(ctx, a.FS(), a.list)
	if err != nil {
		return r, err
	}
	r.Files++
	got, err := edition.SumOf(a.zip, First)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		r.Missing = append(r.Missing, "../"+First)
	case err != nil || got != a.list.First:
		r.Damaged = append(r.Damaged, "../"+First)
	}
	r.OK = len(r.Damaged)+len(r.Missing)+len(r.Extra) == 0
	return r, nil
}
