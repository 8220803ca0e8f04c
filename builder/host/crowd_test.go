package host

import (
	"context"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"
)

// Many honest readers beside many slow ones, who send their heads and bodies byte by byte or hardly read a large file: no honest one gets an error or another
// file than was asked for, and all of it, readers included, stays within 100 MB. TANKSIDE_CROWD=1 (make crowd) has 100,000 requests beside 500 slow readers.
func TestACrowd(t *testing.T) {
	requests, slow := 3000, 60
	if os.Getenv("TANKSIDE_CROWD") != "" {
		requests, slow = 100_000, 500
	}
	dir := filepath.Join(t.TempDir(), "edition")
	large := make([]byte, 8<<20)
	for i := range large {
		large[i] = byte(i * 7 >> 3)
	}
	publish(t, dir, 1, map[string]string{"index.html": page, "soils/wax.html": long, "assets/find.0123456789.js": script, "assets/large.0123456789.png": string(large)})
	l, err := Listen(Address{Host: "127.0.0.1", Free: false})
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(t.Context())
	served := make(chan error, 1)
	go func() { served <- Serve(ctx, l, New(dir, Options{Loopback: true})) }()
	address := l.Addr().String()

	var lazy sync.WaitGroup
	for i := range slow {
		c, err := net.Dial("tcp", address)
		if err != nil {
			t.Fatal(err)
		}
		lazy.Go(func() { beSlow(ctx, c, i) })
	}

	var wrong atomic.Pointer[string]
	var next, longest atomic.Int64
	var honest sync.WaitGroup
	client := &http.Client{Transport: &http.Transport{MaxIdleConnsPerHost: 32}}
	names := []struct {
		name string
		size int
	}{{"/", len(page)}, {"/soils/wax.html", len(long)}, {"/assets/find.0123456789.js", len(script)}}
	for range 32 {
		honest.Go(func() {
			for n := next.Add(1); n <= int64(requests); n = next.Add(1) {
				one, begun := names[n%int64(len(names))], time.Now()
				if problem := get(client, "http://"+address+one.name, one.size); problem != "" {
					wrong.Store(&problem)
				}
				for took := int64(time.Since(begun)); ; {
					if most := longest.Load(); took <= most || longest.CompareAndSwap(most, took) {
						break
					}
				}
			}
		})
	}
	honest.Wait()
	if problem := wrong.Load(); problem != nil {
		t.Errorf("an honest reader has an error: %s", *problem)
	}
	most := mostMemory(t)
	t.Logf("%d requests beside %d slow readers: the longest took %s, at most %d MB in all", requests, slow, time.Duration(longest.Load()).Round(time.Millisecond), most>>20)
	if most > 100<<20 {
		t.Errorf("%d MB of memory", most>>20)
	}
	stop()
	lazy.Wait()
	client.CloseIdleConnections()
	if err := <-served; err != nil {
		t.Error(err)
	}
}

// get gives what is wrong with an answer, or "".
func get(client *http.Client, address string, size int) string {
	r, err := client.Get(address)
	if err != nil {
		return err.Error()
	}
	n, err := io.Copy(io.Discard, r.Body)
	if err == nil {
		err = r.Body.Close()
	}
	if err != nil || r.StatusCode != http.StatusOK || n != int64(size) {
		return fmt.Sprintf("%s: %d, %d bytes, %v", address, r.StatusCode, n, err)
	}
	return ""
}

// beSlow does one of three things for as long as the server bears it.
func beSlow(ctx context.Context, c net.Conn, i int) {
	defer context.AfterFunc(ctx, func() { c.Close() })()
	send := ""
	switch i % 3 {
	case 0:
		send = "GET / HTTP/1.1\r\nHost: 127.0.0.1\r\n" + strings.Repeat("X: y\r\n", 1000)
	case 1:
		if _, err := io.WriteString(c, "GET / HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Length: 100000\r\n\r\n"); err != nil {
			return
		}
		send = strings.Repeat("z", 100_000)
	default:
		if _, err := io.WriteString(c, "GET /assets/large.0123456789.png HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n"); err != nil {
			return
		}
		for b := make([]byte, 1); ; time.Sleep(50 * time.Millisecond) {
			if _, err := c.Read(b); err != nil {
				return
			}
		}
	}
	for j := range len(send) {
		if _, err := io.WriteString(c, send[j:j+1]); err != nil {
			return
		}
		time.Sleep(50 * time.Millisecond)
	}
}

var peak = regexp.MustCompile(`VmHWM:\s+(\d+) kB`)

// mostMemory is the most that this process has had in memory, in bytes.
func mostMemory(t *testing.T) int64 {
	t.Helper()
	status, err := os.ReadFile("/proc/self/status")
	if err != nil {
		t.Skip("how much memory was taken is only told on Linux: ", err)
	}
	m := peak.FindSubmatch(status)
	if m == nil {
		t.Skip("the system does not tell how much memory was taken")
	}
	kB, err := strconv.ParseInt(string(m[1]), 10, 64)
	if err != nil {
		t.Fatal(err)
	}
	return kB << 10
}
