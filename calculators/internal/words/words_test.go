package words

import (
	"slices"
	"strings"
	"testing"
)

// FuzzWords compares each function with package strings, on ASCII where that
// is promised.
func FuzzWords(f *testing.F) {
	f.Add("a{}b{}", "{}", "x")
	f.Add(" \t É \xff ", "É", "")
	f.Fuzz(func(t *testing.T, s, separator, other string) {
		if separator == "" {
			t.Skip()
		}
		if got, want := Index(s, separator), strings.Index(s, separator); got != want {
			t.Errorf("index %d, want %d", got, want)
		}
		if got, want := Split(s, separator), strings.Split(s, separator); !slices.Equal(got, want) {
			t.Errorf("split %q, want %q", got, want)
		}
		if got, want := Replace(s, separator, other), strings.ReplaceAll(s, separator, other); got != want {
			t.Errorf("replaced %q, want %q", got, want)
		}
		if got, want := Join([]string{s, other, s}, separator), strings.Join([]string{s, other, s}, separator); got != want {
			t.Errorf("joined %q, want %q", got, want)
		}
		if got, want := Trim(s), strings.TrimFunc(s, func(r rune) bool { return r <= ' ' }); got != want {
			t.Errorf("trimmed %q, want %q", got, want)
		}
		ascii := strings.Map(func(r rune) rune { return r & 0x7f }, s)
		if got, want := Lower(ascii), strings.ToLower(ascii); got != want {
			t.Errorf("lower %q, want %q", got, want)
		}
		if strings.ToValidUTF8(Valid(s), "?") != Valid(s) || strings.ToValidUTF8(s, "") == s && Valid(s) != s {
			t.Errorf("valid %q", Valid(s))
		}
	})
}
