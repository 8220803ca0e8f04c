package browser

import (
	"context"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/sha256"
	"crypto/x509"
	"encoding/base64"
	"encoding/pem"
	"math/big"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	cdppage "github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"tankside/builder/host"
)

const tabletName = "manual.shop.example" // a name that is not this machine's own, by which a browser would trust it without more

// A tablet in the shop's network keeps the manual where the host encrypts, and says that it does not where the host does not.
func TestATabletKeepsWhatComesEncrypted(t *testing.T) {
	t.Parallel()
	path, err := exec.LookPath("chromium")
	if err != nil {
		t.Fatal(err)
	}
	file, key, pin := certificateFor(t, tabletName)
	c, err := host.ReadCertificate(file, key, time.Now)
	if err != nil {
		t.Fatal(err)
	}
	const kept = `document.querySelector(".offline").textContent`
	for _, encrypted := range []bool{true, false} {
		ctx, stop, err := newChromium(path, chromedp.Flag("host-resolver-rules", "MAP "+tabletName+" 127.0.0.1, MAP * ~NOTFOUND, EXCLUDE 127.0.0.1"),
			chromedp.Flag("ignore-certificate-errors-spki-list", pin))
		if err != nil {
			t.Fatal(err)
		}
		t.Cleanup(stop)
		l, err := host.Listen(host.Address{Host: "127.0.0.1"})
		if err != nil {
			t.Fatal(err)
		}
		url := strings.Replace(host.URL(l), "127.0.0.1", tabletName, 1)
		if encrypted {
			url = strings.Replace(c.URL(host.Address{Host: tabletName}, l), "127.0.0.1", tabletName, 1)
			l = c.Secure(l)
		}
		served, end := context.WithCancel(t.Context())
		done := make(chan error, 1)
		go func() { done <- host.Serve(served, l, host.New(published(t), host.Options{})) }()
		b := openIn(t, ctx, url, "this-edition.html")
		if secure := ask[bool](b, `isSecureContext && "serviceWorker" in navigator`); secure != encrypted {
			t.Errorf("%s is secure: %v", url, secure)
		}
		if encrypted {
			b.until(kept + `.includes("kept on this device and")`)
			b.until(`navigator.serviceWorker.ready.then(r => r.active.state === "activated")`)
			installable(t, b, url)
		} else {
			b.forgive = func(complaint string) bool { // the page asks whether there is a newer edition, and the host may be switched off by then
				return strings.Contains(complaint, "Please deliver the response using the HTTPS protocol") || strings.Contains(complaint, "/offline.js")
			}
			b.until(kept + `.includes("not kept")`)
		}
		if encrypted { // page and worker ask whether there is a newer edition, and the host is switched off
			b.forgive = func(complaint string) bool {
				return strings.Contains(complaint, "/edition.json") || strings.Contains(complaint, "/offline.js")
			}
		}
		end()
		if err := <-done; err != nil {
			t.Error(err)
		}
		if encrypted {
			b.do(chromedp.Navigate(url + "symptoms/foam.html"))
			b.until(`document.querySelector("h1").textContent.includes("foam")`)
		}
	}
}

// installable fails where the browser has something against having the manual among the device's applications.
func installable(t *testing.T, b *tab, url string) {
	t.Helper()
	got, err := chromedp.Run(b.ctx, func(ctx context.Context, target *chromedp.Target) (cdppage.GetAppManifestResult, error) {
		return cdp.Call(ctx, target, cdppage.GetAppManifest, cdppage.GetAppManifestParams{})
	})
	if err != nil || got.URL != url+"manual.webmanifest" || len(got.Errors) != 0 || !strings.Contains(got.Data, `"start_url": "index.html"`) {
		t.Errorf("the manifest: %+v, %v", got, err)
	}
	doubts, err := chromedp.Run(b.ctx, func(ctx context.Context, target *chromedp.Target) (cdppage.GetInstallabilityErrorsResult, error) {
		return cdp.Call(ctx, target, cdppage.GetInstallabilityErrors, cdp.Empty{})
	})
	if err != nil {
		t.Fatal(err)
	}
	for _, doubt := range doubts.InstallabilityErrors {
		if doubt.ErrorID != "in-incognito" { // the profile of a test keeps nothing
			t.Errorf("the browser does not install it: %+v", doubt)
		}
	}
}

// certificateFor writes a certificate for a name with its key, and gives what it is known by to a browser that is to trust it.
func certificateFor(t *testing.T, name string) (file, key, pin string) {
	t.Helper()
	private, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	c := &x509.Certificate{SerialNumber: big.NewInt(1), DNSNames: []string{name}, IPAddresses: []net.IP{net.IPv4(127, 0, 0, 1)},
		NotBefore: time.Now().Add(-time.Hour), NotAfter: time.Now().AddDate(1, 0, 0), ExtKeyUsage: []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth}}
	der, err := x509.CreateCertificate(rand.Reader, c, c, &private.PublicKey, private)
	if err != nil {
		t.Fatal(err)
	}
	secret, err := x509.MarshalPKCS8PrivateKey(private)
	if err != nil {
		t.Fatal(err)
	}
	public, err := x509.MarshalPKIXPublicKey(&private.PublicKey)
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	file, key = filepath.Join(dir, "host.crt"), filepath.Join(dir, "host.key")
	for at, block := range map[string]*pem.Block{file: {Type: "CERTIFICATE", Bytes: der}, key: {Type: "PRIVATE KEY", Bytes: secret}} {
		if err := os.WriteFile(at, pem.EncodeToMemory(block), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	sum := sha256.Sum256(public)
	return file, key, base64.StdEncoding.EncodeToString(sum[:])
}
