package host

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"tankside/builder/logbook"
)

const rowHeads = "when,temperature (°C),id\n"

// liveFor gives one page.
type liveFor map[string]string

func (l liveFor) Page(_ context.Context, name string) ([]byte, string, bool) {
	text, is := l[name]
	return []byte(text), "sum-of-" + name, is
}

// taking makes a host that takes readings, with a key of a paired device.
func taking(t *testing.T) (h *Handler, folder, key string, book *logbook.Book) {
	t.Helper()
	dir, _ := small(t)
	folder = t.TempDir()
	book, err := logbook.Open(folder, []string{"wash-1", "wash-2"})
	if err != nil {
		t.Fatal(err)
	}
	var code string
	now := func() time.Time { return time.Date(2026, 11, 29, 12, 0, 0, 0, time.UTC) }
	pairing := logbook.NewPairing(book, now, func(_, _, c string, _ time.Duration) { code = c })
	live := liveFor{"records/wash-1.html": "<!doctype html>as it is now", "index.html": "<!doctype html>first"}
	h = New(dir, Options{Records: NewRecords(book, pairing, live, now, now)})
	if r := post(h, "/records/pair", `{"name":"Tablet"}`, "Content-Type", "application/json"); r.StatusCode != http.StatusAccepted || strings.Contains(body(t, r), code) {
		t.Fatalf("asked for a code: %d", r.StatusCode)
	}
	r := post(h, "/records/pair", `{"name":"Tablet","code":"`+code+`"}`, "Content-Type", "application/json")
	var got struct{ Key string }
	if err := json.Unmarshal([]byte(body(t, r)), &got); err != nil || r.StatusCode != 200 || len(got.Key) < 40 {
		t.Fatalf("%d, %+v, %v", r.StatusCode, got, err)
	}
	return h, folder, got.Key, book
}

func post(h http.Handler, path, text string, head ...string) *http.Response {
	r := httptest.NewRequest("POST", "http://192.0.2.1:7130/", strings.NewReader(text))
	r.URL.Path = path
	for i := 0; i < len(head); i += 2 {
		r.Header.Set(head[i], head[i+1])
	}
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w.Result()
}

func csvOf(key string, more ...string) []string {
	return append([]string{"Content-Type", "text/csv", "Authorization", "Bearer " + key}, more...)
}

func TestReadingsAreTaken(t *testing.T) {
	h, folder, key, book := taking(t)
	r := post(h, "/records/wash-1", rowHeads+"2026-11-28T06:10,60,n1\n2026-11-28T06:10,x,n2\n", csvOf(key, "Origin", "http://192.0.2.1:7130")...)
	if got := body(t, r); r.StatusCode != 200 || !strings.HasPrefix(got, `{"kept":["n1"],"refused":[{"id":"n2","why":"`) || r.Header.Get("Content-Type") != "application/json" {
		t.Fatalf("%d %s", r.StatusCode, got)
	}
	whole := ask(h, "GET", "/records/wash-1.csv")
	if got := body(t, whole); got != rowHeads+"2026-11-28T06:10,60,n1\n" || whole.Header.Get("Content-Type") != "text/csv; charset=utf-8" || whole.Header.Get("X-Content-Type-Options") != "nosniff" {
		t.Errorf("%q %v", got, whole.Header)
	}
	if again := ask(h, "GET", "/records/wash-1.csv", "If-None-Match", whole.Header.Get("ETag")); again.StatusCode != http.StatusNotModified {
		t.Error(again.StatusCode)
	}
	if got := body(t, ask(h, "GET", "/records/")); got != fmt.Sprintf(`[{"tank":"wash-1","bytes":%d},{"tank":"wash-2","bytes":0}]`, len(rowHeads)+len("2026-11-28T06:10,60,n1\n")) {
		t.Error(got)
	}
	if r := ask(h, "GET", "/records/wash-2.csv"); r.StatusCode != http.StatusNoContent {
		t.Error(r.StatusCode)
	}
	if err := book.Revoke("Tablet", time.Now()); err != nil {
		t.Fatal(err)
	}
	if r := post(h, "/records/wash-1", rowHeads+"2026-11-28T06:10,60,n3\n", csvOf(key)...); r.StatusCode != http.StatusUnauthorized {
		t.Errorf("a device that was revoked a moment ago: %d", r.StatusCode)
	}
	data, err := os.ReadFile(filepath.Join(folder, "wash-1.csv"))
	if err != nil || strings.Contains(string(data), "n3") {
		t.Errorf("%s, %v", data, err)
	}
}

// Nothing can be written but rows of a tank, by a paired device, from a page of the host or by a program.
func TestWhatIsNotTaken(t *testing.T) {
	h, folder, key, _ := taking(t)
	files := func() string {
		var b strings.Builder
		entries, err := os.ReadDir(folder)
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range entries {
			data, err := os.ReadFile(filepath.Join(folder, e.Name()))
			fmt.Fprintf(&b, "%s %x %v\n", e.Name(), data, err)
		}
		return b.String()
	}
	before := files()
	row := rowHeads + "2026-11-28T06:10,60,n1\n"
	for name, c := range map[string]struct {
		path, text string
		head       []string
		status     int
	}{
		"no key":           {"/records/wash-1", row, []string{"Content-Type", "text/csv"}, 401},
		"another key":      {"/records/wash-1", row, csvOf("x" + key[1:]), 401},
		"key in the path":  {"/records/wash-1", row, []string{"Content-Type", "text/csv", "Authorization", "Basic " + key}, 401},
		"no tank":          {"/records/wash-9", row, csvOf(key), 404},
		"a path":           {"/records/../wash-1", row, csvOf(key), 405},
		"a hidden file":    {"/records/.devices.json", row, csvOf(key), 405},
		"deeper":           {"/records/wash-1/x", row, csvOf(key), 405},
		"a Windows path":   {`/records/..\wash-1`, row, csvOf(key), 405},
		"a file":           {"/records/wash-1.csv", row, csvOf(key), 405},
		"a page":           {"/index.html", row, csvOf(key), 405},
		"the folder":       {"/records/", row, csvOf(key), 405},
		"another site":     {"/records/wash-1", row, csvOf(key, "Origin", "http://evil.example"), 403},
		"another port":     {"/records/wash-1", row, csvOf(key, "Origin", "http://192.0.2.1:80"), 403},
		"no origin to say": {"/records/wash-1", row, csvOf(key, "Origin", "null"), 403},
		"cross-site":       {"/records/wash-1", row, csvOf(key, "Sec-Fetch-Site", "cross-site"), 403},
		"same site":        {"/records/wash-1", row, csvOf(key, "Sec-Fetch-Site", "same-site"), 403},
		"a form":           {"/records/wash-1", row, csvOf(key, "Content-Type", "text/plain"), 415},
		"pairing by form":  {"/records/pair", `{"name":"x","code":"1"}`, []string{"Content-Type", "text/plain"}, 415},
		"pairing from off": {"/records/pair", `{"name":"x"}`, []string{"Content-Type", "application/json", "Origin", "https://evil.example"}, 403},
		"no JSON":          {"/records/pair", `name`, []string{"Content-Type", "application/json"}, 400},
		"long JSON":        {"/records/pair", `{"name":"` + strings.Repeat("x", 2000) + `"}`, []string{"Content-Type", "application/json"}, 400},
		"wrong code":       {"/records/pair", `{"name":"x","code":"0"}`, []string{"Content-Type", "application/json"}, 403},
		"too large":        {"/records/wash-1", rowHeads + strings.Repeat("x", logbook.MaxBody), csvOf(key), 413},
		"too many rows":    {"/records/wash-1", rowHeads + strings.Repeat("2026-11-28T06:10,60,n1\n", logbook.MaxRows+1), csvOf(key), 400},
		"no table":         {"/records/wash-1", "\xff\xfe", csvOf(key), 400},
	} {
		r := post(h, c.path, c.text, c.head...)
		if got := body(t, r); r.StatusCode != c.status {
			t.Errorf("%s: %d %s, want %d", name, r.StatusCode, got, c.status)
		}
		for head := range r.Header {
			if strings.HasPrefix(head, "Access-Control-") {
				t.Errorf("%s: %s lets other sites in", name, head)
			}
		}
	}
	for _, method := range []string{"PUT", "DELETE", "PATCH", "OPTIONS", "TRACE"} {
		for _, path := range []string{"/records/wash-1", "/records/wash-1.csv", "/records/", "/records/pair"} {
			if r := ask(h, method, path, "Authorization", "Bearer "+key, "Origin", "http://evil.example", "Access-Control-Request-Method", "POST"); r.StatusCode != 405 || r.Header.Get("Access-Control-Allow-Origin") != "" {
				t.Errorf("%s %s: %d", method, path, r.StatusCode)
			}
		}
	}
	for _, path := range []string{"/records/.devices.json", "/records/../.devices.json", "/records/.devices.json.csv", "/records/../wash-1.csv", "/records/.wash-1.csv.adding"} {
		if r := ask(h, "GET", path); r.StatusCode != 404 {
			t.Errorf("GET %s: %d", path, r.StatusCode)
		}
	}
	if after := files(); after != before {
		t.Errorf("something was written:\n%s\n%s", before, after)
	}
	if r := post(New(t.TempDir(), Options{}), "/records/wash-1", row, csvOf(key)...); r.StatusCode != 405 || r.Header.Get(RecordsHeader) != "" {
		t.Errorf("a host that takes no readings: %d", r.StatusCode)
	}
}

func TestDevicesAreHeldToAPace(t *testing.T) {
	h, _, key, _ := taking(t) // its clock stands still
	refused := 0
	for i := range sendBurst + 20 {
		r := post(h, "/records/wash-1", rowHeads+fmt.Sprintf("2026-11-28T06:10,60,n%d\n", i), csvOf(key)...)
		if r.StatusCode == http.StatusTooManyRequests && r.Header.Get("Retry-After") != "" {
			refused++
		}
	}
	if refused != 20 {
		t.Errorf("%d of %d were held back", refused, sendBurst+20)
	}
	refused = 0
	for range askBurst + 5 {
		if r := post(h, "/records/pair", `{"name":"x","code":"1"}`, "Content-Type", "application/json"); r.StatusCode == http.StatusTooManyRequests {
			refused++
		}
	}
	if refused < 5 {
		t.Errorf("%d tries of codes were held back", refused)
	}
	h, _, key, _ = taking(t)
	status := map[int]int{}
	for i := range 8 {
		var rows strings.Builder
		for j := range logbook.MaxRows {
			fmt.Fprintf(&rows, "2026-11-28T06:10,60,n%d-%d\n", i, j)
		}
		status[post(h, "/records/wash-2", rowHeads+rows.String(), csvOf(key)...).StatusCode]++
	}
	if status[200] != rowBurst/logbook.MaxRows || status[429] != 8-status[200] {
		t.Error(status)
	}
}

// Everybody is shown the page as the readings are now; the offline worker gets the edition as its list has it.
func TestLivePages(t *testing.T) {
	h, _, _, _ := taking(t)
	for _, path := range []string{"/records/wash-1.html", "/-/live/records/wash-1.html"} {
		r := ask(h, "GET", path)
		if got := body(t, r); got != "<!doctype html>as it is now" || r.Header.Get("Content-Type") != "text/html; charset=utf-8" || r.Header.Get(RecordsHeader) != "taken" || !strings.Contains(r.Header.Get("Content-Security-Policy"), "default-src 'none'") {
			t.Errorf("%s: %q %v", path, got, r.Header)
		}
		if again := ask(h, "GET", path, "If-None-Match", r.Header.Get("ETag")); again.StatusCode != 304 {
			t.Errorf("%s: %d", path, again.StatusCode)
		}
	}
	if got := body(t, ask(h, "GET", "/", "Sec-Fetch-Dest", "document")); !strings.HasSuffix(got, "first") {
		t.Errorf("%q", got)
	}
	if got := body(t, ask(h, "GET", "/index.html", "Sec-Fetch-Dest", "empty")); got != page {
		t.Errorf("the offline worker gets %q", got)
	}
	if r := ask(h, "GET", "/-/live/soils/wax.html"); r.StatusCode != http.StatusNoContent {
		t.Error(r.StatusCode)
	}
	if r := ask(h, "HEAD", "/edition.json"); r.StatusCode != 200 || r.Header.Get(RecordsHeader) != "taken" {
		t.Error(r.StatusCode, r.Header)
	}
}

// Several devices send at once, the same rows among them: each is kept once.
func TestSeveralDevicesAtOnce(t *testing.T) {
	h, _, key, _ := taking(t)
	server := httptest.NewServer(h)
	defer server.Close()
	var all sync.WaitGroup
	var mu sync.Mutex
	kept := map[string]bool{}
	for d := range 6 {
		all.Go(func() {
			for i := range 12 {
				id := fmt.Sprintf("d%d-%d", d/2, i) // two devices have each row
				r, err := http.NewRequest("POST", server.URL+"/records/wash-1", strings.NewReader(rowHeads+"2026-11-28T06:10,60,"+id+"\n"))
				if err != nil {
					t.Error(err)
					return
				}
				r.Header.Set("Content-Type", "text/csv")
				r.Header.Set("Authorization", "Bearer "+key)
				answer, err := http.DefaultClient.Do(r)
				if err != nil {
					t.Error(err)
					return
				}
				data, err := io.ReadAll(answer.Body)
				if answer.Body.Close(); err != nil || !bytes.Contains(data, []byte(`{"kept":["`+id+`"]`)) {
					t.Errorf("%s: %s, %v", id, data, err)
				}
				mu.Lock()
				kept[id] = true
				mu.Unlock()
			}
		})
	}
	all.Wait()
	lines := strings.Split(strings.TrimSpace(strings.TrimPrefix(body(t, ask(h, "GET", "/records/wash-1.csv")), rowHeads)), "\n")
	slices.Sort(lines)
	if once := slices.Compact(slices.Clone(lines)); len(lines) != len(once) || len(lines) != len(kept) {
		t.Errorf("%d lines, %d of them different, %d kept", len(lines), len(once), len(kept))
	}
}
