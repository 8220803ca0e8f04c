package shops

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"strings"

	"tankside/builder/edition"
)

// inputsIn is inputsOf for a folder of the operating system.
func inputsIn(folder string) (string, error) {
	root, err := os.OpenRoot(folder)
	if err != nil {
		return "", err
	}
	digest, err := inputsOf(root.FS())
	return digest, errors.Join(err, root.Close())
}

// inputsOf is a digest of every file of a folder, but for those whose names begin with a dot. Of what is no file its sort counts.
func inputsOf(fsys fs.FS) (string, error) {
	h := sha256.New()
	err := fs.WalkDir(fsys, ".", func(p string, e fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case p != "." && strings.HasPrefix(e.Name(), "."):
			if e.IsDir() {
				return fs.SkipDir
			}
			return nil
		case e.IsDir():
			return nil
		case !e.Type().IsRegular():
			fmt.Fprintf(h, "%q %s\n", p, e.Type())
			return nil
		}
		sum, err := edition.SumOf(fsys, p)
		fmt.Fprintf(h, "%q %s\n", p, sum)
		return err
	})
	return hex.EncodeToString(h.Sum(nil)), err
}

// join is a digest of several texts.
func join(texts ...string) string {
	h := sha256.New()
	for _, t := range texts {
		fmt.Fprintf(h, "%d %s\n", len(t), t)
	}
	return hex.EncodeToString(h.Sum(nil))
}
