//go:build !wasip1

package main

import (
	"bytes"
	"encoding/base64"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/andybalholm/brotli"

	"tankside/builder/decide/admit/markup"
	"tankside/builder/decide/relate"
	"tankside/builder/manual"
)

// build builds the module as make does.
func build(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "admit.wasm")
	cmd := exec.Command("go", "build", "-buildmode=c-shared", "-buildvcs=false", "-trimpath", "-ldflags=-s -w", "-gcflags=all=-l", "-o", path, ".")
	cmd.Env = append(os.Environ(), "GOOS=wasip1", "GOARCH=wasm")
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	return path
}

// run opens sheets in the module under Node and puts requests to it.
func run(t *testing.T, path string, sheet []byte, requests []string) (result struct {
	Opened  int
	Replies []string
	Took    float64 // ms, median of an answer
}) {
	t.Helper()
	input, err := json.Marshal(map[string]any{"path": path, "sheet": base64.StdEncoding.EncodeToString(sheet), "requests": requests})
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command("node", filepath.Join("testdata", "run.mjs"))
	cmd.Stdin = bytes.NewReader(input)
	var complaints bytes.Buffer
	cmd.Stderr = &complaints
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%v\n%s", err, complaints.String())
	}
	if err := json.Unmarshal(out, &result); err != nil {
		t.Fatal(err)
	}
	return result
}

// What the page answers is to the byte what the command and the tables are made with, within a frame, from a module of less than 550 kB:
// it decides for itself, so that what travels beside it are the facts alone, two thirds of what a table of every verdict took.
func TestModule(t *testing.T) {
	m, _, err := manual.Read(t.Context(), os.DirFS("../../../../content"))
	if err != nil {
		t.Fatal(err)
	}
	sheet := markup.Sheet{Table: relate.Table(m)}
	var requests, want []string
	for i, material := range sheet.Table.Materials {
		soil := sheet.Table.Soils[i%len(sheet.Table.Soils)].Name
		for _, r := range []string{"\x1f\x1fwash-1\x1f" + material.Name, "US\x1f" + soil + "\x1fwash-2\x1f" + material.Name + "\x1fcarbon-steel", "SI\x1f" + soil + "\x1f\x1f" + material.Name} {
			requests, want = append(requests, r), append(want, sheet.Reply(r))
		}
	}
	for _, r := range []string{"", "\x1f", "\x1f\x1f\x1f\x1f", "€\x1f🧽\x1f\x00"} {
		requests, want = append(requests, r), append(want, sheet.Reply(r))
	}
	path := build(t)
	got := run(t, path, sheet.Pack(), requests)
	if got.Opened != 0 {
		t.Fatal("the module does not open the sheet")
	}
	for i := range want {
		if got.Replies[i] != want[i] {
			t.Errorf("%q in the module is\n%s\nwant\n%s", requests[i], got.Replies[i], want[i])
		}
	}
	t.Logf("%.2f ms an answer", got.Took)
	if got.Took > 16 {
		t.Errorf("an answer takes %.1f ms", got.Took)
	}
	if bad := run(t, path, []byte("no sheet"), []string{requests[0]}); bad.Opened != -1 || bad.Replies[0] != "none" {
		t.Errorf("of what is no sheet the module makes %+v", bad)
	}

	module, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	var small bytes.Buffer
	w := brotli.NewWriterLevel(&small, brotli.BestCompression)
	if _, err := w.Write(module); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	t.Logf("%d bytes, brotli %d", len(module), small.Len())
	if small.Len() >= 550_000 {
		t.Errorf("the module takes %d bytes with brotli, 550 000 are allowed", small.Len())
	}
}
