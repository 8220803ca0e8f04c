package edition

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// mostLinks bounds how many symbolic links are followed from one to the next.
const mostLinks = 40

// Place is where an edition for a folder is written: the folder itself, or where that is a symbolic link, what it leads to, which need not be
// there yet. The link stays.
func Place(dir string) (string, error) {
	at, err := filepath.Abs(dir)
	if err != nil {
		return "", err
	}
	for range mostLinks {
		info, err := os.Lstat(at)
		if errors.Is(err, fs.ErrNotExist) || err == nil && info.Mode()&fs.ModeSymlink == 0 {
			return at, nil
		}
		if err != nil {
			return "", err
		}
		to, err := os.Readlink(at)
		if err != nil {
			return "", err
		}
		if !filepath.IsAbs(to) {
			parent, err := filepath.EvalSymlinks(filepath.Dir(at)) // .. leads out of the folder that is meant, not of a link to it
			if err != nil {
				return "", err
			}
			to = filepath.Join(parent, to)
		}
		at = filepath.Clean(to)
	}
	return "", fmt.Errorf("%s is a symbolic link that leads to no folder", dir)
}
