package builder

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"tankside/builder/finding"
)

// Whatever a shop puts into its own theme, what the proof passes can be published; what cannot is one finding, of the file that is to be put right,
// in the proof and in the publication, and the edition in place stays.
func TestThemeThatCannotBeUsedIsFound(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ file, text, at string }{
		{"theme", "x", "theme"},
		{"theme/templates", "x", "theme/templates"},
		{"theme/templates/page.html", "\n{{range}}", "theme/templates/page.html:2:1"},
		{"theme/templates/page.html", "\xff{{define \"x", "theme/templates/page.html:1:1"},
		{"theme/templates/page.html", "<a href='{{if .Root}}'>{{end}}", "theme/templates/page.html:1:1"},
		{"theme/templates/article.html", "", "theme/templates/article.html"},
		{"theme/templates/article.html", "{{define \"content\"}}\n{{index .Content 9}}{{end}}", "theme/templates/article.html:2:1"},
		{"theme/templates/home.html", "{{template \"none\"}}", "theme/templates/home.html"},
		{"theme/templates/parts.html", "", "theme/templates"},
		{"theme/templates/paper-article.html", "{{define \"content\"}}{{.Nope}}{{end}}", "theme/templates/paper-article.html:1:1"},
		{"theme/styles", "x", "theme/styles"},
		{"theme/words", "x", "theme/words"},
		{"theme/drawings", "x", "theme/drawings"},
	} {
		t.Run(c.file+" "+c.text, func(t *testing.T) {
			t.Parallel()
			src, _ := manualOfTwo(t)
			to := filepath.Join(t.TempDir(), "edition")
			theme(t, src, c.file, c.text)
			_, list, err := Proof(t.Context(), src, day)
			if err != nil {
				t.Fatal(err)
			}
			r, err := publish(t, src, to, day)
			if !errors.Is(err, ErrStopped) {
				t.Errorf("publish: %v", err)
			}
			for _, list := range [][]finding.Finding{list, r.Findings} {
				if finding.Stopping(list) != 1 {
					t.Fatalf("%d findings: %v", len(list), list)
				}
				for _, f := range list {
					if f.Severity.Stops() && (f.Rule != "unusable-theme" || !strings.HasPrefix(f.Place.String(), c.at)) {
						t.Errorf("got %s %s: %s", f.Rule, f.Place, f.Message)
					}
				}
			}
			if _, err := os.Lstat(to); err == nil {
				t.Error("something was published")
			}
		})
	}
}

// theme puts a file into a manual.
func theme(t *testing.T, src, file, text string) {
	t.Helper()
	at := filepath.Join(src, filepath.FromSlash(file))
	if err := errors.Join(os.MkdirAll(filepath.Dir(at), 0o755), os.WriteFile(at, []byte(text), 0o644)); err != nil {
		t.Fatal(err)
	}
}

// Files that pages can be made with, whatever is in them, stop nothing.
func TestThemeThatProofPassesIsPublished(t *testing.T) {
	t.Parallel()
	src, _ := manualOfTwo(t)
	for file, text := range map[string]string{
		"theme/drawings/line/wash.svg": "<svg", "theme/templates/x.html": "{{", "theme/styles/own.css": "a{\xff", "theme/scripts/find.js": "x(", "theme/scripts/sub/find.js": "x(",
		"theme/notes.txt": "x", "theme/wasm/search.wasm": "x", "theme/sets/desk": "x",
	} {
		theme(t, src, file, text)
	}
	_, list, err := Proof(t.Context(), src, day)
	if err != nil || finding.Stopping(list) > 0 {
		t.Fatal(list, err)
	}
	if r, err := publish(t, src, filepath.Join(t.TempDir(), "edition"), day); err != nil {
		t.Error(r.Findings, err)
	}
}
