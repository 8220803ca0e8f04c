package edition

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"tankside/builder/disk"
)

// left is what an edition that another has replaced leaves behind.
type left struct {
	aside string // folder beside the edition with what could not stay in it, or ""
	files []string
}

// departure takes the folder of an edition that is no longer in place apart: the edition's own files go, as far as they are still what its list
// says, and everything else goes to the same path below the edition in place. Nothing is replaced there.
type departure struct {
	from, to string
	own      map[string]fs.FileInfo
	keep     bool     // the edition's own files stay where they are
	stuck    []string // what could not go, by path
	denied   error    // why an own file could not be removed
}

// depart empties a folder and removes it. What is somebody's and cannot go to the edition in place stays in the folder, which is renamed so
// that it is seen; it is never touched again. With keep the edition's own files stay, and the folder.
//
// The error tells that the edition's own files could not be removed, as where they belong to another user: the folder stays as it is for
// the next time.
//
// l is the list of the edition; with nil it is read.
func (k *lock) depart(ctx context.Context, folder string, l *List, seen map[string]fs.FileInfo, keep bool) (left, error) {
	if l == nil {
		var err error
		var damaged *DamagedListError
		if l, err = ReadList(os.DirFS(folder)); err != nil && !errors.Is(err, ErrNotEdition) && !errors.As(err, &damaged) {
			return left{}, err
		}
	}
	h, err := hold(ctx, folder, l, seen)
	if errors.Is(err, fs.ErrNotExist) {
		return left{}, k.note(folder, gone)
	}
	if err != nil {
		return left{}, err
	}
	if k.state[filepath.Base(folder)] == growing { // in another, a file of that name is somebody's
		if err := h.addGrown(folder); err != nil {
			return left{}, err
		}
	}
	d := &departure{from: folder, to: k.dir, own: h.own, keep: keep}
	if err := d.folder("", h); err != nil {
		return left{}, err
	}
	switch {
	case len(d.stuck) > 0:
		return k.setAside(d)
	case keep:
		return left{}, nil
	case d.denied != nil:
		return left{}, d.denied
	}
	for _, name := range []string{ListName, growthName} { // last: without them nothing would be known to be ours
		if h.own[name] == nil {
			continue
		}
		if err := d.remove(name, disk.Remove); err != nil {
			return left{}, err
		}
	}
	if err := disk.Remove(folder); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return left{}, err
	}
	return left{}, k.note(folder, gone)
}

// setAside gives a folder with somebody's files in it a name that is seen, and forgets it.
func (k *lock) setAside(d *departure) (left, error) {
	parent, base := filepath.Split(k.dir)
	name := filepath.Join(parent, base+"-kept-"+strings.TrimPrefix(filepath.Ext(d.from), ".coming-"))
	if err := disk.Rename(d.from, name); err != nil {
		name = d.from
	}
	return left{aside: name, files: d.stuck}, k.note(d.from, gone)
}

// folder takes a folder of the edition apart; name is "" for the whole.
func (d *departure) folder(name string, h *holding) error {
	from := d.at(d.from, name)
	entries, err := os.ReadDir(from)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	if d.keep { // the next edition is to be written there
		if err := unprotect(from); err != nil {
			return err
		}
	}
	for _, e := range entries {
		inner := path.Join(name, e.Name())
		switch {
		case e.IsDir() && h.folders[inner]:
			err = d.folder(inner, h)
		case e.IsDir():
			err = d.bringFolder(inner)
		case d.own[inner] == nil:
			err = d.bring(inner)
		case !d.keep && inner != ListName && inner != growthName:
			err = d.drop(inner)
		}
		if err != nil {
			return err
		}
	}
	if name == "" || d.keep || d.denied != nil {
		return nil
	}
	if err := d.remove(name, disk.Remove); err != nil && !notEmpty(from) {
		return err
	}
	return nil
}

// notEmpty tells whether something has stayed in a folder, or come into it.
func notEmpty(dir string) bool {
	entries, err := os.ReadDir(dir)
	return err == nil && len(entries) > 0
}

func (d *departure) at(root, name string) string {
	return filepath.Join(root, filepath.FromSlash(name))
}

// drop removes a file of the edition, if it is still what it was when it was compared.
func (d *departure) drop(name string) error {
	info, err := os.Lstat(d.at(d.from, name))
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return err
	case !untouched(d.own[name], info):
		return d.bring(name)
	}
	err = d.remove(name, disk.Remove)
	if errors.Is(err, fs.ErrPermission) {
		d.denied = err
		return nil
	}
	return err
}

// remove takes something out of its folder, which may be protected against writing.
func (d *departure) remove(name string, take func(string) error) error {
	at := d.at(d.from, name)
	err := take(at)
	if errors.Is(err, fs.ErrPermission) && unprotect(filepath.Dir(at)) == nil {
		err = take(at)
	}
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	return err
}

// unprotect lets the owner of a folder write into it.
func unprotect(dir string) error {
	info, err := os.Stat(dir)
	if err != nil || info.Mode().Perm()&0o700 == 0o700 {
		return err
	}
	return disk.Chmod(dir, info.Mode().Perm()|0o700)
}

// bring takes somebody's file to the edition in place. Where that has the file already under a second name, this one goes; where it has
// another file of the name, this one stays.
func (d *departure) bring(name string) error {
	from, to := d.at(d.from, name), d.at(d.to, name)
	if _, err := os.Lstat(d.to); err != nil { // there is no edition in place
		d.stuck = append(d.stuck, name)
		return nil
	}
	there, err := os.Lstat(to)
	if err == nil {
		here, err := os.Lstat(from)
		if errors.Is(err, fs.ErrNotExist) {
			return nil
		}
		if err == nil && os.SameFile(here, there) {
			return d.remove(name, disk.Remove)
		}
		d.stuck = append(d.stuck, name)
		return nil
	}
	if err := disk.MkdirAll(filepath.Dir(to), 0o755); err != nil {
		d.stuck = append(d.stuck, name)
		return nil
	}
	if err := d.remove(name, func(at string) error { return move(at, to) }); err != nil {
		d.stuck = append(d.stuck, name)
	}
	return nil
}

// bringFolder takes somebody's folder to the edition in place: as a whole, or where that has a folder of the name, what is in it.
func (d *departure) bringFolder(name string) error {
	to := d.at(d.to, name)
	if info, err := os.Lstat(to); err != nil || !info.IsDir() {
		return d.bringWhole(name)
	}
	entries, err := os.ReadDir(d.at(d.from, name))
	if err != nil {
		d.stuck = append(d.stuck, name)
		return nil
	}
	for _, e := range entries {
		inner := path.Join(name, e.Name())
		if e.IsDir() {
			err = d.bringFolder(inner)
		} else {
			err = d.bring(inner)
		}
		if err != nil {
			return err
		}
	}
	if slices.ContainsFunc(d.stuck, func(s string) bool { return strings.HasPrefix(s, name+"/") }) {
		return nil
	}
	return d.remove(name, disk.Remove)
}

// bringWhole moves a folder. One that is protected against writing can be moved only when it is not: its entry for the folder above changes.
func (d *departure) bringWhole(name string) error {
	from := d.at(d.from, name)
	info, err := os.Lstat(from)
	if err != nil {
		return d.bring(name)
	}
	if info.Mode().Perm()&0o200 != 0 {
		return d.bring(name)
	}
	if err := disk.Chmod(from, info.Mode().Perm()|0o200); err != nil {
		return d.bring(name)
	}
	err = d.bring(name)
	at := d.at(d.to, name)
	if slices.Contains(d.stuck, name) {
		at = from
	}
	return errors.Join(err, disk.Chmod(at, info.Mode().Perm()))
}

// lend gives somebody's files a second name in the coming edition, so that they are there from its first moment on. A folder of somebody's
// and what cannot have a second name is moved when the edition is in place.
func (w *Writer) lend(h *holding) {
	for _, s := range h.outermost() {
		if !s.regular || s.Changed {
			continue
		}
		to := filepath.Join(w.coming, filepath.FromSlash(s.Path))
		if disk.MkdirAll(filepath.Dir(to), 0o755) == nil {
			_ = disk.Link(filepath.Join(w.dir, filepath.FromSlash(s.Path)), to) // otherwise it is moved
		}
	}
}
