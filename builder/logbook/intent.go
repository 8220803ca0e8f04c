package logbook

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"fmt"
	"io/fs"
	"os"

	"tankside/builder/disk"
)

// What is about to be added to a record lies in a file of its own until it is there: a line with the place where it belongs, its length and its checksum,
// then the bytes. A file that is not whole was being written when a crash came, and the record has not been touched since.

// intentName is the file for a record.
func intentName(t *tank) string { return "." + t.name + ".adding" }

// intend writes down what is about to be added, and has it written out.
func (b *Book) intend(t *tank, at int64, lines []byte) (err error) {
	path := b.path(intentName(t))
	_, err = os.Lstat(path)
	first := errors.Is(err, fs.ErrNotExist)
	f, err := disk.Open(path, os.O_WRONLY|os.O_CREATE|os.O_TRUNC, 0o644)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	text := fmt.Appendf(nil, "%d %d %x\n", at, len(lines), sha256.Sum256(lines))
	if _, err := f.Write(append(text, lines...)); err != nil {
		return err
	}
	if err := f.Sync(); err != nil || !first {
		return err
	}
	return disk.SyncFolder(b.folder)
}

// done notes that what was to be added is there.
func (b *Book) done(t *tank) (err error) {
	f, err := disk.Open(b.path(intentName(t)), os.O_WRONLY, 0o644)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	return f.Truncate(0)
}

// intended reads what was about to be added; nil where there is nothing, or it was not whole.
func (b *Book) intended(t *tank) (at int64, lines []byte, err error) {
	info, err := regular(b.path(intentName(t)))
	if info == nil || info.Size() == 0 {
		return 0, nil, err
	}
	data, err := os.ReadFile(b.path(intentName(t)))
	if err != nil {
		return 0, nil, err
	}
	head, rest, _ := bytes.Cut(data, []byte("\n"))
	var n int
	var sum string
	if _, err := fmt.Sscanf(string(head), "%d %d %s", &at, &n, &sum); err != nil || at < 0 || n != len(rest) || sum != fmt.Sprintf("%x", sha256.Sum256(rest)) {
		return 0, nil, nil
	}
	return at, rest, nil
}

// mend puts right what a crash has left of a record: rows that were being added are added whole. Where somebody has changed the record since, nothing is.
func (b *Book) mend(t *tank) error {
	if err := removed(b.path("." + t.name + ".coming")); err != nil {
		return err
	}
	at, lines, err := b.intended(t)
	if err != nil || lines == nil {
		return err
	}
	data, err := os.ReadFile(b.path(t.name))
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	if size := int64(len(data)); size < at || size >= at+int64(len(lines)) || !bytes.HasPrefix(lines, data[at:]) {
		return b.done(t)
	}
	t.info = nil
	if err := b.append(t, at, lines); err != nil {
		return err
	}
	if err := disk.SyncFolder(b.folder); err != nil {
		return err
	}
	return b.done(t)
}
