//go:build unix

package servers

import (
	"bytes"
	"io/fs"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/rclone/gofakes3"
	"github.com/rclone/gofakes3/s3mem"

	"tankside/builder/edition"
	"tankside/builder/host"
)

// command builds tankside once.
var command = struct {
	once sync.Once
	out  []byte
	err  error
}{}

func tankside(t *testing.T) string {
	t.Helper()
	published(t) // its folder has room
	at := filepath.Join(demo.dir, "programs", "tankside")
	command.once.Do(func() {
		command.out, command.err = exec.Command("go", "build", "-o", at, "../../cmd/tankside").CombinedOutput()
	})
	if command.err != nil {
		t.Fatalf("%v\n%s", command.err, command.out)
	}
	return at
}

// store is an object store on loopback: the server that rclone's newer versions have as rclone serve s3, in memory.
type store struct {
	t    *testing.T
	url  string // of the bucket
	path string // where the command is looked for

	mu   sync.Mutex
	sent []string // what was written or deleted, in order
	size int64    // bytes that were written
}

const bucket = "manuals"

func newStore(t *testing.T) *store {
	t.Helper()
	program(t, "rclone", "rclone")
	s := &store{t: t, path: filepath.Dir(tankside(t)) + string(os.PathListSeparator) + os.Getenv("PATH")}
	objects := s3mem.New()
	if err := objects.CreateBucket(t.Context(), bucket); err != nil {
		t.Fatal(err)
	}
	h := gofakes3.New(objects).Server()
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.Method == http.MethodPut || r.Method == http.MethodDelete || r.Method == http.MethodPost {
			s.mu.Lock()
			s.sent = append(s.sent, r.Method+" "+strings.TrimPrefix(r.URL.Path, "/"+bucket+"/"))
			s.size += max(r.ContentLength, 0)
			s.mu.Unlock()
		}
		if asked := r.URL.Query(); asked.Has("delimiter") && asked.Get("delimiter") == "" { // this server lists nothing then, where a store lists everything
			asked.Del("delimiter")
			r.URL.RawQuery = asked.Encode()
		}
		h.ServeHTTP(w, r)
	}))
	t.Cleanup(server.Close)
	s.url = server.URL
	return s
}

// run runs a script of the guide and gives what was sent meanwhile.
func (s *store) run(script string, args ...string) (sent []string, size int64) {
	s.t.Helper()
	out, err := s.command(script, args...).CombinedOutput()
	if err != nil {
		s.t.Fatalf("%s: %v\n%s", script, err, out)
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	sent, size = s.sent, s.size
	s.sent, s.size = nil, 0
	return sent, size
}

func (s *store) command(script string, args ...string) *exec.Cmd {
	cmd := exec.Command("sh", append([]string{"store/" + script}, args...)...)
	own := slices.DeleteFunc(os.Environ(), func(set string) bool { return strings.HasPrefix(set, "AWS_") || strings.HasPrefix(set, "RCLONE_") }) // of whoever runs the test
	cmd.Env = append(own, "PATH="+s.path, "RCLONE_CONFIG="+filepath.Join(s.t.TempDir(), "rclone.conf"), "RCLONE_CONFIG_STORE_TYPE=s3", "RCLONE_CONFIG_STORE_PROVIDER=Other",
		"RCLONE_CONFIG_STORE_ENDPOINT="+s.url, "RCLONE_CONFIG_STORE_ACCESS_KEY_ID=test", "RCLONE_CONFIG_STORE_SECRET_ACCESS_KEY=test", "RCLONE_S3_NO_CHECK_BUCKET=true")
	return cmd
}

// inOrder fails where a file was sent before one that has to be there first.
func inOrder(t *testing.T, folder string, sent []string) {
	t.Helper()
	at := 0
	for _, line := range sent {
		name, is := strings.CutPrefix(line, "PUT "+folder+"/")
		if !is {
			t.Fatalf("%s, while an edition was put there", line)
		}
		part := slices.Index(edition.Parts, edition.PartOf(name))
		if part < at {
			t.Errorf("%s was sent after %s", name, edition.Parts[at])
		}
		at = max(at, part)
	}
	if last := "PUT " + folder + "/" + edition.ListName; len(sent) == 0 || sent[len(sent)-1] != last {
		t.Errorf("the list was not the last to be sent: %q", sent)
	}
}

// An edition is put into an object store in an order in which no reader misses a part of a page; only what changed is sent; going back is one step; and
// what nobody needs any more is taken away later.
func TestObjectStore(t *testing.T) {
	s := newStore(t)
	first, second := published(t), filepath.Join(t.TempDir(), "second")
	restyled(t, second)
	place := "store:" + bucket + "/pumps"
	if _, size := s.run("put.sh", first, "store:"+bucket+"/valves"); size == 0 {
		t.Fatal("nothing was sent")
	}
	sent, whole := s.run("put.sh", first, place)
	inOrder(t, "pumps", sent)
	list, err := edition.ReadList(os.DirFS(first))
	if err != nil {
		t.Fatal(err)
	}
	if len(sent) != len(list.Files)+1 {
		t.Errorf("%d files were sent of an edition of %d and its list", len(sent), len(list.Files))
	}
	t.Logf("the first edition: %d files, %d bytes", len(sent), whole)
	s.asTheHost(first, list)
	if sent, _ := s.run("put.sh", first, place); len(sent) != 0 {
		t.Errorf("of what is there already was sent: %q", sent)
	}

	base := s.url + "/" + bucket + "/pumps/"
	client := &http.Client{Transport: &http.Transport{}}
	t.Cleanup(client.CloseIdleConnections)
	var readers []*reader
	for range 3 {
		readers = append(readers, read(client, base, contents(t, first, second)))
	}
	step := func(edition, what string) {
		t.Helper()
		for _, r := range readers {
			r.more(t, 2)
		}
		sent, size := s.run("put.sh", edition, place)
		inOrder(t, "pumps", sent)
		t.Logf("%s: %d files, %d bytes", what, len(sent), size)
	}
	step(second, "another style and another script on every page")
	step(first, "back")
	step(second, "and there again")
	for _, r := range readers {
		r.more(t, 2)
		r.end(t)
		if r.seen[0] == 0 || r.seen[1] == 0 {
			t.Error("a reader met one edition alone")
		}
	}
	s.wholly(base, second)

	sent, _ = s.run("tidy.sh", place, second)
	files := contents(t, second)
	for _, line := range sent {
		name, is := strings.CutPrefix(line, "DELETE pumps/")
		if _, needed := files[name]; !is || needed {
			t.Errorf("%s, while what nobody needs was taken away", line)
		}
	}
	if len(sent) < 10 {
		t.Errorf("%d files were taken away", len(sent))
	}
	s.wholly(base, second)
	s.wholly(s.url+"/"+bucket+"/valves/", first)
	for _, f := range list.Files {
		if data, err := fetch(client, base+f.Path); files[f.Path] == nil && (err == nil || !strings.Contains(err.Error(), "404")) {
			t.Errorf("%s is still there: %d bytes, %v", f.Path, len(data), err)
		}
	}
	if sent, _ := s.run("tidy.sh", place, first, second); len(sent) != 0 {
		t.Errorf("there was nothing to take away, and yet %q", sent)
	}
	if out, err := s.command("tidy.sh", place).CombinedOutput(); err == nil {
		t.Errorf("without an edition something may have been taken away: %s", out)
	}
	s.wholly(base, second)
}

// Of an edition in which one page is another, that page is sent, with the list and what tells devices; a damaged one is not put there at all.
func TestOnlyWhatChangedIsSent(t *testing.T) {
	s := newStore(t)
	dir := t.TempDir()
	place := "store:" + bucket + "/pumps"
	for _, one := range []struct {
		name string
		page string
	}{{"first", "At most 65 °C."}, {"second", "At most 60 °C."}} {
		w, err := edition.BeginIn(nil, filepath.Join(dir, one.name))
		if err != nil {
			t.Fatal(err)
		}
		for file, text := range map[string]string{"index.html": one.page, "same.html": "Rinse.", "soils/überzug + 1%.html": "Wax.", "drawings/plan.jpeg": "\xff", "drawings/plan.unknown": "?", "drawings/json": "?", "assets/look.aaaaaaaaaa.css": "p { margin: 0 }"} {
			if err := w.Add(file, []byte("<!doctype html>"+text)); err != nil {
				t.Fatal(err)
			}
		}
		if _, err := w.Commit(edition.List{}, []byte("// worker\n")); err != nil {
			t.Fatal(err)
		}
	}
	if sent, _ := s.run("put.sh", filepath.Join(dir, "first"), place); len(sent) != 9 {
		t.Errorf("the first edition: %q", sent)
	}
	list, err := edition.ReadList(os.DirFS(filepath.Join(dir, "first")))
	if err != nil {
		t.Fatal(err)
	}
	s.asTheHost(filepath.Join(dir, "first"), list)
	s.wholly(s.url+"/"+bucket+"/pumps/", filepath.Join(dir, "first"))
	if sent, _ := s.run("put.sh", filepath.Join(dir, "second"), place); !slices.Equal(sent, []string{"PUT pumps/index.html", "PUT pumps/offline.js", "PUT pumps/edition.json"}) {
		t.Errorf("another page: %q", sent)
	}
	if sent, _ := s.run("put.sh", filepath.Join(dir, "first"), place); len(sent) != 3 {
		t.Errorf("back: %q", sent)
	}
	if err := os.WriteFile(filepath.Join(dir, "second", "same.html"), []byte("damaged"), 0o644); err != nil {
		t.Fatal(err)
	}
	out, err := s.command("put.sh", filepath.Join(dir, "second"), place).CombinedOutput()
	if err == nil || !strings.Contains(string(out), "damaged") || len(s.sent) != 0 {
		t.Errorf("a damaged edition: %v\n%s\n%q", err, out, s.sent)
	}
	s.wholly(s.url+"/"+bucket+"/pumps/", filepath.Join(dir, "first"))
}

// wholly fails where the store does not have every file of an edition as it was published.
func (s *store) wholly(base, dir string) {
	s.t.Helper()
	for name, data := range contents(s.t, dir) {
		got, err := fetch(http.DefaultClient, base+escaped(name))
		if err != nil || !bytes.Equal(got, data[0]) {
			s.t.Errorf("%s: %d bytes, %v", name, len(got), err)
		}
	}
	want, err := fs.ReadFile(os.DirFS(dir), edition.ListName)
	if err != nil {
		s.t.Fatal(err)
	}
	if got, err := fetch(http.DefaultClient, base+edition.ListName); err != nil || !bytes.Equal(got, want) {
		s.t.Errorf("the list: %d bytes, %v", len(got), err)
	}
}

// escaped is a name as it stands in an address, where an object store takes a plus for a blank.
func escaped(name string) string {
	u := url.URL{Path: name}
	return strings.ReplaceAll(u.EscapedPath(), "+", "%2B")
}

// asTheHost fails where the store sends a file with another type than tankside host does, or has browsers keep it for another time.
func (s *store) asTheHost(dir string, list *edition.List) {
	s.t.Helper()
	h := host.New(dir, host.Options{})
	for _, f := range append(slices.Clone(list.Files), edition.File{Path: edition.ListName}) {
		w := httptest.NewRecorder()
		r := httptest.NewRequest("GET", "http://127.0.0.1/", nil)
		r.URL.Path = "/" + f.Path
		h.ServeHTTP(w, r)
		got, err := http.Head(s.url + "/" + bucket + "/pumps/" + escaped(f.Path))
		if err != nil {
			s.t.Fatal(err)
		}
		got.Body.Close()
		keep := w.Header().Get("Cache-Control")
		if part := edition.PartOf(f.Path); part == edition.Worker || part == edition.OfList {
			keep = "no-store"
		}
		if want := w.Header().Get("Content-Type"); got.Header.Get("Content-Type") != want || got.Header.Get("Cache-Control") != keep {
			s.t.Errorf("%s: %q, %q; from the host %q, %q", f.Path, got.Header.Get("Content-Type"), got.Header.Get("Cache-Control"), want, keep)
		}
	}
}
