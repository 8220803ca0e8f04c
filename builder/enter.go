package builder

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"

	"tankside/builder/ledger"
)

// enter adds an entry to the manual's ledger, whose text is as it was read; where it is not any more, somebody else has entered an edition, and the
// number may be taken.
//
// It is done just before the edition is put in place. Where that fails the entry stays: the same manual published again is that edition.
func enter(root *os.Root, l ledger.Ledger, entry []byte) (err error) {
	f, err := root.OpenFile(ledger.File, os.O_RDWR|os.O_CREATE|os.O_APPEND, 0o644)
	if err != nil {
		return fmt.Errorf("the edition could not be entered: %w", err)
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	text, err := io.ReadAll(f)
	if err != nil {
		return fmt.Errorf("the ledger cannot be read: %w", err)
	}
	if !bytes.Equal(text, l.Text()) {
		return fmt.Errorf("%s was changed while the manual was published, and nothing was entered; publish again", ledger.File)
	}
	if _, err := f.Write(entry); err != nil {
		return fmt.Errorf("the edition could not be entered: %w", err)
	}
	return f.Sync()
}
