package main

import (
	"unsafe"

	"golang.org/x/sys/windows"
)

// ownConsole tells whether the console was made for this program alone, as Windows does for one that is opened by a double click.
func ownConsole() bool {
	var list [2]uint32
	n, _, _ := windows.NewLazySystemDLL("kernel32.dll").NewProc("GetConsoleProcessList").Call(uintptr(unsafe.Pointer(&list[0])), uintptr(len(list)))
	return n == 1
}
