package edition

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"

	"tankside/builder/disk"
)

// ShelfName is the folder beside editions in which the files lie that several of them have in common.
const ShelfName = ".shared"

// Shelf is a folder of files that many editions have in common, each under the checksum of what is in it: what stands there is given a second name in each edition, so
// that it is compressed once in a process and stored once, where the file system has second names. Elsewhere it is copied. Only assets are put there, whose own names carry
// a checksum: pages are each edition's own.
//
// Several processes may use one shelf at once. What a process finds there that it has not put there itself, it compares byte by byte with what it has made, and replaces where it
// is otherwise; so a damaged file does not spread. A file with one name left is in no edition any more, and may be removed.
type Shelf struct {
	dir string

	mu    sync.Mutex
	known map[string]File // assets that this process has made or compared, by path in an edition
}

// mostOnShelf bounds how many assets a process remembers: what the first editions have is what the others share.
const mostOnShelf = 1000

// OpenShelf opens the shelf of a folder of editions, and makes it where there is none.
func OpenShelf(editions string) (*Shelf, error) {
	at, err := filepath.Abs(filepath.Join(editions, ShelfName))
	if err != nil {
		return nil, err
	}
	return &Shelf{dir: at, known: map[string]File{}}, disk.MkdirAll(at, 0o755)
}

// Share has the edition take from a shelf what lies there, and put there what others may have as well. It is called before the first file.
func (w *Writer) Share(s *Shelf) { w.shelf = s }

// shared tells whether a file is one that editions have in common.
func shared(name string) bool { return strings.HasPrefix(name, "assets/") }

// of gives an asset that is known to lie on the shelf.
func (s *Shelf) of(name string) (File, bool) {
	if s == nil || !shared(name) {
		return File{}, false
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	f, known := s.known[name]
	return f, known
}

// sums are a file and its compressed neighbours with their checksums.
func (f File) sums() map[string]string {
	sums := map[string]string{f.Path: f.SHA256}
	if f.Gzip != "" {
		sums[f.Path+".gz"] = f.Gzip
	}
	if f.Brotli != "" {
		sums[f.Path+".br"] = f.Brotli
	}
	return sums
}

// take puts an asset from the shelf into the coming edition. It says false where the shelf has it no more, and then nothing of it is there.
func (w *Writer) take(f File) (bool, error) {
	for name, sum := range f.sums() {
		local, err := filepath.Localize(name)
		if err != nil {
			return false, err
		}
		at := filepath.Join(w.coming, local)
		if err := w.grown.claim(name, at); err != nil {
			return false, err
		}
		from := filepath.Join(w.shelf.dir, sum)
		err = disk.Link(from, at)
		if err != nil && !errors.Is(err, fs.ErrNotExist) && !errors.Is(err, fs.ErrExist) { // no second names here, or too many
			err = w.shelf.copied(from, sum, at)
		}
		if errors.Is(err, fs.ErrNotExist) {
			w.shelf.forget(f)
			return false, w.remove(f)
		}
		if err != nil {
			return false, err
		}
	}
	w.mu.Lock()
	w.files[f.Path] = f
	w.written = append(w.written, f.names()...)
	w.mu.Unlock()
	return true, nil
}

// copied copies a file of the shelf where a second name cannot be had, and puts the copy on the shelf: the file may have as many names as it can.
func (s *Shelf) copied(from, sum, to string) error {
	data, err := os.ReadFile(from)
	if err != nil {
		return err
	}
	if Sum(data) != sum {
		return fs.ErrNotExist
	}
	if err := disk.WriteFile(to, data, 0o644); err != nil {
		return err
	}
	return s.replace(to, from)
}

// put puts an asset of the coming edition on the shelf, or takes the one that lies there in its place.
func (w *Writer) put(f File) error {
	for name, sum := range f.sums() {
		local, err := filepath.Localize(name)
		if err != nil {
			return err
		}
		at, on := filepath.Join(w.coming, local), filepath.Join(w.shelf.dir, sum)
		same, err := sameFiles(at, on)
		if err != nil {
			return err
		}
		if same {
			err = w.shelf.replace(on, at)
		} else {
			err = w.shelf.replace(at, on)
		}
		if err != nil {
			return err
		}
	}
	w.shelf.mu.Lock()
	defer w.shelf.mu.Unlock()
	if len(w.shelf.known) < mostOnShelf {
		w.shelf.known[f.Path] = f
	}
	return nil
}

// replace gives a file a second name, in one step, in place of whatever has that name. Where that cannot be, the name stays with what has it.
func (s *Shelf) replace(file, name string) error {
	coming, err := os.CreateTemp(s.dir, ".coming-*")
	if err != nil {
		return err
	}
	err = errors.Join(coming.Close(), disk.Remove(coming.Name()))
	if err != nil {
		return err
	}
	if disk.Link(file, coming.Name()) != nil { // no second names here: each edition has its own copy
		return nil
	}
	err = disk.Rename(coming.Name(), name)
	if gone := disk.Remove(coming.Name()); gone != nil && !errors.Is(gone, fs.ErrNotExist) { // two names of one file are not renamed, by POSIX
		err = errors.Join(err, gone)
	}
	return err
}

// sameFiles tells whether a file lies on the shelf byte by byte. One that cannot be read there is not the same.
func sameFiles(at, on string) (bool, error) {
	a, err := os.ReadFile(at)
	if err != nil {
		return false, err
	}
	info, err := os.Lstat(on)
	if err != nil || !info.Mode().IsRegular() {
		return false, nil
	}
	b, err := os.ReadFile(on)
	return err == nil && bytes.Equal(a, b), nil
}

func (s *Shelf) forget(f File) {
	s.mu.Lock()
	defer s.mu.Unlock()
	delete(s.known, f.Path)
}
