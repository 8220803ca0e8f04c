//go:build unix

package servers

import (
	"bufio"
	"context"
	"crypto/tls"
	"crypto/x509"
	"io"
	"log"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// certified runs the commands of the guide, after changes to the names in them, and gives the folder in which the certificates then lie.
func certified(t *testing.T, name string) string {
	t.Helper()
	program(t, "openssl", "openssl")
	dir := t.TempDir()
	changes := strings.NewReplacer("encrypt_key        = yes", "encrypt_key = no", // nobody is there to type
		"DNS:manual.shop.example, IP:192.168.1.20", name, "192.168.0.0/255.255.0.0", "127.0.0.0/255.0.0.0")
	for _, file := range []string{"authority.cnf", "host.cnf", "authority.sh", "host.sh"} {
		text, err := os.ReadFile("certificate/" + file)
		if err != nil {
			t.Fatal(err)
		}
		changed := changes.Replace(string(text))
		if strings.HasSuffix(file, ".cnf") && changed == string(text) {
			t.Fatalf("%s does not have what is to be changed", file)
		}
		write(t, filepath.Join(dir, file), changed)
	}
	for _, script := range []string{"authority.sh", "host.sh"} {
		cmd := exec.Command("sh", "-e", script)
		cmd.Dir = dir
		if out, err := cmd.CombinedOutput(); err != nil {
			t.Fatalf("%s: %v\n%s", script, err, out)
		}
	}
	return dir
}

// trusting is a client that trusts the authority of a folder, and finds every name at the address.
func trusting(t *testing.T, dir, address string) *http.Client {
	t.Helper()
	trusted := x509.NewCertPool()
	text, err := os.ReadFile(filepath.Join(dir, "authority.crt"))
	if err != nil || !trusted.AppendCertsFromPEM(text) {
		t.Fatal(err)
	}
	c := &http.Client{Timeout: time.Minute, Transport: &http.Transport{TLSClientConfig: &tls.Config{RootCAs: trusted}, DialContext: func(ctx context.Context, network, _ string) (net.Conn, error) {
		return new(net.Dialer).DialContext(ctx, network, address)
	}}}
	t.Cleanup(c.CloseIdleConnections)
	return c
}

// The host serves with a certificate that was made as the guide says, to whoever trusts the shop's authority.
func TestHostWithTheShopsOwnCertificate(t *testing.T) {
	dir := certified(t, "DNS:manual.shop.example, IP:127.0.0.1")
	cmd := exec.Command(tankside(t), "host", published(t), "--at", "127.0.0.1:0", "--certificate", filepath.Join(dir, "host.crt"), "--key", filepath.Join(dir, "host.key"))
	said := &strings.Builder{}
	cmd.Stderr = said
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	line, err := bufio.NewReader(out).ReadString('\n')
	if err != nil {
		t.Fatalf("%v: %s", err, said)
	}
	url := strings.TrimSpace(line)
	if !strings.HasPrefix(url, "https://127.0.0.1:") {
		t.Errorf("the host says %q", url)
	}
	address := strings.TrimSuffix(strings.TrimPrefix(url, "https://"), "/")
	if data, err := fetch(trusting(t, dir, address), url); err != nil || !strings.HasPrefix(string(data), "<!doctype html>") {
		t.Errorf("%d bytes, %v", len(data), err)
	}
	if _, err := fetch(http.DefaultClient, url); err == nil || !strings.Contains(err.Error(), "unknown authority") {
		t.Errorf("whoever does not trust the authority: %v", err)
	}
	if err := cmd.Process.Signal(os.Interrupt); err != nil {
		t.Fatal(err)
	}
	if err := cmd.Wait(); err != nil {
		t.Errorf("%v: %s", err, said)
	}
	if strings.Contains(said.String(), "ertificate") {
		t.Errorf("the host has doubts: %s", said)
	}
}

// Whoever steals the key of the shop's authority cannot pass for anybody else: nobody takes what it makes for other names and numbers.
func TestAuthorityVouchesForTheShopAlone(t *testing.T) {
	for name, asked := range map[string]string{"DNS:manual.shop.example": "manual.shop.example", "DNS:shop.example.test": "shop.example.test", "IP:10.1.2.3": "10.1.2.3"} {
		dir := certified(t, name)
		pair, err := tls.LoadX509KeyPair(filepath.Join(dir, "host.crt"), filepath.Join(dir, "host.key"))
		if err != nil {
			t.Fatal(err)
		}
		l, err := tls.Listen("tcp", "127.0.0.1:0", &tls.Config{Certificates: []tls.Certificate{pair}})
		if err != nil {
			t.Fatal(err)
		}
		s := &http.Server{Handler: http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) { io.WriteString(w, "here") }),
			ErrorLog: log.New(io.Discard, "", 0)} // whoever refuses a certificate breaks off
		done := make(chan error, 1)
		go func() { done <- s.Serve(l) }()
		_, err = fetch(trusting(t, dir, l.Addr().String()), "https://"+asked+"/")
		if own := strings.Contains(asked, "manual"); own != (err == nil) || !own && !strings.Contains(err.Error(), "not permitted by any constraint") {
			t.Errorf("%s: %v", name, err)
		}
		if err := s.Close(); err != nil {
			t.Error(err)
		}
		if err := <-done; err != http.ErrServerClosed {
			t.Error(err)
		}
	}
}
