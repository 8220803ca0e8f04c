package main

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
)

// Where a function's record keeps what only tracebacks read (runtime/runtime2.go of Go 1.20 to 1.26, type _func): words of four bytes.
const (
	nameWord     = 1
	stackWord    = 4 // how the stack stands: the runtime needs it
	fileWord     = 5
	lineWord     = 6
	tablesWord   = 7 // how many tables of other values follow the record
	startWord    = 9
	recordWords  = 11 // the last holds four bytes of their own, of which the last counts the pointers behind the tables
	functionRow  = 8  // the list of functions: where the code begins, where the record is
	stepsWord    = 6
	recordsWord  = 7
	fileFromZero = 0 // a table that begins at nothing: the runtime says “?” for the file and 0 for the line
)

// own are the names of functions whose lines stay: what fails in the page fails there.
var own = [][]byte{[]byte("tankside/"), []byte("main.")}

// blankLines takes file and line from the functions that are not ours, in the table that blankNames has found: a traceback says where in Tankside
// something went wrong, not where in Go's runtime. With brotli they are half of what the steps of the program's counter take.
func blankLines(table []byte) error {
	steps, records := word(table, stepsWord), word(table, recordsWord)
	count := word(table, functionsWord)
	if steps > records || records+(count*functionRow) > uint64(len(table)) {
		return errors.New("the table of functions is cut off")
	}
	needed := map[uint32]bool{}
	blank := map[uint32]bool{}
	for i := range count {
		at := records + uint64(binary.LittleEndian.Uint32(table[records+i*functionRow+4:]))
		if at+recordWords*4 > uint64(len(table)) {
			return fmt.Errorf("function %d has its record beyond the table", i)
		}
		record := table[at:]
		name := table[word(table, namesWord)+uint64(four(record, nameWord)):]
		keep := false
		for _, o := range own {
			keep = keep || bytes.HasPrefix(name, o)
		}
		needed[four(record, stackWord)] = true
		for t := range four(record, tablesWord) {
			needed[four(record, recordWords+int(t))] = true
		}
		for _, w := range []int{fileWord, lineWord} {
			if keep {
				needed[four(record, w)] = true
				continue
			}
			blank[four(record, w)] = true
			binary.LittleEndian.PutUint32(record[w*4:], fileFromZero)
		}
		if !keep {
			binary.LittleEndian.PutUint32(record[startWord*4:], 0)
		}
	}
	for offset := range blank {
		if offset == fileFromZero || needed[offset] {
			continue
		}
		if err := clearSteps(table[steps:records], offset); err != nil {
			return err
		}
	}
	return nil
}

func four(record []byte, n int) uint32 { return binary.LittleEndian.Uint32(record[n*4:]) }

// clearSteps sets a table of steps to zeros: pairs of numbers, of seven bits a byte, until a value's step of zero that is not the first.
func clearSteps(steps []byte, offset uint32) error {
	at := int(offset)
	number := func() (v uint64, err error) {
		v, n := binary.Uvarint(steps[min(at, len(steps)):])
		if n <= 0 {
			return 0, errors.New("a table of steps is cut off")
		}
		clear(steps[at : at+n])
		at += n
		return v, nil
	}
	for first := true; ; first = false {
		value, err := number()
		if err != nil {
			return err
		}
		if value == 0 && !first {
			return nil
		}
		if _, err := number(); err != nil {
			return err
		}
	}
}
