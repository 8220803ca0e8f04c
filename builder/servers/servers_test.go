package servers

import (
	"bytes"
	"fmt"
	"io"
	"io/fs"
	"net/http"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"tankside/builder"
	"tankside/builder/edition"
)

// The guide shows each of the files to the letter.
func TestGuideShowsTheFiles(t *testing.T) {
	guide, err := os.ReadFile("SERVERS.md")
	if err != nil {
		t.Fatal(err)
	}
	shown := 0
	for _, folder := range []string{"nginx", "store", "certificate"} {
		files, err := os.ReadDir(folder)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range files {
			name := folder + "/" + f.Name()
			text, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			block := fmt.Sprintf("[`%s`](%s)", name, name)
			_, after, named := strings.Cut(string(guide), block)
			if !named || !strings.HasPrefix(after, "\n\n```") {
				t.Errorf("SERVERS.md does not show %s, below a line that ends in %s", name, block)
				continue
			}
			_, after, _ = strings.Cut(after[len("\n\n```"):], "\n")
			if got, _, _ := strings.Cut(after, "```\n"); got != string(text) {
				t.Errorf("SERVERS.md shows another text of %s", name)
			}
			shown++
		}
	}
	if shown < 6 {
		t.Errorf("%d files are shown", shown)
	}
}

// program finds a program that machines for tests have, and others need not have.
func program(t *testing.T, name, from string) string {
	t.Helper()
	at, err := exec.LookPath(name)
	if err != nil { // where Debian has servers, which is not on everybody's path
		at, err = exec.LookPath("/usr/sbin/" + name)
	}
	if err != nil {
		t.Skipf("%s is not on this machine, so nothing was tried with it. Install it with: apt-get install %s", name, from)
	}
	return at
}

// demo is the demo manual as an edition, published once.
var demo = struct {
	once sync.Once
	dir  string
	err  error
}{}

func TestMain(m *testing.M) {
	code := m.Run()
	if err := os.RemoveAll(demo.dir); err != nil {
		fmt.Fprintln(os.Stderr, err)
		code = 1
	}
	os.Exit(code)
}

func published(t *testing.T) string {
	t.Helper()
	demo.once.Do(func() {
		if demo.dir, demo.err = os.MkdirTemp("", "servers"); demo.err == nil {
			_, demo.err = builder.Publish(t.Context(), builder.Options{Manual: "../../content", To: filepath.Join(demo.dir, "edition"), Now: time.Date(2026, 12, 1, 0, 0, 0, 0, time.UTC)})
		}
	})
	if demo.err != nil {
		t.Fatal(demo.err)
	}
	return filepath.Join(demo.dir, "edition")
}

// copied is a copy of the demo's edition that others can read and write.
func copied(t *testing.T, to string) {
	t.Helper()
	if err := os.CopyFS(to, os.DirFS(published(t))); err != nil {
		t.Fatal(err)
	}
}

// restyled is the demo's edition as it would be with another style and another script: each page loads assets that the demo's edition does not have.
func restyled(t *testing.T, to string) {
	t.Helper()
	from := os.DirFS(published(t))
	list, err := edition.ReadList(from)
	if err != nil {
		t.Fatal(err)
	}
	var pairs []string
	for _, f := range list.Files {
		if name := path.Base(f.Path); strings.HasPrefix(f.Path, "assets/") && (path.Ext(name) == ".css" || path.Ext(name) == ".js") {
			pairs = append(pairs, name, otherName(name))
		}
	}
	other := strings.NewReplacer(pairs...)
	w, err := edition.BeginIn(nil, to)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range list.Files {
		data, err := fs.ReadFile(from, f.Path)
		if err != nil {
			t.Fatal(err)
		}
		name := f.Path
		switch {
		case name == edition.WorkerName:
			continue
		case strings.HasPrefix(name, "assets/"):
			name = other.Replace(name)
			if name != f.Path {
				data = append(data, "\n/* another */\n"...)
			}
		case path.Ext(name) == ".html" || path.Ext(name) == ".js":
			data = []byte(other.Replace(string(data)))
		}
		if err := w.Add(name, data); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := w.Commit(edition.List{Shop: list.Shop, Parcels: map[string]string{}, Articles: []edition.Article{}}, []byte("// worker\n")); err != nil {
		t.Fatal(err)
	}
}

var digits = regexp.MustCompile(`\.[0-9a-f]{10}\.`)

func otherName(name string) string { return digits.ReplaceAllString(name, ".ffffffffff.") }

// contents are the files of editions, by name: what each may be.
func contents(t *testing.T, editions ...string) map[string][][]byte {
	t.Helper()
	all := map[string][][]byte{}
	for _, dir := range editions {
		list, err := edition.ReadList(os.DirFS(dir))
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range list.Files {
			data, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(f.Path)))
			if err != nil {
				t.Fatal(err)
			}
			all[f.Path] = append(all[f.Path], data)
		}
	}
	return all
}

var loads = regexp.MustCompile(`assets/[\w.-]+`)

// reader loads pages one after another, each with all that it names of the assets, until it is stopped, and tells of what is missing or of neither
// edition.
type reader struct {
	client *http.Client
	base   string
	pages  []string
	files  map[string][][]byte
	stop   chan struct{}
	done   chan struct{}

	mu            sync.Mutex
	loaded, parts int
	seen          map[int]int // pages of each edition
	wrong         []string
}

func read(client *http.Client, base string, files map[string][][]byte) *reader {
	r := &reader{client: client, base: base, files: files, stop: make(chan struct{}), done: make(chan struct{}), seen: map[int]int{}}
	for name := range files {
		if path.Ext(name) == ".html" && path.Dir(name) != "book" {
			r.pages = append(r.pages, name)
		}
	}
	slices.Sort(r.pages)
	go r.run()
	return r
}

func (r *reader) run() {
	defer close(r.done)
	for i := 0; ; i = (i + 37) % len(r.pages) {
		select {
		case <-r.stop:
			return
		default:
		}
		r.one(r.pages[i])
	}
}

func (r *reader) one(page string) {
	data, which := r.get(page)
	parts := loads.FindAllString(string(data), -1)
	slices.Sort(parts)
	for _, part := range slices.Compact(parts) {
		if _, is := r.files[part]; is { // what is named in running text is none
			r.get(part)
			r.parts++
		}
	}
	r.mu.Lock()
	defer r.mu.Unlock()
	r.loaded++
	r.seen[which]++
}

// get gives a file and the edition that it is of, as counted from 0.
func (r *reader) get(name string) ([]byte, int) {
	data, err := fetch(r.client, r.base+name)
	which := slices.IndexFunc(r.files[name], func(one []byte) bool { return bytes.Equal(one, data) })
	if err != nil || which < 0 {
		r.mu.Lock()
		r.wrong = append(r.wrong, fmt.Sprintf("%s: %v, %d bytes of neither edition", name, err, len(data)))
		r.mu.Unlock()
	}
	return data, which
}

func fetch(client *http.Client, url string) ([]byte, error) {
	answer, err := client.Get(url)
	if err != nil {
		return nil, err
	}
	defer answer.Body.Close() // it was read alone
	data, err := io.ReadAll(answer.Body)
	if err == nil && answer.StatusCode != http.StatusOK {
		err = fmt.Errorf("%s", answer.Status)
	}
	return data, err
}

// more waits until the reader has loaded so many pages more.
func (r *reader) more(t *testing.T, pages int) {
	t.Helper()
	count := func() int {
		r.mu.Lock()
		defer r.mu.Unlock()
		return r.loaded
	}
	for from, end := count(), time.Now().Add(time.Minute); count() < from+pages; time.Sleep(time.Millisecond) {
		if time.Now().After(end) {
			t.Fatal("the reader got nowhere")
		}
	}
}

// end stops the reader and fails the test where something was missing.
func (r *reader) end(t *testing.T) {
	t.Helper()
	close(r.stop)
	<-r.done
	for i, w := range r.wrong {
		if i == 10 {
			t.Errorf("and %d more", len(r.wrong)-i)
			break
		}
		t.Error(w)
	}
	t.Logf("%d pages with %d parts were read, of each edition %v", r.loaded, r.parts, r.seen)
}
