package host

import (
	"net"
	"strconv"
	"strings"
	"testing"
)

func TestParseAddress(t *testing.T) {
	for text, want := range map[string]Address{
		"":                 {"127.0.0.1", 7130, true},
		"127.0.0.1":        {"127.0.0.1", 7130, true},
		"127.0.0.1:8000":   {"127.0.0.1", 8000, false},
		"8000":             {"127.0.0.1", 8000, false},
		":8000":            {"127.0.0.1", 8000, false},
		"localhost:0":      {"localhost", 0, false},
		"[::1]:8000":       {"::1", 8000, false},
		"::1":              {"::1", 7130, true},
		"0.0.0.0:8000":     {"0.0.0.0", 8000, false},
		"tank-desk.local":  {"tank-desk.local", 7130, true},
		"192.0.2.7:65535":  {"192.0.2.7", 65535, false},
		"tank-desk.local:": {"tank-desk.local", 7130, true},
	} {
		if got, err := ParseAddress(text, 7130); err != nil || got != want {
			t.Errorf("%q: %+v, %v; want %+v", text, got, err, want)
		}
	}
	for _, text := range []string{"127.0.0.1:70000", "127.0.0.1:-1", "127.0.0.1:http", "a:b:c", "http://127.0.0.1:8000/", "127.0.0.1:80/x", "70000", "a b", "user@desk:80", "[::1", "[", "[desk]", "de\x00sk:80"} {
		if got, err := ParseAddress(text, 7130); err == nil || !strings.Contains(err.Error(), "for example 127.0.0.1:8000") {
			t.Errorf("%q was read as %+v, %v", text, got, err)
		}
	}
}

func TestLoopback(t *testing.T) {
	for host, want := range map[string]bool{
		"127.0.0.1": true, "127.255.255.254": true, "::1": true, "localhost": true, "LocalHost": true, // RFC 1122, 3.2.1.3; RFC 4291, 2.5.3; RFC 6761, 6.3
		"0.0.0.0": false, "::": false, "192.0.2.7": false, "localhost.example": false, "example": false, "128.0.0.1": false,
	} {
		if got := (Address{Host: host}).Loopback(); got != want {
			t.Errorf("%s: %v", host, got)
		}
	}
}

func TestListen(t *testing.T) {
	first, err := Listen(Address{Host: "127.0.0.1"})
	if err != nil {
		t.Fatal(err)
	}
	defer first.Close()
	port := first.Addr().(*net.TCPAddr).Port
	if _, err := Listen(Address{Host: "127.0.0.1", Port: port}); err == nil || !strings.Contains(err.Error(), "--at") {
		t.Errorf("a port that is taken and was asked for: %v", err)
	}
	if port > 65000 {
		t.Skip("no ports above the one that the system gave")
	}
	second, err := Listen(Address{Host: "127.0.0.1", Port: port, Free: true})
	if err != nil {
		t.Fatal(err)
	}
	defer second.Close()
	if got := second.Addr().(*net.TCPAddr).Port; got <= port || got > port+tries {
		t.Errorf("beside port %d it took %d", port, got)
	}
	if got, want := URL(second), "http://"+second.Addr().String()+"/"; got != want {
		t.Errorf("URL %q", got)
	}
}

// Whatever somebody writes as an address: what is taken is one that can be listened at by its host and port, and reads the same again.
func FuzzParseAddress(f *testing.F) {
	for _, text := range []string{"", "127.0.0.1:8000", "[::1]:8000", "::1", "[::1", "a:b:c", ":0", "65536", "desk:", "fe80::1%eth0", "[fe80::1%25eth0]:1", "\x00:1", "[]:1", "[desk]:1"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		a, err := ParseAddress(text, 7130)
		if err != nil {
			if a != (Address{}) {
				t.Errorf("%q is refused and gives %+v", text, a)
			}
			return
		}
		if a.Host == "" || a.Port < 0 || a.Port > 65535 {
			t.Fatalf("%q: %+v", text, a)
		}
		joined := net.JoinHostPort(a.Host, strconv.Itoa(a.Port))
		if again, err := ParseAddress(joined, 1); err != nil || again.Host != a.Host || again.Port != a.Port || again.Free {
			t.Errorf("%q is %+v, and %q %+v, %v", text, a, joined, again, err)
		}
	})
}
