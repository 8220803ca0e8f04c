package edition

import (
	"bytes"
	"compress/gzip"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/andybalholm/brotli"
)

// publish writes an edition with the files into dir.
func publish(t *testing.T, dir string, number int, files map[string]string) List {
	t.Helper()
	w, err := BeginIn(nil, dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range slices.Sorted(maps.Keys(files)) {
		if err := w.Add(name, []byte(files[name])); err != nil {
			t.Fatal(err)
		}
	}
	l, err := w.Commit(List{Shop: "Test", Mark: Mark{Edition: number, Date: "2026-12-01"}}, []byte("// worker"))
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// tree reads a folder whole.
func tree(t *testing.T, dir string) map[string]string {
	t.Helper()
	got := map[string]string{}
	err := fs.WalkDir(os.DirFS(dir), ".", func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		if e.Type()&fs.ModeSymlink != 0 {
			got[path], err = os.Readlink(filepath.Join(dir, path))
			return err
		}
		data, err := os.ReadFile(filepath.Join(dir, path))
		got[path] = string(data)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return got
}

// beside lists what stands in the parent folder of an edition, the lock apart.
func beside(t *testing.T, dir string) []string {
	t.Helper()
	entries, err := os.ReadDir(filepath.Dir(dir))
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, e := range entries {
		if !strings.HasSuffix(e.Name(), ".lock") {
			names = append(names, e.Name())
		}
	}
	return names
}

func long(s string) string { return strings.Repeat(s+" ", 400) }

func TestCommitReplacesTheOldEditionWhole(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "edition")
	publish(t, dir, 1, map[string]string{"index.html": "one", "old.html": "gone after"})
	publish(t, dir, 2, map[string]string{"index.html": "two", "soils/wax.html": "wax"})
	got := tree(t, dir)
	if got["index.html"] != "two" || got["soils/wax.html"] != "wax" {
		t.Errorf("the new edition is not whole: %v", slices.Sorted(maps.Keys(got)))
	}
	if _, still := got["old.html"]; still {
		t.Error("a file of the old edition is in the new one")
	}
	if names := beside(t, dir); len(names) != 1 {
		t.Errorf("beside the edition stand %v", names)
	}
}

func TestAbandonLeavesTheOldEdition(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "edition")
	publish(t, dir, 1, map[string]string{"index.html": "one"})
	before := tree(t, dir)
	w, err := BeginIn(nil, dir)
	if err != nil {
		t.Fatal(err)
	}
	if err := w.Add("index.html", []byte("half")); err != nil {
		t.Fatal(err)
	}
	if err := w.Abandon(); err != nil {
		t.Fatal(err)
	}
	if after := tree(t, dir); !maps.Equal(before, after) {
		t.Error("an abandoned edition changed the old one")
	}
	if names := beside(t, dir); len(names) != 1 {
		t.Errorf("beside the edition stand %v", names)
	}
}

// A crash can leave a half-written folder, and between the two renames of a swap no edition at all.
func TestBeginMendsWhatACrashLeft(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "edition")
	publish(t, dir, 1, map[string]string{"index.html": "one"})
	crash(t, dir, func(w *Writer) {
		if err := w.Add("soils/wax.html", []byte("half")); err != nil {
			t.Fatal(err)
		}
		before := w.lock.fresh("before")
		if err := errors.Join(w.lock.note(before, aside), os.Rename(dir, before)); err != nil {
			t.Fatal(err)
		}
	})
	w, err := BeginIn(nil, dir)
	if err != nil {
		t.Fatal(err)
	}
	if err := w.Abandon(); err != nil {
		t.Fatal(err)
	}
	if got := tree(t, dir); got["index.html"] != "one" {
		t.Error("the old edition did not come back")
	}
	if names := beside(t, dir); len(names) != 1 {
		t.Errorf("beside the edition stand %v", names)
	}
}

// crash begins an edition and ends without putting anything in order, as a process does that is killed.
func crash(t *testing.T, dir string, doing func(*Writer)) {
	t.Helper()
	w, err := BeginIn(nil, dir)
	if err != nil {
		t.Fatal(err)
	}
	doing(w)
	if err := w.lock.file.Close(); err != nil {
		t.Fatal(err)
	}
}

func TestSwapByRename(t *testing.T) {
	parent := t.TempDir()
	dir, coming, before := filepath.Join(parent, "edition"), filepath.Join(parent, "coming"), filepath.Join(parent, "before")
	for _, had := range []bool{false, true} {
		if err := os.MkdirAll(coming, 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(coming, "x"), fmt.Append(nil, had), 0o644); err != nil {
			t.Fatal(err)
		}
		old, err := swapByRename(coming, dir, before)
		if err != nil || (old == before) != had {
			t.Fatal(old, err)
		}
		if err := os.RemoveAll(before); err != nil {
			t.Fatal(err)
		}
		if got := tree(t, dir); got["x"] != fmt.Sprint(had) {
			t.Errorf("with an old edition %v: %v", had, got)
		}
	}
	// Nothing to put in place: the old one must come back.
	if _, err := swapByRename(coming, dir, before); err == nil {
		t.Error("a swap with nothing succeeded")
	}
	if got := tree(t, dir); got["x"] != "true" {
		t.Error("a failed swap lost the old edition")
	}
}

func TestBeginRefusesAForeignFolder(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "photos")
	if err := os.MkdirAll(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, "holiday.jpg"), []byte("precious"), 0o644); err != nil {
		t.Fatal(err)
	}
	if _, err := BeginIn(nil, dir); err == nil || !strings.Contains(err.Error(), "not an edition") {
		t.Errorf("Begin over a foreign folder: %v", err)
	}
	if got := tree(t, dir); got["holiday.jpg"] != "precious" {
		t.Error("the foreign folder was touched")
	}
}

func TestAddKeepsInside(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "edition")
	w, err := BeginIn(nil, dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"../out.html", "/etc/out", "", ".", "a/../../b", "a//b"} {
		if err := w.Add(name, []byte("x")); err == nil {
			t.Errorf("Add(%q) was accepted", name)
		}
	}
	if err := w.Abandon(); err != nil {
		t.Fatal(err)
	}
}

func TestSameFilesSameBytes(t *testing.T) {
	files := map[string]string{"index.html": long("hello"), "assets/a.css": long("p{}"), "soils/wax.html": "wax", "assets/big.js": strings.Repeat(long("words"), 200)}
	a, b := filepath.Join(t.TempDir(), "edition"), filepath.Join(t.TempDir(), "edition")
	publish(t, a, 1, files)
	// The second time the files come from many goroutines, in no order.
	w, err := BeginIn(nil, b)
	if err != nil {
		t.Fatal(err)
	}
	var wg sync.WaitGroup
	for name, data := range files {
		wg.Go(func() {
			if err := w.Add(name, []byte(data)); err != nil {
				t.Error(err)
			}
		})
	}
	wg.Wait()
	if _, err := w.Commit(List{Shop: "Test", Mark: Mark{Edition: 1, Date: "2026-12-01"}}, []byte("// worker")); err != nil {
		t.Fatal(err)
	}
	if !maps.Equal(tree(t, a), tree(t, b)) {
		t.Error("two editions of the same files differ")
	}
}

// The compressed neighbours must unpack to the file itself (RFC 1952, RFC 7932, through the libraries' own readers).
func TestNeighboursUnpack(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "edition")
	files := map[string]string{"index.html": long("hello"), "assets/a.js": long("f()")}
	publish(t, dir, 1, files)
	got := tree(t, dir)
	for name, want := range files {
		zr, err := gzip.NewReader(strings.NewReader(got[name+".gz"]))
		if err != nil {
			t.Fatalf("%s.gz: %v", name, err)
		}
		readers := map[string]io.Reader{".gz": zr}
		if br, has := got[name+".br"]; has != strings.HasPrefix(name, "assets/") {
			t.Errorf("%s has a brotli neighbour: %v", name, has)
		} else if has {
			readers[".br"] = brotli.NewReader(strings.NewReader(br))
		}
		for ext, r := range readers {
			data, err := io.ReadAll(r)
			if err != nil || !bytes.Equal(data, []byte(want)) {
				t.Errorf("%s%s unpacks to something else: %v", name, ext, err)
			}
		}
	}
}

func TestVerifyFindsEveryDamage(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "edition")
	publish(t, dir, 7, map[string]string{"index.html": long("hello"), "soils/wax.html": "wax", "soils/oil.html": "oil"})
	check := func() Report {
		t.Helper()
		r, err := Verify(context.Background(), os.DirFS(dir))
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	if r := check(); !r.OK || r.Mark.Edition != 7 {
		t.Fatalf("a fresh edition: %+v", r)
	}
	write := func(name, data string) {
		t.Helper()
		if err := os.WriteFile(filepath.Join(dir, name), []byte(data), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	write("soils/wax.html", "wux")
	write("index.html.gz", "not the neighbour")
	write("soils/virus.exe", "MZ")
	if err := os.Remove(filepath.Join(dir, "soils/oil.html")); err != nil {
		t.Fatal(err)
	}
	r := check()
	if r.OK || !slices.Equal(r.Damaged, []string{"index.html.gz", "soils/wax.html"}) ||
		!slices.Equal(r.Missing, []string{"soils/oil.html"}) || !slices.Equal(r.Extra, []string{"soils/virus.exe"}) {
		t.Errorf("%+v", r)
	}
	if err := os.Remove(filepath.Join(dir, ListName)); err != nil {
		t.Fatal(err)
	}
	if _, err := Verify(context.Background(), os.DirFS(dir)); !errors.Is(err, ErrNotEdition) {
		t.Errorf("without a list: %v", err)
	}
}
