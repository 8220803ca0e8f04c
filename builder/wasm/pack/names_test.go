package main

import (
	"bytes"
	"encoding/binary"
	"testing"
)

// table writes a table of functions by hand, as runtime/symtab.go has its header, with the names given.
func table(names string) []byte {
	out := bytes.Clone(tableOfFunctions)
	for _, w := range []uint64{2, 1, 0, 72, 72 + uint64(len(names)), 0, 0, 0} {
		out = binary.LittleEndian.AppendUint64(out, w)
	}
	return append(append(out, names...), "units, files, steps"...)
}

func TestNamesAreBlanked(t *testing.T) {
	names := "\x00main.main\x00main.other\x00"
	data := append([]byte("before"), table(names)...)
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
	for what, pieces := range map[string][]piece{
		"none":               {{1000, []byte("data")}},
		"two":                {{1000, data}, {5000, bytes.Clone(data)}},
		"cut off":            {{1000, data[:60]}},
		"names beyond":       {{1000, table(names)[:80]}},
		"no end of the last": {{1000, table("\x00main.main")}},
	} {
		if _, err := join(module(pieces...), blankNames); err == nil {
			t.Errorf("%s: no error", what)
		}
	}
}
