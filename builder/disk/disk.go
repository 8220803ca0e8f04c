// Package disk is how this program writes to the disk: an edition, a ledger, the records that devices send. It does what package os does; a test can have any
// step of it fail, or end the program before it, and so go through every moment at which a disk can be full, broken or protected.
package disk

import (
	"errors"
	"io/fs"
	"os"
)

// Before, where it is not nil, is asked before every step: what is done, and to which file. An error stands in for the step; of a write half has been done
// by then. Tests alone set it, and not while something is being written.
var Before func(step, path string) error

func before(step, path string) error {
	if Before == nil {
		return nil
	}
	return Before(step, path)
}

// File is an open file, whose changes are steps.
type File struct{ *os.File }

// Open opens a file as os.OpenFile does.
func Open(path string, flag int, perm fs.FileMode) (File, error) {
	if err := before("open", path); err != nil {
		return File{}, err
	}
	f, err := os.OpenFile(path, flag, perm)
	return File{f}, err
}

// Write writes.
func (f File) Write(data []byte) (int, error) {
	if err := before("write", f.Name()); err != nil {
		n, _ := f.File.Write(data[:len(data)/2]) // as where the disk is full
		return n, err
	}
	return f.File.Write(data)
}

// WriteString writes a text.
func (f File) WriteString(text string) (int, error) { return f.Write([]byte(text)) }

// Sync has the file written to the disk.
func (f File) Sync() error {
	if err := before("sync", f.Name()); err != nil {
		return err
	}
	return f.File.Sync()
}

// Truncate cuts the file.
func (f File) Truncate(size int64) error {
	if err := before("truncate", f.Name()); err != nil {
		return err
	}
	return f.File.Truncate(size)
}

// Step asks whether a step that package disk has no function for may be done.
func Step(step, path string) error { return before(step, path) }

// WriteFile writes a whole file.
func WriteFile(path string, data []byte, perm fs.FileMode) error {
	if err := before("write", path); err != nil {
		_ = os.WriteFile(path, data[:len(data)/2], perm) // as where the disk is full
		return err
	}
	return os.WriteFile(path, data, perm)
}

// Mkdir makes a folder.
func Mkdir(path string, perm fs.FileMode) error {
	if err := before("mkdir", path); err != nil {
		return err
	}
	return os.Mkdir(path, perm)
}

// MkdirAll makes a folder and those above it.
func MkdirAll(path string, perm fs.FileMode) error {
	if err := before("mkdir", path); err != nil {
		return err
	}
	return os.MkdirAll(path, perm)
}

// Chmod changes who may do what.
func Chmod(path string, perm fs.FileMode) error {
	if err := before("chmod", path); err != nil {
		return err
	}
	return os.Chmod(path, perm)
}

// Rename gives a file or folder another name.
func Rename(from, to string) error {
	if err := before("rename", to); err != nil {
		return err
	}
	return os.Rename(from, to)
}

// Link gives a file a second name.
func Link(from, to string) error {
	if err := before("link", to); err != nil {
		return err
	}
	return os.Link(from, to)
}

// Remove removes a file or an empty folder.
func Remove(path string) error {
	if err := before("remove", path); err != nil {
		return err
	}
	return os.Remove(path)
}

// SyncFolder has the names in a folder written to the disk. Systems on which a folder cannot be opened for that do it by themselves.
func SyncFolder(path string) error {
	if err := before("sync", path); err != nil {
		return err
	}
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	return errors.Join(syncFolder(f), f.Close())
}
