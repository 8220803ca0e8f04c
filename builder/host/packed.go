package host

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io/fs"
	"os"
	"sync"
	"weak"

	"tankside/builder/carry"
	"tankside/builder/edition"
)

// packed is an edition that is carried as one file. It is looked at anew where the file is another.
type packed struct {
	path string

	mu      sync.Mutex
	archive *carry.Archive
	info    fs.FileInfo
	list    *content // the checksum list, as it is sent
	listSum string
	held    map[string]weak.Pointer[content] // what somebody may be being sent
}

// take gives a file of the edition, unpacked. Readers who are sent the same one share it, and nothing is kept that nobody is being sent; so it is bounded by the
// files that are being sent, each by what the list says and package carry allows.
func (p *packed) take(h *Handler, name string) (taken, error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	s, err := p.look(h)
	if err != nil {
		return taken{}, err
	}
	if name == edition.ListName {
		return takenOf(p.list, p.listSum), nil
	}
	f, known := s.files[name]
	if !known || !edition.IsCarried(name) {
		return taken{}, errNoSuchFile
	}
	if c := p.held[name].Value(); c != nil {
		return takenOf(c, f.SHA256), nil
	}
	data, err := p.archive.Read(f)
	if err != nil {
		return taken{}, err
	}
	c := &content{data}
	if len(p.held) >= mostHeld {
		clear(p.held)
	}
	p.held[name] = weak.Make(c)
	return takenOf(c, f.SHA256), nil
}

func takenOf(c *content, sum string) taken {
	return taken{data: c.data, keep: c, size: int64(len(c.data)), sum: sum}
}

// look opens the file, unless it is the one that is open already. An archive that is replaced while it is served is taken where it can be trusted; otherwise the one that
// is open goes on to serve.
func (p *packed) look(h *Handler) (*shelf, error) {
	info, err := os.Stat(p.path)
	if known := h.shelf.Load(); known != nil && (err != nil || os.SameFile(p.info, info) && p.info.ModTime().Equal(info.ModTime()) && p.info.Size() == info.Size()) {
		return known, nil
	}
	if errors.Is(err, fs.ErrNotExist) {
		return nil, edition.ErrNotEdition
	}
	if err != nil {
		return nil, err
	}
	next, err := carry.Open(p.path)
	if known := h.shelf.Load(); err != nil && known != nil {
		p.info = info
		return known, nil
	}
	if err != nil {
		return nil, err
	}
	list, err := fs.ReadFile(next.FS(), edition.ListName)
	if err != nil {
		return nil, errors.Join(err, next.Close())
	}
	if p.archive != nil {
		err = p.archive.Close()
	}
	sum := sha256.Sum256(list)
	s := shelfOf(next.List(), info, hex.EncodeToString(sum[:]))
	p.archive, p.info, p.list, p.listSum, p.held = next, info, &content{list}, s.sum, map[string]weak.Pointer[content]{}
	h.shelf.Store(s)
	return s, err
}
