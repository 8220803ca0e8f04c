package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// The command holds a conversation over standard input and output, and ends as the protocol says.
func TestLanguageServerOverTheCommandLine(t *testing.T) {
	t.Parallel()
	folder := t.TempDir()
	below := filepath.Join(folder, usualManual)
	if err := os.MkdirAll(filepath.Join(below, "soils"), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(below, "shop.yaml"), []byte("name: Shop\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	if got, ok := manualOf(folder); !ok || got != below {
		t.Errorf("the manual of a folder that holds content: %s, %v", got, ok)
	}
	if got, ok := manualOf(filepath.Join(below, "soils", "new.md")); !ok || got != below {
		t.Errorf("the manual of a file that is not there yet: %s, %v", got, ok)
	}
	messages := func(contents ...string) string {
		var b strings.Builder
		for _, c := range contents {
			fmt.Fprintf(&b, "Content-Length: %d\r\n\r\n%s", len(c), c)
		}
		return b.String()
	}
	begin := `{"jsonrpc":"2.0","id":1,"method":"initialize","params":{"capabilities":{}}}`
	env := func(string) string { return "" }
	var out, problems strings.Builder
	code := Run([]string{"language-server", below}, strings.NewReader(messages(begin, `{"jsonrpc":"2.0","method":"initialized","params":{}}`,
		`{"jsonrpc":"2.0","id":2,"method":"shutdown"}`, `{"jsonrpc":"2.0","method":"exit"}`)), &out, &problems, env)
	if code != exitDone || problems.String() != "" || !strings.HasPrefix(out.String(), "Content-Length: ") || !strings.Contains(out.String(), `{"jsonrpc":"2.0","id":2,"result":null}`) {
		t.Errorf("%d, %s%s", code, out.String(), problems.String())
	}
	if code := Run([]string{"language-server"}, strings.NewReader(messages(begin)), &out, &problems, env); code != exitUnusable {
		t.Errorf("an editor that goes away without a word: %d", code)
	}
}
