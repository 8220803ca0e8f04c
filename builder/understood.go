package builder

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"tankside/builder/content"
	"tankside/builder/ledger"
	"tankside/builder/manual"
	"tankside/builder/page"
	"tankside/builder/understood"
)

// Understood is a manual with the record of who has read and understood which edition of it.
type Understood struct {
	Manual  *manual.Manual
	Content *content.Content
	Record  understood.Record
	Faults  []understood.Fault

	folder string
}

// largestRecord bounds what is read of the record, in bytes: some hundred thousand signatures.
const largestRecord = 8 << 20

// UnderstoodIn reads the manual in a folder and the record that lies in it.
func UnderstoodIn(ctx context.Context, folder string) (*Understood, error) {
	u := &Understood{folder: folder}
	var err error
	if u.Content, u.Manual, err = ContentOfFolder(ctx, folder); err != nil {
		return nil, err
	}
	at := filepath.Join(folder, understood.File)
	info, err := os.Stat(at)
	if errors.Is(err, fs.ErrNotExist) {
		return u, nil
	}
	if err == nil && info.Size() > largestRecord {
		err = fmt.Errorf("%s has more than %d bytes", understood.File, largestRecord)
	}
	if err != nil {
		return nil, err
	}
	text, err := os.ReadFile(at)
	if err != nil {
		return nil, err
	}
	u.Record, u.Faults = understood.Parse(text)
	return u, nil
}

// Duties works out what everybody has to read. older gives an edition of the ledger, or nil where it cannot be had.
func (u *Understood) Duties(today time.Time, older func(ledger.Entry) (*Earlier, error)) ([]understood.Role, error) {
	return understood.Duties(u.Manual, u.Content, u.Record, today, func(e understood.Entry) (*understood.Edition, error) {
		entry, is := u.Manual.Ledger.Called(e.Code)
		if !is {
			return nil, nil
		}
		if entry.Digest == u.Content.Digest() {
			return &understood.Edition{Content: u.Content}, nil
		}
		had, err := older(entry)
		if err != nil || had == nil {
			return nil, err
		}
		return &understood.Edition{Content: had.Content, Renamed: had.Renamed}, nil
	})
}

// Sign enters in the record that somebody has read and understood an edition of the ledger in a role of the shop, and gives the signature. The error is a sentence.
func (u *Understood) Sign(day time.Time, of ledger.Entry, role, who string) (understood.Entry, error) {
	e, err := understood.NewEntry(day, of, role, who)
	if err != nil {
		return e, err
	}
	if roles := u.Manual.Shop.Roles; len(roles) > 0 && !slices.Contains(roles, e.Role) {
		return e, fmt.Errorf("the shop file has no role %q: it has %s", e.Role, strings.Join(roles, ", "))
	}
	if slices.Contains(u.Record.Entries(), e) {
		return e, nil
	}
	root, err := openManual(u.folder)
	if err != nil {
		return e, err
	}
	return e, errors.Join(lengthen(root, understood.File, u.Record.Text(), u.Record.With(e)), root.Close())
}

// Sheet makes a page to be printed and signed of what everybody has to read.
func (u *Understood) Sheet(list []understood.Role, day string) (sheet []byte, err error) {
	root, err := openManual(u.folder)
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, root.Close()) }()
	theme, err := themeOf(root.FS(), u.Manual.Shop.Look.Theme)
	if err != nil {
		return nil, err
	}
	return page.ReadingSheet(u.Manual, theme, markOf(u.Manual.Ledger, u.Content.Digest(), false), list, day)
}
