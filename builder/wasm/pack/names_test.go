package main

import (
	"bytes"
	"testing"
)

func TestNamesAreBlanked(t *testing.T) {
	names := "\x00main.main\x00main.other\x00"
	data := append([]byte("before"), table(function{name: "main.main", stack: "\x02\x05\x00"}, function{name: "main.other", file: "\x02\x07\x00"})...)
	out, err := join(module(piece{1000, bytes.Clone(data)}, piece{9000, []byte("z")}), blankNames)
	if err != nil {
		t.Fatal(err)
	}
	got, _ := memory(t, out)
	want := bytes.ReplaceAll(data, []byte(names), make([]byte, len(names)))
	if !bytes.Equal(got[1000:1000+len(want)], want) || got[9000] != 'z' {
		t.Error("more or less than the names has changed")
	}
	// What only looks like the header is left alone.
	if _, err := join(module(piece{1000, append(bytes.Clone(tableOfFunctions), data...)}), blankNames); err != nil {
		t.Error(err)
	}
	unended := bytes.Clone(data)
	unended[bytes.Index(data, []byte(names))+len(names)-1] = 'x'
	for what, pieces := range map[string][]piece{
		"none":               {{1000, []byte("data")}},
		"two":                {{1000, data}, {5000, bytes.Clone(data)}},
		"cut off":            {{1000, data[:60]}},
		"no end of the last": {{1000, unended}},
		"names beyond":       {{1000, data[:6+80]}},
	} {
		if _, err := join(module(pieces...), blankNames); err == nil {
			t.Errorf("%s: no error", what)
		}
	}
}
