package edition

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// intrude puts somebody's files into a folder in which an edition grows: beside what is written, in a folder of it, in folders of their own, and
// with names that the next edition has.
func intrude(t *testing.T, folder string) map[string]string {
	t.Helper()
	texts := map[string]string{}
	for _, name := range []string{"log.csv", ".hidden", "soils/log.csv", "mine/deep/log.csv", "new.html", ".edition.json.mine"} {
		put(t, filepath.Join(folder, name), "work "+name)
		texts["work "+name] = name
	}
	if err := os.Symlink("log.csv", filepath.Join(folder, "newest")); err != nil {
		t.Fatal(err)
	}
	return texts
}

// stillThere looks for somebody's texts in everything beside and in the edition.
func stillThere(t *testing.T, dir string, texts map[string]string) {
	t.Helper()
	found, links := map[string]bool{}, 0
	err := filepath.WalkDir(filepath.Dir(dir), func(at string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		if e.Type()&fs.ModeSymlink != 0 {
			links++
			return nil
		}
		data, err := os.ReadFile(at)
		found[string(data)] = true
		return err
	})
	if err != nil || links != 1 {
		t.Errorf("%d links, %v", links, err)
	}
	for text, name := range texts {
		if !found[text] {
			t.Errorf("%s is gone", name)
		}
	}
}

// What somebody puts into the hidden folder of an edition that grows, or that lies ready for the next one of a sitting, is kept, however that
// ends: with an edition, without one, with the end of the sitting, or with a crash.
func TestWorkInTheComingFolderIsKept(t *testing.T) {
	files := map[string]string{"index.html": "one", "soils/wax.html": long("wax"), "old/page.html": "old"}
	add := func(t *testing.T, w *Writer, n int) {
		t.Helper()
		for name, text := range files {
			if name == "old/page.html" && n > 1 {
				continue
			}
			if err := w.Add(name, []byte(text+fmt.Sprint(n))); err != nil {
				t.Fatal(err)
			}
		}
	}
	begin := func(t *testing.T, s *Sitting, dir string) *Writer {
		t.Helper()
		w, err := BeginIn(s, dir)
		if err != nil {
			t.Fatal(err)
		}
		return w
	}
	commit := func(t *testing.T, w *Writer) {
		t.Helper()
		if _, err := w.Commit(List{}, nil); err != nil {
			t.Fatal(err)
		}
	}
	fresh := func(t *testing.T) string { return filepath.Join(t.TempDir(), "edition") }

	for _, rounds := range []int{1, 2, 3} {
		t.Run(fmt.Sprint("the end of a sitting of ", rounds), func(t *testing.T) {
			dir, s := fresh(t), &Sitting{}
			for n := range rounds {
				w := begin(t, s, dir)
				add(t, w, n)
				commit(t, w)
			}
			if s.spare == "" {
				t.Skip("no folder lies ready here")
			}
			texts := intrude(t, s.spare)
			if err := s.Close(); err != nil {
				t.Fatal(err)
			}
			stillThere(t, dir, texts)
			for _, name := range beside(t, dir) {
				if strings.HasPrefix(name, ".") {
					t.Errorf("beside the edition stands %s", name)
				}
			}
		})
		t.Run(fmt.Sprint("the next edition of a sitting of ", rounds), func(t *testing.T) {
			dir, s := fresh(t), &Sitting{}
			for n := range rounds {
				w := begin(t, s, dir)
				add(t, w, n)
				commit(t, w)
			}
			texts := intrude(t, s.spare)
			w := begin(t, s, dir)
			add(t, w, 8)
			if err := w.Add("new.html", []byte("ours")); !errors.Is(err, fs.ErrExist) {
				t.Errorf("somebody's new.html was written over: %v", err)
			}
			commit(t, w)
			stillThere(t, dir, texts)
			w = begin(t, s, dir)
			add(t, w, 9)
			commit(t, w)
			if err := s.Close(); err != nil {
				t.Fatal(err)
			}
			stillThere(t, dir, texts)
		})
	}
	t.Run("an edition that is abandoned", func(t *testing.T) {
		dir := fresh(t)
		for n := range 2 { // without an edition in place, and with one
			w := begin(t, nil, dir)
			add(t, w, 1)
			texts := intrude(t, w.coming)
			if err := w.Add("new.html", []byte("ours")); !errors.Is(err, fs.ErrExist) {
				t.Errorf("somebody's new.html was written over: %v", err)
			}
			if err := w.Abandon(); err != nil {
				t.Fatal(err)
			}
			stillThere(t, dir, texts)
			for _, name := range beside(t, dir) {
				if strings.HasPrefix(name, ".") {
					t.Errorf("beside the edition stands %s", name)
				}
				if err := os.RemoveAll(filepath.Join(filepath.Dir(dir), name)); err != nil {
					t.Fatal(err)
				}
			}
			if n == 0 {
				w := begin(t, nil, dir)
				add(t, w, 0)
				commit(t, w)
			}
		}
	})
	t.Run("a crash", func(t *testing.T) {
		dir := fresh(t)
		w := begin(t, nil, dir)
		add(t, w, 0)
		commit(t, w)
		w = begin(t, nil, dir)
		add(t, w, 1)
		put(t, filepath.Join(w.coming, "half.html"), "")
		if err := w.grown.note("half.html"); err != nil {
			t.Fatal(err)
		}
		if err := w.lock.file.Close(); err != nil { // all that the end of a process does
			t.Fatal(err)
		}
		texts := intrude(t, w.coming)
		w = begin(t, nil, dir)
		add(t, w, 2)
		commit(t, w)
		stillThere(t, dir, texts)
		if names := beside(t, dir); !slices.Equal(names, []string{"edition"}) {
			t.Errorf("beside the edition stand %v", names)
		}
		if _, err := os.Lstat(filepath.Join(dir, "half.html")); err == nil {
			t.Error("a file of the edition that was broken off is taken for somebody's")
		}
	})
}

// A file that is called like ours makes nothing ours where no edition grows.
func TestWhatIsWrittenDownCountsWhereAnEditionGrows(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "edition")
	publish(t, dir, 1, map[string]string{"index.html": "one"})
	put(t, filepath.Join(dir, growthName), "\"thesis.txt\"\n")
	put(t, filepath.Join(dir, "thesis.txt"), "years of work")
	for n := range 3 {
		publish(t, dir, n, map[string]string{"index.html": strings.Repeat("x", n)})
	}
	if got := tree(t, dir); got["thesis.txt"] != "years of work" || got[growthName] == "" {
		t.Errorf("%v", got)
	}
}
