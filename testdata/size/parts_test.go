package main

import (
	"maps"
	"testing"
)

// A module put together by hand after the WebAssembly Core Specification 2.0, 5.5: one imported function, two of its own with bodies of
// 3 and 5 bytes, 4 bytes of data, and the names of all three.
func TestPartsOfAModule(t *testing.T) {
	section := func(id byte, body string) string { return string(id) + string(byte(len(body))) + body }
	named := "\x04name" + section(1, "\x03"+"\x00\x04host"+"\x01\x0bmain.answer"+"\x02\x12encoding_json.__x_")
	module := "\x00asm\x01\x00\x00\x00" +
		section(2, "\x01\x03env\x01f\x00\x00") +
		section(10, "\x02"+"\x03\x00\x01\x0b"+"\x05\x00\x01\x01\x01\x0b") +
		section(11, "\x01\x00\x00\x00") +
		section(0, named)
	groups := readPackages([]byte("encoding/json\nmain tankside\nunused example.org/unused\n"))
	got, err := partsOf([]byte(module), groups)
	want := map[string]int{
		"main": 3, "Go: encoding/json": 5, "the module's own tables": 9,
		"data: tables of the runtime, types, texts, constants": 4,
	}
	if err == nil && got["functions of no package"] != 0 {
		t.Errorf("functions of no package: %v", got)
	}
	if err != nil || !maps.Equal(got, want) {
		t.Errorf("%v, %v; want %v", got, err, want)
	}
	for cut := 9; cut < len(module); cut++ {
		if got, err := partsOf([]byte(module[:cut]), groups); err == nil {
			t.Errorf("the first %d of %d bytes are taken for a module: %v", cut, len(module), got)
		}
	}
}
