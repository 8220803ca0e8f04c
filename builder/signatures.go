package builder

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"tankside/builder/edition"
	"tankside/builder/manual"
	"tankside/builder/signature"
)

// ErrNoSigners says that nobody is named who may sign, so that nothing can be said of a signature.
var ErrNoSigners = errors.New("there is no list of those who may sign")

// Signed is an article with the verdict on its signature.
type Signed struct {
	Article string `json:"article"` // path of the file that was signed
	signature.Verdict
}

// Signers reads the lists of those who may sign and of those who may no longer. The second need not be there. Both are small.
func Signers(allowed, revoked string, place *time.Location) (*signature.Signers, error) {
	may, err := os.ReadFile(allowed)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("%w: %s is not there", ErrNoSigners, allowed)
	}
	if err != nil {
		return nil, err
	}
	not, err := os.ReadFile(revoked)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, err
	}
	return signature.ReadSigners(may, not, place)
}

// SignersOf gives where a manual has the two lists.
func SignersOf(folder string) (allowed, revoked string) {
	return filepath.Join(folder, signature.SignersFile), filepath.Join(folder, signature.RevokedFile)
}

// CheckArticles says of every signature in a manual's folder whether it holds for the file that it lies beside, in the order of their paths.
func CheckArticles(folder string, s *signature.Signers, now time.Time) (list []Signed, err error) {
	root, err := openManual(folder)
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, root.Close()) }()
	err = fs.WalkDir(root.FS(), ".", func(path string, entry fs.DirEntry, err error) error {
		of, is := strings.CutSuffix(path, signature.Extension)
		if err != nil || !is || !manual.IsArticleFile(of) || !entry.Type().IsRegular() {
			return err
		}
		v, err := checkFile(root.FS(), of, path, s, now)
		list = append(list, Signed{of, v})
		return err
	})
	return list, err
}

// checkFile checks the signature of an article.
func checkFile(fsys fs.FS, of, path string, s *signature.Signers, now time.Time) (signature.Verdict, error) {
	sig, err := readSignature(fsys, path)
	if err != nil {
		return signature.Verdict{}, err
	}
	text, err := fs.ReadFile(fsys, of)
	if errors.Is(err, fs.ErrNotExist) {
		return signature.Verdict{State: signature.Changed, Says: "What was signed is not there any more."}, nil
	}
	if err != nil {
		return signature.Verdict{}, err
	}
	return s.Check(sig, signature.OfApproval, func(g *signature.Signature) bool { return g.OfLines(text) }, now), nil
}

// readSignature reads a signature's file, and no more than one may have.
func readSignature(fsys fs.FS, path string) (data []byte, err error) {
	f, err := fsys.Open(path)
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	return io.ReadAll(io.LimitReader(f, signature.Largest))
}

// IsSigned tells whether a signature lies beside an edition's checksum list.
func IsSigned(fsys fs.FS) bool {
	info, err := fs.Stat(fsys, edition.ListName+signature.Extension)
	return err == nil && info.Mode().IsRegular()
}

// CheckEdition says whether the signature of an edition's checksum list holds for the list as it is there.
func CheckEdition(fsys fs.FS, s *signature.Signers, now time.Time) (signature.Verdict, error) {
	sig, err := readSignature(fsys, edition.ListName+signature.Extension)
	if err != nil {
		return signature.Verdict{}, err
	}
	list, err := fs.ReadFile(fsys, edition.ListName)
	if err != nil {
		return signature.Verdict{}, err
	}
	return s.Check(sig, signature.OfEdition, func(g *signature.Signature) bool { return g.Of(list) }, now), nil
}
