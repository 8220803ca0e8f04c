package browser

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/andybalholm/brotli"
)

// asked is what a page asks for as it is read: its style, its scripts, its icon, and the pictures that are not loaded late.
var asked = regexp.MustCompile(`<(?:link[^>]+href|script[^>]+src|img[^>]+src)="([^"]+)"[^>]*>`)

// An article page without calculator comes over the wire with all that it needs in 66 kB, compressed as the edition's own neighbours are.
func TestArticleIsLight(t *testing.T) {
	t.Parallel()
	const budget = 66_000
	folder := published(t)
	for _, page := range []string{"soils/wax.html", "chemistries/mild-alkaline.html", "materials/brass.html", "symptoms/spotty-parts.html", "calculators.html", "calculators/particles.html", "calculators/top-up.html"} {
		html, err := os.ReadFile(filepath.Join(folder, page))
		if err != nil {
			t.Fatal(err)
		}
		total := wire(t, page, html)
		for _, m := range asked.FindAllSubmatch(html, -1) {
			if bytes.Contains(m[0], []byte(`loading="lazy"`)) {
				continue
			}
			name := filepath.Join(filepath.Dir(page), string(m[1]))
			data, err := os.ReadFile(filepath.Join(folder, name))
			if err != nil {
				t.Fatal(err)
			}
			total += wire(t, name, data)
		}
		if t.Logf("%s: %d bytes over the wire", page, total); total > budget {
			t.Errorf("%s with all it needs takes %d bytes over the wire, of %d", page, total, budget)
		}
	}
}

// wire is the size of a file as it is sent.
func wire(t *testing.T, name string, data []byte) int {
	t.Helper()
	switch filepath.Ext(name) {
	case ".html", ".css", ".js", ".svg":
	default:
		return len(data)
	}
	var b bytes.Buffer
	w := brotli.NewWriterLevel(&b, brotli.BestCompression)
	if _, err := w.Write(data); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Len()
}

// Once it is there an article page asks for nothing but its pictures. (What keeps the edition on the device is no request of the page.)
func TestArticleAsksForNothingMore(t *testing.T) {
	t.Parallel()
	base, _ := serve(t, published(t))
	b := open(t, base, "soils/wax.html")
	b.until(`document.readyState === "complete"`)
	html, err := os.ReadFile(filepath.Join(published(t), "soils/wax.html"))
	if err != nil {
		t.Fatal(err)
	}
	allowed := map[string]bool{base + "soils/wax.html": true}
	for _, m := range asked.FindAllSubmatch(html, -1) {
		allowed[base+strings.TrimPrefix(string(m[1]), "../")] = true
	}
	ask[bool](b, `new Promise(done => { scrollTo(0, document.body.scrollHeight); setTimeout(() => done(true), 500); })`)
	b.mu.Lock()
	defer b.mu.Unlock()
	for _, r := range b.requests {
		if !allowed[r] && r != base+"offline.js" {
			t.Errorf("the page asks for %s", r)
		}
	}
}
