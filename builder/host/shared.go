package host

import (
	"io/fs"
	"os"
	"sync"
	"weak"
)

// shared has readers who are sent the same file at the same time use one copy of it: some are slow, and a file may be megabytes. It keeps
// nothing that nobody is being sent.
type shared struct {
	mu   sync.Mutex
	held map[string]holding
}

// holding is a file that somebody may be being sent.
type holding struct {
	info fs.FileInfo
	data weak.Pointer[content]
}

// content is what is in a file. Whoever sends it keeps it by its address.
type content struct{ data []byte }

// mostHeld is how many files are remembered before those that nobody is sent any more are forgotten.
const mostHeld = 256

// read gives a file of the folder.
func (s *shared) read(root *os.Root, name string) (*content, error) {
	info, err := root.Stat(name)
	if err != nil {
		return nil, err
	}
	s.mu.Lock()
	h, known := s.held[name]
	s.mu.Unlock()
	if known && os.SameFile(h.info, info) && h.info.ModTime().Equal(info.ModTime()) && h.info.Size() == info.Size() {
		if c := h.data.Value(); c != nil {
			return c, nil
		}
	}
	data, err := root.ReadFile(name)
	if err != nil {
		return nil, err
	}
	c := &content{data}
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.held == nil {
		s.held = map[string]holding{}
	}
	if len(s.held) >= mostHeld {
		for name, h := range s.held {
			if h.data.Value() == nil {
				delete(s.held, name)
			}
		}
	}
	s.held[name] = holding{info, weak.Make(c)}
	return c, nil
}
