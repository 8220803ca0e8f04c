package browser

import (
	"context"
	"flag"
	"fmt"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"tankside/builder"
	"tankside/builder/host"
	"tankside/builder/ledger"
)

// The demo manual's editions, each published once for all tests: as the shop has it, and with other lines in the shop file.
var demo struct {
	sync.Mutex
	parent  string
	folders map[string]string // by what is otherwise
}

func TestMain(m *testing.M) {
	flag.Parse()
	oneMoreThanProcessors()
	code := m.Run()
	if demo.parent != "" {
		if err := os.RemoveAll(demo.parent); err != nil {
			fmt.Fprintln(os.Stderr, err)
			code = 1
		}
	}
	os.Exit(code)
}

// oneMoreThanProcessors has one test more run at the same time than Go has by itself: each waits for its browser a third of its time. Who says how many has that many.
func oneMoreThanProcessors() {
	if f := flag.Lookup("test.parallel"); f.Value.String() == f.DefValue {
		if err := f.Value.Set(strconv.Itoa(1 + runtime.GOMAXPROCS(0))); err != nil {
			panic(err) // a number
		}
	}
}

// published gives the folder of the published demo manual.
func published(t testing.TB) string {
	t.Helper()
	return publishedWith(t, "", "")
}

// publishedWith gives the folder of the demo manual as it is published when one line of the shop file reads otherwise, and without the articles
// that a pattern finds.
func publishedWith(t testing.TB, line, instead string, without ...string) string {
	t.Helper()
	demo.Lock()
	defer demo.Unlock()
	if folder := demo.folders[instead]; folder != "" {
		return folder
	}
	makeParent(t)
	own, err := os.MkdirTemp(demo.parent, "")
	if err != nil {
		t.Fatal(err)
	}
	source := filepath.Join(own, "manual")
	copyDemo(t, source, line, instead, without)
	folder := filepath.Join(own, "edition")
	r, err := builder.Publish(context.Background(), builder.Options{Manual: source, To: folder, Now: time.Date(2026, 12, 1, 0, 0, 0, 0, time.UTC)})
	if err != nil && len(r.Findings) > 0 {
		err = fmt.Errorf("%w; the first: %s %s", err, r.Findings[0].Place, r.Findings[0].Message)
	}
	if err != nil {
		t.Fatalf("the demo manual could not be published: %v", err)
	}
	demo.folders[instead] = folder
	return folder
}

// demoAddress is the line of the shop file that says where the newest edition is served.
const demoAddress = "address: https://manual.brackwater.example/"

// makeParent makes the folder of all that the tests publish, once; whoever calls it holds demo.
func makeParent(t testing.TB) {
	t.Helper()
	if demo.parent != "" {
		return
	}
	parent, err := os.MkdirTemp("", "tankside-browser-")
	if err != nil {
		t.Fatal(err)
	}
	demo.parent, demo.folders = parent, map[string]string{}
}

// copyDemo copies the demo manual with another line in the shop file and without some articles. Nobody serves it where it says, and a page that asks there fails a
// test, so it has no address unless the other line names one.
func copyDemo(t testing.TB, to, line, instead string, without []string) {
	t.Helper()
	if err := os.CopyFS(to, os.DirFS("../../content")); err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(to, "shop.yaml")
	shop, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	text := string(shop)
	for _, change := range [][2]string{{demoAddress + "\n", ""}, {line + "\n", instead + "\n"}} {
		if change[0] == "\n" {
			continue
		}
		if strings.Count(text, "\n"+change[0]) != 1 {
			t.Fatalf("the shop file does not have the line %q once", change[0])
		}
		text = strings.Replace(text, "\n"+change[0], "\n"+change[1], 1)
	}
	if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.Remove(filepath.Join(to, ledger.File)); err != nil { // what is otherwise is not entered
		t.Fatal(err)
	}
	for _, pattern := range without {
		names, err := filepath.Glob(filepath.Join(to, pattern))
		if err != nil || len(names) == 0 {
			t.Fatalf("no article is %s (%v)", pattern, err)
		}
		for _, name := range names {
			if err := os.Remove(name); err != nil {
				t.Fatal(err)
			}
		}
	}
}

// serve serves the edition on loopback until the test ends, or stop is called. It gives the address that ends in a slash.
func serve(t testing.TB, folder string) (address string, stop func()) {
	t.Helper()
	return serving(t, host.New(folder, host.Options{Loopback: true}))
}

// serveUnkept does so on a line on which the list of the edition is always on its way, so that no browser comes to keep the edition on its device
// beside the test: that takes twenty times what a page takes, and each test has a profile of its own. The tests of what is kept serve as people do.
func serveUnkept(t testing.TB, folder string) (address string) {
	t.Helper()
	edition := host.New(folder, host.Options{Loopback: true})
	address, _ = serving(t, http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.URL.Path == "/edition.json" {
			<-r.Context().Done()
			return
		}
		edition.ServeHTTP(w, r)
	}))
	return address
}

func serving(t testing.TB, handler http.Handler) (address string, stop func()) {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	s := &http.Server{Handler: handler}
	done := make(chan struct{})
	go func() {
		defer close(done)
		if err := s.Serve(l); err != http.ErrServerClosed {
			t.Errorf("serving the edition: %v", err)
		}
	}()
	var once sync.Once
	stop = func() {
		once.Do(func() {
			if err := s.Close(); err != nil {
				t.Errorf("closing the server: %v", err)
			}
			<-done
		})
	}
	t.Cleanup(stop)
	return "http://" + l.Addr().String() + "/", stop
}

// bothSchemes runs a test from a server and from a folder.
func bothSchemes(t *testing.T, test func(t *testing.T, base string)) {
	inBothSchemes(t, published(t), test)
}

// inBothSchemes does so with another edition than the demo manual's own.
func inBothSchemes(t *testing.T, folder string, test func(t *testing.T, base string)) {
	t.Helper()
	inTurn(t, folder, func(t *testing.T, base string) {
		t.Parallel()
		test(t, base)
	})
}

// inTurn runs a test from a server and then from a folder, for tests that have one thing for both.
func inTurn(t *testing.T, folder string, test func(t *testing.T, base string)) {
	t.Helper()
	t.Run("http", func(t *testing.T) { test(t, serveUnkept(t, folder)) })
	t.Run("file", func(t *testing.T) { test(t, "file://"+filepath.ToSlash(folder)+"/") })
}
