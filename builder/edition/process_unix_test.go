//go:build unix

package edition

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// folderOfChild names the folder into which a second process of this test publishes.
const folderOfChild = "EDITION_TEST_FOLDER"

// TestChild is no test, but what the second process does: it publishes edition after edition, one in a row where it is told so.
func TestChild(t *testing.T) {
	dir := os.Getenv(folderOfChild)
	if dir == "" {
		t.Skip("this is the second process of other tests")
	}
	files := map[string]string{"index.html": "", "soils/wax.html": "wax"}
	for i := range 40 {
		files[fmt.Sprintf("parts/%d.html", i)] = long(fmt.Sprint("part ", i))
	}
	if os.Getenv(folderOfChild+"_ROWS") == "1" {
		s := &Sitting{}
		for n := range 3 {
			w, err := BeginIn(s, dir)
			if err != nil {
				t.Fatal(err)
			}
			files["index.html"] = fmt.Sprint("sitting ", n)
			for name, text := range files {
				if err := w.Add(name, []byte(text)); err != nil {
					t.Fatal(err)
				}
			}
			if _, err := w.Commit(List{Mark: Mark{Edition: n + 1}}, nil); err != nil {
				t.Fatal(err)
			}
		}
		if err := s.Close(); err != nil {
			t.Fatal(err)
		}
		return
	}
	for n := 1; ; n++ {
		files["index.html"] = long(fmt.Sprint(os.Getpid(), n))
		publish(t, dir, n, files)
		if os.Getenv(folderOfChild+"_ROWS") == "2" {
			return
		}
	}
}

// program gives the path of this test's own program.
func program(t *testing.T) string {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	return self
}

func child(self, dir, rows string) *exec.Cmd {
	c := exec.Command(self, "-test.run=^TestChild$")
	c.Env = append(os.Environ(), folderOfChild+"="+dir, folderOfChild+"_ROWS="+rows)
	c.Dir = "/"
	return c
}

// Whenever a publication is killed, the edition in place is whole and nothing of somebody's is lost, and the next publication mends the rest.
func TestKilledAtAnyMoment(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "edition")
	publish(t, dir, 1, map[string]string{"index.html": "one", "soils/wax.html": "wax", "old/page.html": "old"})
	still := work(t, dir)
	rounds := 40
	if testing.Short() {
		rounds = 5
	}
	self := program(t)
	for range rounds {
		c := child(self, dir, "")
		if err := c.Start(); err != nil {
			t.Fatal(err)
		}
		time.Sleep(10*time.Millisecond + rand.N(60*time.Millisecond))
		if err := c.Process.Kill(); err != nil {
			t.Fatal(err)
		}
		var ended *exec.ExitError
		if err := c.Wait(); !errors.As(err, &ended) {
			t.Fatalf("the second process ended by itself: %v", err)
		}
		r, err := Verify(context.Background(), os.DirFS(dir))
		if err != nil || len(r.Damaged)+len(r.Missing) > 0 {
			t.Fatalf("%+v, %v", r, err)
		}
		if data, err := os.ReadFile(filepath.Join(dir, "bath-log.csv")); err != nil || string(data) != "work bath-log.csv" {
			t.Fatalf("%q, %v", data, err)
		}
	}
	publish(t, dir, 2, map[string]string{"index.html": "two"})
	still(t)
	if names := beside(t, dir); len(names) != 1 {
		t.Errorf("beside the edition stand %v", names)
	}
}

// An ordinary user publishes over an edition that he has protected against writing, once and again, and in a sitting. Root may write anywhere,
// so that the publication is done by somebody else where the test runs as root.
func TestWriteProtectedEditionIsReplaced(t *testing.T) {
	for _, rows := range []string{"1", "2"} {
		parent, err := os.MkdirTemp("", "protected")
		if err != nil {
			t.Fatal(err)
		}
		t.Cleanup(func() {
			filepath.WalkDir(parent, func(at string, e fs.DirEntry, err error) error { return errors.Join(err, os.Chmod(at, 0o755)) })
			os.RemoveAll(parent)
		})
		dir := filepath.Join(parent, "edition")
		self := filepath.Join(parent, "program") // another user may not enter the folder that the test's program lies in
		data, err := os.ReadFile(program(t))
		if err := errors.Join(err, os.WriteFile(self, data, 0o755)); err != nil {
			t.Fatal(err)
		}
		var as *syscall.SysProcAttr
		if os.Getuid() == 0 {
			const nobody = 65534
			if err := errors.Join(os.Chmod(parent, 0o755), os.Chown(parent, nobody, nobody)); err != nil {
				t.Fatal(err)
			}
			as = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: nobody, Gid: nobody}}
		}
		for range 3 {
			c := child(self, dir, rows)
			c.SysProcAttr = as
			if out, err := c.CombinedOutput(); err != nil {
				t.Fatalf("%v\n%s", err, out)
			}
			if err := filepath.WalkDir(dir, func(at string, e fs.DirEntry, err error) error {
				if err != nil {
					return err
				}
				info, err := e.Info()
				if err != nil {
					return err
				}
				return os.Chmod(at, info.Mode().Perm()&^0o222)
			}); err != nil {
				t.Fatal(err)
			}
		}
		r, err := Verify(context.Background(), os.DirFS(dir))
		if err != nil || !r.OK {
			t.Errorf("%+v, %v", r, err)
		}
		if names := beside(t, dir); strings.Join(names, " ") != "edition program" {
			t.Errorf("beside the edition stand %v", names)
		}
	}
}

// A pipe in the place of the lock is refused, and not waited for.
func TestPipeInTheLocksPlaceIsRefused(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "edition")
	if err := syscall.Mkfifo(filepath.Join(filepath.Dir(dir), ".edition.lock"), 0o644); err != nil {
		t.Skipf("no pipes here: %v", err)
	}
	if _, err := BeginIn(nil, dir); err == nil || !strings.Contains(err.Error(), "not the lock of a publication") {
		t.Error(err)
	}
}

// Into a folder that several may write to, one publishes after another: the lock that the first has made serves the second, whatever the first one's
// mask was, and what the second may not remove of the first one's edition is kept until he may.
func TestTwoUsersPublishIntoASharedFolder(t *testing.T) {
	if os.Getuid() != 0 {
		t.Skip("to publish as two users takes root")
	}
	parent, err := os.MkdirTemp("", "shared")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.RemoveAll(parent) })
	self := filepath.Join(parent, "program")
	data, err := os.ReadFile(program(t))
	if err := errors.Join(err, os.WriteFile(self, data, 0o755), os.Chmod(parent, 0o777)); err != nil {
		t.Fatal(err)
	}
	dir := filepath.Join(parent, "edition")
	for i, user := range []uint32{65534, 65533, 65534, 65532} {
		for _, rows := range []string{"2", "1"} {
			c := child(self, dir, rows)
			c.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: user, Gid: user}}
			if out, err := c.CombinedOutput(); err != nil {
				t.Fatalf("publication %d: %v\n%s", i, err, out)
			}
			if r, err := Verify(t.Context(), os.DirFS(dir)); err != nil || !r.OK {
				t.Errorf("publication %d: %+v, %v", i, r, err)
			}
			if info, err := os.Stat(filepath.Join(dir, ListName)); err != nil || info.Sys().(*syscall.Stat_t).Uid != user {
				t.Errorf("publication %d: the edition in place is not the one of user %d: %v", i, user, err)
			}
		}
	}
}
