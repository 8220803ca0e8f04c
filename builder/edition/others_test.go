package edition

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"
)

// put writes somebody's file, with the folders above it.
func put(t *testing.T, at, text string) {
	t.Helper()
	if err := errors.Join(os.MkdirAll(filepath.Dir(at), 0o755), os.WriteFile(at, []byte(text), 0o644)); err != nil {
		t.Fatal(err)
	}
}

// work puts files and folders of all sorts into an edition's folder, and gives a check that each is still there and still itself.
func work(t *testing.T, dir string) (still func(t *testing.T)) {
	t.Helper()
	names := []string{"bath-log.csv", ".hidden", "soils/notes.txt", "soils/mine/deep/er.txt", "logs/2026/a.csv", "old/left alone.txt", "index.html.orig"}
	for _, name := range names {
		put(t, filepath.Join(dir, name), "work "+name)
	}
	folders := []string{"empty", "soils/empty", "old/empty", "logs/empty"}
	for _, name := range folders {
		if err := os.MkdirAll(filepath.Join(dir, name), 0o750); err != nil {
			t.Fatal(err)
		}
	}
	if err := errors.Join(os.Symlink("bath-log.csv", filepath.Join(dir, "newest")), os.Symlink("../nowhere", filepath.Join(dir, "soils", "dangling")),
		os.Chmod(filepath.Join(dir, "logs"), 0o555), os.Chmod(filepath.Join(dir, "empty"), 0o700)); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.Chmod(filepath.Join(dir, "logs"), 0o755) }) // so that the test can remove it
	before := map[string]fs.FileInfo{}
	all := slices.Concat(names, folders, []string{"newest", "soils/dangling"})
	for _, name := range all {
		info, err := os.Lstat(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		before[name] = info
	}
	return func(t *testing.T) {
		t.Helper()
		for _, name := range all {
			info, err := os.Lstat(filepath.Join(dir, name))
			own := strings.HasPrefix(name, "old/") // a folder of an edition whose place somebody's files keep
			if err != nil || !own && (!os.SameFile(info, before[name]) || info.Mode() != before[name].Mode()) {
				t.Errorf("%s is not as it was: %v", name, err)
			}
		}
		for _, name := range names {
			if data, err := os.ReadFile(filepath.Join(dir, name)); err != nil || string(data) != "work "+name {
				t.Errorf("%s has %q, %v", name, data, err)
			}
		}
	}
}

// What an edition did not bring stays through the next ones: files, hidden or not, folders, empty or not, and links, wherever they lie; also
// in a folder that the next edition has no more.
func TestWorkOfOthersStays(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "edition")
	publish(t, dir, 1, map[string]string{"index.html": "one", "soils/wax.html": "wax", "old/page.html": "old"})
	still := work(t, dir)
	for n := 2; n < 5; n++ {
		publish(t, dir, n, map[string]string{"index.html": strings.Repeat("two", n), "soils/wax.html": "wax", "parts/shaft.html": long("shaft")})
		still(t)
		if names := beside(t, dir); len(names) != 1 {
			t.Fatalf("beside the edition stand %v", names)
		}
		if _, err := os.Lstat(filepath.Join(dir, "old", "page.html")); !errors.Is(err, fs.ErrNotExist) {
			t.Error("a page of the old edition is in the new one")
		}
	}
	r, err := Verify(context.Background(), os.DirFS(dir))
	if err != nil || len(r.Damaged)+len(r.Missing) > 0 {
		t.Error(r, err)
	}
}

// In a sitting too, in which the folder of the edition before becomes the next one.
func TestWorkOfOthersStaysInASitting(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "edition")
	s := &Sitting{}
	next := func(files map[string]string) Told {
		t.Helper()
		w, err := BeginIn(s, dir)
		if err != nil {
			t.Fatal(err)
		}
		for name, text := range files {
			if err := w.Add(name, []byte(text)); err != nil {
				t.Fatal(err)
			}
		}
		if _, err := w.Commit(List{}, nil); err != nil {
			t.Fatal(err)
		}
		return w.Told()
	}
	next(map[string]string{"index.html": "one", "soils/wax.html": "wax", "old/page.html": "old"})
	still := work(t, dir)
	for n := range 4 {
		told := next(map[string]string{"index.html": strings.Repeat("two", n), "soils/wax.html": "wax"})
		still(t)
		if len(told.Kept) == 0 || len(told.Aside)+len(told.Left) > 0 {
			t.Errorf("told %+v", told)
		}
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	still(t)
	if names := beside(t, dir); len(names) != 1 {
		t.Errorf("beside the edition stand %v", names)
	}
}

// What lies where the new edition has a file stops publication with name, size and date, and nothing is changed.
func TestWorkInTheWayIsRefused(t *testing.T) {
	for what, c := range map[string]struct {
		do   func(dir string) error
		name string
	}{
		"a page edited by hand":                      {func(dir string) error { return os.WriteFile(filepath.Join(dir, "index.html"), []byte("mine"), 0o644) }, "index.html (4 bytes, changed "},
		"an edited page that the next edition lacks": {func(dir string) error { return os.WriteFile(filepath.Join(dir, "old", "page.html"), nil, 0o644) }, "old/page.html (0 bytes"},
		"a compressed neighbour": {func(dir string) error {
			return os.WriteFile(filepath.Join(dir, "assets", "a.js.gz"), []byte("x"), 0o644)
		}, "assets/a.js.gz (1 bytes"},
		"a file of a new name": {func(dir string) error { return os.WriteFile(filepath.Join(dir, "new.html"), []byte("mine"), 0o644) }, "new.html (4 bytes, "},
		"capitals apart":       {func(dir string) error { return os.WriteFile(filepath.Join(dir, "New.HTML"), []byte("mine"), 0o644) }, "New.HTML (4 bytes, "},
		"accents apart": {func(dir string) error {
			return os.WriteFile(filepath.Join(dir, "cafe\u0301.html"), []byte("mine"), 0o644)
		}, "cafe\u0301.html (4 bytes, "},
		"a file where a folder is to be": {func(dir string) error { return os.WriteFile(filepath.Join(dir, "Parts"), []byte("mine"), 0o644) }, "Parts (4 bytes, "},
		"a folder where a file is to be": {func(dir string) error { return os.MkdirAll(filepath.Join(dir, "new.html", "x"), 0o755) }, "new.html (folder, "},
		"a link in a page's place": {func(dir string) error {
			return errors.Join(os.Rename(filepath.Join(dir, "index.html"), filepath.Join(dir, "was.html")), os.Symlink("was.html", filepath.Join(dir, "index.html")))
		}, "index.html ("},
		"a link in a folder's place": {func(dir string) error {
			return errors.Join(os.Rename(filepath.Join(dir, "assets"), filepath.Join(dir, "was")), os.Symlink("was", filepath.Join(dir, "assets")))
		}, "assets ("},
	} {
		t.Run(what, func(t *testing.T) {
			dir := filepath.Join(t.TempDir(), "edition")
			publish(t, dir, 1, map[string]string{"index.html": "one", "old/page.html": "old", "assets/a.js": long("f()")})
			if err := c.do(dir); err != nil {
				t.Fatal(err)
			}
			before := tree(t, dir)
			w, err := BeginIn(nil, dir)
			if err != nil {
				t.Fatal(err)
			}
			for _, name := range []string{"index.html", "new.html", "parts/shaft.html", "caf\u00e9.html", "assets/a.js"} {
				if err := w.Add(name, []byte(long("two"))); err != nil {
					t.Fatal(err)
				}
			}
			_, err = w.Commit(List{Mark: Mark{Edition: 2}}, nil)
			var way *InTheWayError
			if !errors.As(err, &way) || !strings.Contains(err.Error(), c.name) {
				t.Errorf("got %v", err)
			}
			if !maps.Equal(before, tree(t, dir)) {
				t.Error("the folder was changed")
			}
			if names := beside(t, dir); len(names) != 1 {
				t.Errorf("beside the edition stand %v", names)
			}
		})
	}
}

// A list that no edition has written makes nothing ours.
func TestFolderWithAListThatIsNoneIsRefused(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "edition")
	publish(t, dir, 1, map[string]string{"index.html": "one"})
	good, err := os.ReadFile(filepath.Join(dir, ListName))
	if err != nil {
		t.Fatal(err)
	}
	for _, list := range []string{`{"name":"x"}`, `{}`, `null`, ``, `[1]`, "{", string(good) + " ", strings.Replace(string(good), `"path"`, `"Path"`, 1), strings.ReplaceAll(string(good), "index.html", "../../x.html")} {
		put(t, filepath.Join(dir, ListName), list)
		put(t, filepath.Join(dir, "thesis.txt"), "years of work")
		before := tree(t, dir)
		_, err := BeginIn(nil, dir)
		var way *InTheWayError
		if !errors.As(err, &way) || !strings.Contains(err.Error(), "thesis.txt (13 bytes, ") {
			t.Errorf("with the list %.40q: %v", list, err)
		}
		if !maps.Equal(before, tree(t, dir)) {
			t.Errorf("with the list %.40q the folder was changed", list)
		}
	}
}

// Every flipped bit of the list is noticed.
func TestListHoldsItself(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "edition")
	publish(t, dir, 1, map[string]string{"index.html": long("one")})
	good, err := os.ReadFile(filepath.Join(dir, ListName))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := parseList(good); err != nil {
		t.Fatal(err)
	}
	for i := range good {
		for bit := range 8 {
			bad := slices.Clone(good)
			bad[i] ^= 1 << bit
			if _, err := parseList(bad); err == nil {
				t.Errorf("bit %d of byte %d, %q: not noticed", bit, i, good[max(0, i-20):min(len(good), i+20)])
			}
		}
	}
}

// What comes while an edition is put in place is kept: where it lay, or beside the edition where the new one has such a file.
func TestWhatComesMeanwhileIsKept(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "edition")
	publish(t, dir, 1, map[string]string{"index.html": "one", "soils/wax.html": "wax"})
	w, err := BeginIn(nil, dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"index.html", "new.html"} {
		if err := w.Add(name, []byte("two")); err != nil {
			t.Fatal(err)
		}
	}
	l, err := w.complete(List{Mark: Mark{Edition: 2}}, nil)
	if err != nil {
		t.Fatal(err)
	}
	had, err := w.inspect(&l)
	if err != nil {
		t.Fatal(err)
	}
	put(t, filepath.Join(dir, "log.csv"), "fresh")
	put(t, filepath.Join(dir, "soils", "log.csv"), "fresh")
	put(t, filepath.Join(dir, "new.html"), "mine")
	put(t, filepath.Join(dir, "index.html"), "edited")
	if err := w.lock.note(w.coming, leaving); err != nil {
		t.Fatal(err)
	}
	old, err := swap(w.coming, dir, w.lock.fresh("before"))
	if err != nil {
		t.Fatal(err)
	}
	w.lock.clear(old, had.list, had.own, false, &w.told)
	if err := w.lock.release(); err != nil {
		t.Fatal(err)
	}
	got := tree(t, dir)
	if got["log.csv"] != "fresh" || got["soils/log.csv"] != "fresh" || got["new.html"] != "two" || got["index.html"] != "two" {
		t.Errorf("%v", got)
	}
	texts := map[string]bool{}
	for _, name := range w.Told().Aside {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		texts[string(data)] = true
	}
	if len(texts) != 2 || !texts["mine"] || !texts["edited"] {
		t.Errorf("kept aside: %v", w.Told().Aside)
	}
	publish(t, dir, 3, map[string]string{"index.html": "three"})
	for _, name := range w.Told().Aside {
		if _, err := os.Stat(name); err != nil {
			t.Errorf("the next publication removed it: %v", err)
		}
	}
}

// A crash right after the swap leaves somebody's folder in the old edition's; the next publication brings it back.
func TestCrashAfterTheSwapLosesNothing(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "edition")
	publish(t, dir, 1, map[string]string{"index.html": "one", "soils/wax.html": "wax", "old/page.html": "old"})
	still := work(t, dir)
	crash(t, dir, func(w *Writer) {
		if err := w.Add("index.html", []byte("two")); err != nil {
			t.Fatal(err)
		}
		l, err := w.complete(List{Mark: Mark{Edition: 2}}, nil)
		if err != nil {
			t.Fatal(err)
		}
		had, err := w.inspect(&l)
		if err != nil {
			t.Fatal(err)
		}
		if err := w.lock.note(w.coming, leaving); err != nil {
			t.Fatal(err)
		}
		w.lend(had)
		if _, err := swap(w.coming, dir, w.lock.fresh("before")); err != nil {
			t.Fatal(err)
		}
	})
	if data, err := os.ReadFile(filepath.Join(dir, "bath-log.csv")); err != nil || len(data) == 0 {
		t.Errorf("a file was gone in the meantime: %v", err)
	}
	publish(t, dir, 3, map[string]string{"index.html": "three"})
	still(t)
	if names := beside(t, dir); len(names) != 1 {
		t.Errorf("beside the edition stand %v", names)
	}
}

// What somebody has given a name like ours is his.
func TestFoldersWithOurNamesAreLeftAlone(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "edition")
	parent := filepath.Dir(dir)
	names := []string{".edition.before", ".edition.coming-1", ".edition.coming-mine", ".edition.before-X", "edition-kept-1"}
	for _, name := range names {
		put(t, filepath.Join(parent, name, "work.txt"), name)
	}
	if err := os.Mkdir(filepath.Join(parent, ".edition.coming-"), 0o755); err != nil {
		t.Fatal(err)
	}
	for n := range 3 {
		publish(t, dir, n+1, map[string]string{"index.html": strings.Repeat("x", n)})
	}
	for _, name := range names {
		if data, err := os.ReadFile(filepath.Join(parent, name, "work.txt")); err != nil || string(data) != name {
			t.Errorf("%s: %q, %v", name, data, err)
		}
	}
	if got := beside(t, dir); len(got) != len(names)+2 {
		t.Errorf("beside the edition stand %v", got)
	}
	if err := os.RemoveAll(dir); err != nil {
		t.Fatal(err)
	}
	publish(t, dir, 9, map[string]string{"index.html": "again"}) // .edition.before is not brought back
	if got := tree(t, dir); got["work.txt"] != "" || got["index.html"] != "again" {
		t.Errorf("%v", got)
	}
}

func TestLockOfSomebodyElseIsLeftAlone(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "edition")
	name := filepath.Join(filepath.Dir(dir), ".edition.lock")
	for _, text := range []string{"my notes", "my notes\n", "growing ../../home\n", "growing .edition.x/../../y\n", "growing .other.coming-1\n", "leaving edition\n"} {
		put(t, name, text)
		if _, err := BeginIn(nil, dir); err == nil || !strings.Contains(err.Error(), "not the lock of a publication") {
			t.Errorf("%q: %v", text, err)
		}
		if data, err := os.ReadFile(name); err != nil || string(data) != text {
			t.Errorf("%q has become %q, %v", text, data, err)
		}
	}
	if err := errors.Join(os.Remove(name), os.Symlink("somewhere.txt", name)); err != nil {
		t.Fatal(err)
	}
	if _, err := BeginIn(nil, dir); err == nil || !strings.Contains(err.Error(), "not the lock of a publication") {
		t.Errorf("a symbolic link: %v", err)
	}
	if _, err := os.Lstat(filepath.Join(filepath.Dir(name), "somewhere.txt")); err == nil {
		t.Error("what the link leads to was made")
	}
	if err := os.Remove(name); err != nil {
		t.Fatal(err)
	}
	for _, text := range []string{"growing .edition.coming-X\nlea", "gro"} { // a crash while it was written
		put(t, name, text)
		publish(t, dir, 1, map[string]string{"index.html": "one"})
		if data, err := os.ReadFile(name); err != nil || len(data) > 0 {
			t.Errorf("%q has become %q, %v", text, data, err)
		}
	}
}

// A symbolic link stays, and what it leads to is published into, there already or not.
func TestPublishThroughALink(t *testing.T) {
	parent := t.TempDir()
	link, other := filepath.Join(parent, "edition"), filepath.Join(parent, "elsewhere")
	if err := errors.Join(os.Mkdir(other, 0o755), os.Symlink(filepath.Join("elsewhere", "live"), link), os.Symlink("edition", filepath.Join(parent, "second"))); err != nil {
		t.Fatal(err)
	}
	for n, to := range []string{link, link, filepath.Join(parent, "second")} {
		publish(t, to, n+1, map[string]string{"index.html": strings.Repeat("x", n+1)})
		if got := tree(t, filepath.Join(other, "live")); got["index.html"] != strings.Repeat("x", n+1) {
			t.Errorf("through %s: %v", to, got["index.html"])
		}
		if info, err := os.Lstat(to); err != nil || info.Mode()&fs.ModeSymlink == 0 {
			t.Errorf("%s is no link any more: %v", to, err)
		}
	}
	if err := os.Symlink("round", filepath.Join(parent, "round")); err != nil {
		t.Fatal(err)
	}
	if _, err := BeginIn(nil, filepath.Join(parent, "round")); err == nil || !strings.Contains(err.Error(), "leads to no folder") {
		t.Errorf("a link to itself: %v", err)
	}
}

// A file in the edition's place is not taken for one.
func TestFileInTheFoldersPlaceIsRefused(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "edition")
	put(t, dir, "work")
	if _, err := BeginIn(nil, dir); err == nil || !strings.Contains(err.Error(), "is a file") {
		t.Error(err)
	}
}

func TestVerifySeesLinks(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("links take a permission on Windows")
	}
	dir := filepath.Join(t.TempDir(), "edition")
	publish(t, dir, 1, map[string]string{"index.html": "one", "soils/wax.html": "wax"})
	if err := errors.Join(os.Rename(filepath.Join(dir, "index.html"), dir+".html"), os.Symlink("../edition.html", filepath.Join(dir, "index.html")),
		os.Rename(filepath.Join(dir, "soils"), dir+".soils"), os.Symlink("../edition.soils", filepath.Join(dir, "soils"))); err != nil {
		t.Fatal(err)
	}
	r, err := Verify(context.Background(), os.DirFS(dir))
	if err != nil || r.OK || !slices.Equal(r.Damaged, []string{"index.html", "soils/wax.html"}) || !slices.Equal(r.Extra, []string{"soils"}) {
		t.Errorf("%+v, %v", r, err)
	}
}

// While editions are put in place one after the other, each comparison is of one of them.
func TestVerifyDuringPublications(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "edition")
	files := map[string]string{"index.html": "one"}
	for i := range 60 {
		files[fmt.Sprintf("soils/%d.html", i)] = "x"
	}
	publish(t, dir, 1, files)
	done := make(chan struct{})
	var wg sync.WaitGroup
	wg.Go(func() {
		for n := 0; ; n++ {
			select {
			case <-done:
				return
			default:
				files["index.html"] = strings.Repeat("y", n)
				publish(t, dir, n, files)
			}
		}
	})
	for range 100 {
		if r, err := Verify(t.Context(), os.DirFS(dir)); err != nil || !r.OK {
			t.Errorf("%+v, %v", r, err)
		}
	}
	close(done)
	wg.Wait()
}

// An edition whose list was written before lists had a checksum of themselves is one all the same.
func TestOlderListsAreKnown(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "edition")
	l := publish(t, dir, 1, map[string]string{"index.html": "one"})
	l.Check = ""
	data, err := l.bytes()
	if err != nil {
		t.Fatal(err)
	}
	put(t, filepath.Join(dir, ListName), string(data))
	publish(t, dir, 2, map[string]string{"index.html": "two"})
	if got := tree(t, dir); got["index.html"] != "two" {
		t.Errorf("%v", got)
	}
}
