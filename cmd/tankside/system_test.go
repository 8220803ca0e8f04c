package main

import (
	"bytes"
	"os"
	"runtime"
	"slices"
	"strings"
	"testing"
)

// Without a terminal on either side the program was clicked where there is a screen; where a program or a pipe asks, and there is none, it was not.
func TestClicked(t *testing.T) {
	t.Parallel()
	nothing, err := os.Open(os.DevNull)
	if err != nil {
		t.Fatal(err)
	}
	defer nothing.Close()
	screen := func(name string) string {
		return map[string]string{"DISPLAY": ":0"}[name]
	}
	none := func(string) string { return "" }
	if runtime.GOOS == "linux" && (!clicked(nothing, &bytes.Buffer{}, screen) || clicked(nothing, &bytes.Buffer{}, none)) {
		t.Error("a double click is not known from a script")
	}
	c, out, notes := desk("")
	if code := run(t.Context(), nil, c); code != exitUnusable || !strings.Contains(notes.String(), "tankside desk") || out.String() != "" {
		t.Errorf("without arguments: %d %s", code, notes)
	}
}

// Each system opens texts and pages with its own program, to which the file is one argument, whatever it is called.
func TestSystemPrograms(t *testing.T) {
	t.Parallel()
	for _, file := range []string{"/a b/$(x);.md", "/a/index.html"} {
		for _, system := range []string{"linux", "freebsd", "darwin", "windows"} {
			line := programFor(system, file)
			if line[len(line)-1] != file || slices.Contains([]string{"sh", "cmd", "cmd.exe", "bash"}, line[0]) {
				t.Errorf("%s: %q", system, line)
			}
		}
	}
	if !slices.Equal(programFor("darwin", "/a/x.md"), []string{"open", "-t", "/a/x.md"}) {
		t.Error("a text is opened by something else than an editor")
	}
}

// Every command's help tells of the desk.
func TestEveryHelpTellsOfTheDesk(t *testing.T) {
	t.Parallel()
	for _, cmd := range commands {
		if got := must(t, cmd.name, "--help"); !strings.Contains(got, "tankside desk") {
			t.Errorf("%s:\n%s", cmd.name, got)
		}
	}
}
