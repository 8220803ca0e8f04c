//go:build wasip1 && exports

// What the browser calls is called here once, for a check that knows a program by what it calls itself (testdata/deadcode). No module has this file.
package main

func init() {
	input(0)
	output()
	add()
	open()
	ask()
}
