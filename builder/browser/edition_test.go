package browser

import (
	"context"
	"fmt"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"tankside/builder"
	"tankside/builder/host"
)

// The demo manual, published once for all tests.
var demo struct {
	once   sync.Once
	folder string
	err    error
}

func TestMain(m *testing.M) {
	code := m.Run()
	if demo.folder != "" {
		if err := os.RemoveAll(filepath.Dir(demo.folder)); err != nil {
			fmt.Fprintln(os.Stderr, err)
			code = 1
		}
	}
	os.Exit(code)
}

// published gives the folder of the published demo manual.
func published(t testing.TB) string {
	t.Helper()
	demo.once.Do(func() {
		var parent string
		if parent, demo.err = os.MkdirTemp("", "tankside-browser-"); demo.err != nil {
			return
		}
		demo.folder = filepath.Join(parent, "edition")
		var r builder.Report
		r, demo.err = builder.Publish(context.Background(), builder.Options{
			Manual: "../../content", To: demo.folder, Now: time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC),
		})
		if demo.err != nil && len(r.Findings) > 0 {
			demo.err = fmt.Errorf("%w; the first: %s %s", demo.err, r.Findings[0].Place, r.Findings[0].Message)
		}
	})
	if demo.err != nil {
		t.Fatalf("the demo manual could not be published: %v", demo.err)
	}
	return demo.folder
}

// serve serves the edition on loopback until the test ends, or stop is called. It gives the address that ends in a slash.
func serve(t testing.TB, folder string) (address string, stop func()) {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	s := &http.Server{Handler: host.New(folder, host.Options{Loopback: true})}
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
	folder := published(t)
	t.Run("http", func(t *testing.T) {
		base, _ := serve(t, folder)
		test(t, base)
	})
	t.Run("file", func(t *testing.T) { test(t, "file://"+filepath.ToSlash(folder)+"/") })
}
