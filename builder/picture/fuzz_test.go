package picture_test

import (
	"bytes"
	"encoding/binary"
	"errors"
	"hash/crc32"
	"image"
	"os"
	"path/filepath"
	"testing"

	"tankside/builder/picture"
)

// holds checks what is true of every file: no panic; what Check refuses Prepare refuses too; what is prepared is within its bounds, holds
// nothing but the picture and passes once more unchanged.
func holds(t *testing.T, name string, data []byte) {
	if c, _, err := image.DecodeConfig(bytes.NewReader(data)); err == nil && c.Width*c.Height > 1<<18 {
		return // sizes have their own test; large pictures would only slow this one down
	}
	problems := picture.Check(name, data)
	p, err := picture.Prepare(name, data)
	if len(problems) > 0 {
		if err == nil || err.Error() != problems[0].Error() {
			t.Fatalf("checked as %v, prepared with %v", problems[0], err)
		}
	}
	if err != nil {
		var problem *picture.Problem
		if !errors.As(err, &problem) || problem.Message == "" || problem.Remedy == "" {
			t.Fatalf("no help in %#v", err)
		}
		return
	}
	if p.Width < 1 || p.Width > 650 || p.Height < 1 || p.Height > 900 {
		t.Fatalf("shown %d × %d", p.Width, p.Height)
	}
	again, err := picture.Prepare("a"+p.Ext, p.Data)
	if err != nil || !bytes.Equal(again.Data, p.Data) || again.Ext != p.Ext || again.Width != p.Width || again.Height != p.Height {
		t.Fatalf("once more: %v", err)
	}
	if p.Ext != ".svg" {
		if found := parts(p.Ext, p.Data); len(found) > 0 {
			t.Fatalf("holds %q", found)
		}
	}
}

func seed(f *testing.F, pattern string, more ...[]byte) {
	f.Helper()
	files, err := filepath.Glob(pattern)
	if err != nil || len(files) == 0 {
		f.Fatal("no samples: ", pattern, err)
	}
	for _, name := range files {
		data, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	for _, data := range more {
		f.Add(data)
	}
}

func FuzzJPEG(f *testing.F) {
	photo := asJPEG(f, scene(40, 30), 80)
	seed(f, "testdata/photographs/*.jpg", photo, afterStart(photo, segment(0xe1, "Exif\x00\x00"+exif(binary.BigEndian, 5))))
	f.Fuzz(func(t *testing.T, data []byte) { holds(t, "a.jpg", data) })
}

func FuzzPNG(f *testing.F) {
	shot := asPNG(f, screen(40, 30))
	seed(f, "testdata/photographs/*.png", shot, afterHeader(shot, chunk("eXIf", exif(binary.LittleEndian, 7)), chunk("gAMA", "\x00\x00\xb1\x8f")))
	f.Fuzz(func(t *testing.T, data []byte) {
		holds(t, "a.png", data)
		holds(t, "a.png", mend(data))
	})
}

// mend gives the chunks of a PNG file the checksums they ought to have, so that changed ones are not refused for that alone.
func mend(data []byte) []byte {
	data = bytes.Clone(data)
	for at := 8; at+12 <= len(data); {
		n := int(binary.BigEndian.Uint32(data[at:]))
		if n > len(data)-at-12 {
			break
		}
		binary.BigEndian.PutUint32(data[at+8+n:], crc32.ChecksumIEEE(data[at+4:at+8+n]))
		at += 12 + n
	}
	return data
}

func FuzzWebP(f *testing.F) {
	seed(f, "testdata/photographs/*.webp")
	f.Fuzz(func(t *testing.T, data []byte) { holds(t, "a.webp", data) })
}

func FuzzGIF(f *testing.F) {
	seed(f, "testdata/photographs/*.gif")
	f.Fuzz(func(t *testing.T, data []byte) { holds(t, "a.gif", data) })
}

func FuzzSVG(f *testing.F) {
	seed(f, "testdata/foreign/*.svg")
	seed(f, "testdata/hostile/*.svg")
	f.Fuzz(func(t *testing.T, data []byte) { holds(t, "a.svg", data) })
}
