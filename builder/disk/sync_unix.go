//go:build unix

package disk

import (
	"errors"
	"os"
	"syscall"
)

// syncFolder has the names in a folder written. A file system that cannot do that for a folder keeps them by itself.
func syncFolder(f *os.File) error {
	if err := f.Sync(); err != nil && !errors.Is(err, syscall.EINVAL) && !errors.Is(err, syscall.ENOTSUP) {
		return err
	}
	return nil
}
