//go:build wasip1

// The search in the browser: a WebAssembly reactor around [search.Finder].
//
// It is built with the module file of the command, in which the folder absent
// has the place of one module that does not compile for WebAssembly.
//
// The caller asks for room with input(size), writes there, and calls open or
// ask, which read it and return the size of their answer; output() is where the
// answer stands, until the next call. add takes a piece of the index and keeps
// that room; open opens what was added and answers with nothing, or with an
// error in words. ask takes a question in
// JSON and answers with {"answer": …} or {"error": …}.
package main

import (
	"context"
	"encoding/json"
	"errors"
	"unsafe"

	"tankside/search"
)

func main() {}

var (
	in, out []byte
	pieces  [][]byte
	finder  *search.Finder
)

//go:wasmexport input
func input(size uint32) unsafe.Pointer {
	in = make([]byte, size)
	return unsafe.Pointer(unsafe.SliceData(in))
}

//go:wasmexport output
func output() unsafe.Pointer { return unsafe.Pointer(unsafe.SliceData(out)) }

//go:wasmexport add
func add() {
	pieces = append(pieces, in)
	in = nil
}

//go:wasmexport open
func open() uint32 {
	opened, err := search.Open(pieces...)
	pieces = nil
	if err != nil {
		return answer([]byte(err.Error()))
	}
	finder = opened
	return answer(nil)
}

//go:wasmexport ask
func ask() uint32 {
	var reply struct {
		Answer *search.Answer `json:"answer,omitempty"`
		Error  string         `json:"error,omitempty"`
	}
	found, err := put()
	if err != nil {
		reply.Error = err.Error()
	} else {
		reply.Answer = &found
	}
	encoded, err := json.Marshal(reply)
	if err != nil {
		encoded = []byte(`{"error":"the answer cannot be written down"}`)
	}
	return answer(encoded)
}

func put() (search.Answer, error) {
	var question search.Question
	if err := json.Unmarshal(in, &question); err != nil {
		return search.Answer{}, err
	}
	if finder == nil {
		return search.Answer{}, errors.New("the search index is not open")
	}
	return finder.Ask(context.Background(), question)
}

func answer(b []byte) uint32 {
	out = b
	return uint32(len(b))
}
