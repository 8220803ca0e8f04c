package edition

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"sync"

	"github.com/rogpeppe/go-internal/lockedfile"
)

// Writer writes one edition. Add may be called from several goroutines at once.
type Writer struct {
	dir    string // the edition's folder
	coming string // the hidden folder beside it, in which the new edition grows
	unlock func()

	mu      sync.Mutex
	folders map[string]bool
	files   []File
}

// Begin prepares a new edition for dir. It waits while another publication to the same folder runs.
// A folder that holds anything but an edition is refused.
func Begin(dir string) (*Writer, error) {
	dir, err := filepath.Abs(dir)
	if err != nil {
		return nil, err
	}
	parent, base := filepath.Split(dir)
	if err := os.MkdirAll(parent, 0o755); err != nil {
		return nil, err
	}
	unlock, err := lockedfile.MutexAt(filepath.Join(parent, "."+base+".lock")).Lock()
	if err != nil {
		return nil, err
	}
	w, err := begin(dir, parent, base)
	if err != nil {
		unlock()
		return nil, err
	}
	w.unlock = unlock
	return w, nil
}

func begin(dir, parent, base string) (*Writer, error) {
	if err := refuseForeign(dir); err != nil {
		return nil, err
	}
	if err := tidy(parent, base, dir); err != nil {
		return nil, err
	}
	coming, err := os.MkdirTemp(parent, "."+base+".coming-")
	if err != nil {
		return nil, err
	}
	if err := os.Chmod(coming, 0o755); err != nil { // MkdirTemp's 0700 would hide the edition from a web server
		return nil, err
	}
	return &Writer{dir: dir, coming: coming, folders: map[string]bool{".": true}}, nil
}

// refuseForeign refuses to replace a folder that was not published by us.
func refuseForeign(dir string) error {
	entries, err := os.ReadDir(dir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	if len(entries) == 0 {
		return nil
	}
	if _, err := os.Stat(filepath.Join(dir, ListName)); errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("%s holds files but no %s, so it is not an edition and will not be replaced; name another folder with --to, or empty this one", dir, ListName)
	}
	return nil
}

// tidy removes what a crash left, and brings back the old edition where the crash fell between the two renames of a swap.
func tidy(parent, base, dir string) error {
	old := filepath.Join(parent, "."+base+".before")
	if _, err := os.Stat(dir); errors.Is(err, fs.ErrNotExist) {
		if err := os.Rename(old, dir); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return err
		}
	}
	if err := os.RemoveAll(old); err != nil {
		return err
	}
	entries, err := os.ReadDir(parent)
	if err != nil {
		return err
	}
	for _, e := range entries {
		if strings.HasPrefix(e.Name(), "."+base+".coming-") {
			if err := os.RemoveAll(filepath.Join(parent, e.Name())); err != nil {
				return err
			}
		}
	}
	return nil
}

// Previous gives the list of the edition that is in place, or nil.
func (w *Writer) Previous() (*List, error) {
	l, err := ReadList(os.DirFS(w.dir))
	if errors.Is(err, ErrNotEdition) {
		return nil, nil
	}
	return l, err
}

// Add writes one file of the edition, and its compressed neighbours where it is text.
func (w *Writer) Add(name string, data []byte) error {
	if !fs.ValidPath(name) || name == "." {
		return fmt.Errorf("edition: %q is no path inside an edition", name)
	}
	if err := w.folder(path.Dir(name)); err != nil {
		return err
	}
	f := File{Path: name, Bytes: int64(len(data)), SHA256: sum(data)}
	if err := w.write(name, data); err != nil {
		return err
	}
	if compressible(name, len(data)) {
		gz, br, err := compress(name, data)
		if err != nil {
			return err
		}
		f.Gzip = sum(gz)
		if err := w.write(name+".gz", gz); err != nil {
			return err
		}
		if br != nil {
			f.Brotli = sum(br)
			if err := w.write(name+".br", br); err != nil {
				return err
			}
		}
	}
	w.mu.Lock()
	w.files = append(w.files, f)
	w.mu.Unlock()
	return nil
}

func (w *Writer) write(name string, data []byte) error {
	local, err := filepath.Localize(name)
	if err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(w.coming, local), data, 0o644)
}

// folder makes the folder of a file once.
func (w *Writer) folder(name string) error {
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.folders[name] {
		return nil
	}
	local, err := filepath.Localize(name)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(filepath.Join(w.coming, local), 0o755); err != nil {
		return err
	}
	w.folders[name] = true
	return nil
}

// Commit completes the edition and puts it in place of the old one. worker is the script of the offline worker,
// to which the edition's digest is prefixed, so that browsers see a new worker exactly when the edition changed.
func (w *Writer) Commit(l List, worker []byte) (List, error) {
	defer w.unlock()
	l, err := w.complete(l, worker)
	if err == nil {
		err = flush(w.coming)
	}
	if err != nil {
		return List{}, errors.Join(err, os.RemoveAll(w.coming))
	}
	parent, base := filepath.Split(w.dir)
	if err := swap(w.coming, w.dir, filepath.Join(parent, "."+base+".before")); err != nil {
		return List{}, errors.Join(fmt.Errorf("the new edition could not be put in place of the old one: %w", err), os.RemoveAll(w.coming))
	}
	return l, nil
}

func (w *Writer) complete(l List, worker []byte) (List, error) {
	l.Files = w.sorted()
	h := sha256.New()
	for _, f := range l.Files {
		fmt.Fprintf(h, "%s %s\n", f.SHA256, f.Path)
	}
	l.Digest = hex.EncodeToString(h.Sum(nil))

	head, err := json.Marshal(struct {
		Edition int    `json:"edition"`
		Digest  string `json:"digest"`
	}{l.Edition, l.Digest})
	if err != nil {
		return l, err
	}
	script := slices.Concat([]byte("const edition = "), head, []byte(";\n"), worker)
	if err := w.Add(WorkerName, script); err != nil {
		return l, err
	}
	l.Files = w.sorted()
	var buf bytes.Buffer
	enc := json.NewEncoder(&buf)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", " ")
	if err := enc.Encode(l); err != nil {
		return l, err
	}
	return l, w.write(ListName, buf.Bytes())
}

func (w *Writer) sorted() []File {
	return slices.SortedFunc(slices.Values(w.files), func(a, b File) int { return cmp.Compare(a.Path, b.Path) })
}

// Abandon removes the unfinished edition. The one in place stays.
func (w *Writer) Abandon() error {
	defer w.unlock()
	return os.RemoveAll(w.coming)
}

func sum(data []byte) string {
	h := sha256.Sum256(data)
	return hex.EncodeToString(h[:])
}
