package edition

import (
	"errors"
	"io/fs"
	"os"
)

// swapByRename moves the old edition aside and the new one into its place. A crash between the two leaves the old edition
// under the name before, from where the next Begin brings it back; an error brings it back at once.
func swapByRename(coming, dir, before string) error {
	had := true
	if err := os.Rename(dir, before); errors.Is(err, fs.ErrNotExist) {
		had = false
	} else if err != nil {
		return err
	}
	if err := os.Rename(coming, dir); err != nil {
		if had {
			err = errors.Join(err, os.Rename(before, dir))
		}
		return err
	}
	return os.RemoveAll(before)
}
