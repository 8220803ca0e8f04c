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
	"maps"
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

	sitting *Sitting        // nil where the edition stands by itself
	before  map[string]File // what the edition in place is known to hold

	mu      sync.Mutex
	folders map[string]bool
	files   map[string]File
	spare   map[string]File // what lies in the folder coming from an earlier edition, and has not been taken or replaced yet
}

// Begin prepares a new edition for dir. It waits while another publication to the same folder runs.
// A folder that holds anything but an edition is refused.
func Begin(dir string) (*Writer, error) { return BeginIn(nil, dir) }

// BeginIn is Begin for one of the editions of a sitting.
func BeginIn(s *Sitting, dir string) (*Writer, error) {
	dir, err := filepath.Abs(dir)
	if err != nil {
		return nil, err
	}
	if err := os.MkdirAll(filepath.Dir(dir), 0o755); err != nil {
		return nil, err
	}
	unlock, err := lockOf(dir)
	if err != nil {
		return nil, err
	}
	w, err := open(s, dir)
	if err != nil {
		unlock()
		return nil, err
	}
	w.unlock = unlock
	return w, nil
}

// lockOf takes the lock of an edition's folder.
func lockOf(dir string) (unlock func(), err error) {
	parent, base := filepath.Split(dir)
	return lockedfile.MutexAt(filepath.Join(parent, "."+base+".lock")).Lock()
}

func open(s *Sitting, dir string) (*Writer, error) {
	if err := refuseForeign(dir); err != nil {
		return nil, err
	}
	if err := s.check(dir); err != nil {
		return nil, err
	}
	if err := tidy(dir, s.kept()); err != nil {
		return nil, err
	}
	if w := s.writer(dir); w != nil {
		return w, nil
	}
	return begin(s, dir)
}

// begin makes the folder in which an edition grows.
func begin(s *Sitting, dir string) (*Writer, error) {
	parent, base := filepath.Split(dir)
	coming, err := os.MkdirTemp(parent, "."+base+".coming-")
	if err != nil {
		return nil, err
	}
	if err := os.Chmod(coming, 0o755); err != nil { // MkdirTemp's 0700 would hide the edition from a web server
		return nil, err
	}
	w := &Writer{dir: dir, coming: coming, sitting: s, folders: map[string]bool{".": true}, files: map[string]File{}}
	if s != nil {
		w.before = s.files
	}
	return w, nil
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
func tidy(dir, spare string) error {
	parent, base := filepath.Split(dir)
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
		if path := filepath.Join(parent, e.Name()); strings.HasPrefix(e.Name(), "."+base+".coming-") && path != spare {
			if err := os.RemoveAll(path); err != nil {
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

// Add writes one file of the edition, and its compressed neighbours where it is text. A file that the edition in place has just so is kept
// from it.
func (w *Writer) Add(name string, data []byte) error {
	if !fs.ValidPath(name) || name == "." {
		return fmt.Errorf("edition: %q is no path inside an edition", name)
	}
	if err := w.folder(path.Dir(name)); err != nil {
		return err
	}
	f := File{Path: name, Bytes: int64(len(data)), SHA256: sum(data)}
	if b, known := w.before[name]; known && b.SHA256 == f.SHA256 {
		if kept, err := w.Keep(name); kept || err != nil {
			return err
		}
	}
	if err := w.clear(name); err != nil {
		return err
	}
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
	w.files[f.Path] = f
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
		return List{}, errors.Join(err, w.drop())
	}
	parent, base := filepath.Split(w.dir)
	left, err := swap(w.coming, w.dir, filepath.Join(parent, "."+base+".before"))
	if err != nil {
		return List{}, errors.Join(fmt.Errorf("the new edition could not be put in place of the old one: %w", err), w.drop())
	}
	return l, w.sitting.follow(w, l, left)
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
	if err := w.clearSpare(); err != nil {
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
	return slices.SortedFunc(maps.Values(w.files), func(a, b File) int { return cmp.Compare(a.Path, b.Path) })
}

// Abandon removes the unfinished edition. The one in place stays.
func (w *Writer) Abandon() error {
	defer w.unlock()
	return w.drop()
}

// drop removes the folder coming, whatever is in it.
func (w *Writer) drop() error {
	if w.sitting != nil && w.sitting.spare == w.coming {
		w.sitting.spare = ""
	}
	return os.RemoveAll(w.coming)
}

func sum(data []byte) string {
	h := sha256.Sum256(data)
	return hex.EncodeToString(h[:])
}
