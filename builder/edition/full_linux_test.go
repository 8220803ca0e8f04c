package edition

import (
	"bytes"
	"errors"
	"maps"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"golang.org/x/sys/unix"
)

// A full disk must leave the old edition as it was, and say so. The disk is a small one in memory, which takes root to mount.
func TestFullDiskLeavesTheOldEdition(t *testing.T) {
	disk := t.TempDir()
	if err := unix.Mount("tmpfs", disk, "tmpfs", 0, "size=256k"); errors.Is(err, unix.EPERM) || errors.Is(err, unix.EACCES) {
		t.Skip("mounting a small disk in memory is not permitted here; run as root to test a full disk")
	} else if err != nil {
		t.Fatal(err)
	}
	defer func() {
		if err := unix.Unmount(disk, 0); err != nil {
			t.Error(err)
		}
	}()
	dir := filepath.Join(disk, "edition")
	publish(t, dir, 1, map[string]string{"index.html": "one"})
	before := tree(t, dir)

	w, err := BeginIn(nil, dir)
	if err != nil {
		t.Fatal(err)
	}
	err = w.Add("big.bin", bytes.Repeat([]byte("x"), 1<<20))
	if !errors.Is(err, unix.ENOSPC) {
		t.Errorf("writing to a full disk: %v", err)
	}
	if err := w.Abandon(); err != nil {
		t.Error(err)
	}
	if !maps.Equal(before, tree(t, dir)) {
		t.Error("the old edition changed")
	}
	// With room again, publishing goes on.
	publish(t, dir, 2, map[string]string{"index.html": "two"})
	if _, err := os.Stat(filepath.Join(dir, "big.bin")); err == nil {
		t.Error("the unfinished file is in the next edition")
	}
}

// A folder at which a disk is mounted cannot change places with another: it is refused with the remedy, and nothing stays beside it.
func TestMountedDiskIsRefused(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "edition")
	if err := os.Mkdir(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	if err := unix.Mount("tmpfs", dir, "tmpfs", 0, "size=256k"); errors.Is(err, unix.EPERM) || errors.Is(err, unix.EACCES) {
		t.Skip("mounting a small disk in memory is not permitted here")
	} else if err != nil {
		t.Fatal(err)
	}
	defer unix.Unmount(dir, unix.MNT_DETACH)
	w, err := BeginIn(nil, dir)
	if err != nil {
		t.Fatal(err)
	}
	if err := w.Add("index.html", []byte("one")); err != nil {
		t.Fatal(err)
	}
	if _, err := w.Commit(List{}, nil); err == nil || !strings.Contains(err.Error(), "name a folder in it with --to") {
		t.Error(err)
	}
	if names := beside(t, dir); len(names) != 1 {
		t.Errorf("beside the edition stand %v", names)
	}
	publish(t, filepath.Join(dir, "edition"), 1, map[string]string{"index.html": "one"})
}
