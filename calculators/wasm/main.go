//go:build wasip1

// Command wasm is the calculators in a reader's browser: a reactor for
// WebAssembly with a few functions and no other doings.
//
//	GOOS=wasip1 GOARCH=wasm go build -buildmode=c-shared -trimpath -ldflags='-s -w' -gcflags=all=-l -o calculators.wasm ./calculators/wasm
//
// Without inlining (-l) it takes 490 kB of brotli, 70 kB of them the calculators'
// code and 15 kB their texts; with it 555 kB. An answer takes 0.2 to 3 ms either way.
//
// After _initialize a page writes its request, as UTF-8, where reserve(n) points
// to, calls answer(n) or convert(n), and reads as many bytes as they return
// where reply() points to. What the texts hold is in package markup. A page in another language than
// English hands over its words first, with speak(n). The module
// imports the handful of WASI functions that Go's runtime wants; none of them
// needs to do anything but clock_time_get and random_get.
package main

import (
	"unsafe"

	"tankside/builder/language"
	"tankside/calculators/markup"
)

// One request is under way at a time; the slices keep their memory alive.
var request, response []byte

// reserve makes room for a request of n bytes and gives its address.
//
//go:wasmexport reserve
func reserve(n int32) unsafe.Pointer {
	const most = 4 << 20 // forms and words are far smaller
	request = make([]byte, min(max(n, 1), most))
	return unsafe.Pointer(unsafe.SliceData(request))
}

func written(n int32) string { return string(request[:min(max(int(n), 0), len(request))]) }

func give(text string) int32 {
	response = append([]byte(text), 0)
	return int32(len(text))
}

// said are the words of the page; English is nil.
var said language.Words

// speak takes the packed words of the page's language, in which it answers from
// then on.
//
//go:wasmexport speak
func speak(n int32) int32 {
	said = language.Unpack(written(n))
	return 0
}

// answer runs a calculator and gives the length of the reply.
//
//go:wasmexport answer
func answer(n int32) int32 { return give(markup.Reply(said, written(n))) }

// convert turns an amount into another unit and gives the length of the reply.
//
//go:wasmexport convert
func convert(n int32) int32 { return give(markup.Convert(written(n))) }

// reply is the address of the last reply.
//
//go:wasmexport reply
func reply() unsafe.Pointer { return unsafe.Pointer(unsafe.SliceData(response)) }

func main() {}
