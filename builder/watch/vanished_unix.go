//go:build unix

package watch

import (
	"errors"
	"syscall"
)

// vanished tells whether an error only says that a folder is gone, which the system noticed before we did.
func vanished(err error) bool {
	return errors.Is(err, syscall.EINVAL) || errors.Is(err, syscall.EBADF) || errors.Is(err, syscall.ENOENT)
}
