package builder

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"sync"
	"time"

	"tankside/builder/edition"
	"tankside/builder/logbook"
	"tankside/builder/manual"
	"tankside/builder/page"
	"tankside/builder/record"
	"tankside/themes"
)

// Live makes the pages with the readings of an edition again from a logbook, whenever a row has come or a day has begun, so that everybody who reads the
// edition from this machine sees the same charts: those of the functions that made the edition's own.
//
// It needs the manual that the edition was made from, and does nothing with another: limits that nobody has published are no part of a chart. It is safe
// for use by several goroutines.
type Live struct {
	folder, edition string
	book            *logbook.Book
	today           func() (time.Time, error)
	say             func(text string) // is told when charts cannot be made, and when they can again

	mu     sync.Mutex
	key    string
	files  map[string]livePage
	why    string
	list   *edition.List
	info   fs.FileInfo // of the list
	read   *manual.Manual
	theme  themes.Theme
	look   string
	memo   page.Memo
	parsed map[string]parsedRecord

	parcels map[string]livePage
	order   []string // of the parcels, as they were made
}

// livePage is one of the pages.
type livePage struct {
	data []byte
	sum  string // SHA-256, in hexadecimal
}

type parsedRecord struct {
	info   fs.FileInfo
	record *record.Record
}

// NewLive makes it for an edition in a folder, the manual in another, and a book. today is the day of the charts.
func NewLive(manualFolder, editionFolder string, book *logbook.Book, today func() (time.Time, error), say func(string)) *Live {
	return &Live{folder: manualFolder, edition: editionFolder, book: book, today: today, say: say, parsed: map[string]parsedRecord{}, parcels: map[string]livePage{}}
}

// Page gives a page of the edition as the readings are now; false where it shows none, is as it was published, or the readings cannot be charted.
func (l *Live) Page(ctx context.Context, path string) (data []byte, sum string, is bool) {
	if !page.ShowsReadings(path) {
		return nil, "", false
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	if err := l.refresh(ctx); err != nil && ctx.Err() == nil {
		l.files = map[string]livePage{}
		l.key = ""
		l.tell("The charts are those of the day of publication: " + err.Error() + ".")
	} else if err == nil {
		l.tell("")
	}
	p, is := l.files[path]
	if !is {
		p, is = l.parcels[path]
	}
	return p.data, p.sum, is
}

func (l *Live) tell(why string) {
	if why == l.why {
		return
	}
	l.why = why
	if why == "" {
		why = "The charts are those of the readings that come in."
	}
	l.say(why)
}

// refresh makes the pages again where something is otherwise.
func (l *Live) refresh(ctx context.Context) error {
	if err := l.again(ctx); err != nil {
		return err
	}
	today, err := l.today()
	if err != nil {
		return err
	}
	day := today.Format(time.DateOnly)
	key := l.list.Digest + " " + day
	var records []*record.Record
	for _, id := range l.book.Tanks() {
		r, state, err := l.recordOf(id)
		if err != nil {
			return fmt.Errorf("the record of %s cannot be read: %w", id, err)
		}
		key += " " + state
		if r != nil {
			records = append(records, r)
		}
	}
	if key == l.key {
		return nil
	}
	files, err := l.render(ctx, l.read.WithRecords(records), day)
	if err == nil {
		l.files, l.key = files, key
	}
	return err
}

// errOther says that the manual is not that of the edition.
var errOther = errors.New("the manual is not what this edition was made from; publish it")

// again reads edition and manual again where there is another edition.
func (l *Live) again(ctx context.Context) error {
	at, err := edition.Place(l.edition)
	if err != nil {
		return err
	}
	info, err := os.Lstat(filepath.Join(at, edition.ListName))
	if err != nil {
		return err
	}
	if l.read != nil && l.info != nil && os.SameFile(info, l.info) && info.ModTime().Equal(l.info.ModTime()) {
		return nil
	}
	l.read, l.memo = nil, page.Memo{}
	if l.list, err = edition.ReadList(os.DirFS(at)); err != nil {
		return err
	}
	root, err := openManual(l.folder)
	if err != nil {
		return err
	}
	defer root.Close()
	m, _, err := manual.Read(ctx, root.FS())
	if err != nil {
		return err
	}
	if l.theme, err = themeOf(root.FS(), m.Shop.Look.Theme); err != nil {
		return err
	}
	if l.look, err = l.theme.Digest(); err != nil {
		return err
	}
	c, err := contentOf(m, l.theme, nil)
	if err != nil {
		return err
	}
	if c.Digest() != l.list.Source {
		return errOther
	}
	l.read, l.info = m, info
	return nil
}

// recordOf reads the record of a tank where it is otherwise than before. state is what it is told by.
func (l *Live) recordOf(id string) (_ *record.Record, state string, err error) {
	stateOf := func(info fs.FileInfo) string { return fmt.Sprintf("%d/%d", info.Size(), info.ModTime().UnixNano()) }
	info, err := l.book.State(id)
	if err != nil || info == nil {
		return nil, "none", err
	}
	if p, known := l.parsed[id]; known && os.SameFile(p.info, info) && p.info.Size() == info.Size() && p.info.ModTime().Equal(info.ModTime()) {
		return p.record, stateOf(info), nil
	}
	f, info, err := l.book.Read(id)
	if err != nil || f == nil {
		return nil, "none", err
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	state = stateOf(info)
	if info.Size() > record.MaxBytes {
		return nil, state, fmt.Errorf("it has more than %d MiB", record.MaxBytes>>20)
	}
	data, err := io.ReadAll(io.NewSectionReader(f, 0, info.Size()))
	if err != nil {
		return nil, state, err
	}
	path := manual.RecordFolder + "/" + id + ".csv"
	text, found, ok := record.Text(path, data)
	if !ok {
		return nil, state, errors.New(found[0].Message)
	}
	r, _ := record.Parse(path, text)
	l.parsed[id] = parsedRecord{info, r}
	return r, state, nil
}

// render makes the pages. What the edition has with the same bytes is served from there; an asset that it does not have is of another program.
func (l *Live) render(ctx context.Context, m *manual.Manual, day string) (map[string]livePage, error) {
	theirs := make(map[string]string, len(l.list.Files))
	for _, f := range l.list.Files {
		theirs[f.Path] = f.SHA256
	}
	var mu sync.Mutex
	files := map[string]livePage{}
	in := page.Input{Manual: m, Theme: l.theme, Mark: l.list.Mark, Day: day, Look: l.look, Memo: &l.memo}
	in.Keep = func(path string) (bool, error) { return theirs[path] != "", nil }
	err := page.Live(ctx, in, func(path string, data []byte) error {
		sum := sha256.Sum256(data)
		mu.Lock()
		defer mu.Unlock()
		files[path] = livePage{data, hex.EncodeToString(sum[:])}
		return nil
	})
	if err != nil {
		l.memo = page.Memo{}
		return nil, err
	}
	maps.DeleteFunc(files, func(path string, p livePage) bool { return theirs[path] == p.sum })
	for path, p := range files {
		switch {
		case theirs[path] != "" || filepath.Ext(path) == ".html":
		case page.OfRecord(path):
			l.parcel(path, p)
		default:
			return nil, errors.New("another tankside has written this edition; publish again")
		}
	}
	return files, nil
}

// mostParcels is how many parcels of records are kept, so that a page that was given out a moment ago gets its own.
const mostParcels = 100

func (l *Live) parcel(path string, p livePage) {
	if _, known := l.parcels[path]; known {
		return
	}
	l.parcels[path] = p
	l.order = append(l.order, path)
	if len(l.order) > mostParcels {
		delete(l.parcels, l.order[0])
		l.order = l.order[1:]
	}
}

// TanksOf gives the tanks, rinses and the dryer of a manual that an edition has pages for.
func TanksOf(ctx context.Context, manualFolder string, l *edition.List) ([]string, error) {
	root, err := openManual(manualFolder)
	if err != nil {
		return nil, err
	}
	m, _, err := manual.Read(ctx, root.FS())
	if err := errors.Join(err, root.Close()); err != nil {
		return nil, err
	}
	pages := make(map[string]bool, len(l.Files))
	for _, f := range l.Files {
		pages[f.Path] = true
	}
	var ids []string
	for _, id := range m.Shop.Vessels() {
		if pages[page.TankPath(id)] {
			ids = append(ids, id)
		}
	}
	return ids, nil
}
