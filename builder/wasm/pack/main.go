// Command pack makes a module that Go's linker has written ready for an edition, in place: it joins the module's data, so that it
// compresses better, and blanks the names of its functions and the lines of those that are not ours, which nobody reads. Make runs it on every module.
//
//	go run ./builder/wasm/pack FILE.wasm
package main

import (
	"fmt"
	"os"
)

func main() {
	if len(os.Args) != 2 {
		fmt.Fprintln(os.Stderr, "usage: pack FILE.wasm")
		os.Exit(2)
	}
	if err := pack(os.Args[1]); err != nil {
		fmt.Fprintf(os.Stderr, "%s: %v\n", os.Args[1], err)
		os.Exit(1)
	}
}

func pack(file string) error {
	module, err := os.ReadFile(file)
	if err != nil {
		return err
	}
	joined, err := join(module, blankNames)
	if err != nil {
		return err
	}
	return os.WriteFile(file, joined, 0o644)
}
