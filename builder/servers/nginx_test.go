//go:build unix

package servers

import (
	"bytes"
	"compress/gzip"
	"crypto/tls"
	"crypto/x509"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/andybalholm/brotli"

	"tankside/builder/edition"
	"tankside/builder/host"
)

// nginx is a running server, set up by the files of the guide, with other places and ports.
type nginx struct {
	t       *testing.T
	manuals string // in place of /srv/manuals
	base    string // address of its manuals
	plain   string // address without encryption
	client  *http.Client
}

// start starts nginx as nobody, where the test runs as root, and as whoever runs the test otherwise. more is added to the server.
func start(t *testing.T, more string) *nginx {
	t.Helper()
	at := program(t, "nginx", "nginx")
	dir := t.TempDir()
	for _, folder := range []string{dir, filepath.Dir(dir)} { // nobody has to get there
		if err := os.Chmod(folder, 0o755); err != nil {
			t.Fatal(err)
		}
	}
	server := httptest.NewUnstartedServer(nil) // lends its certificate, which is for 127.0.0.1
	server.StartTLS()
	certificate := server.TLS.Certificates[0]
	server.Close()
	writePair(t, dir, certificate)
	n := &nginx{t: t, manuals: filepath.Join(dir, "manuals")}
	ports := [2]string{free(t), free(t)}
	for name, changes := range map[string][]string{
		"kinds.conf":   nil,
		"manuals.conf": nil,
		"site.conf": {
			"listen 80;", "listen 127.0.0.1:" + ports[0] + ";", "listen 443 ssl http2;", "listen 127.0.0.1:" + ports[1] + " ssl http2;" + more,
			"/etc/ssl/certs/manual.crt", dir + "/manual.crt", "/etc/ssl/private/manual.key", dir + "/manual.key",
			"root /srv/manuals/now;", "root " + n.manuals + "/now;", "/srv/manuals/before;", n.manuals + "/before;",
			"/etc/nginx/snippets/tankside-manuals.conf", dir + "/manuals.conf",
		},
	} {
		text, err := os.ReadFile("nginx/" + name)
		if err != nil {
			t.Fatal(err)
		}
		for i := 0; i < len(changes); i += 2 {
			if bytes.Count(text, []byte(changes[i])) != 1 {
				t.Fatalf("%s does not have %q once", name, changes[i])
			}
			text = bytes.Replace(text, []byte(changes[i]), []byte(changes[i+1]), 1)
		}
		write(t, filepath.Join(dir, name), string(text))
	}
	modules := ""
	if strings.Contains(more, "brotli") {
		modules = "load_module " + brotliModule + ";\n"
	}
	temps := ""
	for _, kind := range []string{"client_body", "proxy", "fastcgi", "uwsgi", "scgi"} {
		temps += fmt.Sprintf("    %s_temp_path %s/%s;\n", kind, dir, kind)
	}
	write(t, filepath.Join(dir, "nginx.conf"), modules+"daemon off;\nworker_processes 2;\npid "+dir+"/pid;\nevents {}\nhttp {\n    access_log off;\n"+temps+
		"    include "+dir+"/kinds.conf;\n    include "+dir+"/site.conf;\n}\n")
	n.give(dir)

	said := &bytes.Buffer{}
	cmd := exec.Command(at, "-p", dir, "-e", "stderr", "-c", filepath.Join(dir, "nginx.conf"))
	cmd.Stderr = said
	asNobody(cmd)
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := cmd.Process.Signal(os.Interrupt); err != nil {
			t.Error(err)
		}
		cmd.Wait() // an interrupt ends it with an error or without one
		for _, line := range strings.Split(said.String(), "\n") {
			if strings.Contains(line, "[") && !strings.Contains(line, "[notice]") && !strings.Contains(line, "No such file or directory") && !strings.Contains(line, "directory index of") {
				t.Errorf("nginx said: %s", line)
			}
		}
	})
	trusted := x509.NewCertPool()
	trusted.AddCert(server.Certificate())
	n.client = &http.Client{
		Transport:     &http.Transport{TLSClientConfig: &tls.Config{RootCAs: trusted}, ForceAttemptHTTP2: true, DisableCompression: true},
		CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse },
		Timeout:       time.Minute,
	}
	t.Cleanup(n.client.CloseIdleConnections)
	n.base, n.plain = "https://127.0.0.1:"+ports[1]+"/", "http://127.0.0.1:"+ports[0]+"/"
	for end := time.Now().Add(20 * time.Second); ; time.Sleep(10 * time.Millisecond) {
		c, err := net.Dial("tcp", "127.0.0.1:"+ports[1])
		if err == nil {
			if err := c.Close(); err != nil {
				t.Fatal(err)
			}
			return n
		}
		if time.Now().After(end) {
			t.Fatalf("nginx does not start: %v\n%s", err, said)
		}
	}
}

const brotliModule = "/usr/lib/nginx/modules/ngx_http_brotli_static_module.so"

func free(t *testing.T) string {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close() // another takes its place
	return strconv.Itoa(l.Addr().(*net.TCPAddr).Port)
}

func write(t *testing.T, name, text string) {
	t.Helper()
	if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

// have has readers of a manual get an edition, by the script of the guide.
func (n *nginx) have(name, edition string) {
	n.t.Helper()
	if out, err := exec.Command("sh", "nginx/switch.sh", n.manuals, name, edition).CombinedOutput(); err != nil {
		n.t.Fatalf("%v\n%s", err, out)
	}
}

// edition is a folder for an edition beside the manuals.
func (n *nginx) edition(name string) string {
	return filepath.Join(filepath.Dir(n.manuals), "editions", name)
}

func (n *nginx) ask(method, url string, head ...string) (*http.Response, []byte) {
	n.t.Helper()
	r, err := http.NewRequestWithContext(n.t.Context(), method, url, nil)
	if err != nil {
		n.t.Fatal(err)
	}
	for i := 0; i < len(head); i += 2 {
		r.Header.Set(head[i], head[i+1])
	}
	answer, err := n.client.Do(r)
	if err != nil {
		n.t.Fatal(err)
	}
	defer answer.Body.Close() // it was read alone
	data, err := io.ReadAll(answer.Body)
	if err != nil {
		n.t.Fatal(err)
	}
	return answer, data
}

func unpacked(t *testing.T, coding string, data []byte) []byte {
	t.Helper()
	var from io.Reader = bytes.NewReader(data)
	switch coding {
	case "gzip":
		z, err := gzip.NewReader(from)
		if err != nil {
			t.Fatal(err)
		}
		from = z
	case "br":
		from = brotli.NewReader(from)
	case "":
	default:
		t.Fatalf("coding %q", coding)
	}
	data, err := io.ReadAll(from)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// Every file of an edition comes from nginx with the same content, type, coding, time to keep and security headers as tankside host sends.
func TestNginxSendsWhatTheHostSends(t *testing.T) {
	n := start(t, "")
	copied(t, n.edition("first"))
	n.have("pumps", n.edition("first"))
	n.have("valves", n.edition("first"))
	list, err := edition.ReadList(os.DirFS(n.edition("first")))
	if err != nil {
		t.Fatal(err)
	}
	h := host.New(n.edition("first"), host.Options{})
	kinds := map[string]int{}
	names := []string{"", "soils/", edition.ListName}
	for _, f := range list.Files {
		names = append(names, f.Path)
	}
	for _, name := range names {
		for _, coding := range []string{"", "gzip"} {
			w := httptest.NewRecorder()
			r := httptest.NewRequest("GET", "http://127.0.0.1/", nil)
			r.URL.Path = "/" + name
			r.Header.Set("Accept-Encoding", coding)
			h.ServeHTTP(w, r)
			got, data := n.ask("GET", n.base+"pumps/"+name, "Accept-Encoding", coding)
			if got.StatusCode != 200 || w.Code != 200 {
				t.Fatalf("%s: %d, from the host %d", name, got.StatusCode, w.Code)
			}
			for _, head := range []string{"Content-Type", "Content-Encoding", "Cache-Control", "Vary", "X-Content-Type-Options", "Referrer-Policy", "Cross-Origin-Opener-Policy", "Cross-Origin-Resource-Policy", "Content-Security-Policy"} {
				want, has := w.Header().Get(head), strings.Join(got.Header.Values(head), " | ")
				switch {
				case head == "Content-Security-Policy":
					want = strings.Replace(want, " "+list.Ask(), "", 1) // told for the other manual alone
				case head == "Cache-Control" && (name == edition.ListName || name == edition.WorkerName):
					want = "no-store"
				case (head == "Content-Encoding" || head == "Vary") && path.Ext(name) == ".json" && has != "": // compressed as it is sent
					want = has
				}
				if has != want {
					t.Errorf("%s, coding %q: %s is %q, from the host %q", name, coding, head, has, want)
				}
			}
			if !bytes.Equal(unpacked(t, got.Header.Get("Content-Encoding"), data), unpacked(t, w.Header().Get("Content-Encoding"), w.Body.Bytes())) {
				t.Errorf("%s: another content", name)
			}
			if got.Header.Get("Content-Encoding") == "gzip" {
				kinds["compressed"]++
			}
		}
		kinds[path.Ext(name)]++
	}
	for _, kind := range []string{"compressed", ".html", ".js", ".css", ".svg", ".ics", ".json", ".txt", ".zst", ""} {
		if kinds[kind] == 0 {
			t.Errorf("no file of the kind %q was asked for", kind)
		}
	}
	t.Logf("%d files: %v", len(names), kinds)
	if got, _ := n.ask("GET", n.base+"valves/"); !strings.Contains(got.Header.Get("Content-Security-Policy"), "img-src 'self' data: https://valves.shop.example/current.svg;") {
		t.Errorf("the picture by which a copy learns which edition is served is not let in: %v", got.Header)
	}
}

// Kinds that this edition has none of have their types too.
func TestNginxKnowsEveryType(t *testing.T) {
	n := start(t, "")
	w, err := edition.BeginIn(nil, n.edition("first"))
	if err != nil {
		t.Fatal(err)
	}
	kinds := []string{"css", "gif", "html", "ics", "jpeg", "jpg", "js", "json", "pdf", "png", "svg", "txt", "wasm", "webmanifest", "webp", "zip", "zst", "unknown"}
	for _, kind := range kinds {
		if err := w.Add("some."+kind, []byte("content")); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := w.Commit(edition.List{}, []byte("// worker\n")); err != nil {
		t.Fatal(err)
	}
	n.have("pumps", n.edition("first"))
	h := host.New(n.edition("first"), host.Options{})
	for _, kind := range kinds {
		answer := httptest.NewRecorder()
		h.ServeHTTP(answer, httptest.NewRequest("GET", "http://127.0.0.1/some."+kind, nil))
		got, _ := n.ask("GET", n.base+"pumps/some."+kind)
		if want := answer.Header().Get("Content-Type"); got.Header.Get("Content-Type") != want || want == "application/octet-stream" != (kind == "unknown") {
			t.Errorf("%s: %q, from the host %q", kind, got.Header.Get("Content-Type"), want)
		}
	}
}

// What is not there, is hidden or is written is refused, and nobody keeps the refusal.
func TestNginxRefuses(t *testing.T) {
	n := start(t, "")
	copied(t, n.edition("first"))
	write(t, n.edition("first")+"/.hidden", "secret")
	n.have("pumps", n.edition("first"))
	for _, c := range []struct {
		method, url string
		status      int
	}{
		{"GET", n.base + "pumps/nothing.html", 404},
		{"GET", n.base + "pumps/assets/nothing.0123456789.js", 404},
		{"GET", n.base + "pumps/assets/", 403},
		{"GET", n.base + "pumps/.hidden", 404},
		{"GET", n.base + "pumps/index.html.gz", 404},
		{"GET", n.base + "pumps/../../editions/first/index.html", 400},
		{"GET", n.base + "pumps/..%2f..%2fmanual.key", 400},
		{"GET", n.base, 403},
		{"GET", n.base + "others/", 404},
		{"POST", n.base + "pumps/index.html", 405},
		{"PUT", n.base + "pumps/index.html", 405},
		{"DELETE", n.base + "pumps/index.html", 405},
	} {
		got, data := n.ask(c.method, c.url)
		if got.StatusCode != c.status || got.Header.Get("Cache-Control") != "no-store" || got.Header.Get("X-Content-Type-Options") != "nosniff" || strings.Contains(string(data), "secret") {
			t.Errorf("%s %s: %d %v", c.method, c.url, got.StatusCode, got.Header)
		}
	}
	if got, _ := n.ask("GET", n.base+"pumps"); got.StatusCode != 301 || got.Header.Get("Location") != "/pumps/" {
		t.Errorf("without the slash: %d %v", got.StatusCode, got.Header)
	}
	if got, _ := n.ask("GET", n.plain+"pumps/?a=b"); got.StatusCode != 301 || got.Header.Get("Location") != "https://127.0.0.1/pumps/?a=b" {
		t.Errorf("without encryption: %d %v", got.StatusCode, got.Header)
	}
	if got, data := n.ask("HEAD", n.base+"pumps/index.html"); got.StatusCode != 200 || len(data) != 0 || got.ProtoMajor != 2 {
		t.Errorf("HEAD: %d %s", got.StatusCode, got.Proto)
	}
	if got, data := n.ask("GET", n.base+"pumps/index.html", "Range", "bytes=0-14"); got.StatusCode != 206 || string(data) != "<!doctype html>" {
		t.Errorf("a part: %d %s", got.StatusCode, data)
	}
}

// The smaller of the compressed files are sent where nginx has the module for it.
func TestNginxSendsBrotli(t *testing.T) {
	program(t, "nginx", "nginx")
	if _, err := os.Stat(brotliModule); err != nil {
		t.Skip("nginx has no module for brotli on this machine, so nothing was tried with it. Install it with: apt-get install libnginx-mod-http-brotli-static")
	}
	n := start(t, " brotli_static on;")
	copied(t, n.edition("first"))
	n.have("pumps", n.edition("first"))
	list, err := edition.ReadList(os.DirFS(n.edition("first")))
	if err != nil {
		t.Fatal(err)
	}
	sent := 0
	for _, f := range list.Files {
		if f.Brotli == "" {
			continue
		}
		got, data := n.ask("GET", n.base+"pumps/"+f.Path, "Accept-Encoding", "gzip, br")
		if got.Header.Get("Content-Encoding") != "br" || edition.Sum(data) != f.Brotli || !strings.Contains(got.Header.Get("Vary"), "Accept-Encoding") {
			t.Errorf("%s: %v", f.Path, got.Header)
		}
		sent++
	}
	if sent < 20 {
		t.Errorf("%d files were sent so", sent)
	}
}

// While one edition takes the place of another, and back, each page that a reader gets has all its parts, of whichever edition it is.
func TestNginxSwitches(t *testing.T) {
	n := start(t, "")
	first, second := n.edition("first"), n.edition("second")
	copied(t, first)
	restyled(t, second)
	n.have("pumps", first)
	n.have("valves", second)
	files := contents(t, first, second)
	var readers []*reader
	for range 3 {
		readers = append(readers, read(n.client, n.base+"pumps/", files))
	}
	const times = 4 // there and back twice
	for i := range times {
		for _, r := range readers {
			r.more(t, 2)
		}
		n.have("pumps", []string{second, first}[i%2])
	}
	for _, r := range readers {
		r.more(t, 2)
		r.end(t)
		if r.seen[0] == 0 || r.seen[1] == 0 {
			t.Error("a reader met one edition alone")
		}
	}
	if _, data := n.ask("GET", n.base+"valves/edition.json"); !bytes.Contains(data, []byte("ffffffffff")) {
		t.Error("the other manual was switched too")
	}
	if out, err := exec.Command("sh", "nginx/switch.sh", n.manuals, "pumps", first).CombinedOutput(); err != nil || !strings.Contains(string(out), "already") {
		t.Errorf("the same again: %v %s", err, out)
	}
	if out, err := exec.Command("sh", "nginx/switch.sh", n.manuals, "pumps", t.TempDir()).CombinedOutput(); err == nil {
		t.Errorf("a folder without an edition was taken: %s", out)
	}

	// That the parts of the edition before are found is what keeps readers from missing them.
	list, err := edition.ReadList(os.DirFS(second))
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range list.Files {
		if strings.Contains(f.Path, ".ffffffffff.css") {
			if got, _ := n.ask("GET", n.base+"pumps/"+f.Path); got.StatusCode != 200 || got.Header.Get("Cache-Control") != "public, max-age=31536000, immutable" {
				t.Errorf("%s of the edition before: %d %v", f.Path, got.StatusCode, got.Header)
			}
			if err := os.Remove(n.manuals + "/before/pumps"); err != nil {
				t.Fatal(err)
			}
			if got, _ := n.ask("GET", n.base+"pumps/"+f.Path); got.StatusCode != 404 {
				t.Errorf("%s with no edition before: %d", f.Path, got.StatusCode)
			}
			return
		}
	}
	t.Error("the other edition has no style of its own")
}

// A page of the same length and the same time, as an archive unpacks it, is not taken for the one that a browser has.
func TestNginxTellsPagesOfOneLengthApart(t *testing.T) {
	n := start(t, "")
	at := time.Date(1980, 1, 1, 0, 0, 0, 0, time.UTC)
	for name, limit := range map[string]string{"first": "65", "second": "60"} {
		w, err := edition.BeginIn(nil, n.edition(name))
		if err != nil {
			t.Fatal(err)
		}
		for file, text := range map[string]string{"index.html": "At most " + limit + " °C.", "same.html": "Rinse."} {
			if err := w.Add(file, []byte("<!doctype html><title>Bath</title><p>"+text)); err != nil {
				t.Fatal(err)
			}
		}
		if _, err := w.Commit(edition.List{}, []byte("// worker\n")); err != nil {
			t.Fatal(err)
		}
		for _, file := range []string{"index.html", "same.html"} {
			if err := os.Chtimes(filepath.Join(n.edition(name), file), at, at); err != nil {
				t.Fatal(err)
			}
		}
	}
	tag := func(file string) string {
		got, _ := n.ask("GET", n.base+"pumps/"+file)
		return got.Header.Get("ETag")
	}
	n.have("pumps", n.edition("first"))
	page, same := tag("index.html"), tag("same.html")
	if got, _ := n.ask("GET", n.base+"pumps/index.html", "If-None-Match", page); page == "" || got.StatusCode != 304 {
		t.Fatalf("the same page: %d %q", got.StatusCode, page)
	}
	for i, want := range []string{"60", "65", "60"} {
		n.have("pumps", n.edition([]string{"second", "first"}[i%2]))
		if got, data := n.ask("GET", n.base+"pumps/index.html", "If-None-Match", page); got.StatusCode != 200 || !strings.Contains(string(data), want) {
			t.Errorf("another page of the same length: %d %s", got.StatusCode, data)
		}
		if got, _ := n.ask("GET", n.base+"pumps/same.html", "If-None-Match", same); got.StatusCode != 304 {
			t.Errorf("a page that stayed the same: %d", got.StatusCode)
		}
		page = tag("index.html")
	}
}
