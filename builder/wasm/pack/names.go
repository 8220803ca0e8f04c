package main

import (
	"bytes"
	"encoding/binary"
	"errors"
)

// Go keeps a table of its functions for tracebacks (runtime/symtab.go of Go 1.20 to 1.26, pcHeader): a magic number and the sizes of an instruction
// and of a pointer, then in words of eight bytes the number of functions and of files, a word that nobody reads, and where from the header the
// names, the units, the files, the steps and the functions begin. With brotli the names are 17 kB of the answers' module
// and 25 kB of the search's. A traceback in the console has file and line as well, which stay for functions of ours (lines.go).
var tableOfFunctions = []byte{0xf1, 0xff, 0xff, 0xff, 0, 0, 1, 8}

const (
	functionsWord = 0
	namesWord     = 3
	unitsWord     = 4
)

// blankNames sets the names of the functions to zeros. It is an error if the table is not there once, or not as it is known.
func blankNames(pieces []piece) error {
	var data []byte
	for _, p := range pieces {
		for rest := p.data; ; {
			at := bytes.Index(rest, tableOfFunctions)
			if at < 0 {
				break
			}
			rest = rest[at:]
			if sound(rest) {
				if data != nil {
					return errors.New("two tables of functions")
				}
				data = rest
			}
			rest = rest[len(tableOfFunctions):]
		}
	}
	if data == nil {
		return errors.New("no table of functions as Go 1.20 to 1.26 write it: see runtime/symtab.go, and mend names.go")
	}
	if err := blankLines(data); err != nil {
		return err
	}
	clear(data[word(data, namesWord):word(data, unitsWord)])
	return nil
}

// sound tells whether what looks like the table's header is one: its names follow it, end with a zero and are no fewer than its functions.
func sound(data []byte) bool {
	const words = 8
	if len(data) < len(tableOfFunctions)+words*8 {
		return false
	}
	functions, names, units := word(data, functionsWord), word(data, namesWord), word(data, unitsWord)
	return functions > 0 && names == uint64(len(tableOfFunctions)+words*8) && names < units && units <= uint64(len(data)) && data[units-1] == 0 &&
		uint64(bytes.Count(data[names:units], []byte{0})) > functions/2
}

func word(data []byte, n int) uint64 {
	return binary.LittleEndian.Uint64(data[len(tableOfFunctions)+8*n:])
}
