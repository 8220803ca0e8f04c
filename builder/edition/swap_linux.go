package edition

import (
	"errors"
	"io/fs"
	"os"

	"golang.org/x/sys/unix"

	"tankside/builder/disk"
)

// swap puts the folder coming in the place of dir. On Linux the kernel exchanges the two in one step;
// a file system that cannot do that gets the two renames of swapByRename.
//
// old is the folder that holds the old edition then, or "".
func swap(coming, dir, before string) (old string, err error) {
	if err = disk.Step("exchange", dir); err == nil {
		err = unix.Renameat2(unix.AT_FDCWD, coming, unix.AT_FDCWD, dir, unix.RENAME_EXCHANGE)
	}
	switch {
	case err == nil:
		return coming, nil
	case errors.Is(err, fs.ErrNotExist): // no old edition
		return "", disk.Rename(coming, dir)
	}
	return swapByRename(coming, dir, before)
}

// move renames a file or folder, and replaces nothing.
func move(from, to string) error {
	if err := disk.Step("rename", to); err != nil {
		return err
	}
	err := unix.Renameat2(unix.AT_FDCWD, from, unix.AT_FDCWD, to, unix.RENAME_NOREPLACE)
	if errors.Is(err, unix.EINVAL) || errors.Is(err, unix.ENOSYS) { // the file system cannot do that
		return moveUnlessThere(from, to)
	}
	return err
}

// flush has the kernel write the file system of dir to the disk, in one call for however many files.
func flush(dir string) error {
	if err := disk.Step("sync", dir); err != nil {
		return err
	}
	f, err := os.Open(dir)
	if err != nil {
		return err
	}
	return errors.Join(unix.Syncfs(int(f.Fd())), f.Close())
}
