package main

import (
	"os"

	"golang.org/x/sys/windows"
)

// understandsStyles tells whether a terminal takes the control sequences of ECMA-48, after asking it to.
func understandsStyles(f *os.File) bool {
	var mode uint32
	handle := windows.Handle(f.Fd())
	if windows.GetConsoleMode(handle, &mode) != nil {
		return false
	}
	return windows.SetConsoleMode(handle, mode|windows.ENABLE_VIRTUAL_TERMINAL_PROCESSING) == nil
}
