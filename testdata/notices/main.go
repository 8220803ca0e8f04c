// Command notices writes to standard output the licences of everything that is linked into the command and into the browser's modules, as
// their terms ask of whoever hands out copies: an edition holds some of these modules.
//
//	go run ./testdata/notices > themes/notices.txt
//
// With -parts it writes the same as a list of parts (SPDX 2.3), for whoever keeps books of what is installed:
//
//	go run ./testdata/notices -parts > testdata/parts.spdx.json
package main

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
)

// what is linked, and for which systems.
var linked = []struct {
	system, machine string
	packages        []string
}{
	{"linux", "amd64", []string{"./cmd/tankside"}},
	{"windows", "amd64", []string{"./cmd/tankside"}},
	{"darwin", "arm64", []string{"./cmd/tankside"}},
	{"wasip1", "wasm", []string{"./builder/wasm", "./search/wasm"}},
}

func main() {
	if err := write(); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

// modules gives what is linked, name and version → folder: into the command, and into the modules of an edition.
func modules() (command, edition map[string]string, err error) {
	command, edition = map[string]string{}, map[string]string{}
	for _, l := range linked {
		args := []string{"list", "-deps", "-f", "{{with .Module}}{{if not .Main}}{{.Path}} {{.Version}}\t{{.Dir}}{{end}}{{end}}"}
		c := exec.Command("go", append(args, l.packages...)...)
		c.Env, c.Stderr = append(os.Environ(), "GOOS="+l.system, "GOARCH="+l.machine), os.Stderr
		out, err := c.Output()
		if err != nil {
			return nil, nil, err
		}
		of := command
		if l.machine == "wasm" {
			of = edition
		}
		for line := range strings.FieldsFuncSeq(string(out), func(r rune) bool { return r == '\n' }) {
			name, dir, _ := strings.Cut(line, "\t")
			if of[name] == "" {
				of[name] = dir
			}
		}
	}
	return command, edition, nil
}

func write() error {
	command, edition, err := modules()
	if err != nil {
		return err
	}
	if len(os.Args) > 1 && os.Args[1] == "-parts" {
		return writeParts(command, edition)
	}
	modules := command
	for name, dir := range edition {
		modules[name] = dir
	}
	terms := map[string][]string{} // text → whose it is
	goes := filepath.Join(runtime.GOROOT(), "LICENSE")
	text, err := os.ReadFile(goes)
	if err != nil {
		return err
	}
	terms[clean(text)] = []string{"The Go programming language and its standard library"}
	for name, dir := range modules {
		text, err := termsIn(dir)
		if err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		terms[text] = append(terms[text], name)
	}
	return print(terms)
}

// termsIn joins the licences and notices in a module's folder.
func termsIn(dir string) (string, error) {
	if dir == "" {
		return "", errors.New("the module has no folder")
	}
	entries, err := os.ReadDir(dir)
	if err != nil {
		return "", err
	}
	var parts []string
	for _, e := range entries {
		name := strings.ToUpper(e.Name())
		if e.IsDir() || !strings.HasPrefix(name, "LICEN") && !strings.HasPrefix(name, "NOTICE") && !strings.HasPrefix(name, "COPYING") {
			continue
		}
		text, err := os.ReadFile(filepath.Join(dir, e.Name()))
		if err != nil {
			return "", err
		}
		parts = append(parts, clean(text))
	}
	if len(parts) == 0 {
		return "", errors.New("no licence is in its folder " + dir)
	}
	return strings.Join(parts, "\n\n"), nil
}

func clean(text []byte) string {
	return strings.TrimSpace(string(bytes.ReplaceAll(text, []byte("\r\n"), []byte("\n"))))
}

func print(terms map[string][]string) error {
	type group struct {
		names []string
		text  string
	}
	var groups []group
	for text, names := range terms {
		slices.Sort(names)
		groups = append(groups, group{names, text})
	}
	slices.SortFunc(groups, func(a, b group) int { return strings.Compare(strings.ToLower(a.names[0]), strings.ToLower(b.names[0])) })
	var b strings.Builder
	b.WriteString("Notices of the software in tankside and in its editions\n")
	for _, g := range groups {
		fmt.Fprintf(&b, "\n%s\n\n", strings.Repeat("=", 72))
		for _, name := range g.names {
			fmt.Fprintf(&b, "%s\n", name)
		}
		fmt.Fprintf(&b, "\n%s\n", g.text)
	}
	_, err := os.Stdout.WriteString(b.String())
	return err
}
