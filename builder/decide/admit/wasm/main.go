//go:build wasip1

// Command wasm answers “may it go in?” in a reader's browser: a reactor for WebAssembly.
//
//	GOOS=wasip1 GOARCH=wasm go build -buildmode=c-shared -trimpath -ldflags='-s -w' -o admit.wasm ./builder/admit/wasm
//
// After _initialize a page writes the packed sheet of its edition to where reserve(n) points and calls open(n), which gives 0, or -1 where
// it is none. After that it writes requests to where reserve(n) points, as UTF-8, calls answer(n), and reads as many bytes as that
// returns where reply() points to. What the texts hold is in package markup. The module imports the handful of WASI functions
// that Go's runtime wants; none of them needs to do anything but clock_time_get and random_get.
package main

import (
	"unsafe"

	"tankside/builder/decide/admit/markup"
)

// One request is under way at a time; the slices keep their memory alive.
var (
	request, response []byte
	sheet             *markup.Sheet
)

// reserve makes room for n bytes and gives its address.
//
//go:wasmexport reserve
func reserve(n int32) unsafe.Pointer {
	const most = 64 << 20 // the sheet of a manual with a thousand materials is smaller
	request = make([]byte, min(max(n, 1), most))
	return unsafe.Pointer(unsafe.SliceData(request))
}

func written(n int32) []byte { return request[:min(max(int(n), 0), len(request))] }

// open takes the sheet that all answers are made of.
//
//go:wasmexport open
func open(n int32) int32 {
	s, err := markup.Unpack(written(n))
	if err != nil {
		return -1
	}
	sheet = s
	return 0
}

// answer gives the length of the reply to a request, or -1 where no sheet is open.
//
//go:wasmexport answer
func answer(n int32) int32 {
	if sheet == nil {
		return -1
	}
	text := sheet.Reply(string(written(n)))
	response = append([]byte(text), 0)
	return int32(len(text))
}

// reply is the address of the last reply.
//
//go:wasmexport reply
func reply() unsafe.Pointer { return unsafe.Pointer(unsafe.SliceData(response)) }

func main() {}
