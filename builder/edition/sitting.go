package edition

import (
	"context"
	"errors"
	"io/fs"
	"maps"
	"os"
	"path"
	"path/filepath"
	"slices"

	"tankside/builder/disk"
)

// Sitting is a row of editions for one folder, each of which keeps most files of the one before. What an edition keeps is not written again: it
// is linked, and between two editions the folder of the one before the last lies ready beside the edition, to become the next one. So an
// edition takes the time of what has changed in it.
//
// Each edition is whole all the same, and put in place in one step. The zero value is a sitting without an edition; [Sitting.Close] ends one.
type Sitting struct {
	dir   string
	list  *List                  // in place
	info  fs.FileInfo            // of its file
	files map[string]File        // of the edition in place, by path
	seen  map[string]fs.FileInfo // its files, compared or written by us
	after string                 // behind which name those begin that are compared again next

	spare string          // the folder that lies ready, or ""
	holds map[string]File // what is in it
}

// check forgets everything where the edition in place is not the one that the sitting has put there.
func (s *Sitting) check(dir string) error {
	if s == nil || s.info == nil {
		return nil
	}
	info, err := os.Lstat(filepath.Join(dir, ListName))
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	if err != nil || s.dir != dir || !os.SameFile(info, s.info) || !info.ModTime().Equal(s.info.ModTime()) || info.Size() != s.info.Size() {
		*s = Sitting{}
	}
	return nil
}

// seenBefore are the files of the edition in place that need not be compared again unless they were touched.
func (s *Sitting) seenBefore() map[string]fs.FileInfo {
	if s == nil {
		return nil
	}
	return s.seen
}

// mostLooked is how much of the edition in place, in bytes, is compared again at each edition of a sitting.
const mostLooked = 8 << 20

// lookAgain has the next part of the files compared again with the next edition, though nobody seems to have touched them: a disk that goes bad, and a program
// that puts times back, change a file and neither its size nor its time. So every file has its turn.
func (s *Sitting) lookAgain() {
	names := slices.Sorted(maps.Keys(s.seen))
	from, is := slices.BinarySearch(names, s.after)
	if is {
		from++
	}
	for i, size := 0, int64(0); i < len(names) && size < mostLooked; i++ {
		s.after = names[(from+i)%len(names)]
		size += s.seen[s.after].Size()
		delete(s.seen, s.after)
	}
}

// inPlace gives the list in place, as check has found it, or nil where nothing is known of it.
func (s *Sitting) inPlace() (*List, fs.FileInfo) {
	if s == nil {
		return nil, nil
	}
	return s.list, s.info
}

// kept is the folder that lies ready.
func (s *Sitting) kept() string {
	if s == nil {
		return ""
	}
	return s.spare
}

// writer gives a writer to the folder that lies ready, or nil where there is none.
func (s *Sitting) writer(k *lock) (*Writer, error) {
	if s == nil || s.spare == "" {
		return nil, nil
	}
	if info, err := os.Lstat(s.spare); err != nil || !info.IsDir() {
		s.spare = ""
		return nil, nil
	}
	if err := k.note(s.spare, growing); err != nil {
		return nil, err
	}
	grown, err := growIn(s.spare)
	if err != nil {
		return nil, err
	}
	return &Writer{dir: k.dir, coming: s.spare, lock: k, grown: grown, sitting: s, before: s.files, spare: s.holds, folders: map[string]bool{".": true}, files: map[string]File{}}, nil
}

// follow notes that the writer's edition is in place, and old the folder of the one before it, or "". What was an edition of this sitting
// stays to become the next one; without a sitting, or where it was none of this sitting, it goes.
func (s *Sitting) follow(w *Writer, l List, old string, had *holding) error {
	ours := s != nil && s.files != nil && old == w.coming
	whole := false
	if old != "" {
		whole = w.lock.clear(old, had.list, had.own, ours, &w.told)
	}
	if s == nil {
		return nil
	}
	info, err := os.Lstat(filepath.Join(w.dir, ListName))
	if err != nil {
		return err
	}
	before := s.files
	*s = Sitting{after: s.after, dir: w.dir, list: &l, info: info, files: make(map[string]File, len(l.Files)), seen: had.own}
	if s.seen == nil {
		s.seen = make(map[string]fs.FileInfo, 2*len(l.Files))
	}
	for _, f := range l.Files {
		s.files[f.Path] = f
	}
	for _, name := range w.written {
		info, err := os.Lstat(filepath.Join(w.dir, filepath.FromSlash(name)))
		if err != nil {
			return err
		}
		s.seen[name] = info
	}
	s.lookAgain()
	if ours && whole {
		s.spare, s.holds = w.coming, before
		return w.lock.note(w.coming, growing)
	}
	return s.prepare(w.lock)
}

// prepare makes a folder ready for the next edition, with second names of all files of the one in place. Where the file system has no
// second names there is none, and the next edition copies what it keeps.
func (s *Sitting) prepare(k *lock) error {
	w, err := begin(nil, k)
	if err != nil {
		return err
	}
	for _, f := range s.files {
		if err = w.folder(path.Dir(f.Path)); err != nil {
			break
		}
		for _, n := range f.names() {
			if err = w.link(n, false); err != nil {
				break
			}
		}
	}
	if err != nil {
		return w.drop()
	}
	s.spare, s.holds = w.coming, maps.Clone(s.files)
	return w.grown.close()
}

// Close removes the folder that lies ready, but for what somebody has put there: that goes to the edition in place.
func (s *Sitting) Close() error {
	if s.spare == "" {
		return nil
	}
	k, err := lockOf(s.dir)
	if err != nil {
		return err
	}
	spare, seen := s.spare, s.seen
	*s = Sitting{}
	_, err = k.depart(context.Background(), spare, nil, seen, false)
	return errors.Join(err, k.release())
}

// Keep takes a file, with its compressed neighbours, from the edition in place. It says false where that is not known to hold the file, or
// holds it no more. An asset may come from the shelf instead.
func (w *Writer) Keep(name string) (bool, error) {
	f, known := w.before[name]
	if on, has := w.shelf.of(name); !known && has {
		if err := w.folder(path.Dir(name)); err != nil {
			return false, err
		}
		return w.take(on)
	}
	if !known {
		return false, nil
	}
	w.mu.Lock()
	have, ready := w.spare[name]
	ready = ready && have == f
	if ready {
		delete(w.spare, name)
		w.files[name] = f
	}
	if taken, already := w.files[name]; already && taken == f {
		ready = true
	}
	w.mu.Unlock()
	if ready {
		return true, nil
	}
	if err := w.folder(path.Dir(name)); err != nil {
		return false, err
	}
	if err := w.clear(name); err != nil {
		return false, err
	}
	for _, n := range f.names() {
		err := w.link(n, true)
		if errors.Is(err, fs.ErrNotExist) {
			return false, w.remove(f)
		}
		if err != nil {
			return false, err
		}
	}
	w.mu.Lock()
	w.files[name] = f
	w.mu.Unlock()
	return true, nil
}

// names are a file and its compressed neighbours.
func (f File) names() []string {
	names := []string{f.Path}
	if f.Gzip != "" {
		names = append(names, f.Path+".gz")
	}
	if f.Brotli != "" {
		names = append(names, f.Path+".br")
	}
	return names
}

// link gives a file of the edition in place a second name. Where the file system has no second names it is copied, if that will do.
func (w *Writer) link(name string, copied bool) error {
	local, err := filepath.Localize(name)
	if err != nil {
		return err
	}
	from, to := filepath.Join(w.dir, local), filepath.Join(w.coming, local)
	if err := w.grown.claim(name, to); err != nil {
		return err
	}
	err = disk.Link(from, to)
	if err == nil || !copied || errors.Is(err, fs.ErrNotExist) || errors.Is(err, fs.ErrExist) {
		return err
	}
	data, err := os.ReadFile(from)
	if err != nil {
		return err
	}
	return disk.WriteFile(to, data, 0o644)
}

// clear makes room for a file: what lies there may be a second name of a file in place, and must not be written to.
func (w *Writer) clear(name string) error {
	w.mu.Lock()
	f, there := w.spare[name]
	delete(w.spare, name)
	w.mu.Unlock()
	if !there {
		return nil
	}
	return w.remove(f)
}

func (w *Writer) remove(f File) error {
	for _, n := range f.names() {
		local, err := filepath.Localize(n)
		if err != nil {
			return err
		}
		if err := disk.Remove(filepath.Join(w.coming, local)); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return err
		}
	}
	return nil
}

// clearSpare removes what the edition has not taken of the folder that lay ready.
func (w *Writer) clearSpare() error {
	if w.spare == nil {
		return nil
	}
	used := map[string]bool{}
	for _, f := range w.files {
		for dir := path.Dir(f.Path); !used[dir]; dir = path.Dir(dir) {
			used[dir] = true
		}
	}
	empty := map[string]bool{}
	for _, f := range w.spare {
		if err := w.remove(f); err != nil {
			return err
		}
		for dir := path.Dir(f.Path); !used[dir]; dir = path.Dir(dir) {
			empty[dir] = true
		}
	}
	for _, dir := range slices.Backward(slices.Sorted(maps.Keys(empty))) { // what is in a folder before the folder
		local, err := filepath.Localize(dir)
		if err != nil {
			return err
		}
		at := filepath.Join(w.coming, local)
		if err := disk.Remove(at); err != nil && !notEmpty(at) { // somebody has put something there
			return err
		}
	}
	w.spare = nil
	return nil
}
