package edition

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"tankside/builder/disk"
)

// attempt publishes some files, and again in a sitting.
func attempt(s *Sitting, dir string, number, times int) error {
	for i := range times {
		w, err := BeginIn(s, dir)
		if err != nil {
			return err
		}
		for name, text := range map[string]string{"index.html": fmt.Sprint("edition ", number, i), "soils/wax.html": long("wax"), "assets/a.js": long(fmt.Sprint(number))} {
			if err := w.Add(name, []byte(text)); err != nil {
				return errors.Join(err, w.Abandon())
			}
		}
		if _, err := w.Commit(List{Mark: Mark{Edition: number + i}}, []byte("// worker\n")); err != nil {
			return err
		}
	}
	if s != nil {
		return s.Close()
	}
	return nil
}

// quickDir is a folder in memory where there is one: a disk takes its time to write everything out.
func quickDir(t *testing.T) string {
	t.Helper()
	dir, err := os.MkdirTemp("/dev/shm", "edition")
	if err != nil {
		return t.TempDir()
	}
	t.Cleanup(func() { os.RemoveAll(dir) })
	return dir
}

// At each step that a publication does on the disk the disk may fail: once, or from then on, as it does when the program is killed there. The edition in
// place is the old one or the new one, whole; the next publication succeeds, and nothing is left beside it.
func TestEveryWriteMayFail(t *testing.T) {
	if testing.Short() {
		t.Skip("a few thousand publications")
	}
	ways := map[string]struct {
		before, renames bool // there is an edition in place; the kernel cannot exchange two folders
		sitting         bool
	}{"first": {}, "over another": {before: true}, "in a sitting": {before: true, sitting: true}, "by two renames": {before: true, renames: true}}
	injected, away := 0, 0
	for name, way := range ways {
		for _, lasting := range []bool{false, true} {
			for _, cause := range []error{syscall.EIO, syscall.ENOSPC, syscall.EROFS} {
				for n := 1; ; n++ {
					dir := filepath.Join(quickDir(t), "edition")
					if way.before {
						if err := attempt(nil, dir, 1, 1); err != nil {
							t.Fatal(err)
						}
						if err := os.WriteFile(filepath.Join(dir, "bath-log.csv"), []byte("work"), 0o644); err != nil {
							t.Fatal(err)
						}
					}
					var s *Sitting
					times := 1
					if way.sitting {
						s, times = &Sitting{}, 3
					}
					step, failed, at := 0, false, ""
					disk.Before = func(what, path string) error {
						if what == "exchange" && way.renames {
							return syscall.ENOSYS
						}
						step++
						if step == n {
							at = what + " " + filepath.Base(path)
						}
						if step == n || lasting && step > n {
							failed = true
							return &os.PathError{Op: what, Path: path, Err: cause}
						}
						return nil
					}
					err := attempt(s, dir, 2, times)
					disk.Before = nil
					if !failed {
						if err != nil {
							t.Fatalf("%s: %v", name, err)
						}
						break
					}
					injected++
					if _, gone := os.Lstat(dir); gone != nil && way.before {
						if !way.renames || !lasting {
							t.Fatalf("%s, step %d (%v): there is no edition", name, n, cause)
						}
						away++ // between the two renames; it lies beside
					} else if gone == nil {
						r, err := Verify(context.Background(), os.DirFS(dir))
						if err != nil || len(r.Damaged)+len(r.Missing) > 0 {
							t.Fatalf("%s, step %d (%v): %+v, %v", name, n, cause, r, err)
						}
					}
					if err := attempt(nil, dir, 5, 1); err != nil {
						t.Fatalf("%s, step %d (%v): the next publication: %v", name, n, cause, err)
					}
					r, err := Verify(context.Background(), os.DirFS(dir))
					if err != nil || len(r.Damaged)+len(r.Missing) > 0 || r.Mark.Edition != 5 {
						t.Fatalf("%s, step %d (%v): after the next publication %+v, %v", name, n, cause, r, err)
					}
					if data, err := os.ReadFile(filepath.Join(dir, "bath-log.csv")); way.before && string(data) != "work" {
						t.Fatalf("%s, step %d (%v): somebody's file: %q, %v", name, n, cause, data, err)
					}
					if names := beside(t, dir); len(names) != 1 {
						t.Fatalf("%s, step %d, %s (%v): beside the edition stand %v %v", name, n, at, cause, names, tree(t, filepath.Join(filepath.Dir(dir), names[1])))
					}
				}
			}
		}
	}
	t.Logf("%d faults; in %d of them, all between two renames, the old edition lay beside until the next publication", injected, away)
	if injected < 500 {
		t.Errorf("only %d faults were injected", injected)
	}
}
