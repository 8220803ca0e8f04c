package host

import (
	"errors"
	"fmt"
	"net"
	"strconv"
	"strings"
	"unicode"
)

// Address is where an edition is served.
type Address struct {
	Host string
	Port int
	Free bool // nobody asked for this port: where it is taken, the next one that is free will do
}

// ParseAddress reads HOST:PORT, HOST alone or PORT alone. What is left out is 127.0.0.1 and the port given here.
func ParseAddress(text string, port int) (Address, error) {
	a := Address{Host: "127.0.0.1", Port: port, Free: true}
	if text == "" {
		return a, nil
	}
	host, digits := text, ""
	bare, bracketed := strings.CutPrefix(text, "[")
	if bracketed {
		bare, bracketed = strings.CutSuffix(bare, "]")
	}
	switch {
	case net.ParseIP(bare) != nil && (bracketed || bare == text):
		host = bare
	case isDigits(text):
		host, digits = "", text
	case strings.Contains(text, ":"):
		var err error
		if host, digits, err = net.SplitHostPort(text); err != nil {
			return Address{}, badAddress(text)
		}
	}
	if host != "" {
		a.Host = host
	}
	if digits != "" {
		n, err := strconv.ParseUint(digits, 10, 16)
		if err != nil {
			return Address{}, badAddress(text)
		}
		a.Port, a.Free = int(n), false
	}
	if net.ParseIP(a.Host) == nil && strings.ContainsFunc(a.Host, noHost) {
		return Address{}, badAddress(text)
	}
	return a, nil
}

// noHost tells whether a letter is in no name of a host.
func noHost(r rune) bool {
	return strings.ContainsRune(`/@?#\%[]:`, r) || unicode.IsSpace(r) || unicode.IsControl(r) || r == unicode.ReplacementChar
}

func badAddress(text string) error {
	return fmt.Errorf("“%s” is no address to serve at. Write a host and a port from 0 to 65535, for example 127.0.0.1:8000", text)
}

func isDigits(s string) bool { return s != "" && strings.Trim(s, "0123456789") == "" }

// Loopback tells whether only this machine can reach the address.
func (a Address) Loopback() bool { return isLoopback(a.Host) }

func isLoopback(host string) bool {
	if ip := net.ParseIP(host); ip != nil {
		return ip.IsLoopback()
	}
	return strings.EqualFold(strings.TrimSuffix(host, "."), "localhost")
}

// namesLoopback tells whether the Host header of a request names this machine, whatever the port.
func namesLoopback(header string) bool {
	host, _, err := net.SplitHostPort(header)
	if err != nil {
		host = strings.TrimSuffix(strings.TrimPrefix(header, "["), "]")
	}
	return isLoopback(host)
}

// tries is how many ports are tried where nobody asked for one.
const tries = 20

// Listen opens the address. For a loopback name it makes sure that what was opened is on loopback, whatever the system's list of
// hosts says.
func Listen(a Address) (net.Listener, error) {
	ports := 1
	if a.Free {
		ports = tries
	}
	var l net.Listener
	var err error
	for i := range ports {
		if l, err = net.Listen("tcp", net.JoinHostPort(a.Host, strconv.Itoa(a.Port+i))); err == nil {
			break
		}
	}
	if err != nil {
		return nil, fmt.Errorf("%s cannot be served at: %w. Name another address with --at", net.JoinHostPort(a.Host, strconv.Itoa(a.Port)), cause(err))
	}
	if at, ok := l.Addr().(*net.TCPAddr); a.Loopback() && (!ok || !at.IP.IsLoopback()) {
		return nil, errors.Join(fmt.Errorf("%s is not on this machine here but at %s. Name 127.0.0.1 with --at", a.Host, l.Addr()), l.Close())
	}
	return l, nil
}

// cause is what the system said, without the address that the sentence has already.
func cause(err error) error {
	var op *net.OpError
	if errors.As(err, &op) {
		return op.Err
	}
	return err
}

// URL is the address of a listener's first page.
func URL(l net.Listener) string { return "http://" + l.Addr().String() + "/" }
