package ledger

import "testing"

// Whatever stands in the file of a ledger: what is read of it can be written and read again, and codes are read as they are written.
func FuzzParse(f *testing.F) {
	f.Add([]byte("# The ledger\n1 | 2026-11-29 | 8AT-MAM-5AP | P. Lindh | first | - | - | eecd5f6727501e96fede0070d1ffb1f834bd338cc147195175ba592174c5c03c\n"))
	f.Add([]byte("<<<<<<< ours\n1 | x\n=======\n2|\n>>>>>>> theirs\n"))
	f.Add([]byte("99999999999999999999 | 9999-99-99 | \x00 | \xff ||||||\r\n1"))
	f.Fuzz(func(t *testing.T, text []byte) {
		l, faults := Parse(text)
		for _, fault := range faults {
			if fault.Problem == "" {
				t.Errorf("a fault without words: %+v", fault)
			}
		}
		for _, e := range l.Entries() {
			again, more := Parse([]byte(e.String() + "\n"))
			if len(more) > 0 || len(again.Entries()) != 1 || again.Entries()[0].String() != e.String() {
				t.Errorf("%q is not read as it is written: %+v, %+v", e, again.Entries(), more)
			}
		}
		if code, err := ParseCode(string(text)); err == nil {
			if same, err := ParseCode(code); err != nil || same != code {
				t.Errorf("code %q: %q, %v", code, same, err)
			}
		}
	})
}
