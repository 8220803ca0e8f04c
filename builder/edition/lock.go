package edition

import (
	"bytes"
	"crypto/rand"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/rogpeppe/go-internal/lockedfile"

	"tankside/builder/disk"
)

// lock is the file beside an edition's folder that one publication holds at a time. It also keeps the names of the folders that publications
// have made beside the edition, so that what a crash leaves is known by its whole name: a folder that somebody else has made is never touched,
// whatever it is called.
//
// Each line is what a folder is and its name; a folder's latest line counts. A line without its end was being written when a crash came.
type lock struct {
	dir   string // the edition's folder
	file  *lockedfile.File
	names []string // of folders beside the edition, in the order in which they were made
	state map[string]state
}

// state says what a folder beside the edition is.
type state string

const (
	growing state = "growing" // everything in it is the coming edition's, or one kept ready by a sitting
	leaving state = "leaving" // it has been an edition in place, or is about to become one: somebody else's files may be in it
	aside   state = "aside"   // the edition in place, between the two renames of a swap
	gone    state = "gone"
)

var states = []state{growing, leaving, aside, gone}

// lockOf takes the lock of an edition's folder. Whoever may write into the parent folder may take it.
func lockOf(dir string) (*lock, error) {
	parent, base := filepath.Split(dir)
	name := filepath.Join(parent, "."+base+".lock")
	if info, err := os.Lstat(name); err == nil && !info.Mode().IsRegular() { // to read a pipe would take until somebody writes into it
		return nil, notALock(name)
	}
	file, err := lockedfile.OpenFile(name, os.O_RDWR|os.O_CREATE, 0o644)
	if err != nil {
		return nil, err
	}
	k := &lock{dir: dir, file: file, state: map[string]state{}}
	if err := k.read(); err != nil {
		return nil, errors.Join(err, file.Close())
	}
	if err := k.share(parent); err != nil {
		return nil, errors.Join(err, file.Close())
	}
	return k, nil
}

// share lets those who may write into the parent folder write the lock as well, if it is ours to say so.
func (k *lock) share(parent string) error {
	folder, err := os.Stat(parent)
	if err != nil {
		return err
	}
	info, err := k.file.Stat()
	if err != nil {
		return err
	}
	const others = 0o022
	writers := folder.Mode().Perm() & others
	if want := info.Mode().Perm() | writers | writers<<1; want != info.Mode().Perm() {
		if err := k.file.Chmod(want); err != nil && !errors.Is(err, fs.ErrPermission) && !errors.Is(err, errors.ErrUnsupported) {
			return err
		}
	}
	return nil
}

// largestLock bounds what is read of a lock file, in bytes.
const largestLock = 1 << 20

// read reads what the lock keeps. A lock that holds anything else was made by somebody else, and is left alone.
func (k *lock) read() error {
	text, err := io.ReadAll(io.LimitReader(k.file, largestLock))
	if err != nil {
		return err
	}
	whole := text[:bytes.LastIndexByte(text, '\n')+1]
	for line := range strings.Lines(string(whole)) {
		what, name, _ := strings.Cut(strings.TrimSuffix(line, "\n"), " ")
		if !slices.Contains(states, state(what)) || !k.mayBeOurs(name) {
			return k.foreign()
		}
		k.set(name, state(what))
	}
	rest := string(text[len(whole):])
	if rest == "" {
		return nil
	}
	if !slices.ContainsFunc(states, func(s state) bool {
		return strings.HasPrefix(string(s)+" ", rest) || strings.HasPrefix(rest, string(s)+" ")
	}) {
		return k.foreign()
	}
	if err := k.file.Truncate(int64(len(whole))); err != nil {
		return err
	}
	_, err = k.file.Seek(int64(len(whole)), io.SeekStart)
	return err
}

func (k *lock) foreign() error { return notALock(k.file.Name()) }

func notALock(name string) error {
	return fmt.Errorf("%s is not the lock of a publication: somebody else has written into it; move it to another place", name)
}

// mayBeOurs tells whether a name is of the form that fresh gives.
func (k *lock) mayBeOurs(name string) bool {
	return strings.HasPrefix(name, "."+filepath.Base(k.dir)+".") && name == filepath.Base(name) && !strings.ContainsAny(name, `/\`)
}

func (k *lock) set(name string, s state) {
	if s == gone {
		delete(k.state, name)
		k.names = slices.DeleteFunc(k.names, func(n string) bool { return n == name })
		return
	}
	if k.state[name] == "" {
		k.names = append(k.names, name)
	}
	k.state[name] = s
}

// note writes down what a folder beside the edition is from now on.
func (k *lock) note(folder string, s state) error {
	name := filepath.Base(folder)
	if err := disk.Step("write", k.file.Name()); err != nil {
		return err
	}
	if _, err := fmt.Fprintf(k.file, "%s %s\n", s, name); err != nil {
		return err
	}
	k.set(name, s)
	return nil
}

// fresh gives a path beside the edition that nothing has, and that nobody else would choose.
func (k *lock) fresh(what string) string {
	parent, base := filepath.Split(k.dir)
	return filepath.Join(parent, "."+base+"."+what+"-"+rand.Text())
}

// release gives the lock back.
func (k *lock) release() error {
	var err error
	if len(k.names) == 0 {
		if err = disk.Step("truncate", k.file.Name()); err == nil {
			err = k.file.Truncate(0)
		}
	}
	return errors.Join(err, k.file.Close())
}
