package control

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"

	"tankside/builder/manual"
)

// Change is what becomes of the header of one article.
type Change struct {
	Article *manual.Article
	Says    string // half a sentence

	set []entry
}

// Write makes the changes in the manual's folder: all of them or, where one is refused or its file is no longer as it was read, none. Each file is
// written beside the old one and takes its place. An error of the disk may leave the first of them made.
func Write(root *os.Root, changes []Change) error {
	texts := make([][]byte, len(changes))
	for i, c := range changes {
		data, err := root.ReadFile(c.Article.File)
		if err != nil {
			return err
		}
		if sum := sha256.Sum256(data); hex.EncodeToString(sum[:]) != c.Article.Sum {
			return &RefusedError{c.Article.Path, "it was saved while the manual was read", "Do it again."}
		}
		if texts[i], err = setKeys(c.Article.Path, data, c.set); err != nil {
			return err
		}
	}
	for i, c := range changes {
		if err := Replace(root, c.Article.File, texts[i]); err != nil {
			return fmt.Errorf("%s could not be written, and stays as it was: %w", c.Article.Path, err)
		}
	}
	return nil
}

// Replace puts a text in the place of a file, with the file's permissions, or makes the file where there is none. It is there whole or not at all.
func Replace(root *os.Root, path string, text []byte) error {
	mode := fs.FileMode(0o644)
	switch info, err := root.Lstat(path); {
	case err == nil:
		mode = info.Mode().Perm()
	case !errors.Is(err, fs.ErrNotExist):
		return err
	}
	beside := path + ".new~" // which no reader takes for an article
	f, err := root.OpenFile(beside, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
	if errors.Is(err, fs.ErrExist) {
		return fmt.Errorf("%s is in the way; remove it", beside)
	}
	if err != nil {
		return err
	}
	_, err = f.Write(text)
	if err = errors.Join(err, f.Sync(), f.Close()); err == nil {
		err = root.Rename(beside, path)
	}
	if err != nil {
		return errors.Join(err, root.Remove(beside))
	}
	return nil
}
