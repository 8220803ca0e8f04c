package logbook

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"time"

	"github.com/rogpeppe/go-internal/lockedfile"

	"tankside/builder/disk"
	"tankside/builder/record"
)

// Limits of what is taken.
const (
	MaxBody = 512 << 10 // bytes that a device sends at once
	MaxRows = 1000      // rows that it sends at once

	ahead = 26 * time.Hour // that a reading may be later than the host's clock: another time zone, and a clock that goes wrong by a little
)

// Book is the folder with the records of a shop's tanks. It is safe for use by several goroutines, and two programs may have the same one open.
type Book struct {
	folder string
	tanks  []string
	open   map[string]*tank
	locked *lockedfile.Mutex
}

// tank is one record.
type tank struct {
	name string // of the file

	mu   sync.Mutex
	info fs.FileInfo // of the file as it was last read or written; nil: it has to be read
	form *record.Form
	ids  map[string]record.At
	rows int // used or not

	unused int  // values and rows that the record has and that cannot be read
	tried  bool // rows have been added to it since it was read
}

// Refusal says of a row why it is not kept.
type Refusal struct {
	ID  string `json:"id"`
	Why string `json:"why"`
}

// ErrNoTank says that there is no tank of a name.
var ErrNoTank = errors.New("the shop has no tank of that name")

// ErrUnfit is wrapped by what keeps a record from being added to although the disk is well.
var ErrUnfit = errors.New("nothing can be added to this record")

// Open opens the book of a shop with these tanks, and makes its folder where there is none. What a crash has left is put right.
func Open(folder string, tanks []string) (*Book, error) {
	if err := disk.MkdirAll(folder, 0o755); err != nil {
		return nil, err
	}
	b := &Book{folder: folder, tanks: slices.Clone(tanks), open: map[string]*tank{}, locked: lockedfile.MutexAt(filepath.Join(folder, lockName))}
	for _, id := range tanks {
		if id != filepath.Base(id) || !filepath.IsLocal(id) {
			return nil, fmt.Errorf("“%s” is no name of a tank", id)
		}
		b.open[id] = &tank{name: id + ".csv"}
	}
	unlock, err := b.locked.Lock()
	if err != nil {
		return nil, err
	}
	defer unlock()
	for _, t := range b.open {
		if err := b.mend(t); err != nil {
			return nil, fmt.Errorf("%s: %w", t.name, err)
		}
	}
	return b, nil
}

// lockName is the file that one program at a time holds while it writes.
const lockName = ".being-added.lock"

// Tanks are those of the shop, in the order of the line.
func (b *Book) Tanks() []string { return b.tanks }

func (b *Book) path(name string) string { return filepath.Join(b.folder, name) }

// regular gives what is at a path. What is there and is no file of its own, such as a link, is an error: it may lead out of the folder.
func regular(path string) (fs.FileInfo, error) {
	info, err := os.Lstat(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err == nil && !info.Mode().IsRegular() {
		return nil, fmt.Errorf("%w: %s is no file", ErrUnfit, filepath.Base(path))
	}
	return info, err
}

// hold gives the record of a tank to one caller in this process and on this machine, until it is released.
func (b *Book) hold(id string) (t *tank, release func(), err error) {
	if t = b.open[id]; t == nil {
		return nil, nil, ErrNoTank
	}
	t.mu.Lock()
	unlock, err := b.locked.Lock()
	if err != nil {
		t.mu.Unlock()
		return nil, nil, err
	}
	return t, func() { unlock(); t.mu.Unlock() }, nil
}

// Read opens the record of a tank and gives its size: up to there it holds whole rows alone, whatever is added meanwhile. Without a record the file is nil;
// otherwise it is to be closed.
func (b *Book) Read(id string) (*os.File, fs.FileInfo, error) {
	t, release, err := b.hold(id)
	if err != nil {
		return nil, nil, err
	}
	defer release()
	if err := b.mend(t); err != nil {
		return nil, nil, err
	}
	if info, err := regular(b.path(t.name)); info == nil {
		return nil, nil, err
	}
	f, err := os.Open(b.path(t.name))
	if err != nil {
		return nil, nil, err
	}
	info, err := f.Stat()
	if err != nil {
		return nil, nil, errors.Join(err, f.Close())
	}
	return f, info, nil
}

// State is what a record is told by: it changes with every row.
func (b *Book) State(id string) (fs.FileInfo, error) {
	t := b.open[id]
	if t == nil {
		return nil, ErrNoTank
	}
	return regular(b.path(t.name))
}

// Add adds the rows of a batch to the record of a tank that are not there yet. What it gives as kept is on the disk. With an error nothing is known of
// any row: whoever has sent them sends them again.
func (b *Book) Add(id string, batch *record.Batch, now time.Time) (ids []string, refused []Refusal, err error) {
	t, release, err := b.hold(id)
	if err != nil {
		return nil, nil, err
	}
	defer release()
	if err := b.load(t, batch); err != nil {
		t.info = nil
		return nil, nil, err
	}
	adding, err := b.choose(t, batch, now)
	if err == nil && len(adding.rows) > 0 {
		err = b.write(t, adding)
	}
	if err != nil {
		t.info = nil // what is on the disk is read again
		return nil, nil, err
	}
	for i := range adding.rows {
		s := adding.rows[i]
		t.ids[s.ID] = record.At{When: s.When, Day: s.Day}
	}
	t.rows += len(adding.rows)
	return adding.kept, adding.refused, nil
}

// adding is what becomes of a batch.
type adding struct {
	kept    []string // those that are there already among them
	refused []Refusal
	rows    []*record.Sent // to be written
	lines   []byte
	wide    []byte // the record anew, where it gets more columns
	first   bool   // there was no record
}

// load reads the record again where it is not as it was left.
func (b *Book) load(t *tank, batch *record.Batch) error {
	if err := b.mend(t); err != nil {
		return err
	}
	info, err := regular(b.path(t.name))
	if err != nil {
		return err
	}
	if t.info != nil && info != nil && same(t.info, info) {
		return nil
	}
	t.info, t.ids, t.rows, t.unused, t.tried = nil, map[string]record.At{}, 0, 0, false
	if info == nil || info.Size() == 0 {
		t.form = nil
		return nil
	}
	if info.Size() > record.MaxBytes {
		return fmt.Errorf("%w: it has more than %d MiB", ErrUnfit, record.MaxBytes>>20)
	}
	data, err := os.ReadFile(b.path(t.name))
	if err != nil {
		return err
	}
	form, known, err := record.Reopened(t.name, data)
	if err != nil {
		return fmt.Errorf("%w: %w", ErrUnfit, err)
	}
	t.form = form
	t.ids, t.rows, t.unused = known.IDs, known.Rows, known.Unused
	t.info = info
	return nil
}

// same tells whether a file is as it was.
func same(a, b fs.FileInfo) bool {
	return os.SameFile(a, b) && a.Size() == b.Size() && a.ModTime().Equal(b.ModTime())
}

// choose says what becomes of each row of a batch, and writes those that are new as the record is written.
func (b *Book) choose(t *tank, batch *record.Batch, now time.Time) (*adding, error) {
	a := &adding{}
	if t.form == nil {
		t.form, a.lines = record.Fresh(batch)
		a.first = true
	}
	coming := map[string]bool{}
	var lacks []string
	var size int64
	if t.info != nil {
		size = t.info.Size()
	}
	for i := range batch.Rows {
		s := &batch.Rows[i]
		before, there := t.ids[s.ID]
		switch {
		case s.Why != "":
		case coming[s.ID]:
			s.Why = "The id is there twice in what was sent."
		case there && before.Day == s.Day && alike(before.When, s.When):
			a.kept = append(a.kept, s.ID)
			continue
		case there:
			s.Why = "Another reading of this tank has this id."
		case s.When.After(now.Add(ahead)):
			s.Why = "The reading is of " + record.Stamp(s.When, s.Day) + ", which is later than it is: the clock of the device goes wrong."
		case t.rows+len(a.rows) >= record.MaxRows || size+int64(len(a.lines)) > record.MaxBytes-(1<<20):
			s.Why = "The record is full; put its oldest rows into a file outside of the manual."
		}
		if s.Why != "" {
			a.refused = append(a.refused, Refusal{s.ID, s.Why})
			continue
		}
		for _, head := range t.form.Lacks(batch, s) {
			if !slices.Contains(lacks, head) {
				lacks = append(lacks, head)
			}
		}
		coming[s.ID] = true
		a.rows = append(a.rows, s)
	}
	if len(lacks) > 0 {
		if err := b.widen(t, a, lacks); err != nil {
			return nil, err
		}
	}
	a.join(t, batch)
	return a, nil
}

// alike tells whether two times are the same, by the clock where one of them says no offset from UTC.
func alike(a, b time.Time) bool {
	const form = "2006-01-02T15:04:05"
	return a.Equal(b) || record.Zoned(a) != record.Zoned(b) && a.Format(form) == b.Format(form)
}

// join writes the lines of the rows that are new.
func (a *adding) join(t *tank, batch *record.Batch) {
	rows := a.rows
	a.rows = nil
	for _, s := range rows {
		line, why := t.form.Line(batch, s)
		if why != "" {
			a.refused = append(a.refused, Refusal{s.ID, why})
			continue
		}
		t.form.Added(s)
		a.lines = append(a.lines, line...)
		a.rows = append(a.rows, s)
		a.kept = append(a.kept, s.ID)
	}
	if len(a.rows) == 0 {
		a.lines, a.wide = nil, nil
		t.info = nil // its form may have been made ready for what does not come
	}
}

// widen gives the record the columns that it lacks.
func (b *Book) widen(t *tank, a *adding, heads []string) error {
	data, err := os.ReadFile(b.path(t.name))
	if err != nil {
		return err
	}
	if a.wide, err = t.form.Widened(data, heads); err != nil {
		return fmt.Errorf("%w: %w", ErrUnfit, err)
	}
	if t.form, _, err = record.Reopened(t.name, a.wide); err != nil {
		return fmt.Errorf("%w: %w", ErrUnfit, err)
	}
	return nil
}

// write puts what is chosen on the disk.
func (b *Book) write(t *tank, a *adding) error {
	path := b.path(t.name)
	if a.wide != nil {
		if err := b.replace(t.name, a.wide, 0o644); err != nil {
			return err
		}
	}
	var at int64
	if info, err := regular(path); err != nil {
		return err
	} else if info != nil {
		at = info.Size()
	}
	if err := b.trial(t, a, path); err != nil {
		return err
	}
	if err := b.intend(t, at, a.lines); err != nil {
		return err
	}
	if err := b.append(t, at, a.lines); err != nil {
		return err
	}
	if a.first {
		if err := disk.SyncFolder(b.folder); err != nil {
			return err
		}
	}
	if err := b.done(t); err != nil {
		return err
	}
	info, err := regular(path)
	t.info = info
	return err
}

// trial reads a record that somebody else may have written as it will be, before the first row is added to it: an open quotation mark at its end would
// swallow what is added.
func (b *Book) trial(t *tank, a *adding, path string) error {
	if t.tried && a.wide == nil {
		return nil
	}
	t.tried = true
	if a.first {
		return nil
	}
	data, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	_, known, err := record.Reopened(t.name, append(data, a.lines...))
	if err != nil {
		return fmt.Errorf("%w: %w", ErrUnfit, err)
	}
	for _, s := range a.rows {
		if _, there := known.IDs[s.ID]; !there || known.Unused > t.unused {
			return fmt.Errorf("%w: a row added to it would not be read; see tankside proof", ErrUnfit)
		}
	}
	return nil
}

// append adds bytes at the end of a record and has them written out.
func (b *Book) append(t *tank, at int64, lines []byte) (err error) {
	f, err := disk.Open(b.path(t.name), os.O_WRONLY|os.O_CREATE, 0o644)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	if _, err := f.Seek(at, io.SeekStart); err != nil {
		return err
	}
	if _, err := f.Write(lines); err != nil {
		return err
	}
	return f.Sync()
}

// replace puts a file in the place of another, whole or not at all.
func (b *Book) replace(name string, data []byte, perm fs.FileMode) error {
	coming := b.path("." + name + ".coming")
	f, err := disk.Open(coming, os.O_WRONLY|os.O_CREATE|os.O_TRUNC, perm)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	if err == nil {
		err = f.Sync()
	}
	if err = errors.Join(err, f.Close()); err == nil {
		err = disk.Rename(coming, b.path(name))
	}
	if err != nil {
		return errors.Join(err, removed(coming))
	}
	return disk.SyncFolder(b.folder)
}

func removed(path string) error {
	if err := os.Remove(path); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return nil
}
