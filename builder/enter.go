package builder

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"

	"tankside/builder/disk"
	"tankside/builder/ledger"
)

// enter adds an entry to the manual's ledger, whose text is as it was read; where it is not any more, somebody else has entered an edition, and the
// number may be taken.
//
// It is done just before the edition is put in place. Where that fails the entry stays: the same manual published again is that edition.
func enter(root *os.Root, l ledger.Ledger, entry []byte) error {
	return lengthen(root, ledger.File, l.Text(), entry)
}

// lengthen adds lines to a file of the manual that nobody has changed since it was read.
func lengthen(root *os.Root, name string, was, more []byte) (err error) {
	opened, err := root.OpenFile(name, os.O_RDWR|os.O_CREATE|os.O_APPEND, 0o644)
	if err != nil {
		return fmt.Errorf("nothing could be entered in %s: %w", name, err)
	}
	f := disk.File{File: opened}
	defer func() { err = errors.Join(err, f.Close()) }()
	text, err := io.ReadAll(f)
	if err != nil {
		return fmt.Errorf("%s cannot be read: %w", name, err)
	}
	if !bytes.Equal(text, was) {
		return fmt.Errorf("%s was changed meanwhile, and nothing was entered; try again", name)
	}
	_, err = f.Write(more)
	if err == nil {
		err = f.Sync()
	}
	if err != nil { // half an entry would be a line that nobody can read, and keep the manual from being published
		return fmt.Errorf("nothing could be entered in %s: %w", name, errors.Join(err, opened.Truncate(int64(len(text)))))
	}
	return nil
}
