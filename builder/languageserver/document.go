package languageserver

import (
	"fmt"
	"strings"
)

// document is a text that is open in the editor.
type document struct {
	uri     string // as the editor writes it
	path    string // in its manual, slash-separated
	desk    *desk
	version int
	text    string
}

// edit applies the changes of one message in their order. After an error the text is as before them.
func (d *document) edit(e encoding, changes []change) error {
	text := d.text
	for i, c := range changes {
		if work := i * len(text); work > maxEditWork {
			return fmt.Errorf("%d changes of so large a text in one message are too many", len(changes))
		}
		if c.Range == nil {
			text = c.Text
		} else {
			text = replaced(e, text, *c.Range, c.Text)
		}
		if len(text) > maxText {
			return fmt.Errorf("the text has more than %d MiB", maxText>>20)
		}
	}
	d.text = text
	return nil
}

// replaced is a text with another in the place of a range. A range that ends before it begins is empty.
func replaced(e encoding, text string, r Range, with string) string {
	from := e.offset(text, r.Start)
	to := max(from, e.offset(text, r.End))
	return strings.Join([]string{text[:from], with, text[to:]}, "")
}
