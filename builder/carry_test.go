package builder

import (
	"archive/zip"
	"html"
	"io"
	"io/fs"
	"net/url"
	"path"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"unicode"

	"tankside/builder/carry"
)

// The demo manual takes at most 9 MB to be carried; names are short and plain; and the page that leads in needs no neighbour, says what to do in both languages, and leads to
// what is there.
func TestDemoIsCarried(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	to := filepath.Join(dir, "demo.zip")
	r, err := Publish(t.Context(), Options{Manual: "../content", To: filepath.Join(dir, "edition"), Now: day, Carry: to})
	if err != nil {
		t.Fatal(err, r.Findings)
	}
	if r.Carried > 9e6 {
		t.Errorf("the demo takes %d bytes to be carried", r.Carried)
	}
	t.Logf("%d bytes", r.Carried)
	carriedWhole(t, to)
	z, err := zip.OpenReader(to)
	if err != nil {
		t.Fatal(err)
	}
	defer z.Close()
	names := map[string]bool{}
	top := 0
	for _, f := range z.File {
		names[f.Name] = true
		if len(f.Name) > 100 || strings.HasSuffix(f.Name, ".gz") || strings.HasSuffix(f.Name, ".br") {
			t.Errorf("it holds %s", f.Name)
		}
		if !strings.Contains(f.Name, "/") {
			top++
		}
	}
	if top != 1 || z.File[0].Name != carry.First {
		t.Errorf("%d files stand at the top, and %s is the first", top, z.File[0].Name)
	}
	f, err := z.Open(carry.First)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	text, err := io.ReadAll(f)
	if err != nil {
		t.Fatal(err)
	}
	links := regexp.MustCompile(`href="([^"]*)"`).FindAllStringSubmatch(string(text), -1)
	if len(links) != 2 {
		t.Errorf("it leads to %v", links)
	}
	for _, l := range links {
		if !names[l[1]] {
			t.Errorf("it leads to %s, which is not there", l[1])
		}
	}
	for _, words := range []string{"Unpack the whole archive", "Extract All", "Extraer todo", "Android", r.Mark.Code, `lang="es"`} {
		if !strings.Contains(string(text), words) {
			t.Errorf("it does not say %q", words)
		}
	}
	if strings.Contains(string(text), "<script") || strings.Contains(string(text), "src=") {
		t.Error("it needs a neighbour, or runs something")
	}
}

// Articles and pictures whose names have letters of any script are carried as well, and the links of their pages lead to what is in the archive.
func TestNamesOfOtherScriptsAreCarried(t *testing.T) {
	t.Parallel()
	src := folder(t, map[string]string{"shop.yaml": smallShop,
		"procedures/düse-prüfen.md": head + "## Look\n\n![A spray nozzle](../pictures/Düse.svg)\n\nSee [scale](окалина.md).\n",
		"procedures/окалина.md":     head + "## Scrape\n\nSee [nozzle](düse-prüfen.md).\n",
		"pictures/Düse.svg":         `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10"><path d="M0 0h10v10z"/></svg>`})
	to := filepath.Join(t.TempDir(), "scripts.zip")
	r, err := Publish(t.Context(), Options{Manual: src, To: filepath.Join(t.TempDir(), "edition"), Now: day, Carry: to})
	if err != nil {
		t.Fatal(err, r.Findings)
	}
	a := carriedWhole(t, to)
	const page = "procedures/düse-prüfen.html"
	text, err := fs.ReadFile(a.FS(), page)
	if err != nil {
		t.Fatal(err)
	}
	led := 0
	for _, l := range regexp.MustCompile(`(?:href|src)="([^"#]*)`).FindAllStringSubmatch(string(text), -1) {
		name, err := url.PathUnescape(html.UnescapeString(l[1]))
		if err != nil || name == "" || strings.Contains(name, ":") {
			continue // to elsewhere, or within the page
		}
		if name = path.Join(path.Dir(page), name); strings.ContainsFunc(name, func(r rune) bool { return r > unicode.MaxASCII }) {
			led++
		}
		if _, err := fs.Stat(a.FS(), name); err != nil {
			t.Errorf("%s leads to %s: %v", page, name, err)
		}
	}
	if led < 2 {
		t.Errorf("%d links lead to names of other scripts:\n%s", led, text)
	}
}

// carriedWhole opens what an edition is carried in, which has to be whole.
func carriedWhole(t *testing.T, file string) *carry.Archive {
	t.Helper()
	a, err := carry.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := a.Close(); err != nil {
			t.Error(err)
		}
	})
	if report, err := a.Verify(t.Context()); err != nil || !report.OK {
		t.Errorf("%+v, %v", report, err)
	}
	return a
}
