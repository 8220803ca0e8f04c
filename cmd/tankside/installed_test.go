package main

import (
	"encoding/json"
	"errors"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// The source has no modules for the browser, so a command that go install or go build makes of it cannot publish. It says so, with what to do, leaves nothing, and
// all that needs no module works.
func TestBuiltWithoutModules(t *testing.T) {
	t.Parallel()
	modules, err := filepath.Glob("../../themes/wasm/*.gz")
	if err != nil || len(modules) == 0 {
		t.Fatalf("there are no modules to be left out: %v", err)
	}
	left := map[string]string{} // "" has the go command see no file there
	for _, m := range modules {
		at, err := filepath.Abs(m)
		if err != nil {
			t.Fatal(err)
		}
		left[at] = ""
	}
	overlay, err := json.Marshal(map[string]any{"Replace": left})
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	listed, program := filepath.Join(dir, "overlay.json"), filepath.Join(dir, "tankside.exe")
	if err := os.WriteFile(listed, overlay, 0o600); err != nil {
		t.Fatal(err)
	}
	if out, err := exec.Command("go", "build", "-overlay="+listed, "-o", program, "tankside/cmd/tankside").CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	to := filepath.Join(dir, "edition")
	out, err := exec.Command(program, "publish", "../../content", "--to", to).CombinedOutput()
	var exit *exec.ExitError
	if !errors.As(err, &exit) || exit.ExitCode() != exitUnusable {
		t.Fatalf("publish: %v %s", err, out)
	}
	for _, part := range []string{"built without the modules that search and calculate in the browser", "go install", "archive of a release", "make build"} {
		if !strings.Contains(string(out), part) {
			t.Errorf("it does not say %q: %s", part, out)
		}
	}
	if _, err := os.Stat(to); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("something is left of an edition: %v", err)
	}
	if out, err := exec.Command(program, "proof", "../../content").CombinedOutput(); err != nil {
		t.Errorf("proof: %v %s", err, out)
	}
}
