package language_test

import (
	"strings"
	"testing"
	"unicode"

	"tankside/builder/language"
)

// Small and capital letters are those of package unicode, for every character of the blocks that are known and of others that stay as they are.
func TestLettersAreThoseOfUnicode(t *testing.T) {
	known := func(r rune) bool {
		return r < 0x180 && !strings.ContainsRune("µİıſßÿŸŉĸ", r) || r >= 0x391 && r <= 0x3cb && (r <= 0x3ab || r >= 0x3b1) && r != 'ς' || r >= 0x400 && r <= 0x45f
	}
	for r := rune(0); r < 0x500; r++ {
		lower, upper := string(r), string(r)
		if known(r) {
			lower, upper = string(unicode.ToLower(r)), string(unicode.ToUpper(r))
		}
		if got := language.Lower(string(r)); got != lower {
			t.Errorf("%U in small is %q, not %q", r, got, lower)
		}
		if got := language.Upper(string(r)); got != upper {
			t.Errorf("%U as a capital is %q, not %q", r, got, upper)
		}
	}
	if got := language.Lower("ÁCIDO, pH 3 €"); got != "ácido, ph 3 €" {
		t.Errorf("%q", got)
	}
}
