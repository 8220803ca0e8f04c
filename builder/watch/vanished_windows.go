package watch

import (
	"errors"
	"io/fs"
	"syscall"
)

// vanished tells whether an error only says that a folder is gone, which the system noticed before we did.
func vanished(err error) bool {
	return errors.Is(err, fs.ErrNotExist) || errors.Is(err, syscall.ERROR_ACCESS_DENIED) || errors.Is(err, syscall.EINVAL)
}
