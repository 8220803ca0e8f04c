package host

import (
	"bufio"
	"bytes"
	"compress/gzip"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/andybalholm/brotli"

	"tankside/builder/edition"
)

const page = "<!doctype html><html lang=\"en\"><head><title>Hard wax</title></head><body><p>Wax comes off above its melting point.</p></body></html>\n"

// A page and a script that are worth compressing.
var (
	long   = strings.Replace(page, "<p>", "<p>"+strings.Repeat("Hard wax softens before it melts. ", 100), 1)
	script = "\"use strict\";\n" + strings.Repeat("// a script that is long enough\n", 40)
)

// publish writes an edition of these files.
func publish(t *testing.T, dir string, number int, files map[string]string) edition.List {
	t.Helper()
	w, err := edition.BeginIn(nil, dir)
	if err != nil {
		t.Fatal(err)
	}
	for name, text := range files {
		if err := w.Add(name, []byte(text)); err != nil {
			t.Fatal(err)
		}
	}
	list, err := w.Commit(edition.List{Mark: edition.Mark{Edition: number}}, []byte("// worker\n"))
	if err != nil {
		t.Fatal(err)
	}
	return list
}

func small(t *testing.T) (dir string, list edition.List) {
	t.Helper()
	dir = filepath.Join(t.TempDir(), "edition")
	list = publish(t, dir, 1, map[string]string{
		"index.html":                 page,
		"soils/wax.html":             long,
		"soils/index.html":           page,
		"assets/find.0123456789.js":  script,
		"assets/mark.abcdef0123.svg": "<svg xmlns=\"http://www.w3.org/2000/svg\"/>",
		"assets/look.aaaaaaaaaa.css": "p { margin: 0 }",
		"assets/tank.bbbbbbbbbb.png": "\x89PNG",
	})
	return dir, list
}

func ask(h http.Handler, method, path string, head ...string) *http.Response {
	r := httptest.NewRequest(method, "http://127.0.0.1:7130/", nil)
	r.URL.Path = path
	for i := 0; i < len(head); i += 2 {
		if head[i] == "Host" {
			r.Host = head[i+1]
			continue
		}
		r.Header.Add(head[i], head[i+1])
	}
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w.Result()
}

func body(t *testing.T, r *http.Response) string {
	t.Helper()
	data, err := io.ReadAll(r.Body)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

func TestFiles(t *testing.T) {
	dir, list := small(t)
	sum := map[string]edition.File{}
	for _, f := range list.Files {
		sum[f.Path] = f
	}
	const page, asset = "no-cache", "public, max-age=31536000, immutable"
	for _, c := range []struct {
		path, file, kind, cache string
	}{
		// Media types: RFC 9239 (text/javascript), RFC 8259 (application/json), SVG 2 appendix M (image/svg+xml), RFC 2318 (text/css).
		{"/", "index.html", "text/html; charset=utf-8", page},
		{"/index.html", "index.html", "text/html; charset=utf-8", page},
		{"/soils/", "soils/index.html", "text/html; charset=utf-8", page},
		{"/soils/wax.html", "soils/wax.html", "text/html; charset=utf-8", page},
		{"/offline.js", "offline.js", "text/javascript; charset=utf-8", page},
		{"/assets/find.0123456789.js", "assets/find.0123456789.js", "text/javascript; charset=utf-8", asset},
		{"/assets/mark.abcdef0123.svg", "assets/mark.abcdef0123.svg", "image/svg+xml", asset},
		{"/assets/look.aaaaaaaaaa.css", "assets/look.aaaaaaaaaa.css", "text/css; charset=utf-8", asset},
		{"/assets/tank.bbbbbbbbbb.png", "assets/tank.bbbbbbbbbb.png", "image/png", asset},
	} {
		t.Run(c.path, func(t *testing.T) {
			h := New(dir, Options{Loopback: true})
			r := ask(h, "GET", c.path)
			want, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(c.file)))
			if err != nil {
				t.Fatal(err)
			}
			if got := body(t, r); r.StatusCode != 200 || got != string(want) {
				t.Errorf("status %d, %d bytes; want 200 and %d bytes of %s", r.StatusCode, len(got), len(want), c.file)
			}
			for key, want := range map[string]string{
				"Content-Type": c.kind, "Cache-Control": c.cache, "ETag": `"` + sum[c.file].SHA256 + `"`,
				"X-Content-Type-Options": "nosniff", "Referrer-Policy": "no-referrer", "Content-Encoding": "",
			} {
				if got := r.Header.Get(key); got != want {
					t.Errorf("%s: %q, want %q", key, got, want)
				}
			}
			if got := r.Header.Get("Content-Security-Policy"); !strings.Contains(got, "default-src 'none'") || !strings.Contains(got, "frame-ancestors 'none'") {
				t.Errorf("Content-Security-Policy: %q", got)
			} else if drawing := c.kind == "image/svg+xml"; drawing != strings.Contains(got, "style-src 'unsafe-inline'; ") || drawing != strings.Contains(got, "; sandbox;") {
				t.Errorf("Content-Security-Policy of %s: %q", c.kind, got) // a drawing has its own styles, and runs nothing
			}
			head := ask(h, "HEAD", c.path)
			if got := body(t, head); got != "" || head.StatusCode != 200 || head.Header.Get("ETag") != r.Header.Get("ETag") || head.ContentLength != int64(len(want)) {
				t.Errorf("HEAD: status %d, length %d, body %q", head.StatusCode, head.ContentLength, got)
			}
			again := ask(h, "GET", c.path, "If-None-Match", r.Header.Get("ETag"))
			if got := body(t, again); again.StatusCode != 304 || got != "" {
				t.Errorf("with the entity tag: status %d, body %q; want 304", again.StatusCode, got)
			}
		})
	}
}

func TestList(t *testing.T) {
	dir, _ := small(t)
	r := ask(New(dir, Options{}), "GET", "/edition.json")
	var list edition.List
	if err := json.Unmarshal([]byte(body(t, r)), &list); err != nil {
		t.Fatal(err)
	}
	if r.StatusCode != 200 || list.Edition != 1 || r.Header.Get("Content-Type") != "application/json" || len(r.Header.Get("ETag")) != 66 {
		t.Errorf("status %d, edition %d, %v", r.StatusCode, list.Edition, r.Header)
	}
}

func TestCompressed(t *testing.T) {
	const name = "assets/find.0123456789.js"
	dir, list := small(t)
	var find edition.File
	for _, f := range list.Files {
		if f.Path == name {
			find = f
		}
	}
	// Weights: RFC 9110, section 12.4.2 and 12.5.3; a weight of 0 refuses.
	for _, c := range []struct{ accept, coding string }{
		{"", ""},
		{"br", "br"},
		{"gzip", "gzip"},
		{"x-gzip", "gzip"},
		{"gzip, deflate, br, zstd", "br"},
		{"BR;q=1.0, gzip;q=0.8", "br"},
		{"gzip;q=1.0, br;q=0.5", "gzip"},
		{"br;q=0, gzip", "gzip"},
		{"br;q=0, gzip;q=0", ""},
		{"*", "br"},
		{"*;q=0.1, br;q=0", "gzip"},
		{"identity", ""},
		{"br;q=much", ""},
		{"deflate", ""},
		{",;,=", ""},
	} {
		t.Run(c.accept, func(t *testing.T) {
			h := New(dir, Options{})
			r := ask(h, "GET", "/"+name, "Accept-Encoding", c.accept)
			if got := r.Header.Get("Content-Encoding"); got != c.coding {
				t.Fatalf("Content-Encoding %q, want %q", got, c.coding)
			}
			if got := r.Header.Get("Vary"); got != "Accept-Encoding" {
				t.Errorf("Vary: %q", got)
			}
			sent := body(t, r)
			text, tag := sent, find.SHA256
			var in io.Reader
			switch c.coding {
			case "br":
				in, tag = brotli.NewReader(strings.NewReader(sent)), find.Brotli
			case "gzip":
				z, err := gzip.NewReader(strings.NewReader(sent))
				if err != nil {
					t.Fatal(err)
				}
				in, tag = z, find.Gzip
			}
			if in != nil {
				data, err := io.ReadAll(in)
				if err != nil {
					t.Fatal(err)
				}
				text = string(data)
				if r.ContentLength != int64(len(sent)) || len(sent) >= len(script) {
					t.Errorf("Content-Length %d, sent %d of %d bytes", r.ContentLength, len(sent), len(script))
				}
			}
			if text != script {
				t.Errorf("the text that arrives is not the script")
			}
			if got := r.Header.Get("ETag"); got != `"`+tag+`"` {
				t.Errorf("ETag %s, want that of the coding", got)
			}
			again := ask(h, "GET", "/"+name, "Accept-Encoding", c.accept, "If-None-Match", r.Header.Get("ETag"))
			if again.StatusCode != 304 || again.Header.Get("Vary") != "Accept-Encoding" {
				t.Errorf("with the entity tag: status %d, Vary %q", again.StatusCode, again.Header.Get("Vary"))
			}
		})
	}
	if r := ask(New(dir, Options{}), "GET", "/index.html", "Accept-Encoding", "br"); r.Header.Get("Content-Encoding") != "" || r.Header.Get("Vary") != "" {
		t.Errorf("a page too small for neighbours was sent as %q", r.Header.Get("Content-Encoding"))
	}
	if r := ask(New(dir, Options{}), "GET", "/soils/wax.html", "Accept-Encoding", "br, gzip"); r.Header.Get("Content-Encoding") != "gzip" || r.StatusCode != 200 {
		t.Errorf("a page, which has no brotli neighbour: status %d, %q", r.StatusCode, r.Header.Get("Content-Encoding"))
	}
	if err := os.Remove(filepath.Join(dir, filepath.FromSlash(name)+".br")); err != nil {
		t.Fatal(err)
	}
	if r := ask(New(dir, Options{}), "GET", "/"+name, "Accept-Encoding", "br, gzip"); r.Header.Get("Content-Encoding") != "gzip" || r.StatusCode != 200 {
		t.Errorf("with the brotli neighbour gone: status %d, %q", r.StatusCode, r.Header.Get("Content-Encoding"))
	}
}

func TestRanges(t *testing.T) {
	dir, _ := small(t)
	// RFC 9110, section 14.
	for _, c := range []struct {
		ask    string
		status int
		want   string
	}{
		{"bytes=0-14", 206, long[:15]},
		{"bytes=-7", 206, long[len(long)-7:]},
		{"bytes=15-", 206, long[15:]},
		{"bytes=999999-", 416, ""},
		{"lines=1-2", 416, ""},
	} {
		r := ask(New(dir, Options{}), "GET", "/soils/wax.html", "Range", c.ask, "Accept-Encoding", "br, gzip")
		got := body(t, r)
		if r.StatusCode != c.status || c.status == 206 && got != c.want {
			t.Errorf("%s: status %d, %d bytes", c.ask, r.StatusCode, len(got))
		}
		if r.Header.Get("Content-Encoding") != "" {
			t.Errorf("%s: part of a file was compressed", c.ask)
		}
	}
}

func TestNothingElse(t *testing.T) {
	dir, _ := small(t)
	beside := filepath.Join(filepath.Dir(dir), "payroll.txt")
	for name, text := range map[string]string{beside: "secret", filepath.Join(dir, ".hidden"): "secret", filepath.Join(dir, "put-there-later.txt"): "secret"} {
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Remove(filepath.Join(dir, "soils", "index.html")); err != nil {
		t.Fatal(err)
	}
	linked := os.Symlink(beside, filepath.Join(dir, "soils", "index.html")) == nil // not every Windows desk may make links
	for _, path := range []string{
		"/payroll.txt", "/../payroll.txt", "/soils/../../payroll.txt", "/..\\payroll.txt", "//payroll.txt", "/soils/%2e%2e/%2e%2e/payroll.txt", "../payroll.txt",
		"/.hidden", "/put-there-later.txt", "/soils", "/assets/", "/assets", "/soils/wax.html.gz", "/soils/wax.html/", "/INDEX.HTML", "/index.html\x00.js", "/-/changes", "/-/changed.js",
		beside, "", "/./index.html", "/soils/./wax.html",
	} {
		r := ask(New(dir, Options{}), "GET", path)
		got := body(t, r)
		if path == "" {
			if r.StatusCode != 200 || got != page {
				t.Errorf("no path: status %d", r.StatusCode)
			}
			continue
		}
		if r.StatusCode != 404 || strings.Contains(got, "secret") || r.Header.Get("X-Content-Type-Options") != "nosniff" {
			t.Errorf("%q: status %d, %q", path, r.StatusCode, got)
		}
	}
	if r := ask(New(dir, Options{}), "GET", "/soils/"); linked && (r.StatusCode != 500 || strings.Contains(body(t, r), "secret")) {
		t.Errorf("a link out of the edition: status %d", r.StatusCode)
	}
}

// A page that is not there is told of in letters that can be read, in the reader's own light or dark, and the policy lets that style in and nothing else new.
func TestARefusalIsStyled(t *testing.T) {
	r := ask(New(t.TempDir(), Options{}), "GET", "/none.html")
	got, allowed := body(t, r), r.Header.Get("Content-Security-Policy")
	_, style, _ := strings.Cut(got, "<style>")
	style, _, found := strings.Cut(style, "</style>")
	if !found || !strings.Contains(style, "color-scheme:light dark") || !strings.Contains(style, "min-height:48px") {
		t.Errorf("the style is %q", style)
	}
	if want := "style-src 'sha256-" + hashOf(style) + "'"; !strings.Contains(allowed, want) || strings.Contains(allowed, "unsafe-inline") || strings.Count(allowed, "style-src") != 1 {
		t.Errorf("the policy is %q, want %s in it", allowed, want)
	}
	dir, _ := small(t)
	if served := ask(New(dir, Options{}), "GET", "/index.html"); strings.Contains(served.Header.Get("Content-Security-Policy"), "sha256") {
		t.Error("pages of the edition have the refusal's policy")
	}
}

func TestMethods(t *testing.T) {
	dir, _ := small(t)
	for _, method := range []string{"POST", "PUT", "DELETE", "OPTIONS", "TRACE", "CONNECT", "PATCH", "BREW"} {
		r := ask(New(dir, Options{}), method, "/index.html")
		if r.StatusCode != 405 || r.Header.Get("Allow") != "GET, HEAD" {
			t.Errorf("%s: status %d, Allow %q", method, r.StatusCode, r.Header.Get("Allow"))
		}
	}
}

func TestHostHeader(t *testing.T) {
	dir, _ := small(t)
	for host, status := range map[string]int{
		"127.0.0.1:7130": 200, "127.0.0.1": 200, "127.9.9.9:80": 200, "localhost:7130": 200, "LOCALHOST": 200, "localhost.": 200, "[::1]:7130": 200, "[::1]": 200,
		"manual.example": 421, "manual.example:7130": 421, "127.0.0.1.manual.example": 421, "localhost.manual.example:7130": 421, "192.0.2.7:7130": 421, "[2001:db8::1]:7130": 421,
		"": 421, "127.0.0.1:7130:80": 421, "0.0.0.0:7130": 421, "127.1": 421,
	} {
		if r := ask(New(dir, Options{Loopback: true}), "GET", "/", "Host", host); r.StatusCode != status {
			t.Errorf("Host %q: status %d, want %d", host, r.StatusCode, status)
		}
		if r := ask(New(dir, Options{}), "GET", "/", "Host", host); r.StatusCode != 200 {
			t.Errorf("Host %q, where others may reach it: status %d", host, r.StatusCode)
		}
	}
}

func TestSwap(t *testing.T) {
	dir, _ := small(t)
	h := New(dir, Options{})
	before := ask(h, "GET", "/index.html")
	publish(t, dir, 2, map[string]string{"index.html": strings.Replace(page, "wax", "grease", 1), "new.html": page})
	after := ask(h, "GET", "/index.html", "If-None-Match", before.Header.Get("ETag"))
	if got := body(t, after); after.StatusCode != 200 || !strings.Contains(got, "grease") {
		t.Errorf("after the swap: status %d, %q", after.StatusCode, got)
	}
	if r := ask(h, "GET", "/new.html"); r.StatusCode != 200 {
		t.Errorf("a new page: status %d", r.StatusCode)
	}
	if r := ask(h, "GET", "/soils/wax.html"); r.StatusCode != 404 {
		t.Errorf("a page that went: status %d", r.StatusCode)
	}
}

// While editions are swapped as fast as they can be, no request may see a mixture, a gap or an error.
func TestSwapUnderRequests(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "edition")
	files := func(text string) map[string]string {
		m := map[string]string{}
		for _, name := range []string{"index.html", "a.html", "b/c.html"} {
			m[name] = "<p>" + strings.Repeat(text+" ", 200) + "</p>"
		}
		return m
	}
	publish(t, dir, 1, files("one"))
	h := New(dir, Options{})
	stop := make(chan struct{})
	done := make(chan int)
	for range 3 {
		go func() {
			n := 0
			defer func() { done <- n }()
			for {
				select {
				case <-stop:
					return
				default:
				}
				for _, name := range []string{"/", "/a.html", "/b/c.html"} {
					r := ask(h, "GET", name)
					got := body(t, r)
					if r.StatusCode != 200 || got != files("one")["a.html"] && got != files("two")["a.html"] {
						t.Errorf("%s: status %d, %.60q", name, r.StatusCode, got)
						return
					}
					n++
				}
			}
		}()
	}
	for i := range 30 {
		publish(t, dir, i, files([]string{"one", "two"}[i%2]))
	}
	close(stop)
	for range 3 {
		if n := <-done; n == 0 {
			t.Error("a reader read nothing")
		}
	}
}

func TestNoEdition(t *testing.T) {
	for name, dir := range map[string]string{"no folder": filepath.Join(t.TempDir(), "none"), "empty folder": t.TempDir()} {
		r := ask(New(dir, Options{}), "GET", "/")
		if got := body(t, r); r.StatusCode != 503 || !strings.Contains(got, "There is no edition here yet") {
			t.Errorf("%s: status %d, %q", name, r.StatusCode, got)
		}
	}
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "edition.json"), []byte("{"), 0o644); err != nil {
		t.Fatal(err)
	}
	if r := ask(New(dir, Options{}), "GET", "/"); r.StatusCode != 500 {
		t.Errorf("a damaged list: status %d", r.StatusCode)
	}
}

func TestDamaged(t *testing.T) {
	dir, _ := small(t)
	if err := os.Remove(filepath.Join(dir, "index.html")); err != nil {
		t.Fatal(err)
	}
	r := ask(New(dir, Options{}), "GET", "/")
	if got := body(t, r); r.StatusCode != 500 || !strings.Contains(got, "tankside verify") {
		t.Errorf("status %d, %q", r.StatusCode, got)
	}
}

func TestFollowedPage(t *testing.T) {
	dir, list := small(t)
	h := New(dir, Options{Loopback: true, Changes: NewChanges()})
	r := ask(h, "GET", "/soils/wax.html", "Accept-Encoding", "br, gzip")
	want := strings.Replace(long, "</body>", "<script src=\"/-/changed.js\" data-shown=\""+sumOf(list, "soils/wax.html")+"\"></script>\n</body>", 1)
	if got := body(t, r); got != want || r.Header.Get("Content-Encoding") != "" || r.Header.Get("Cache-Control") != "no-store" {
		t.Errorf("%v\n%s", r.Header, got)
	}
	if data, err := os.ReadFile(filepath.Join(dir, "soils", "wax.html")); err != nil || string(data) != long {
		t.Errorf("the edition on disk was touched: %v", err)
	}
	script := ask(h, "GET", "/-/changed.js")
	if got := body(t, script); script.StatusCode != 200 || script.Header.Get("Content-Type") != "text/javascript; charset=utf-8" || !strings.Contains(got, "EventSource") {
		t.Errorf("the script: status %d, %v", script.StatusCode, script.Header)
	}
	if got := body(t, ask(h, "GET", "/offline.js")); !strings.Contains(got, "unregister") {
		t.Errorf("the offline worker is kept while pages follow: %q", got)
	}
	if r := ask(h, "GET", "/assets/look.aaaaaaaaaa.css"); body(t, r) != "p { margin: 0 }" || r.Header.Get("Cache-Control") != "public, max-age=31536000, immutable" {
		t.Errorf("an asset: %v", r.Header)
	}
	if r := ask(h, "GET", "/none.html"); r.StatusCode != 404 || !strings.Contains(body(t, r), "/-/changed.js") {
		t.Errorf("a page that is not there yet does not follow: status %d", r.StatusCode)
	}
	if r := ask(h, "GET", "/-/changes", "Host", "manual.example"); r.StatusCode != 421 {
		t.Errorf("changes are told to another host: status %d", r.StatusCode)
	}
}

// sumOf is the checksum of a file of an edition.
func sumOf(l edition.List, path string) string {
	for _, f := range l.Files {
		if f.Path == path {
			return f.SHA256
		}
	}
	return ""
}

// told reads what a page is told next.
func told(t *testing.T, events *bufio.Scanner) (now struct{ Page, Say string }) {
	t.Helper()
	for events.Scan() {
		if data, is := strings.CutPrefix(events.Text(), "data: "); is {
			if err := json.Unmarshal([]byte(data), &now); err != nil {
				t.Fatal(err)
			}
			return now
		}
	}
	t.Fatalf("nothing more is told: %v", events.Err())
	return now
}

func TestChanges(t *testing.T) {
	dir, list := small(t)
	changes := NewChanges()
	l, err := Listen(Address{Host: "127.0.0.1"})
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(t.Context())
	served := make(chan error, 1)
	go func() { served <- Serve(ctx, l, New(dir, Options{Loopback: true, Changes: changes})) }()
	r, err := http.Get(URL(l) + "-/changes?page=/")
	if err != nil {
		t.Fatal(err)
	}
	defer r.Body.Close()
	if got := r.Header.Get("Content-Type"); got != "text/event-stream" { // WHATWG HTML, section 9.2.5
		t.Errorf("Content-Type %q", got)
	}
	events := bufio.NewScanner(r.Body)
	if now := told(t, events); now.Page != sumOf(list, "index.html") || now.Say != "" {
		t.Errorf("at first: %+v", now)
	}
	changes.Tell("There are 2 findings.")
	if now := told(t, events); now.Page != sumOf(list, "index.html") || now.Say != "There are 2 findings." {
		t.Errorf("with findings: %+v", now)
	}
	changes.Show("index.html", []byte("<p>Ahead.</p>"))
	if now := told(t, events); now.Page == sumOf(list, "index.html") || now.Page == "" {
		t.Errorf("with a page of the edition that is coming: %+v", now)
	}
	ahead, err := http.Get(URL(l))
	if err != nil {
		t.Fatal(err)
	}
	if got := body(t, ahead); !strings.HasPrefix(got, "<p>Ahead.</p>") {
		t.Errorf("the page of the edition that is coming is not served: %q", got)
	}
	next := publish(t, dir, 2, map[string]string{"index.html": long + "<p>More.</p>"})
	changes.Tell("")
	if now := told(t, events); now.Page != sumOf(next, "index.html") || now.Say != "" {
		t.Errorf("with a new edition: %+v", now)
	}
	publish(t, dir, 3, map[string]string{"other.html": long})
	changes.Tell("")
	if now := told(t, events); now.Page != noPage {
		t.Errorf("with an edition that has the page no more: %+v", now)
	}
	cancel()
	select {
	case err := <-served:
		if err != nil {
			t.Errorf("Serve: %v", err)
		}
	case <-time.After(10 * time.Second):
		t.Fatal("a page that is being told keeps the server from ending")
	}
}

func TestWithScript(t *testing.T) {
	for in, want := range map[string]string{
		"<body>x</body></html>":               "<body>x<script src=\"/-/changed.js\" data-shown=\"d\"></script>\n</body></html>",
		"no body":                             "no body<script src=\"/-/changed.js\" data-shown=\"d\"></script>\n",
		"<pre>&lt;/body></pre></body></body>": "<pre>&lt;/body></pre></body><script src=\"/-/changed.js\" data-shown=\"d\"></script>\n</body>",
	} {
		if got := withScript([]byte(in), "d"); !bytes.Equal(got, []byte(want)) {
			t.Errorf("%q: %q", in, got)
		}
	}
}

// A body that never ends is not waited for.
func TestSlowBodiesAreEnded(t *testing.T) {
	dir, _ := small(t)
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(t.Context())
	served := make(chan error, 1)
	go func() { served <- Serve(ctx, l, New(dir, Options{})) }()
	defer func() {
		cancel()
		if err := <-served; err != nil {
			t.Error(err)
		}
	}()
	for _, method := range []string{"POST", "GET"} {
		c, err := net.Dial("tcp", l.Addr().String())
		if err != nil {
			t.Fatal(err)
		}
		defer c.Close()
		fmt.Fprintf(c, "%s /index.html HTTP/1.1\r\nHost: localhost\r\nContent-Length: 100000\r\n\r\n", method)
		if err := c.SetReadDeadline(time.Now().Add(6 * longestBody)); err != nil {
			t.Fatal(err)
		}
		if _, err := io.Copy(io.Discard, c); err != nil {
			t.Errorf("%s: the connection stays open: %v", method, err)
		}
	}
}

// Readers of the same file share one copy of it, until it is another.
func TestReadersShareACopy(t *testing.T) {
	dir := t.TempDir()
	name := filepath.Join(dir, "a.js")
	write := func(text string) {
		t.Helper()
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	write("one")
	root, err := os.OpenRoot(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer root.Close()
	var s shared
	read := func() *content {
		t.Helper()
		c, err := s.read(root, "a.js")
		if err != nil {
			t.Fatal(err)
		}
		return c
	}
	first := read()
	if second := read(); second != first {
		t.Error("two readers have two copies")
	}
	write("another")
	if third := read(); string(third.data) != "another" {
		t.Errorf("a file that has changed is still %q", third.data)
	}
	runtime.KeepAlive(first)
}

// Readers who take what they asked for and do not read it on hold a small piece of it each, also where each has asked for another file.
func TestSlowReadersHoldLittle(t *testing.T) {
	if !movesOpen {
		t.Skip("files are read whole here")
	}
	const readers, bytesEach = 40, 8 << 20
	files := map[string]string{}
	for i := range readers {
		files[fmt.Sprintf("assets/p%d.png", i)] = strings.Repeat(string(rune('a'+i%26)), bytesEach)
	}
	dir := filepath.Join(t.TempDir(), "edition")
	publish(t, dir, 1, files)
	clear(files)
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(t.Context())
	served := make(chan error, 1)
	go func() { served <- Serve(ctx, l, New(dir, Options{})) }()
	var before, during runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&before)
	for i := range readers {
		c, err := net.Dial("tcp", l.Addr().String())
		if err != nil {
			t.Fatal(err)
		}
		defer c.Close()
		fmt.Fprintf(c, "GET /assets/p%d.png HTTP/1.1\r\nHost: localhost\r\n\r\n", i)
		if _, err := io.ReadFull(c, make([]byte, 512)); err != nil {
			t.Fatal(err)
		}
	}
	runtime.GC()
	runtime.ReadMemStats(&during)
	if grown := int64(during.HeapAlloc) - int64(before.HeapAlloc); grown > readers*bytesEach/10 {
		t.Errorf("%d readers hold %d MiB", readers, grown>>20)
	}
	publish(t, dir, 2, map[string]string{"index.html": page}) // while they read
	cancel()
	if err := <-served; err != nil {
		t.Error(err)
	}
}
