package main

import (
	"bytes"
	"encoding/binary"
	"testing"
)

// function is what a hand-made table says of one.
type function struct {
	name              string
	stack, file, line string // tables of steps
}

// table writes a table of functions by hand, as runtime/symtab.go and runtime/runtime2.go have it. Equal tables of steps are written once, as the linker does.
func table(functions ...function) []byte {
	names, steps, at := []byte{0}, []byte{0}, map[string]uint32{}
	place := func(s string) uint32 {
		if at[s] == 0 {
			at[s] = uint32(len(steps))
			steps = append(steps, s...)
		}
		return at[s]
	}
	list, records := []byte{}, []byte{}
	head := (len(functions)*functionRow + 4)
	for _, f := range functions {
		list = binary.LittleEndian.AppendUint32(list, 0)
		list = binary.LittleEndian.AppendUint32(list, uint32(head+len(records)))
		for _, w := range []uint32{0, uint32(len(names)), 0, 0, place(f.stack), place(f.file), place(f.line), 0, 0, 77, 0} {
			records = binary.LittleEndian.AppendUint32(records, w)
		}
		names = append(append(names, f.name...), 0)
	}
	list = append(list, 0, 0, 0, 0)
	out := bytes.Clone(tableOfFunctions)
	beginning := uint64(len(tableOfFunctions) + 8*8)
	stepsAt := beginning + uint64(len(names))
	for _, w := range []uint64{uint64(len(functions)), 1, 0, beginning, stepsAt, stepsAt, stepsAt, stepsAt + uint64(len(steps))} {
		out = binary.LittleEndian.AppendUint64(out, w)
	}
	return bytes.Join([][]byte{out, names, steps, list, records}, nil)
}

func TestLinesOfOthersAreBlanked(t *testing.T) {
	ours := function{"tankside/calculators.Run", "\x02\x05\x00", "\x04\x05\x00", "\x20\x03\x03\x02\x00"}
	main := function{"main.give", "\x02\x06\x00", "\x04\x06\x00", "\x22\x03\x00"}
	// The second's stack goes the same steps as its file, and its lines those of ours: what somebody needs stays.
	theirs := function{"runtime.mallocgc", "\x02\x07\x00", "\x02\x07\x00", "\x20\x03\x03\x02\x00"}
	alone := function{"runtime.gcStart", "\x02\x05\x00", "\x06\x09\x80\x02\x01\x00", "\x30\x09\x00"}
	got, before := table(ours, main, theirs, alone), table(ours, main, theirs, alone)
	if err := blankLines(got); err != nil {
		t.Fatal(err)
	}
	want := bytes.ReplaceAll(bytes.ReplaceAll(bytes.Clone(before), []byte(alone.file), make([]byte, len(alone.file))), []byte(alone.line), make([]byte, len(alone.line)))
	size := recordWords * 4
	for _, record := range [][]byte{want[len(want)-2*size : len(want)-size], want[len(want)-size:]} {
		clear(record[fileWord*4 : lineWord*4+4])
		clear(record[startWord*4 : startWord*4+4])
	}
	if !bytes.Equal(got, want) {
		t.Errorf("%q\nis not\n%q", got, want)
	}
	for cut := len(before) - 1; cut > len(before)-2*size; cut-- {
		if blankLines(bytes.Clone(before)[:cut]) == nil {
			t.Fatalf("no error for a table without its last %d bytes", len(before)-cut)
		}
	}
	endless := table(function{"runtime.gcStart", "\x02\x05\x00", "\x06\x09\x01\x01", "\x80"})
	if binary.LittleEndian.PutUint32(endless[len(endless)-size+lineWord*4:], 1<<20); blankLines(endless) == nil {
		t.Error("no error for steps that are not there")
	}
}
