//go:build !linux

package edition

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
)

func swap(coming, dir, before string) (old string, err error) {
	return swapByRename(coming, dir, before)
}

func move(from, to string) error { return moveUnlessThere(from, to) }

// flush has every file below dir written to the disk.
func flush(dir string) error {
	return filepath.WalkDir(dir, func(path string, e fs.DirEntry, err error) error {
		if err != nil || !e.Type().IsRegular() {
			return err
		}
		f, err := os.OpenFile(path, os.O_RDWR, 0)
		if err != nil {
			return err
		}
		return errors.Join(f.Sync(), f.Close())
	})
}
