package edition

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strconv"
	"strings"
	"sync"

	"tankside/builder/disk"
)

// growthName is the file in a folder in which an edition grows that names what has been put there, until the edition's list does.
const growthName = ".being-written"

// growth keeps the names of what a publication puts into the folder of the coming edition. Each is written down before it is there, so that
// whatever ends the publication, nothing of somebody's that lies in the folder is taken for ours.
//
// Each line is a path in quotes; that of a folder ends with a slash. A line without its end was being written when a crash came.
type growth struct {
	mu   sync.Mutex
	file disk.File
	made map[string]bool
}

// growIn goes on with what is written down in a folder, or begins.
func growIn(folder string) (*growth, error) {
	made, _, err := grownIn(folder)
	if err != nil {
		return nil, err
	}
	file, err := disk.Open(filepath.Join(folder, growthName), os.O_WRONLY|os.O_CREATE|os.O_APPEND, 0o644)
	if err != nil {
		return nil, err
	}
	return &growth{file: file, made: made}, nil
}

// note writes a name down.
func (g *growth) note(name string) error {
	g.mu.Lock()
	defer g.mu.Unlock()
	return g.add(name)
}

func (g *growth) add(name string) error {
	if g.made[name] {
		return nil
	}
	if _, err := fmt.Fprintf(g.file, "%s\n", strconv.Quote(name)); err != nil {
		return err
	}
	g.made[name] = true
	return nil
}

// claim writes the name of a file down that is about to be written, unless something of somebody's lies there: then it is fs.ErrExist.
func (g *growth) claim(name, at string) error {
	g.mu.Lock()
	defer g.mu.Unlock()
	if g.made[name] {
		return nil
	}
	if _, err := os.Lstat(at); err == nil {
		return fmt.Errorf("%s is somebody's, and is not written over: %w", at, fs.ErrExist)
	}
	return g.add(name)
}

// close keeps what is written down.
func (g *growth) close() error { return g.file.Close() }

// end forgets it: the list names everything now.
func (g *growth) end() error { return errors.Join(g.file.Close(), disk.Remove(g.file.Name())) }

// largestGrowth bounds what is read of what is written down, in bytes.
const largestGrowth = 1 << 28

// grownIn reads what is written down in a folder; without such a file, nothing. ours tells whether there is one that we have written, be it empty or cut off
// in its first line.
func grownIn(folder string) (made map[string]bool, ours bool, err error) {
	made = map[string]bool{}
	file, err := os.Open(filepath.Join(folder, growthName))
	if errors.Is(err, fs.ErrNotExist) {
		return made, false, nil
	}
	if err != nil {
		return nil, false, err
	}
	text, err := io.ReadAll(io.LimitReader(file, largestGrowth))
	if err := errors.Join(err, file.Close()); err != nil {
		return nil, false, err
	}
	for line := range strings.Lines(string(text)) {
		if name, err := strconv.Unquote(strings.TrimSuffix(line, "\n")); err == nil && fs.ValidPath(strings.TrimSuffix(name, "/")) {
			made[name] = true
		}
	}
	cut := len(text) == 0 || text[0] == '"' && !bytes.ContainsRune(text, '\n')
	return made, len(made) > 0 || cut, nil
}

// addGrown adds to what a holding calls ours what is written down in the folder.
func (h *holding) addGrown(folder string) error {
	made, ours, err := grownIn(folder)
	if err != nil {
		return err
	}
	if ours {
		made[growthName] = true
	}
	for name := range made {
		dir, isFolder := strings.CutSuffix(name, "/")
		if !isFolder {
			dir = path.Dir(name)
			info, err := os.Lstat(filepath.Join(folder, filepath.FromSlash(name)))
			if err == nil && info.Mode().IsRegular() {
				h.own[name] = info
			}
		}
		for ; !h.folders[dir]; dir = path.Dir(dir) {
			h.folders[dir] = true
		}
	}
	return nil
}
