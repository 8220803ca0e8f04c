//go:build wasip1

// Command wasm ranks causes in a reader's browser: a reactor for WebAssembly.
//
//	GOOS=wasip1 GOARCH=wasm go build -buildmode=c-shared -trimpath -ldflags='-s -w' -o causes.wasm ./builder/causes/wasm
//
// After _initialize a page writes its question, as UTF-8, to where reserve(n) points, calls rank(n), and reads as many bytes as that returns where
// reply() points to; rank gives -1 for what is no question. What the texts hold is in package causes. The module imports the handful of
// WASI functions that Go's runtime wants; none of them needs to do anything but clock_time_get and random_get.
package main

import (
	"unsafe"

	"tankside/builder/decide/causes"
)

// One question is under way at a time; the slices keep their memory alive.
var question, answer []byte

// reserve makes room for a question of n bytes and gives its address.
//
//go:wasmexport reserve
func reserve(n int32) unsafe.Pointer {
	const most = 16 << 20 // a manual of a thousand trees is smaller
	question = make([]byte, min(max(n, 1), most))
	return unsafe.Pointer(unsafe.SliceData(question))
}

// rank answers the question and gives the length of the answer.
//
//go:wasmexport rank
func rank(n int32) int32 {
	text, err := causes.Reply(string(question[:min(max(int(n), 0), len(question))]))
	if err != nil {
		return -1
	}
	answer = append([]byte(text), 0)
	return int32(len(text))
}

// reply is the address of the last answer.
//
//go:wasmexport reply
func reply() unsafe.Pointer { return unsafe.Pointer(unsafe.SliceData(answer)) }

func main() {}
