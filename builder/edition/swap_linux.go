package edition

import (
	"errors"
	"io/fs"
	"os"

	"golang.org/x/sys/unix"
)

// swap puts the folder coming in the place of dir. On Linux the kernel exchanges the two in one step;
// a file system that cannot do that gets the two renames of swapByRename.
//
// left says that coming holds the old edition now.
func swap(coming, dir, before string) (left bool, err error) {
	err = unix.Renameat2(unix.AT_FDCWD, coming, unix.AT_FDCWD, dir, unix.RENAME_EXCHANGE)
	switch {
	case err == nil:
		return true, nil
	case errors.Is(err, fs.ErrNotExist): // no old edition
		return false, os.Rename(coming, dir)
	}
	return false, swapByRename(coming, dir, before)
}

// flush has the kernel write the file system of dir to the disk, in one call for however many files.
func flush(dir string) error {
	f, err := os.Open(dir)
	if err != nil {
		return err
	}
	return errors.Join(unix.Syncfs(int(f.Fd())), f.Close())
}
