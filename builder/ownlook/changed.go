package ownlook

import (
	"bytes"

	"github.com/rogpeppe/go-internal/diff"
)

// Changes is what has changed of the built-in file beneath one of the shop's own, as a unified diff (IEEE Std 1003.1-2024, diff -u); nil where nothing has.
func Changes(f File) []byte {
	if f.Beneath != Changed {
		return nil
	}
	return diff.Diff(f.Name+", as it was taken", f.Before, f.Name+", as it is built in", f.Now)
}

// Counts gives how many lines of it are gone and how many are new.
func Counts(f File) (gone, new int) {
	head := 0
	for line := range bytes.Lines(Changes(f)) {
		switch {
		case head < 3: // the call, and the names of the two
			head++
		case line[0] == '-':
			gone++
		case line[0] == '+':
			new++
		}
	}
	return gone, new
}
