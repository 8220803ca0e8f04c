//go:build wasip1 && exports

// What the browser calls is called here once, for a check that knows a program by what it calls itself (testdata/deadcode). No module has this file.
package main

func init() {
	reserve(0)
	reply()
	for _, call := range []func(int32) int32{speak, calculate, convert, open, admit, know, read, both, rank} {
		call(0)
	}
}
