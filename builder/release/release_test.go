package main

import (
	"archive/tar"
	"archive/zip"
	"bytes"
	"compress/gzip"
	"errors"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

var some = []file{{name: "b.txt", data: bytes.Repeat([]byte("water "), 9000)}, {name: "tankside", data: []byte("program"), runs: true}, {name: "a.txt", data: nil}}

// The same files are the same bytes, whatever order they come in, and one byte of difference is another archive.
func TestOneSetOfFilesIsOneArchive(t *testing.T) {
	t.Parallel()
	turned := slices.Clone(some)
	slices.Reverse(turned)
	other := slices.Clone(some)
	other[2].data = []byte("x")
	for _, of := range targets {
		name, first, err := archive("v1", of, some)
		again, second, err2 := archive("v1", of, turned)
		_, third, err3 := archive("v1", of, other)
		if err := errors.Join(err, err2, err3); err != nil {
			t.Fatal(err)
		}
		if name != again || !bytes.Equal(first, second) {
			t.Errorf("%s: two archives of the same files differ", of)
		}
		if bytes.Equal(first, third) {
			t.Errorf("%s: archives of different files do not differ", of)
		}
	}
}

// What comes out of an archive is what went in, in the order of names, all of one time, and only what runs may be run. Nobody's name is in it.
func TestWhatIsInAnArchive(t *testing.T) {
	t.Parallel()
	const want = "tankside-v1-linux-amd64/a.txt 644 tankside-v1-linux-amd64/b.txt 644 tankside-v1-linux-amd64/tankside 755 "
	_, data, err := archive("v1", target{"linux", "amd64"}, some)
	if err != nil {
		t.Fatal(err)
	}
	g, err := gzip.NewReader(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	if !g.ModTime.IsZero() || g.Name != "" {
		t.Errorf("gzip says %v %q", g.ModTime, g.Name)
	}
	got, r := "", tar.NewReader(g)
	for {
		h, err := r.Next()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		if !h.ModTime.Equal(unchanging) || h.Uid != 0 || h.Uname != "" || h.Gname != "" {
			t.Errorf("%s: %+v", h.Name, h)
		}
		got += h.Name + " " + map[int64]string{0o644: "644", 0o755: "755"}[h.Mode] + " "
		compareWith(t, h.Name, r)
	}
	if got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	_, data, err = archive("v1", target{"windows", "arm64"}, some)
	if err != nil {
		t.Fatal(err)
	}
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	if len(z.File) != len(some) {
		t.Fatalf("%d files", len(z.File))
	}
	for _, f := range z.File {
		if !f.Modified.Equal(unchanging) {
			t.Errorf("%s is of %s", f.Name, f.Modified)
		}
		r, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		compareWith(t, f.Name, r)
	}
}

func compareWith(t *testing.T, name string, r io.Reader) {
	t.Helper()
	data, err := io.ReadAll(r)
	if want := dataOf(some, filepath.Base(name)); err != nil || !bytes.Equal(data, want) {
		t.Errorf("%s: %d bytes, want %d (%v)", name, len(data), len(want), err)
	}
}

// A program that the list of parts does not fit is not handed out; neither is one that is not there, nor under a version that is no file's name.
func TestARefusedRelease(t *testing.T) {
	t.Parallel()
	own, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	program, err := os.ReadFile(own)
	if err != nil {
		t.Fatal(err)
	}
	err = compareParts([]file{{name: "tankside", data: program}, {name: partsName, data: []byte(`{"packages":[{"name":"stdlib","versionInfo":"1.0"}]}`)}}, "tankside")
	if err == nil || !strings.Contains(err.Error(), "has stdlib ") || !strings.Contains(err.Error(), "make parts") {
		t.Errorf("another library: %v", err)
	}
	if err := compareParts([]file{{name: "tankside", data: []byte("no program")}}, "tankside"); err == nil {
		t.Error("what is no program is handed out")
	}
	if err := release("../..", "v1", t.TempDir(), filepath.Join(t.TempDir(), "to")); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("nothing was built: %v", err)
	}
	for _, version := range []string{"", "../v1", "v 1", "-v"} {
		if err := release("../..", version, t.TempDir(), filepath.Join(t.TempDir(), "to")); err == nil || !strings.Contains(err.Error(), "VERSION=") {
			t.Errorf("version %q: %v", version, err)
		}
	}
}

// The README of every archive has two lines, and names a file to be double-clicked that is in the archive.
func TestReadme(t *testing.T) {
	t.Parallel()
	for _, of := range targets {
		text := readme(of)
		opens := of.program()
		if of.system == "darwin" {
			opens = deskScript
		}
		if strings.Count(text, "\n") != 2 || !strings.Contains(text, "double-click "+opens+":") || (of.system == "windows") != strings.Contains(text, "\r\n") {
			t.Errorf("%s: %q", of, text)
		}
	}
}
