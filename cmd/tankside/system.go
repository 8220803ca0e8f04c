package main

import (
	"fmt"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
)

// texts are the ends of files that an editor opens.
var texts = []string{".md", ".yaml", ".txt", ".csv"}

// programFor is the program, with its arguments, by which a system opens a file or an address. No shell is asked.
func programFor(system, what string) []string {
	switch system {
	case "windows":
		return []string{"rundll32.exe", "url.dll,FileProtocolHandler", what}
	case "darwin":
		if slices.Contains(texts, filepath.Ext(what)) {
			return []string{"open", "-t", what}
		}
		return []string{"open", what}
	}
	return []string{"xdg-open", what}
}

// openWithSystem opens a file or an address with the system's own program, and does not wait for it.
func openWithSystem(what string) error {
	line := programFor(runtime.GOOS, what)
	cmd := exec.Command(line[0], line[1:]...)
	if err := cmd.Start(); err != nil {
		return fmt.Errorf("this system has no program here that opens %s (%w); open it yourself", what, err)
	}
	go func() { _ = cmd.Wait() }() // how it ends is the reader's concern
	return nil
}

// clicked tells whether the program was opened by a double click: nobody sits at a terminal, and there is a screen.
func clicked(in, out any, env func(string) string) bool {
	return ownConsole() || !terminal(in) && !terminal(out) && (runtime.GOOS == "darwin" || runtime.GOOS != "windows" && env("DISPLAY")+env("WAYLAND_DISPLAY") != "")
}
