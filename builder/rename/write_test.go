package rename

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// files of a manual in which four change and two move.
var small = map[string]string{
	"shop.yaml":        "name: S\nroles: [operator]\nseen-most: []\n",
	"glossary.yaml":    "wax: {means: w, article: soils/wax.md}\n",
	"soils/wax.md":     head + "x\n",
	"soils/wax.es.md":  "---\ntitle: T\n---\n[w](wax.md)\n",
	"soils/other.md":   head + "[w](wax.md)\n",
	"pictures/p.svg":   "<svg/>",
	".git/description": "none of the manual's",
}

const head = "---\ntitle: T\nsummary: S.\nstation: wash\nrevision: A\napproved: 2026-09-14, operator\nreview-by: 2027-09-14\nsources: [x]\nnature: wax\n---\n"

func onDisk(t *testing.T) (string, *os.Root) {
	t.Helper()
	dir := t.TempDir()
	for name, text := range small {
		at := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(at), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(at, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	root, err := os.OpenRoot(dir)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { root.Close() })
	return dir, root
}

func contents(t *testing.T, dir string) string {
	t.Helper()
	var b strings.Builder
	err := fs.WalkDir(os.DirFS(dir), ".", func(p string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() && !strings.HasPrefix(e.Name(), ".tankside") {
			return err
		}
		if e.IsDir() {
			b.WriteString(p + "/\n")
			return nil
		}
		data, err := os.ReadFile(filepath.Join(dir, p))
		b.WriteString(p + ":\n" + string(data))
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// Wherever a renaming stops, the next command finds the manual as it was, or brings it to its end: never half.
func TestStoppedAnywhere(t *testing.T) {
	t.Parallel()
	whole, root := onDisk(t)
	before := contents(t, whole)
	plan, err := For(t.Context(), root.FS(), "wax", "hard-wax")
	if err != nil {
		t.Fatal(err)
	}
	steps := 0
	if err := plan.write(root, func(string) error { steps++; return nil }); err != nil {
		t.Fatal(err)
	}
	after := contents(t, whole)
	if steps < 12 || before == after || strings.Contains(after, ".tankside") || !strings.Contains(after, "soils/hard-wax.es.md:") {
		t.Fatalf("%d steps, afterwards\n%s", steps, after)
	}
	stop := errors.New("stopped")
	was := map[bool]int{}
	for n := range steps {
		dir, root := onDisk(t)
		plan, err := For(t.Context(), root.FS(), "wax", "hard-wax")
		if err != nil {
			t.Fatal(err)
		}
		left := n
		err = plan.write(root, func(string) error {
			if left--; left < 0 {
				return stop
			}
			return nil
		})
		if !errors.Is(err, stop) {
			t.Fatalf("step %d: %v", n, err)
		}
		if _, err := Finish(root); err != nil {
			t.Fatalf("step %d: %v", n, err)
		}
		got := contents(t, dir)
		if begun := strings.Index(got, making+"/\n"); begun >= 0 { // what nobody reads and the next renaming takes away
			if err := root.RemoveAll(making); err != nil {
				t.Fatal(err)
			}
			got = contents(t, dir)
		}
		if got != before && got != after {
			t.Errorf("stopped at step %d, the manual is\n%s", n, got)
		}
		was[got == after]++
	}
	if was[true] == 0 || was[false] == 0 {
		t.Errorf("stopped anywhere it is always the same: %v", was)
	}
}

// A file that somebody saves meanwhile is not written over, and nothing else is renamed.
func TestChangedMeanwhile(t *testing.T) {
	t.Parallel()
	dir, root := onDisk(t)
	plan, err := For(t.Context(), root.FS(), "wax", "hard-wax")
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, "soils/other.md"), []byte(head+"saved\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	before := contents(t, dir)
	if err := plan.Write(root); err == nil || !strings.Contains(err.Error(), "soils/other.md has changed meanwhile") {
		t.Error(err)
	}
	if contents(t, dir) != before {
		t.Error("something was written")
	}
}

// A file keeps its mode, and a name may change in its capitals alone.
func TestModeAndCapitals(t *testing.T) {
	t.Parallel()
	dir, root := onDisk(t)
	if err := root.Rename("soils/other.md", "soils/Other.md"); err != nil {
		t.Fatal(err)
	}
	plan, err := For(t.Context(), root.FS(), "soils/Other.md", "other")
	if err != nil {
		t.Fatal(err)
	}
	if err := plan.Write(root); err != nil {
		t.Fatal(err)
	}
	info, err := os.Stat(filepath.Join(dir, "soils/other.md"))
	if err != nil || info.Mode().Perm() != 0o600 {
		t.Error(info, err)
	}
}
