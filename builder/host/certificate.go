package host

import (
	"bytes"
	"crypto/rsa"
	"crypto/tls"
	"crypto/x509"
	"encoding/pem"
	"errors"
	"fmt"
	"io"
	"net"
	"os"
	"slices"
	"strings"
	"sync"
	"time"
)

// Certificate is what a host shows for an encrypted connection, with its key. Where the files are written anew while it is in use, it is read anew. It
// is safe for use by several goroutines at once.
type Certificate struct {
	file, key string
	now       func() time.Time

	mu      sync.Mutex
	pair    *tls.Certificate
	written [2]time.Time // when the two files were written that were looked at last
}

// ReadCertificate reads a certificate, with the certificates between it and its authority behind it, and its key, both in PEM (RFC 7468). What a browser
// would refuse whatever name is asked for is an error, as of now.
func ReadCertificate(file, key string, now func() time.Time) (*Certificate, error) {
	c := &Certificate{file: file, key: key, now: now}
	c.written = c.times() // before they are read: what is written meanwhile is read anew
	var err error
	if c.pair, err = readPair(file, key, now()); err != nil {
		return nil, err
	}
	return c, nil
}

// largestPEM bounds what is read of either file, in bytes.
const largestPEM = 1 << 20

func readPair(file, key string, now time.Time) (*tls.Certificate, error) {
	chain, err := readPEM(file, "certificate", "--certificate")
	if err != nil {
		return nil, err
	}
	secret, err := readPEM(key, "key", "--key")
	if err != nil {
		return nil, err
	}
	if err := rightWay(file, chain, key, secret); err != nil {
		return nil, err
	}
	pair, err := tls.X509KeyPair(chain, secret)
	if err != nil {
		return nil, refusedPair(file, chain, key, err)
	}
	if err := usable(file, pair.Leaf, now); err != nil {
		return nil, err
	}
	return &pair, nil
}

func readPEM(name, what, option string) (data []byte, err error) {
	f, err := os.Open(name)
	if errors.Is(err, os.ErrNotExist) {
		return nil, fmt.Errorf("there is no file %q: name the %s with %s", name, what, option)
	}
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	if data, err = io.ReadAll(io.LimitReader(f, largestPEM+1)); err != nil {
		return nil, err
	}
	if block, _ := pem.Decode(data); block == nil || len(data) > largestPEM {
		return nil, fmt.Errorf("%q holds no %s in PEM, the text form that begins with -----BEGIN. openssl makes one of most other forms", name, what)
	}
	return data, nil
}

// rightWay tells what has changed places, and a key that nothing can read without somebody who types.
func rightWay(file string, chain []byte, key string, secret []byte) error {
	if !holds(chain, isCertificate) {
		if holds(chain, isKey) && holds(secret, isCertificate) {
			return fmt.Errorf("%q is the key and %q the certificate: name them the other way round", file, key)
		}
		return fmt.Errorf("%q holds no certificate", file)
	}
	if !holds(secret, isKey) {
		return fmt.Errorf("%q holds no key", key)
	}
	if holds(secret, func(b *pem.Block) bool { return strings.Contains(b.Type, "ENCRYPTED") || b.Headers["DEK-Info"] != "" }) {
		return fmt.Errorf("the key in %q is locked with a passphrase, and nobody is there to type it when the host starts. Write it without one (openssl pkey), where only the host can read it", key)
	}
	return nil
}

func isCertificate(b *pem.Block) bool { return b.Type == "CERTIFICATE" }
func isKey(b *pem.Block) bool         { return strings.HasSuffix(b.Type, "PRIVATE KEY") }

func holds(data []byte, is func(*pem.Block) bool) bool {
	for {
		block, rest := pem.Decode(data)
		if block == nil {
			return false
		}
		if is(block) {
			return true
		}
		data = rest
	}
}

// refusedPair says why certificate and key are no pair.
func refusedPair(file string, chain []byte, key string, err error) error {
	block, _ := pem.Decode(bytes.TrimSpace(chain))
	for rest := chain; block != nil && !isCertificate(block); {
		block, rest = pem.Decode(rest)
	}
	if block == nil {
		return fmt.Errorf("%q holds no certificate", file)
	}
	if _, bad := x509.ParseCertificate(block.Bytes); bad != nil {
		return fmt.Errorf("the certificate in %q is damaged: %w", file, bad)
	}
	if strings.Contains(err.Error(), "does not match") {
		return fmt.Errorf("the key in %q is not that of the certificate in %q, which has to be the first of its file", key, file)
	}
	return fmt.Errorf("%q and %q are no certificate and key: %w", file, key, err)
}

// weakest is how long an RSA key has to be, in bits (NIST SP 800-57 part 1 revision 5, 2020, table 2 with table 4: less than 112 bits of strength, which
// are 2048, is disallowed).
const weakest = 2048

// usable says what a browser would refuse in a certificate whatever name it is asked for by.
func usable(file string, c *x509.Certificate, now time.Time) error {
	switch {
	case now.After(c.NotAfter):
		return fmt.Errorf("the certificate in %q has expired, on %s: browsers refuse it. Have a new one made", file, day(c.NotAfter))
	case now.Before(c.NotBefore):
		return fmt.Errorf("the certificate in %q holds from %s on only, and by this machine's clock that is not yet. Set the clock, or wait", file, day(c.NotBefore))
	case c.IsCA:
		return fmt.Errorf("%q is the certificate of an authority, with which others are made. The host needs one of its own, made with it", file)
	case len(c.DNSNames)+len(c.IPAddresses) == 0:
		return fmt.Errorf("the certificate in %q names no address in its list of names (subjectAltName): browsers refuse it. Have a new one made that does", file)
	case len(c.ExtKeyUsage)+len(c.UnknownExtKeyUsage) > 0 && !slices.Contains(c.ExtKeyUsage, x509.ExtKeyUsageServerAuth) && !slices.Contains(c.ExtKeyUsage, x509.ExtKeyUsageAny):
		return fmt.Errorf("the certificate in %q is not meant for a server (extendedKeyUsage lacks serverAuth): browsers refuse it. Have a new one made that is", file)
	}
	if k, is := c.PublicKey.(*rsa.PublicKey); is && k.N.BitLen() < weakest {
		return fmt.Errorf("the key of the certificate in %q has %d bits, and browsers want at least %d. Have a new one made", file, k.N.BitLen(), weakest)
	}
	return nil
}

func day(t time.Time) string { return t.UTC().Format("2006-01-02") }

// Names are the addresses that the certificate is for, names first, those for any name of a domain left as they are.
func (c *Certificate) Names() []string {
	leaf := c.leaf()
	names := slices.Clone(leaf.DNSNames)
	for _, ip := range leaf.IPAddresses {
		names = append(names, ip.String())
	}
	return names
}

// Fits tells whether browsers take the certificate for a name or address.
func (c *Certificate) Fits(host string) bool { return c.leaf().VerifyHostname(host) == nil }

// How long before it expires that is told, and what Apple's devices take (“Requirements for trusted certificates in iOS 13 and macOS 10.15”, Apple, 2019:
// at most 825 days, and extendedKeyUsage with serverAuth).
const (
	soon         = 30 * 24 * time.Hour
	longestOfUse = 825 * 24 * time.Hour
)

// Doubts are sentences on what does not keep browsers from taking the certificate now, or not all of them.
func (c *Certificate) Doubts() []string {
	leaf := c.leaf()
	var all []string
	if leaf.NotAfter.Before(c.now().Add(soon)) {
		all = append(all, fmt.Sprintf("The certificate expires on %s; from then on browsers refuse it. Write a new one into %s and its key into %s: it is taken while the host runs.", day(leaf.NotAfter), c.file, c.key))
	}
	if leaf.NotAfter.Sub(leaf.NotBefore) > longestOfUse || !slices.Contains(leaf.ExtKeyUsage, x509.ExtKeyUsageServerAuth) {
		all = append(all, "Apple's devices refuse this certificate: they take none that holds for more than 825 days, or that does not say it is for a server (extendedKeyUsage serverAuth).")
	}
	return all
}

func (c *Certificate) leaf() *x509.Certificate {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.pair.Leaf
}

// current is the pair as it lies in the files now. Where these cannot be used, as between the writing of one and of the other, the one before stays.
func (c *Certificate) current() *tls.Certificate {
	c.mu.Lock()
	defer c.mu.Unlock()
	if written := c.times(); written != c.written {
		if pair, err := readPair(c.file, c.key, c.now()); err == nil {
			c.pair, c.written = pair, written
		}
	}
	return c.pair
}

// times tells when the two files were written; a file that is not there has none.
func (c *Certificate) times() (t [2]time.Time) {
	for i, name := range []string{c.file, c.key} {
		if info, err := os.Stat(name); err == nil {
			t[i] = info.ModTime()
		}
	}
	return t
}

// Secure has what comes to a listener encrypted: by TLS 1.2 or newer, older ones having been withdrawn (RFC 8996, 2021). The ciphers are those that Go
// takes for safe (RFC 9325, 2022, section 4.2, asks for the same kind: with forward secrecy and authenticated encryption where there is a choice).
func (c *Certificate) Secure(l net.Listener) net.Listener {
	return tls.NewListener(l, &tls.Config{
		MinVersion:     tls.VersionTLS12,
		NextProtos:     []string{"h2", "http/1.1"},
		GetCertificate: func(*tls.ClientHelloInfo) (*tls.Certificate, error) { return c.current(), nil },
	})
}

// URL is the address of the first page, by the name that readers have to open: what was asked for where the certificate is for it, or for a machine
// that others reach the first name of the certificate.
func (c *Certificate) URL(a Address, l net.Listener) string {
	host, port, err := net.SplitHostPort(l.Addr().String())
	if err != nil {
		return "https://" + l.Addr().String() + "/"
	}
	switch names := c.Names(); {
	case c.Fits(a.Host):
		host = a.Host
	case !a.Loopback() && !c.Fits(host):
		for _, name := range names {
			if !strings.HasPrefix(name, "*") {
				host = name
				break
			}
		}
	}
	return "https://" + net.JoinHostPort(host, port) + "/"
}

// CheckName says what is wrong where an address was asked for by a name that the certificate is not for. An address in figures may have such a name elsewhere.
func (c *Certificate) CheckName(a Address) error {
	if c.Fits(a.Host) || net.ParseIP(a.Host) != nil || a.Loopback() {
		return nil
	}
	return fmt.Errorf("the certificate in %q is for %s and not for %s: browsers would refuse it there. Name one of those with --at, or have a certificate made that names it",
		c.file, strings.Join(c.Names(), ", "), a.Host)
}
