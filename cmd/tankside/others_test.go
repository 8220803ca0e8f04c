package main

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
)

// foreign puts somebody's files, folders and links into an edition's folder, beside it, and into every folder that we have there, and gives a check
// that each of them is somewhere still, with its content.
func foreign(t *testing.T, edition, mark string) (still func(after string)) {
	t.Helper()
	parent := filepath.Dir(edition)
	var texts []string
	put := func(name string) {
		text := "work " + name + " " + t.Name()
		if err := errors.Join(os.MkdirAll(filepath.Dir(name), 0o755), os.WriteFile(name, []byte(text), 0o640)); err != nil {
			t.Fatal(err)
		}
		texts = append(texts, text)
	}
	ours, err := os.ReadDir(parent)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range ours { // the edition, and what lies hidden beside it
		if !e.IsDir() || e.Name() == "content" {
			continue
		}
		for _, name := range []string{"log.csv", ".hidden", "soils/log.csv", "soils/mine/deep/log.csv", "mine/log.csv", "assets/own.css"} {
			put(filepath.Join(parent, e.Name(), name+mark))
		}
	}
	for _, name := range []string{".edition.before/log.csv", ".edition.coming-1/log.csv", ".edition.coming-MINE/edition.json", ".edition.before-X/log.csv", "edition-kept-1/log.csv", "edition.json", "log.csv"} {
		put(filepath.Join(parent, name+mark))
	}
	empty := []string{filepath.Join(edition, "empty"+mark), filepath.Join(edition, "soils", "empty"+mark), filepath.Join(parent, ".edition.coming-"+mark)}
	for _, name := range empty {
		if err := os.Mkdir(name, 0o700); err != nil {
			t.Fatal(err)
		}
	}
	link := filepath.Join(edition, "newest"+mark)
	if err := os.Symlink("log.csv", link); err != nil {
		t.Skipf("no symbolic links here: %v", err)
	}
	return func(after string) {
		t.Helper()
		found := map[string]int{}
		if err := filepath.WalkDir(parent, func(at string, e fs.DirEntry, err error) error {
			if err != nil || !e.Type().IsRegular() {
				return err
			}
			data, err := os.ReadFile(at)
			found[string(data)]++
			return err
		}); err != nil {
			t.Fatal(err)
		}
		for _, text := range texts {
			if found[text] == 0 {
				t.Errorf("after %s: gone is %q", after, text)
			}
		}
		for _, name := range empty {
			if info, err := os.Lstat(name); err != nil || !info.IsDir() {
				t.Errorf("after %s: %v", after, err)
			}
		}
		if to, err := os.Readlink(link); to != "log.csv" {
			t.Errorf("after %s: the link leads to %q, %v", after, to, err)
		}
	}
}

// Nothing of somebody's is gone or changed, wherever it lies and in whatever way an edition is published or not: for the first time over an edition, again
// without a change, with one, with findings, through a symbolic link, for programs, when it is verified, and while the manual is watched.
func TestNothingOfSomebodysIsLost(t *testing.T) {
	t.Parallel()
	folder, edition := newManual(t)
	if filepath.Dir(folder) != filepath.Dir(edition) {
		t.Fatal("the manual does not stand beside its edition")
	}
	must(t, "publish", folder, "--to", edition)
	still := foreign(t, edition, "")
	must(t, "publish", folder, "--to", edition)
	still("a publication without a change")
	addWax(t, folder, "Warm it.")
	must(t, "publish", folder, "--to", edition, "--json")
	still("a publication with a change")
	addWax(t, folder, "Warm it. See [tar](tar.md).")
	c, _, _ := desk("")
	if code := run(t.Context(), []string{"publish", folder, "--to", edition}, c); code != exitFindings {
		t.Errorf("exit status %d", code)
	}
	still("a publication with findings")
	c, _, _ = desk("")
	if code := run(t.Context(), []string{"verify", edition}, c); code != exitFindings {
		t.Errorf("verify: exit status %d", code)
	}
	still("a comparison")
	reviseWax(t, folder, "Next", "Warm it slowly.")
	link := filepath.Join(t.TempDir(), "link")
	if err := os.Symlink(edition, link); err != nil {
		t.Fatal(err)
	}
	must(t, "publish", folder, "--to", link)
	still("a publication through a link")

	_, notes, stop := serving(t, "watch", folder, "--to", edition, "--at", "127.0.0.1:0")
	still("the beginning of a watch")
	inWatch := foreign(t, edition, "-2")
	for i, text := range []string{"Warm it most slowly.", "Warm it.", "See [tar](tar.md).", "Warm it a little."} {
		before := strings.Count(notes.String(), "symptoms") + strings.Count(notes.String(), "soils/wax.md")
		reviseWax(t, folder, "Next", text)
		for deadline := time.Now().Add(time.Minute); strings.Count(notes.String(), "symptoms")+strings.Count(notes.String(), "soils/wax.md") == before; time.Sleep(50 * time.Millisecond) {
			if time.Now().After(deadline) {
				t.Fatalf("change %d was not taken:\n%s", i, notes)
			}
		}
		time.Sleep(time.Second)
		inWatch("a change while watching")
	}
	if code := stop(); code != exitDone {
		t.Errorf("exit status %d\n%s", code, notes)
	}
	still("the end of a watch")
	inWatch("the end of a watch")
	entries, err := os.ReadDir(filepath.Dir(edition))
	if err != nil {
		t.Fatal(err)
	}
	if slices.ContainsFunc(entries, func(e fs.DirEntry) bool {
		return strings.HasPrefix(e.Name(), ".edition.") && len(e.Name()) > len(".edition.coming-")+20
	}) {
		t.Errorf("beside the edition stand %v", entries)
	}
}
