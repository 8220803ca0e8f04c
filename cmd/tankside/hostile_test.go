package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"tankside/builder/finding"
)

// secret stands outside the manual, or in what must not get into an edition.
const secret = "TOP-SECRET-OUTSIDE"

// Input that is broken, or meant to break something: each is a finding that says where, publication stops, and the edition in place
// stays as it was.
func TestHostileManual(t *testing.T) {
	t.Parallel()
	article := func(body string) string { return strings.Replace(wax, "%s", body, 1) }
	bomb := "---\na: &a [x,x,x,x,x,x,x,x,x]\nb: &b [*a,*a,*a,*a,*a,*a,*a,*a,*a]\nc: &c [*b,*b,*b,*b,*b,*b,*b,*b,*b]\nd: [*c,*c,*c,*c,*c,*c,*c,*c,*c]\n---\n"
	model, published := newManual(t)
	must(t, "publish", model, "--to", published)
	for name, c := range map[string]struct {
		files map[string]string
		links map[string]string // name → where it leads, from the manual
		rule  string
	}{
		"50 MB file":          {files: map[string]string{"soils/wax.md": strings.Repeat("wax ", 50<<20/4)}, rule: "too-large"},
		"50 MB shop file":     {files: map[string]string{"shop.yaml": strings.Repeat("# x\n", 50<<20/4)}, rule: "too-large"},
		"invalid UTF-8":       {files: map[string]string{"soils/wax.md": article("Wax \xff\xfe.")}, rule: "unreadable-file"},
		"NUL bytes":           {files: map[string]string{"soils/wax.md": article("Wax \x00.")}, rule: "unreadable-file"},
		"YAML bomb":           {files: map[string]string{"soils/wax.md": bomb}, rule: "unreadable-yaml"},
		"YAML bomb, shop":     {files: map[string]string{"shop.yaml": strings.ReplaceAll(bomb, "---\n", "")}, rule: "unreadable-yaml"},
		"script":              {files: map[string]string{"soils/wax.md": article("<script>alert(1)</script>")}, rule: "raw-html"},
		"javascript link":     {files: map[string]string{"soils/wax.md": article("[wax](javascript:alert(1))")}, rule: "unsafe-link"},
		"link out":            {files: map[string]string{"soils/wax.md": article("[wax](../../secret.md)")}, rule: "link-out-of-manual"},
		"picture out":         {files: map[string]string{"soils/wax.md": article("![wax](../../secret.svg)")}, rule: "missing-picture"},
		"symbolic link":       {links: map[string]string{"soils/wax.md": "../../secret.md"}, rule: "not-a-file"},
		"linked folder":       {links: map[string]string{"parts": "../outside"}, rule: "not-a-file"},
		"two of one address":  {files: map[string]string{"soils/wax.md": article("One."), "soils/Wax.md": article("Two.")}, rule: "same-address"},
		"picture with script": {files: map[string]string{"pictures/wax.svg": `<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>`}, rule: "unsafe-picture"},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			dir := t.TempDir()
			folder, edition := filepath.Join(dir, "content"), filepath.Join(dir, "edition")
			if err := errors.Join(os.CopyFS(folder, os.DirFS(model)), os.CopyFS(edition, os.DirFS(published))); err != nil {
				t.Fatal(err)
			}
			before, err := os.ReadFile(filepath.Join(edition, "edition.json"))
			if err != nil {
				t.Fatal(err)
			}
			put := func(name, text string) {
				if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
					t.Fatal(err)
				}
				if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			put(filepath.Join(folder, "..", "secret.md"), article(secret))
			put(filepath.Join(folder, "..", "secret.svg"), "<svg xmlns=\"http://www.w3.org/2000/svg\"><title>"+secret+"</title></svg>")
			put(filepath.Join(folder, "..", "outside", "part.md"), article(secret))
			for name, text := range c.files {
				put(filepath.Join(folder, filepath.FromSlash(name)), text)
			}
			for name, to := range c.links {
				if err := os.Symlink(filepath.FromSlash(to), filepath.Join(folder, filepath.FromSlash(name))); err != nil {
					t.Skipf("no symbolic links here: %v", err)
				}
			}

			d, out, notes := desk("")
			if code := run(t.Context(), []string{"proof", folder, "--json"}, d); code != exitFindings {
				t.Fatalf("proof: exit status %d\n%s", code, notes)
			}
			var findings []finding.Finding
			if err := json.Unmarshal([]byte(out.String()), &findings); err != nil {
				t.Fatal(err)
			}
			found := false
			for _, f := range findings {
				if string(f.Rule) == c.rule {
					found = true
					if f.File == "" || f.Message == "" || f.Why == "" || f.Remedy == "" || !f.Severity.Stops() {
						t.Errorf("a finding that does not help: %+v", f)
					}
				}
				if len(f.Message) > 500 {
					t.Errorf("a message of %d bytes", len(f.Message))
				}
			}
			if !found {
				t.Errorf("no %s among %s", c.rule, out)
			}

			d, _, notes = desk("")
			if code := run(t.Context(), []string{"publish", folder, "--to", edition}, d); code != exitFindings {
				t.Errorf("publish: exit status %d\n%s", code, notes)
			}
			after, err := os.ReadFile(filepath.Join(edition, "edition.json"))
			if err != nil || !bytes.Equal(before, after) {
				t.Errorf("the edition in place was changed: %v", err)
			}
			must(t, "verify", edition)
			if err := filepath.WalkDir(edition, func(name string, e fs.DirEntry, err error) error {
				if err != nil || e.IsDir() {
					return err
				}
				data, err := os.ReadFile(name)
				if bytes.Contains(data, []byte(secret)) {
					t.Errorf("%s holds something from outside the manual", name)
				}
				return err
			}); err != nil {
				t.Fatal(err)
			}
		})
	}
}
