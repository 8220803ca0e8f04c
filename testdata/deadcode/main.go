// Command deadcode tells which functions no program of this repository reaches: the command, on Linux and on Windows; the browser's modules, by
// what they export, in files of the build tag exports; and the programs of the build. It fails when one is not in
// testdata/deadcode-kept.txt, or when one there is reached.
//
//	go run ./testdata/deadcode bin/deadcode bin/browser.mod
//
// The arguments are golang.org/x/tools/cmd/deadcode, compiled, and the go.mod of the browser's modules.
package main

import (
	"encoding/json"
	"fmt"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
)

const (
	keptFile = "testdata/deadcode-kept.txt"
	tag      = "exports" // of the files that call what the browser calls
)

// programs are what is looked through, each with the system for which it is compiled.
var programs = []program{
	{"linux", "amd64", []string{"./cmd/tankside", "./builder/wasm/pack", "./builder/release", "./testdata/deadcode", "./testdata/notices", "./testdata/size"}},
	{"windows", "amd64", []string{"./cmd/tankside"}},
	{"wasip1", "wasm", []string{"./builder/wasm", "./search/wasm"}},
}

type program struct {
	system, machine string
	packages        []string
}

func main() {
	if len(os.Args) != 3 {
		fail(fmt.Errorf("usage: deadcode TOOL BROWSER.MOD"))
	}
	dead, err := unreached(os.Args[1], os.Args[2])
	if err != nil {
		fail(err)
	}
	text, err := os.ReadFile(keptFile)
	if err != nil {
		fail(err)
	}
	if wrong := compare(dead, string(text)); len(wrong) > 0 {
		fail(fmt.Errorf("%s", strings.Join(wrong, "\n")))
	}
}

func fail(err error) {
	fmt.Fprintln(os.Stderr, err)
	os.Exit(1)
}

// compare tells what is unreached and not kept, and what is kept without need. A line of the list is a name, a colon and the reason.
func compare(dead map[string]bool, list string) []string {
	var wrong []string
	kept := map[string]bool{}
	for line := range strings.Lines(list) {
		if line = strings.TrimSpace(line); line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		name, reason, _ := strings.Cut(line, ": ")
		kept[name] = true
		switch {
		case strings.TrimSpace(reason) == "":
			wrong = append(wrong, keptFile+" gives no reason for "+name)
		case !dead[name]:
			wrong = append(wrong, keptFile+" keeps "+name+", which a program reaches, or which is gone: take the line out")
		}
	}
	for _, name := range slices.Sorted(maps.Keys(dead)) {
		if !kept[name] {
			wrong = append(wrong, "no program reaches "+name+": delete it, or move it to the tests that use it")
		}
	}
	return wrong
}

// unreached gives the functions that no program reaches which holds their file, and the packages that no program holds, by name.
func unreached(tool, browser string) (map[string]bool, error) {
	folder, err := os.MkdirTemp("", "deadcode")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(folder)
	overlay, err := overlaid(folder, browser)
	if err != nil {
		return nil, err
	}
	files, err := output(nil, "go", "list", "-f", listed, "./...")
	if err != nil {
		return nil, err
	}
	holding, missing, packages := map[string]int{}, map[string]int{}, map[string]bool{}
	names := map[string]string{} // by place
	for _, p := range programs {
		env := []string{"GOOS=" + p.system, "GOARCH=" + p.machine, "GOFLAGS=-tags=" + tag}
		if p.machine == "wasm" {
			env[2] += " -overlay=" + overlay
		}
		if err := look(tool, env, p.packages, holding, missing, packages, names); err != nil {
			return nil, err
		}
	}
	dead := map[string]bool{}
	for at, name := range names {
		file, _, _ := strings.Cut(at, ":")
		if missing[at] == holding[file] {
			dead[name] = true
		}
	}
	for line := range strings.Lines(files) {
		if name, _, _ := strings.Cut(line, "\t"); !packages[name] {
			dead[short(name)+" (package)"] = true
		}
	}
	return dead, nil
}

// listed has go list give the packages of this module with their files.
const listed = `{{if .Module}}{{if .Module.Main}}{{$p := .ImportPath}}{{$d := .Dir}}{{range .GoFiles}}{{$p}}	{{$d}}/{{.}}
{{end}}{{end}}{{end}}`

// look adds the programs of one system: for how many systems a file is compiled, and in how many a function, by its place, is not reached.
func look(tool string, env []string, programs []string, holding, missing map[string]int, packages map[string]bool, names map[string]string) error {
	files, err := output(env, "go", append([]string{"list", "-deps", "-f", listed}, programs...)...)
	if err != nil {
		return err
	}
	here, err := os.Getwd()
	if err != nil {
		return err
	}
	for line := range strings.Lines(files) {
		name, file, _ := strings.Cut(strings.TrimSpace(line), "\t")
		relative, err := filepath.Rel(here, file)
		if err != nil {
			return err
		}
		packages[name] = true
		holding[filepath.ToSlash(relative)]++
	}
	report, err := output(env, tool, append([]string{"-json", "-tags=" + tag}, programs...)...)
	if err != nil {
		return err
	}
	var found []struct {
		Path  string
		Funcs []struct {
			Name     string
			Position struct {
				File string
				Line int
			}
		}
	}
	if err := json.Unmarshal([]byte(report), &found); err != nil {
		return fmt.Errorf("what %s says of %v: %w", tool, programs, err)
	}
	for _, p := range found {
		for _, f := range p.Funcs {
			at := fmt.Sprintf("%s:%d", filepath.ToSlash(f.Position.File), f.Position.Line)
			missing[at]++
			names[at] = short(p.Path) + "." + f.Name
		}
	}
	return nil
}

// overlaid gives a file that has the go command take the browser's go.mod for that of the module: the tool has no option for it.
func overlaid(folder, browser string) (string, error) {
	here, err := os.Getwd()
	if err != nil {
		return "", err
	}
	data, err := json.Marshal(map[string]any{"Replace": map[string]string{filepath.Join(here, "go.mod"): filepath.Join(here, browser)}})
	if err != nil {
		return "", err
	}
	file := filepath.Join(folder, "overlay.json")
	return file, os.WriteFile(file, data, 0o600)
}

func short(path string) string { return strings.TrimPrefix(path, "tankside/") }

// output runs a program with more in its environment.
func output(env []string, name string, args ...string) (string, error) {
	c := exec.Command(name, args...)
	c.Env = append(os.Environ(), env...)
	c.Stderr = os.Stderr
	out, err := c.Output()
	if err != nil {
		return "", fmt.Errorf("%s %s: %w", name, strings.Join(args, " "), err)
	}
	return string(out), nil
}
