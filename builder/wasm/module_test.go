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
		t.Fatalf("%v\n%s", err, complaints.String())
	}
	var r result
	if err := json.Unmarshal(out, &r); err != nil {
		t.Fatal(err)
	}
	if len(r.Replies) != len(calls) {
		t.Fatalf("%d replies to %d calls", len(r.Replies), len(calls))
	}
	return r
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
