//go:build wasip1

// Command wasm answers in a reader's browser what the pages ask: the calculators' sums, “may it go in?”, and which causes explain what is
// seen. It is a reactor for WebAssembly: after _initialize a page writes its request, as UTF-8, to where reserve(n) points, calls the
// function of its question with n, and reads as many bytes as that returns where reply() points to.
//
//	speak      takes the packed words of the page's language for the sums from then on; until then they are in English
//	calculate  does a sum; convert turns an amount into another unit (package calculators/markup says what the texts hold)
//	open       takes the packed facts of an edition, or gives -1 where it is handed none; admit answers from these,
//	           or gives -1 where none are open (package decide/admit/markup); it sets two baths beside each other too
//	know       takes the packed names that a question in the search field may have; read takes such a question apart into sums, loads and
//	           amounts, for the functions above (package asked)
//	both       puts amounts of a part of a page into both families of units (package inboth)
//	rank       finds the sets of causes that explain what is seen, or gives -1 for what is no question (package decide/causes)
//
// Three modules with a Go runtime each took 1,508 kB of brotli; this one takes what TestModuleSize allows.
package main

import (
	"unsafe"

	"tankside/builder/asked"
	admission "tankside/builder/decide/admit/markup"
	"tankside/builder/decide/causes"
	"tankside/builder/inboth"
	"tankside/builder/language"
	"tankside/calculators/markup"
)

// One request is under way at a time; the slices keep their memory alive.
var request, response []byte

// largest is the most bytes that a request may have: the facts of a manual with a thousand materials are fewer.
const largest = 64 << 20

// reserve makes room for a request of n bytes and gives its address, or 0 for more than the largest.
//
//go:wasmexport reserve
func reserve(n int32) unsafe.Pointer {
	if n < 0 || n > largest {
		return nil
	}
	request = make([]byte, max(n, 1))
	return unsafe.Pointer(unsafe.SliceData(request))
}

func written(n int32) []byte { return request[:min(max(int(n), 0), len(request))] }

// reply is the address of the last reply.
//
//go:wasmexport reply
func reply() unsafe.Pointer { return unsafe.Pointer(unsafe.SliceData(response)) }

// give has reply point to a text and gives the text's length.
func give(text string) int32 {
	response = append([]byte(text), 0)
	return int32(len(text))
}

// none is the length of a reply where there is none.
const none = -1

// words are those of the page for its sums; English is nil.
var words language.Words

//go:wasmexport speak
func speak(n int32) int32 {
	words = language.Unpack(string(written(n)))
	return 0
}

//go:wasmexport calculate
func calculate(n int32) int32 { return give(markup.Reply(words, string(written(n)))) }

//go:wasmexport convert
func convert(n int32) int32 { return give(markup.Convert(string(written(n)))) }

// sheet has the facts that every “may it go in?” is answered from; nil until open.
var sheet *admission.Sheet

//go:wasmexport open
func open(n int32) int32 {
	opened, err := admission.Unpack(written(n))
	if err != nil {
		return none
	}
	sheet = opened
	return 0
}

//go:wasmexport admit
func admit(n int32) int32 {
	if sheet == nil {
		return none
	}
	return give(sheet.Reply(string(written(n))))
}

// names are what a question in the search field may name.
var names = new(asked.Names)

//go:wasmexport know
func know(n int32) int32 {
	names = asked.Unpack(string(written(n)))
	return 0
}

//go:wasmexport read
func read(n int32) int32 { return give(names.Read(words, string(written(n)))) }

//go:wasmexport both
func both(n int32) int32 { return give(string(inboth.HTML(written(n)))) }

//go:wasmexport rank
func rank(n int32) int32 {
	text, err := causes.Reply(string(written(n)))
	if err != nil {
		return none
	}
	return give(text)
}

func main() {}
