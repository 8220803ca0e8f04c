package contrast

import "testing"

// Whatever a style sheet calls a colour, it is read as it is written again, or refused.
func FuzzParse(f *testing.F) {
	f.Add("#0b6e4f")
	f.Add("#abc")
	f.Add("#+b6e4f")
	f.Fuzz(func(t *testing.T, text string) {
		c, err := Parse(text)
		if err != nil {
			return
		}
		if same, err := Parse(c.String()); err != nil || same != c {
			t.Errorf("%q: %v, then %v, %v", text, c, same, err)
		}
		if len(text) != 7 && len(text) != 4 {
			t.Errorf("%q is read as %v", text, c)
		}
	})
}
