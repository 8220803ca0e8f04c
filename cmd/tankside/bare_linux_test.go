package main

import (
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"
)

// built builds the command as make release does, with more arguments for go build.
func built(t *testing.T, more ...string) string {
	t.Helper()
	program := filepath.Join(t.TempDir(), "tankside")
	args := append([]string{"build", "-trimpath", "-buildvcs=false", "-ldflags=-s -w -X main.releasedAs=v0-test", "-o", program}, more...)
	c := exec.Command("go", append(args, "tankside/cmd/tankside")...)
	c.Env = append(os.Environ(), "CGO_ENABLED=0")
	if out, err := c.CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	return program
}

// With nothing in the whole root but the command and the demo manual, the demo is published and found whole: no library, no shell, no time zones, no folder for
// temporary files. A root of one's own takes the rights of root.
func TestBareRoot(t *testing.T) {
	t.Parallel()
	if os.Geteuid() != 0 {
		t.Skip("only root may give a program another root; run as root to test that the command needs nothing beside it")
	}
	bare := t.TempDir()
	if err := errors.Join(os.Rename(built(t), filepath.Join(bare, "tankside")), os.CopyFS(filepath.Join(bare, "content"), os.DirFS("../../content"))); err != nil {
		t.Fatal(err)
	}
	bareRun := func(args ...string) string {
		t.Helper()
		c := exec.Command("/tankside", args...)
		c.Dir, c.Env, c.SysProcAttr = "/", []string{"SOURCE_DATE_EPOCH=1796083200"}, &syscall.SysProcAttr{Chroot: bare} // 1 December 2026
		out, err := c.CombinedOutput()
		if errors.Is(err, syscall.EPERM) && len(out) == 0 {
			t.Skip("root may not give a program another root here")
		}
		if err != nil {
			t.Fatalf("%v: %v %s", args, err, out)
		}
		return string(out)
	}
	if got := bareRun("--version"); !strings.HasPrefix(got, "tankside v0-test, go") {
		t.Errorf("it calls itself %q", got)
	}
	bareRun("publish", "content", "--to", "edition")
	if got := bareRun("verify", "edition"); !strings.Contains(got, "all as they were published") {
		t.Errorf("%s", got)
	}
	if got := bareRun("find", "white", "spots"); !strings.Contains(got, "edition/symptoms/") {
		t.Errorf("%s", got)
	}
	entries, err := os.ReadDir(bare)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
	}
	if want := []string{".edition.lock", "content", "edition", "tankside"}; !slices.Equal(names, want) {
		t.Errorf("the root holds %v afterwards, not %v", names, want)
	}
}
