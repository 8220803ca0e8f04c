// Command release makes the archives that are handed out of the commands that make release has built: one for each system and machine, and
// SHA256SUMS of them all.
//
//	go run ./builder/release VERSION BUILT TO
//
// BUILT holds a folder for each system and machine, such as linux-amd64, with the command in it. The archives are the same to
// the byte for the same files, on every machine, in every folder and on every day.
package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
)

// targets are what an archive is made for, in the order of SHA256SUMS.
var targets = []target{
	{"darwin", "amd64"}, {"darwin", "arm64"}, {"linux", "amd64"}, {"linux", "arm64"}, {"windows", "amd64"}, {"windows", "arm64"},
}

// target is a system and a machine, by Go's names.
type target struct{ system, machine string }

func (t target) String() string { return t.system + "-" + t.machine }

// program is the command's file name on that system.
func (t target) program() string {
	if t.system == "windows" {
		return "tankside.exe"
	}
	return "tankside"
}

func main() {
	if len(os.Args) != 4 {
		fail(errors.New("usage: release VERSION BUILT TO"))
	}
	if err := release(".", os.Args[1], os.Args[2], os.Args[3]); err != nil {
		fail(err)
	}
}

func fail(err error) {
	fmt.Fprintln(os.Stderr, err)
	os.Exit(1)
}

// fitting is what a version may be made of, so that it can stand in a file's name on every system.
var fitting = regexp.MustCompile(`^[A-Za-z0-9][A-Za-z0-9._+-]{0,60}$`)

// release writes an archive for each target into a folder, and the sums. source is the folder of the source, which has what goes with the command.
func release(source, version, built, to string) error {
	if !fitting.MatchString(version) {
		return fmt.Errorf("the version %q cannot stand in the names of files; name one with make release VERSION=…", version)
	}
	if err := os.MkdirAll(to, 0o755); err != nil {
		return err
	}
	var sums strings.Builder
	for _, t := range targets {
		files, err := filesFor(source, built, t)
		if err != nil {
			return fmt.Errorf("%s: %w", t, err)
		}
		name, data, err := archive(version, t, files)
		if err != nil {
			return fmt.Errorf("%s: %w", t, err)
		}
		if err := os.WriteFile(filepath.Join(to, name), data, 0o644); err != nil {
			return err
		}
		fmt.Fprintf(&sums, "%s  %s\n", sum(data), name)
	}
	return os.WriteFile(filepath.Join(to, sumsName), []byte(sums.String()), 0o644)
}

// sumsName is the file of checksums, in the form that sha256sum -c reads.
const sumsName = "SHA256SUMS"

// partsName is the list of parts, in the source and in an archive.
const partsName = "parts.spdx.json"

// filesFor gathers what goes into the archive of a target.
func filesFor(source, built string, t target) ([]file, error) {
	files := []file{{name: "README.txt", data: []byte(readme(t))}}
	for name, from := range map[string]string{
		t.program():   filepath.Join(built, t.String(), t.program()),
		"LICENSE.txt": filepath.Join(source, "LICENSE"),
		"notices.txt": filepath.Join(source, "themes", "notices.txt"),
		partsName:     filepath.Join(source, "testdata", partsName),
	} {
		data, err := os.ReadFile(from)
		if err != nil {
			return nil, err
		}
		files = append(files, file{name: name, data: data, runs: name == t.program()})
	}
	if t.system == "darwin" {
		files = append(files, file{name: deskScript, data: []byte(deskScriptText), runs: true})
	}
	return files, compareParts(files, t.program())
}
