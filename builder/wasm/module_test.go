//go:build !wasip1

package main

import (
	"bytes"
	"compress/gzip"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/andybalholm/brotli"
)

// module builds the module as make does, once, and gives its file's name. It goes to the system's temporary folder, not the test's, since tests
// share it.
var module = sync.OnceValues(func() (string, error) {
	folder, err := os.MkdirTemp("", "tankside-answers")
	if err != nil {
		return "", err
	}
	file := filepath.Join(folder, "answers.wasm")
	build := exec.Command("go", "build", "-buildmode=c-shared", "-buildvcs=false", "-trimpath", "-ldflags=-s -w", "-gcflags=all=-l", "-o", file, ".")
	build.Env = append(os.Environ(), "GOOS=wasip1", "GOARCH=wasm")
	for _, step := range []*exec.Cmd{build, exec.Command("go", "run", "./pack", file)} {
		if said, err := step.CombinedOutput(); err != nil {
			return "", fmt.Errorf("%v: %w\n%s", step.Args, err, said)
		}
	}
	return file, nil
})

func TestMain(m *testing.M) {
	code := m.Run()
	if file, err := module(); err == nil {
		os.RemoveAll(filepath.Dir(file))
	}
	os.Exit(code)
}

// call is a question to one of the module's functions.
type call struct {
	What    string `json:"what"`
	Request []byte `json:"request"`
	Times   int    `json:"times"`
}

// ask is a question that is put once.
func ask(what, request string) call { return call{what, []byte(request), 1} }

type result struct {
	Memory  float64 // bytes in the end
	Replies []struct {
		Reply *string // nil where there is none
		Time  float64 // ns, median
		Least float64 // ns
	}
}

// run asks the module under Node, through the bridge of the pages.
func run(t testing.TB, calls []call) result {
	t.Helper()
	path, err := module()
	if err != nil {
		t.Fatal(err)
	}
	out, err := node(t, path, calls)
	if err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	var r result
	if err := json.Unmarshal([]byte(out), &r); err != nil {
		t.Fatal(err)
	}
	if len(r.Replies) != len(calls) {
		t.Fatalf("%d replies to %d calls", len(r.Replies), len(calls))
	}
	return r
}

// node has testdata/run.mjs ask a module, and gives what it prints; after an error, what it complains of.
func node(t testing.TB, path string, calls []call) (string, error) {
	t.Helper()
	input, err := json.Marshal(map[string]any{"path": path, "calls": calls})
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command("node", filepath.Join("testdata", "run.mjs"), filepath.Join("..", "..", "themes", "scripts", "module.js"))
	cmd.Stdin = bytes.NewReader(input)
	var complaints bytes.Buffer
	cmd.Stderr = &complaints
	out, err := cmd.Output()
	if err != nil {
		return complaints.String(), err
	}
	return string(out), nil
}

// agree compares the module's replies with those of the same code here, to the byte.
func agree(t *testing.T, calls []call, want []string) {
	t.Helper()
	for i, got := range run(t, calls).Replies {
		switch {
		case got.Reply == nil:
			t.Errorf("%s: %q has no reply", calls[i].What, calls[i].Request)
		case *got.Reply != want[i]:
			t.Errorf("%s: %q in the module is\n%s\nwant\n%s", calls[i].What, calls[i].Request, *got.Reply, want[i])
		}
	}
}

// A module that asks for what nobody thought of is not started, and a sentence says what it asks for; for files and sockets it may ask.
func TestImports(t *testing.T) {
	// A module by hand after the WebAssembly Core Specification 2.0, 5.5: the type () → (), one imported function, a memory, and _initialize, which does nothing.
	importing := func(from, name string) []byte {
		section := func(id byte, body string) string { return string(rune(id)) + string(rune(len(body))) + body }
		named := func(s string) string { return string(rune(len(s))) + s }
		return []byte("\x00asm\x01\x00\x00\x00" + section(1, "\x01\x60\x00\x00") + section(2, "\x01"+named(from)+named(name)+"\x00\x00") +
			section(3, "\x01\x00") + section(5, "\x01\x00\x01") + section(7, "\x02"+named("memory")+"\x02\x00"+named("_initialize")+"\x00\x01") +
			section(10, "\x01\x02\x00\x0b"))
	}
	for _, c := range []struct{ from, name, want string }{
		{"wasi_snapshot_preview1", "clock_time_get", ""},
		{"wasi_snapshot_preview1", "path_open", ""},
		{"wasi_snapshot_preview1", "sock_accept", ""},
		{"wasi_snapshot_preview1", "proc_raise", "the module asks for wasi_snapshot_preview1.proc_raise, which this page does not have"},
		{"wasi_snapshot_preview1", "constructor", "the module asks for wasi_snapshot_preview1.constructor, which this page does not have"},
		{"env", "clock_time_get", "the module asks for env.clock_time_get, which this page does not have"},
	} {
		file := filepath.Join(t.TempDir(), "importing.wasm")
		if err := os.WriteFile(file, importing(c.from, c.name), 0o600); err != nil {
			t.Fatal(err)
		}
		said, err := node(t, file, nil)
		if c.want == "" && err != nil || c.want != "" && (err == nil || !strings.Contains(said, c.want)) {
			t.Errorf("%s.%s: %v\n%s", c.from, c.name, err, said)
		}
	}
}

// A request for which there is no room is refused before anything is written.
func TestTooLargeARequest(t *testing.T) {
	path, err := module()
	if err != nil {
		t.Fatal(err)
	}
	said, err := node(t, path, []call{{"rank", make([]byte, 64<<20+1), 1}})
	if err == nil || !strings.Contains(said, "the module has no room for 67108865 bytes") {
		t.Errorf("%v\n%s", err, said)
	}
}

// The module is below 620 kB as browsers fetch it; an empty Go program built like this takes 358 kB.
func TestModuleSize(t *testing.T) {
	path, err := module()
	if err != nil {
		t.Fatal(err)
	}
	code, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	var zipped, small bytes.Buffer
	g, err := gzip.NewWriterLevel(&zipped, gzip.BestCompression)
	if err != nil {
		t.Fatal(err)
	}
	for _, w := range []io.WriteCloser{g, brotli.NewWriterLevel(&small, brotli.BestCompression)} {
		if _, err := w.Write(code); err != nil {
			t.Fatal(err)
		}
		if err := w.Close(); err != nil {
			t.Fatal(err)
		}
	}
	t.Logf("%d bytes, gzip %d, brotli %d", len(code), zipped.Len(), small.Len())
	if small.Len() > 620_000 {
		t.Errorf("the module takes %d bytes with brotli, 620 000 are allowed", small.Len())
	}
}
