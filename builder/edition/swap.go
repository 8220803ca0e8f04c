package edition

import (
	"errors"
	"io/fs"
	"os"

	"tankside/builder/disk"
)

// swapByRename moves the old edition aside and the new one into its place. A crash between the two leaves the old edition
// under the name before, from where the next BeginIn brings it back; an error brings it back at once. old is where it is then, or "".
func swapByRename(coming, dir, before string) (old string, err error) {
	old = before
	if err := disk.Rename(dir, before); errors.Is(err, fs.ErrNotExist) {
		old = ""
	} else if err != nil {
		return "", err
	}
	if err := disk.Rename(coming, dir); err != nil {
		if old != "" {
			err = errors.Join(err, disk.Rename(before, dir))
		}
		return "", err
	}
	return old, nil
}

// moveUnlessThere renames a file or folder where nothing has the name that it gets.
func moveUnlessThere(from, to string) error {
	if _, err := os.Lstat(to); err == nil {
		return fs.ErrExist
	}
	return disk.Rename(from, to)
}
