package edition

import (
	"cmp"
	"context"
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
	"sync"
	"syscall"

	"tankside/builder/disk"
)

// Writer writes one edition. Add may be called from several goroutines at once.
type Writer struct {
	dir    string // the edition's folder
	coming string // the hidden folder beside it, in which the new edition grows
	lock   *lock
	grown  *growth
	told   Told

	old  *List       // of the edition in place, or nil
	info fs.FileInfo // of its file

	sitting *Sitting        // nil where the edition stands by itself
	shelf   *Shelf          // of what several editions have in common, or nil
	before  map[string]File // what the edition in place is known to hold

	mu      sync.Mutex
	folders map[string]bool
	files   map[string]File
	written []string        // files that are no second names of files in place
	spare   map[string]File // what lies in the folder coming from an earlier edition, and has not been taken or replaced yet
}

// Told is what there is to say about somebody's files once an edition is in place.
type Told struct {
	Kept  []Stray  // they are not of the edition, and lie in its folder as before
	Aside []string // what came into the way while the edition was put in place: paths, in folders beside the edition
	Left  []string // folders beside the edition with an older one that could not be removed; the next publication tries again
}

// Told says what became of somebody's files, after Commit.
func (w *Writer) Told() Told { return w.told }

// BeginIn prepares a new edition for dir, as one of a sitting if there is one, or for what dir leads to as a symbolic link. It waits while another publication to the same folder runs.
// A folder that holds anything and is not an edition is refused with an *InTheWayError.
func BeginIn(s *Sitting, dir string) (*Writer, error) {
	dir, err := Place(dir)
	if err != nil {
		return nil, err
	}
	if err := disk.MkdirAll(filepath.Dir(dir), 0o755); err != nil {
		return nil, err
	}
	k, err := lockOf(dir)
	if err != nil {
		return nil, err
	}
	w, err := open(s, k)
	if err != nil {
		return nil, errors.Join(err, k.release())
	}
	return w, nil
}

func open(s *Sitting, k *lock) (*Writer, error) {
	if err := s.check(k.dir); err != nil {
		return nil, err
	}
	old, info := s.inPlace()
	var err error
	if old == nil {
		old, info, err = refuseForeign(k.dir)
	}
	if err != nil {
		return nil, err
	}
	told, err := k.tidy(s.kept())
	if err != nil {
		return nil, err
	}
	w, err := s.writer(k)
	if err == nil && w == nil {
		w, err = begin(s, k)
	}
	if err != nil {
		return nil, err
	}
	w.told, w.old, w.info = told, old, info
	return w, nil
}

// begin makes the folder in which an edition grows. Its name is written down before it is there.
func begin(s *Sitting, k *lock) (*Writer, error) {
	coming := k.fresh("coming")
	if err := k.note(coming, growing); err != nil {
		return nil, err
	}
	if err := disk.Mkdir(coming, 0o755); err != nil {
		return nil, err
	}
	if err := disk.Chmod(coming, 0o755); err != nil { // a process's own mask would hide the edition from a web server
		return nil, err
	}
	grown, err := growIn(coming)
	if err != nil {
		return nil, err
	}
	w := &Writer{dir: k.dir, coming: coming, lock: k, grown: grown, sitting: s, folders: map[string]bool{".": true}, files: map[string]File{}}
	if s != nil {
		w.before = s.files
	}
	return w, nil
}

// refuseForeign refuses to replace a folder that was not published by us, or a file. It gives the list of the edition in the folder, with the
// file that the list was read from, or nil where there is nothing.
func refuseForeign(dir string) (*List, fs.FileInfo, error) {
	info, err := os.Lstat(dir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil, nil
	}
	if err == nil && !info.IsDir() {
		return nil, nil, fmt.Errorf("%s is a file; name the folder of the edition with --to", dir)
	}
	if err != nil {
		return nil, nil, err
	}
	entries, err := os.ReadDir(dir)
	if err != nil || len(entries) == 0 {
		return nil, nil, err
	}
	info, err = os.Lstat(filepath.Join(dir, ListName))
	var l *List
	if err == nil || errors.Is(err, fs.ErrNotExist) {
		l, err = ReadList(os.DirFS(dir))
	}
	var damaged *DamagedListError
	switch {
	case errors.As(err, &damaged):
		return nil, nil, &InTheWayError{Dir: dir, NoList: "its " + damaged.Error(), Strays: straysOf(entries)}
	case errors.Is(err, ErrNotEdition):
		return nil, nil, &InTheWayError{Dir: dir, NoList: "it has no " + ListName, Strays: straysOf(entries)}
	}
	return l, info, err
}

func straysOf(entries []fs.DirEntry) []Stray {
	var list []Stray
	for _, e := range entries {
		if info, err := e.Info(); err == nil { // otherwise it has gone
			list = append(list, strayOf(e.Name(), info))
		}
	}
	return list
}

// tidy removes what a crash left of the folders that publications have made, and brings back the old edition where the crash fell between the
// two renames of a swap.
func (k *lock) tidy(spare string) (Told, error) {
	var told Told
	if err := k.bringBack(); err != nil {
		return told, err
	}
	for _, name := range slices.Clone(k.names) {
		folder := filepath.Join(filepath.Dir(k.dir), name)
		if folder == spare {
			continue
		}
		if _, err := os.Lstat(folder); errors.Is(err, fs.ErrNotExist) {
			if err := k.note(folder, gone); err != nil {
				return told, err
			}
			continue
		}
		k.clear(folder, nil, nil, false, &told)
	}
	return told, nil
}

// bringBack puts the old edition in its place again where a crash fell between the two renames of a swap. That comes before anything else: what is somebody's
// in the other folders belongs to it.
func (k *lock) bringBack() error {
	if _, err := os.Lstat(k.dir); !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	for _, name := range slices.Clone(k.names) {
		if k.state[name] != aside {
			continue
		}
		folder := filepath.Join(filepath.Dir(k.dir), name)
		err := disk.Rename(folder, k.dir)
		if errors.Is(err, fs.ErrNotExist) {
			continue
		}
		if err != nil {
			return err
		}
		return k.note(folder, gone)
	}
	return nil
}

// clear takes an old edition apart and notes what there is to say about it.
//
// l is the list of that edition; with nil it is read.
func (k *lock) clear(folder string, l *List, seen map[string]fs.FileInfo, keep bool, told *Told) (whole bool) {
	rest, err := k.depart(context.Background(), folder, l, seen, keep)
	if err != nil {
		told.Left = append(told.Left, folder)
	}
	told.aside(rest)
	return err == nil && len(rest.files) == 0
}

// aside notes what could not go to the edition in place.
func (t *Told) aside(rest left) {
	for _, f := range rest.files {
		t.Aside = append(t.Aside, filepath.Join(rest.aside, filepath.FromSlash(f)))
	}
}

// Previous gives the list of the edition that was in place at BeginIn, or nil. It is not to be changed.
func (w *Writer) Previous() *List { return w.old }

// Add writes one file of the edition, and its compressed neighbours where it is text. A file that the edition in place has just so is kept
// from it.
func (w *Writer) Add(name string, data []byte) error {
	if !fs.ValidPath(name) || name == "." {
		return fmt.Errorf("edition: %q is no path inside an edition", name)
	}
	if err := w.folder(path.Dir(name)); err != nil {
		return err
	}
	f := File{Path: name, Bytes: int64(len(data)), SHA256: Sum(data)}
	if b, known := w.before[name]; known && b.SHA256 == f.SHA256 {
		if kept, err := w.Keep(name); kept || err != nil {
			return err
		}
	}
	if known, has := w.shelf.of(name); has && known.SHA256 == f.SHA256 {
		if taken, err := w.Keep(name); taken || err != nil {
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
		gz, br, err := compressed(name, data)
		if err != nil {
			return err
		}
		f.Gzip = Sum(gz)
		if err := w.write(name+".gz", gz); err != nil {
			return err
		}
		if br != nil {
			f.Brotli = Sum(br)
			if err := w.write(name+".br", br); err != nil {
				return err
			}
		}
	}
	w.mu.Lock()
	w.files[f.Path] = f
	w.written = append(w.written, f.names()...)
	w.mu.Unlock()
	if w.shelf != nil && shared(name) {
		return w.put(f)
	}
	return nil
}

func (w *Writer) write(name string, data []byte) error {
	local, err := filepath.Localize(name)
	if err != nil {
		return err
	}
	at := filepath.Join(w.coming, local)
	if err := w.grown.claim(name, at); err != nil {
		return err
	}
	return disk.WriteFile(at, data, 0o644)
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
	if err := w.grown.note(name + "/"); err != nil {
		return err
	}
	if err := disk.MkdirAll(filepath.Join(w.coming, local), 0o755); err != nil {
		return err
	}
	w.folders[name] = true
	return nil
}

// Commit completes the edition and puts it in place of the old one. worker is the script of the offline worker,
// to which the edition's digest is prefixed, so that browsers see a new worker exactly when the edition changed.
//
// Of the old edition's folder nothing goes but what its list names, as it was published. What else lies there lies in the new edition's folder
// afterwards; where that has a file for the same place, the old edition stays and the error is an *InTheWayError.
func (w *Writer) Commit(l List, worker []byte) (_ List, err error) {
	defer func() { err = errors.Join(err, w.lock.release()) }()
	l, err = w.complete(l, worker)
	var had *holding
	if err == nil {
		had, err = w.inspect(&l)
	}
	before := w.lock.fresh("before")
	if err == nil {
		err = errors.Join(w.lock.note(w.coming, leaving), w.lock.note(before, aside), w.lock.file.Sync())
	}
	if err == nil {
		err = flush(w.coming)
	}
	if err != nil {
		return List{}, errors.Join(err, w.drop())
	}
	w.lend(had)
	old, err := swap(w.coming, w.dir, before)
	if err != nil {
		return List{}, errors.Join(notMoved(w.dir, err), w.drop())
	}
	w.told.Kept = had.outermost()
	for _, folder := range []string{w.coming, before} {
		if folder != old {
			err = errors.Join(err, w.lock.note(folder, gone))
		}
	}
	return l, errors.Join(err, w.sitting.follow(w, l, old, had))
}

// notMoved says why a folder could not change places with the new edition.
func notMoved(dir string, err error) error {
	if errors.Is(err, syscall.EBUSY) {
		return fmt.Errorf("%s cannot be replaced: a disk is mounted there, or a program works in it; name a folder in it with --to, or close that program (%w)", dir, err)
	}
	return fmt.Errorf("the new edition could not be put in place of the old one: %w", err)
}

// inspect looks at what the new edition is to replace.
func (w *Writer) inspect(l *List) (*holding, error) {
	old := w.old
	if info, err := os.Lstat(filepath.Join(w.dir, ListName)); old == nil || err != nil || !untouched(w.info, info) { // it may have come since BeginIn
		if old, _, err = refuseForeign(w.dir); err != nil {
			return nil, err
		}
	}
	h, err := hold(context.Background(), w.dir, old, w.sitting.seenBefore())
	if errors.Is(err, fs.ErrNotExist) {
		return &holding{}, nil
	}
	if err != nil {
		return nil, err
	}
	h.list = old
	if strays := h.inTheWay(l); len(strays) > 0 {
		return nil, &InTheWayError{Dir: w.dir, Strays: strays}
	}
	return h, nil
}

func (w *Writer) complete(l List, worker []byte) (List, error) {
	l.Files = w.sorted()
	l.Digest = l.digest()
	head, err := json.Marshal(struct {
		Edition string `json:"edition"` // code
		Digest  string `json:"digest"`
	}{l.Code, l.Digest})
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
	data, err := l.encode()
	if err != nil {
		return l, err
	}
	w.written = append(w.written, ListName)
	return l, w.writeList(data)
}

// listComing is the name of the list while it is written.
const listComing = ".edition.json.coming"

// writeList puts the list of the coming edition in the place of one that the folder may have from an earlier edition, in one step: at each
// moment there is one that names what the folder has.
func (w *Writer) writeList(data []byte) error {
	if err := w.write(listComing, data); err != nil {
		return err
	}
	if err := w.grown.note(ListName); err != nil {
		return err
	}
	if err := disk.Rename(filepath.Join(w.coming, listComing), filepath.Join(w.coming, ListName)); err != nil {
		return err
	}
	return w.grown.end()
}

func (w *Writer) sorted() []File {
	return slices.SortedFunc(maps.Values(w.files), func(a, b File) int { return cmp.Compare(a.Path, b.Path) })
}

// Abandon removes the unfinished edition. The one in place stays.
func (w *Writer) Abandon() error { return errors.Join(w.drop(), w.lock.release()) }

// drop removes the folder coming: what has been written there, and second names of files in place. Anything else is somebody's, and kept.
func (w *Writer) drop() error {
	if w.sitting != nil && w.sitting.spare == w.coming {
		w.sitting.spare = ""
	}
	if err := w.grown.close(); err != nil && !errors.Is(err, os.ErrClosed) {
		return err
	}
	rest, err := w.lock.depart(context.Background(), w.coming, nil, w.sitting.seenBefore(), false)
	w.told.aside(rest)
	return err
}

// Sum is the SHA-256 of some data, in hexadecimal.
func Sum(data []byte) string {
	h := sha256.Sum256(data)
	return hex.EncodeToString(h[:])
}
