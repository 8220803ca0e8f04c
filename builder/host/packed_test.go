package host

import (
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"tankside/builder/carry"
	"tankside/builder/edition"
)

// An edition that is carried as one file is served out of it, with what its list names and nothing else; one that takes its place is served at once, and a damaged one
// is not.
func TestCarriedEditionIsServed(t *testing.T) {
	t.Parallel()
	const first = "open"
	packed := func(text string) string {
		folder := filepath.Join(t.TempDir(), "edition")
		w, err := edition.BeginIn(nil, folder)
		if err != nil {
			t.Fatal(err)
		}
		for name, data := range map[string]string{"index.html": text, "assets/a.1.js": "1;", "content/part-1.zst": "x", edition.CurrentFile: "<svg/>"} {
			if err := w.Add(name, []byte(data)); err != nil {
				t.Fatal(err)
			}
		}
		if _, err := w.Commit(edition.List{Address: "https://manual.example/", First: edition.Sum([]byte(first)), Articles: []edition.Article{}}, nil); err != nil {
			t.Fatal(err)
		}
		to := filepath.Join(t.TempDir(), "a.zip")
		if _, err := carry.Write(t.Context(), folder, to, []byte(first)); err != nil {
			t.Fatal(err)
		}
		return to
	}
	at := packed("one")
	h := New(at, Options{Loopback: true})
	get := func(path string, want int, text string) *http.Response {
		t.Helper()
		r := ask(h, http.MethodGet, path)
		if r.StatusCode != want || text != "" && body(t, r) != text {
			t.Errorf("%s: %s", path, r.Status)
		}
		return r
	}
	r := get("/", http.StatusOK, "one")
	if !strings.Contains(r.Header.Get("Content-Security-Policy"), "img-src 'self' data: https://manual.example/current.svg;") || r.Header.Get("ETag") == "" {
		t.Errorf("%v", r.Header)
	}
	if r := get("/"+edition.CurrentFile, http.StatusOK, "<svg/>"); r.Header.Get("Cross-Origin-Resource-Policy") != "cross-origin" || r.Header.Get("Cache-Control") != "no-store" {
		t.Errorf("%v", r.Header)
	}
	get("/assets/a.1.js", http.StatusOK, "1;")
	get("/edition.json", http.StatusOK, "")
	for _, path := range []string{"/content/part-1.zst", "/OPEN-ME.html", "/../OPEN-ME.html", "/manual/index.html", "/none.html", "/assets"} {
		get(path, http.StatusNotFound, "")
	}
	next := packed("two")
	if err := os.Rename(next, at); err != nil {
		t.Fatal(err)
	}
	get("/", http.StatusOK, "two")
	bad := filepath.Join(t.TempDir(), "bad.zip")
	if err := os.WriteFile(bad, []byte("no archive"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Rename(bad, at); err != nil {
		t.Fatal(err)
	}
	get("/", http.StatusOK, "two")
}
