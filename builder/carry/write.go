package carry

import (
	"archive/zip"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/klauspost/compress/flate"

	"tankside/builder/edition"
)

// What stands at the top of the file.
const (
	First  = "OPEN-ME.html"
	Folder = edition.CarriedFolder
)

// signatureOfList lies beside the list where somebody has signed it.
const signatureOfList = edition.ListName + ".sig"

// longestName is how many characters a name in the file has at most: unpacked into a folder of a Windows desk, where a path ends at 260, some are left for that folder.
const longestName = 200

// unchanging is the time of every entry: the first that an archive can say.
var unchanging = time.Date(1980, 1, 1, 0, 0, 0, 0, time.UTC)

// Write puts the edition in a folder into a file, whole or not at all, with the first page. It gives the file's size in bytes.
func Write(ctx context.Context, folder, to string, first []byte) (size int64, err error) {
	fsys := os.DirFS(folder)
	l, err := edition.ReadList(fsys)
	if err != nil {
		return 0, err
	}
	names, err := namesOf(fsys, l)
	if err != nil {
		return 0, err
	}
	if err := refuseAnother(to); err != nil {
		return 0, err
	}
	coming, err := os.CreateTemp(filepath.Dir(to), ".tankside-carry-*")
	if err != nil {
		return 0, err
	}
	defer func() {
		if err != nil {
			err = errors.Join(err, coming.Close(), os.Remove(coming.Name()))
		}
	}()
	if err := write(ctx, coming, fsys, l, names, first); err != nil {
		return 0, err
	}
	info, err := coming.Stat()
	if err != nil {
		return 0, err
	}
	if info.Size() > largestFile {
		return 0, fmt.Errorf("the edition takes %d bytes in one file, and at most %d can be carried so; carry its folder", info.Size(), int64(largestFile))
	}
	if _, err := open(coming, info.Size()); err != nil { // whoever gets it opens it
		return 0, err
	}
	if err := errors.Join(coming.Chmod(0o644), coming.Sync()); err != nil {
		return 0, err
	}
	if err := coming.Close(); err != nil {
		return 0, errors.Join(err, os.Remove(coming.Name()))
	}
	if problem := os.Rename(coming.Name(), to); problem != nil {
		err := errors.Join(problem, os.Remove(coming.Name()))
		return 0, err
	}
	return info.Size(), nil
}

// refuseAnother refuses to replace what is no file to carry an edition.
func refuseAnother(to string) error {
	info, err := os.Stat(to)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return err
	case !info.Mode().IsRegular():
		return fmt.Errorf("%s is no file; name a file that does not exist, or one that carries an edition", to)
	case info.Size() == 0:
		return nil
	}
	a, err := Open(to)
	if err != nil {
		return fmt.Errorf("%s is there already and carries no edition, so it is not replaced: %w", to, err)
	}
	return a.Close()
}

// namesOf are the files of the edition that are carried, by path.
func namesOf(fsys fs.FS, l *edition.List) ([]string, error) {
	names := []string{edition.ListName}
	for _, f := range l.Files {
		if edition.IsCarried(f.Path) {
			names = append(names, f.Path)
		}
	}
	if info, err := fs.Stat(fsys, signatureOfList); err == nil && info.Mode().IsRegular() {
		names = append(names, signatureOfList)
	}
	slices.Sort(names)
	for _, name := range names {
		if err := checkName(Folder + name); err != nil {
			return nil, fmt.Errorf("%w: rename what the page is made from", err)
		}
	}
	if len(names) > mostEntries-1 {
		return nil, fmt.Errorf("the edition has %d files, and at most %d fit into one; carry its folder", len(names), mostEntries-1)
	}
	return names, nil
}

func write(ctx context.Context, to io.Writer, fsys fs.FS, l *edition.List, names []string, first []byte) error {
	z := zip.NewWriter(to)
	var packer *flate.Writer // one for all: each takes a megabyte
	z.RegisterCompressor(zip.Deflate, func(w io.Writer) (_ io.WriteCloser, err error) {
		if packer == nil {
			packer, err = flate.NewWriter(w, flate.BestCompression)
			return packer, err
		}
		packer.Reset(w)
		return packer, nil
	})
	if err := add(z, First, strings.NewReader(string(first)), l.First); err != nil {
		return err
	}
	sums := map[string]string{}
	for _, f := range l.Files {
		sums[f.Path] = f.SHA256
	}
	for _, name := range names {
		if err := ctx.Err(); err != nil {
			return err
		}
		f, err := fsys.Open(name)
		if err != nil {
			return err
		}
		if err := errors.Join(add(z, Folder+name, f, sums[name]), f.Close()); err != nil {
			return err
		}
	}
	return z.Close()
}

// add writes an entry. Where a checksum is known, what is written has to have it.
func add(z *zip.Writer, name string, from io.Reader, want string) error {
	w, err := z.CreateHeader(&zip.FileHeader{Name: name, Method: zip.Deflate, Modified: unchanging})
	if err != nil {
		return err
	}
	h := sha256.New()
	if _, err := io.Copy(io.MultiWriter(w, h), from); err != nil {
		return err
	}
	if got := hex.EncodeToString(h.Sum(nil)); want != "" && got != want {
		return fmt.Errorf("%s is not as it was published, so nothing was carried; publish again", strings.TrimPrefix(name, Folder))
	}
	return nil
}
