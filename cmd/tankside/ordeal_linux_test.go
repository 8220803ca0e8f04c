package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"golang.org/x/sys/unix"

	"tankside/builder/edition"
)

// A disk that is full at any size, and one that may only be read: the edition in place stays whole, nothing that was answered as kept is lost, and with room
// again everything goes on. The disk is a small one in memory, which takes root to mount; where that is not permitted the faults of the tests of
// builder/edition, builder/logbook and builder stand in for it: they have every step fail with ENOSPC and EROFS.
func TestOrdealOfFullDisk(t *testing.T) {
	if os.Getenv(ordealEnv) == "" {
		t.Skip("part of make ordeal")
	}
	disk := t.TempDir()
	const size = 48 << 20
	if err := unix.Mount("tmpfs", disk, "tmpfs", 0, fmt.Sprint("size=", size)); errors.Is(err, unix.EPERM) || errors.Is(err, unix.EACCES) {
		t.Skip("mounting a small disk in memory is not permitted here; run as root to test a full disk")
	} else if err != nil {
		t.Fatal(err)
	}
	defer func() {
		if err := unix.Unmount(disk, unix.MNT_DETACH); err != nil {
			t.Error(err)
		}
	}()
	manual, _ := newManual(t)
	o := &ordeal{t: t}
	dir := filepath.Join(disk, "edition")
	must(t, "publish", manual, "--to", dir)
	filler := filepath.Join(disk, "filler")
	failed := 0
	for i := range 8 {
		o.write(manual, i)
		var now unix.Statfs_t
		if err := unix.Statfs(disk, &now); err != nil {
			t.Fatal(err)
		}
		room := int64(now.Bavail)*now.Bsize - int64(i)*int64(i)*260<<10 - 4096 // from none to enough
		if err := os.WriteFile(filler, make([]byte, room), 0o644); err != nil {
			t.Fatal(err)
		}
		c, _, notes := desk("")
		if code := run(t.Context(), []string{"publish", manual, "--to", dir}, c); code != exitDone {
			failed++
			if !strings.Contains(notes.String(), "no space left") {
				t.Errorf("%s", notes)
			}
		}
		o.whole(dir, 1)
		if err := os.Remove(filler); err != nil {
			t.Fatal(err)
		}
	}
	must(t, "publish", manual, "--to", dir)
	o.whole(dir, 0)
	if failed < 3 {
		t.Errorf("the disk was full for %d publications alone", failed)
	}
	t.Logf("%d of 8 publications did not fit", failed)

	if err := unix.Mount("", disk, "", unix.MS_REMOUNT|unix.MS_RDONLY, ""); err != nil {
		t.Fatal(err)
	}
	o.write(manual, 99)
	c, _, notes := desk("")
	if code := run(t.Context(), []string{"publish", manual, "--to", dir}, c); code != exitUnusable || !strings.Contains(notes.String(), "read-only") {
		t.Errorf("a disk that may only be read: %d\n%s", code, notes)
	}
	r, err := edition.Verify(context.Background(), os.DirFS(dir))
	if err != nil || !r.OK {
		t.Errorf("%+v, %v", r, err)
	}
	if err := unix.Mount("", disk, "", unix.MS_REMOUNT, ""); err != nil {
		t.Fatal(err)
	}
	recordsOnFullDisk(o, manual, dir, filepath.Join(disk, "shop-records"), filler)
}

// recordsOnFullDisk has a host take readings while the disk fills up and gets room again.
func recordsOnFullDisk(o *ordeal, manual, dir, folder, filler string) {
	host, url, notes := o.serve(dir, manual, folder)
	defer o.kill(host)
	w := &writer{name: "device", key: o.pair(url, notes, "device")}
	refused := 0
	for round := range 6 {
		var now unix.Statfs_t
		if err := unix.Statfs(folder, &now); err != nil {
			o.t.Fatal(err)
		}
		if err := os.WriteFile(filler, make([]byte, int64(now.Bavail)*now.Bsize-int64(round%2)*4096), 0o644); err != nil {
			o.t.Fatal(err)
		}
		for range 30 {
			w.n++
			w.unsent = append(w.unsent, fmt.Sprintf("2026-09-%02dT06:10,60.5,\"%s\",%s-%d\n", 1+w.n%20, strings.Repeat("a note. ", 40), w.name, w.n))
			if kept, ok := w.post(url, "wash-1"); ok {
				w.kept = append(w.kept, kept...)
				w.unsent = nil
			} else {
				refused++
			}
		}
		if err := os.Remove(filler); err != nil && !errors.Is(err, fs.ErrNotExist) {
			o.t.Fatal(err)
		}
		time.Sleep(2 * time.Second) // the pace of a device
		kept, ok := w.post(url, "wash-1")
		if !ok && len(w.unsent) > 0 {
			o.t.Fatalf("with room again nothing is taken: %s", notes)
		}
		w.kept = append(w.kept, kept...)
		w.unsent = nil
		o.sound(filepath.Join(folder, "wash-1.csv"), []*writer{w}, true)
	}
	if refused == 0 {
		o.t.Error("the disk was never full")
	}
	o.t.Logf("%d rows, %d times the disk was full", len(w.kept), refused)
}
