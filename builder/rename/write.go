package rename

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path"
	"slices"
	"strconv"
	"strings"
)

// What a renaming has decided lies in a folder of the manual that its reader does not see, until it is done. It has that name once it is whole.
const (
	pending = ".tankside-renaming"
	making  = ".tankside-renaming-begun"
	listed  = "list.json"
)

// list is what is to be done: the files that go, and those that come, by their paths, each with the name of its content in the folder.
type list struct {
	Gone    []string          `json:"gone"`
	Written map[string]string `json:"written"`
}

// Write brings a plan into the folder of the manual: whole, or, where the machine stops on the way, either not at all or as far as Finish completes it.
// Files that somebody has changed since the plan was made are left alone, and so is the rest then.
func (p *Plan) Write(root *os.Root) error {
	return p.write(root, func(string) error { return nil })
}

// write calls step before everything that it does to the disk, for tests that stop there.
func (p *Plan) write(root *os.Root, step func(doing string) error) error {
	written, gone, err := p.Files()
	if err != nil {
		return err
	}
	if err := p.unchanged(root); err != nil {
		return err
	}
	todo := list{Gone: gone, Written: map[string]string{}}
	if err := step("begin"); err != nil {
		return err
	}
	if err := root.RemoveAll(making); err != nil { // of a renaming that ended before anything was changed
		return err
	}
	if err := root.Mkdir(making, 0o755); err != nil {
		return err
	}
	for n, to := range slices.Sorted(maps.Keys(written)) {
		todo.Written[to] = strconv.Itoa(n)
		if err := step("content of " + to); err != nil {
			return err
		}
		if err := whole(root, making+"/"+strconv.Itoa(n), written[to], p.mode(root, to)); err != nil {
			return errors.Join(err, root.RemoveAll(making))
		}
	}
	data, err := json.MarshalIndent(todo, "", "  ")
	if err != nil {
		return err
	}
	if err := step("list"); err != nil {
		return err
	}
	if err := whole(root, making+"/"+listed, data, 0o644); err != nil {
		return errors.Join(err, root.RemoveAll(making))
	}
	if err := step("decide"); err != nil {
		return err
	}
	if err := root.Rename(making, pending); err != nil {
		return errors.Join(err, root.RemoveAll(making))
	}
	_, err = finish(root, step)
	return err
}

// Finish completes a renaming that was decided and not brought to its end, and tells whether there was one.
func Finish(root *os.Root) (bool, error) {
	return finish(root, func(string) error { return nil })
}

func finish(root *os.Root, step func(doing string) error) (bool, error) {
	data, err := root.ReadFile(pending + "/" + listed)
	if errors.Is(err, fs.ErrNotExist) {
		err := root.Remove(pending) // an empty one is the last trace of a renaming that is done
		if errors.Is(err, fs.ErrNotExist) {
			err = nil
		}
		return false, err
	}
	if err != nil {
		return false, err
	}
	var todo list
	if err := json.Unmarshal(data, &todo); err != nil {
		return false, fmt.Errorf("%s/%s cannot be read, so a renaming cannot be brought to its end: %w; its files lie beside it", pending, listed, err)
	}
	for _, old := range todo.Gone {
		if placed, err := todo.placed(root, old); err != nil || placed {
			if err != nil {
				return true, err
			}
			continue
		}
		if err := step("take away " + old); err != nil {
			return true, err
		}
		if err := root.Remove(old); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return true, err
		}
	}
	for _, to := range slices.Sorted(maps.Keys(todo.Written)) {
		if err := step("put " + to); err != nil {
			return true, err
		}
		if err := root.MkdirAll(path.Dir(to), 0o755); err != nil {
			return true, err
		}
		err := root.Rename(pending+"/"+todo.Written[to], to)
		if err != nil && !errors.Is(err, fs.ErrNotExist) { // what is not there any more has been put already
			return true, err
		}
	}
	if err := step("take the list away"); err != nil {
		return true, err
	}
	if err := root.Remove(pending + "/" + listed); err != nil {
		return true, err
	}
	if err := step("take the folder away"); err != nil {
		return true, err
	}
	return true, root.Remove(pending)
}

// placed tells whether a file that is to go has been replaced already by one whose name differs in capitals alone: on many computers they are one.
func (l list) placed(root *os.Root, old string) (bool, error) {
	for to, content := range l.Written {
		if !strings.EqualFold(to, old) {
			continue
		}
		_, err := root.Stat(pending + "/" + content)
		if errors.Is(err, fs.ErrNotExist) {
			return true, nil
		}
		return false, err
	}
	return false, nil
}

// unchanged refuses where a file is otherwise than the plan has read it.
func (p *Plan) unchanged(root *os.Root) error {
	for file, t := range p.texts {
		now, err := root.ReadFile(file)
		if errors.Is(err, fs.ErrNotExist) && len(t.disk) == 0 {
			continue
		}
		if err != nil {
			return err
		}
		if !bytes.Equal(now, t.disk) {
			return fmt.Errorf("%s has changed meanwhile, so nothing was renamed; give the command again", file)
		}
	}
	return nil
}

// mode is the mode of a file that is written: as the one had from which it comes.
func (p *Plan) mode(root *os.Root, to string) fs.FileMode {
	from := to
	for old, now := range p.Moves {
		if now == to {
			from = old
		}
	}
	if info, err := root.Stat(from); err == nil {
		return info.Mode().Perm()
	}
	return 0o644
}

// whole writes a file so that it is on the disk.
func whole(root *os.Root, at string, data []byte, mode fs.FileMode) error {
	f, err := root.OpenFile(at, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	return errors.Join(err, f.Sync(), f.Close())
}
