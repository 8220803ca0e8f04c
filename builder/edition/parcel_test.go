package edition

import (
	"bytes"
	"compress/gzip"
	"encoding/base64"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// parcelScript writes a parcel as package page does.
func parcelScript(t *testing.T, name string, content []byte) []byte {
	t.Helper()
	var b bytes.Buffer
	z := gzip.NewWriter(&b)
	if _, err := z.Write(content); err != nil {
		t.Fatal(err)
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return []byte(`tankside.parcel("` + name + `","` + base64.StdEncoding.EncodeToString(b.Bytes()) + "\");\n")
}

func TestParcel(t *testing.T) {
	const file = "assets/search-segment.0123456789.js"
	content := bytes.Repeat([]byte{0, 1, 2, 0xff}, 5000)
	good := parcelScript(t, "search-segment", content)
	for name, c := range map[string]struct {
		script []byte
		want   string // part of the error, or "" where it is read
	}{
		"as published":       {good, ""},
		"another parcel":     {parcelScript(t, "search-wasm", content), "does not hand over"},
		"cut short":          {good[:len(good)-20], "end is missing"},
		"not base64":         {[]byte("tankside.parcel(\"search-segment\",\"%%%%%%%%\");\n"), "illegal base64"},
		"not gzip":           {[]byte("tankside.parcel(\"search-segment\",\"" + base64.StdEncoding.EncodeToString([]byte("plain text, not compressed")) + "\");\n"), "gzip"},
		"not a string":       {[]byte("tankside.parcel(\"search-segment\",{});\n"), "cannot unmarshal"},
		"half of the string": {[]byte(strings.Replace(string(good), "\");", ");", 1)), "unexpected end"},
		"empty":              {nil, "does not hand over"},
	} {
		t.Run(name, func(t *testing.T) {
			dir := filepath.Join(t.TempDir(), "edition")
			w, err := BeginIn(nil, dir)
			if err != nil {
				t.Fatal(err)
			}
			if err := w.Add(file, c.script); err != nil {
				t.Fatal(err)
			}
			list, err := w.Commit(List{Parcels: map[string]string{"search-segment": file}}, nil)
			if err != nil {
				t.Fatal(err)
			}
			got, err := Parcel(os.DirFS(dir), &list, "search-segment")
			if c.want == "" {
				if err != nil || !bytes.Equal(got, content) {
					t.Errorf("%d bytes, %v", len(got), err)
				}
				return
			}
			if !errors.Is(err, ErrDamaged) || !strings.Contains(err.Error(), c.want) {
				t.Errorf("%v, want ErrDamaged and %q", err, c.want)
			}
		})
	}
}

func TestParcelOfDamagedEdition(t *testing.T) {
	const file = "assets/search-segment.0123456789.js"
	dir := filepath.Join(t.TempDir(), "edition")
	w, err := BeginIn(nil, dir)
	if err != nil {
		t.Fatal(err)
	}
	if err := w.Add(file, parcelScript(t, "search-segment", []byte("index"))); err != nil {
		t.Fatal(err)
	}
	list, err := w.Commit(List{Parcels: map[string]string{"search-segment": file, "other": "assets/other.js"}}, nil)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := Parcel(os.DirFS(dir), &list, "find-nothing"); err == nil || errors.Is(err, ErrDamaged) {
		t.Errorf("a parcel that no edition has: %v", err)
	}
	if _, err := Parcel(os.DirFS(dir), &list, "other"); !errors.Is(err, ErrDamaged) {
		t.Errorf("a parcel without checksum: %v", err)
	}
	if err := os.WriteFile(filepath.Join(dir, filepath.FromSlash(file)), parcelScript(t, "search-segment", []byte("indez")), 0o644); err != nil {
		t.Fatal(err)
	}
	if _, err := Parcel(os.DirFS(dir), &list, "search-segment"); !errors.Is(err, ErrDamaged) {
		t.Errorf("a changed parcel: %v", err)
	}
	if err := os.Remove(filepath.Join(dir, filepath.FromSlash(file))); err != nil {
		t.Fatal(err)
	}
	if _, err := Parcel(os.DirFS(dir), &list, "search-segment"); !errors.Is(err, ErrDamaged) || !strings.Contains(err.Error(), "missing") {
		t.Errorf("a missing parcel: %v", err)
	}
}
