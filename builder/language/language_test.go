package language_test

import (
	"maps"
	"testing"

	"tankside/builder/language"
)

func TestFill(t *testing.T) {
	w := language.Words{"from {a} to {b}": "de {a} a {b}"}
	for _, c := range []struct {
		words  language.Words
		phrase string
		texts  []string
		want   string
	}{
		{w, "from {a} to {b}", []string{"1", "2"}, "de 1 a 2"},
		{nil, "from {a} to {b}", []string{"1", "2"}, "from 1 to 2"},
		{w, "not there", nil, "not there"},
		{w, "from {a} to {b}", []string{"{b}", "x"}, "de {b} a x"}, // what is filled in is not looked into
		{nil, "{a}", nil, ""},
	} {
		if got := c.words.Fill(c.phrase, c.texts...); got != c.want {
			t.Errorf("%q with %q is %q, not %q", c.phrase, c.texts, got, c.want)
		}
	}
}

func TestPack(t *testing.T) {
	w := language.Words{"b": "dos", "a": "uno", "“c”": "«tres»"}
	if got := language.Unpack(w.Pack()); !maps.Equal(got, w) {
		t.Errorf("unpacked is %v", got)
	}
	if got := language.Words(nil).Pack(); got != "" || len(language.Unpack(got)) != 0 {
		t.Errorf("English packs to %q", got)
	}
}

// Whatever a page hands over as words: what is read of it is written and read again the same.
func FuzzUnpack(f *testing.F) {
	for _, text := range []string{"", "a\x1funo\x1fb\x1fdos", "\x1f", "\x1f\x1f\x1f", "a\x1f", "a\x1fb\x1fa\x1fc", "\xff\x1f\x00"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		words := language.Unpack(text)
		if again := language.Unpack(words.Pack()); !maps.Equal(again, words) {
			t.Errorf("%q is read as %q and, written again, as %q", text, words, again)
		}
		for phrase := range words {
			words.Fill(phrase, text)
		}
	})
}
