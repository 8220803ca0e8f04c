package host

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"time"

	"tankside/builder/edition"
)

// shelf is what is known of the edition in the folder, for as long as its list is the same file.
type shelf struct {
	info  fs.FileInfo // of the list
	sum   string      // of the list
	ask   string      // the picture that pages may ask which edition is served, or ""
	files map[string]edition.File
}

var errNoSuchFile = errors.New("no such file in this edition")

// taken is a file of the edition, ready to be sent: open, where the edition's folder can be moved meanwhile, otherwise read.
type taken struct {
	file   *os.File // or nil
	size   int64    // of it
	data   []byte
	keep   *content // whose data it is, where it is shared
	sum    string   // SHA-256 of data
	coding string   // content coding of data, or ""
	varies bool     // there are other codings of it
}

// take takes a file, in the first of the codings that there is. On systems that do not move a folder whose files are open it leaves nothing open
// behind, so that the next edition can be swapped in.
//
// Where the folder is swapped in the middle of it, the list or the file is gone; then it starts anew with the new folder.
func (h *Handler) take(ctx context.Context, name string, codings []string) (taken, error) {
	if t, ahead := h.o.Changes.page(name); ahead {
		return t, nil
	}
	if h.packed != nil {
		return h.packed.take(h, name)
	}
	for pause := time.Millisecond; ; pause *= 4 {
		got, err := h.takeOnce(name, codings)
		gone := errors.Is(err, fs.ErrNotExist) || errors.Is(err, edition.ErrNotEdition) && h.shelf.Load() != nil
		if !gone || pause > longestPause || ctx.Err() != nil {
			return got, err
		}
		time.Sleep(pause)
	}
}

// longestPause bounds the wait for the second half of a swap, on systems that swap folders in two steps.
const longestPause = 64 * time.Millisecond

func (h *Handler) takeOnce(name string, codings []string) (t taken, err error) {
	root, s, err := h.open()
	if err != nil {
		return t, err
	}
	defer func() { err = errors.Join(err, root.Close()) }()
	if name == edition.ListName {
		t.sum = s.sum
		return t, t.from(&h.shared, root, name)
	}
	f, known := s.files[name]
	if !known {
		return t, errNoSuchFile
	}
	t.varies = f.Gzip != ""
	if t.varies {
		for _, coding := range codings {
			n := neighbours[coding]
			if n.sum(f) == "" {
				continue
			}
			err = t.from(&h.shared, root, name+n.suffix)
			if errors.Is(err, fs.ErrNotExist) {
				continue // whoever copied the edition left the neighbours behind
			}
			t.coding, t.sum = coding, n.sum(f)
			return t, err
		}
	}
	t.sum = f.SHA256
	return t, t.from(&h.shared, root, name)
}

// from takes a file. It was not written to since it was compared with the list: an edition is replaced, and none of its files is changed.
func (t *taken) from(s *shared, root *os.Root, name string) error {
	if movesOpen {
		file, err := root.Open(name)
		if err != nil {
			return err
		}
		info, err := file.Stat()
		if err != nil {
			return errors.Join(err, file.Close())
		}
		t.file, t.size = file, info.Size()
		return nil
	}
	c, err := s.read(root, name)
	if err == nil {
		t.data, t.keep, t.size = c.data, c, int64(len(c.data))
	}
	return err
}

// read reads the file whole, for whoever is to change it.
func (t *taken) read() error {
	if t.file == nil {
		return nil
	}
	var err error
	t.data, err = io.ReadAll(t.file)
	return errors.Join(err, t.close())
}

// body is what is sent.
func (t *taken) body() io.ReadSeeker {
	if t.file != nil {
		return t.file
	}
	return bytes.NewReader(t.data)
}

func (t *taken) close() error {
	if t.file == nil {
		return nil
	}
	file := t.file
	t.file = nil
	return file.Close()
}

// open opens the folder and reads the list, unless it is the one that is known already.
func (h *Handler) open() (*os.Root, *shelf, error) {
	root, err := os.OpenRoot(h.dir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil, edition.ErrNotEdition
	}
	if err != nil {
		return nil, nil, err
	}
	s, err := h.look(root)
	if err != nil {
		return nil, nil, errors.Join(err, root.Close())
	}
	return root, s, nil
}

func (h *Handler) look(root *os.Root) (*shelf, error) {
	info, err := root.Stat(edition.ListName)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, edition.ErrNotEdition
	}
	if err != nil {
		return nil, err
	}
	if s := h.shelf.Load(); s != nil && os.SameFile(s.info, info) && s.info.ModTime().Equal(info.ModTime()) && s.info.Size() == info.Size() {
		return s, nil
	}
	data, err := root.ReadFile(edition.ListName)
	if err != nil {
		return nil, err
	}
	var list edition.List
	if err := json.NewDecoder(bytes.NewReader(data)).Decode(&list); err != nil {
		return nil, fmt.Errorf("%s is damaged: %w", edition.ListName, err)
	}
	sum := sha256.Sum256(data)
	s := shelfOf(&list, info, hex.EncodeToString(sum[:]))
	h.shelf.Store(s)
	return s, nil
}

// shelfOf is what is known of an edition by its list.
func shelfOf(list *edition.List, info fs.FileInfo, sum string) *shelf {
	s := &shelf{info: info, sum: sum, ask: list.Ask(), files: make(map[string]edition.File, len(list.Files))}
	for _, f := range list.Files {
		s.files[f.Path] = f
	}
	return s
}

// noPage stands for the checksum of a page that the edition does not have.
const noPage = "none"

// page is the checksum of a page as it would be sent now, or "" where there is no edition that can be read.
func (h *Handler) page(name string) string {
	if t, ahead := h.o.Changes.page(name); ahead {
		return t.sum
	}
	root, s, err := h.open()
	if err != nil || root.Close() != nil {
		return ""
	}
	if f, known := s.files[name]; known {
		return f.SHA256
	}
	return noPage
}
