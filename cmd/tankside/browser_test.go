package main

import (
	"bytes"
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// tab is a page in a Chromium of its own.
type tab struct {
	t     *testing.T
	ctx   context.Context
	notes *buffer // of the command that serves it

	mu         sync.Mutex
	complaints []string
}

func openTab(t *testing.T, url string, notes *buffer) *tab {
	t.Helper()
	chromium, err := exec.LookPath("chromium")
	if err != nil {
		t.Fatalf("Chromium does not run here: %v. make test installs Debian's chromium; elsewhere put a program of that name on the PATH.", err)
	}
	options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(chromium), chromedp.NoSandbox, chromedp.DisableGPU)
	allocator, release := chromedp.NewExecAllocator(t.Context(), options...)
	b := &tab{t: t, notes: notes}
	ctx, end := chromedp.NewContext(allocator, chromedp.WithListener(b.hear))
	ctx, stop := context.WithTimeout(ctx, 5*deadline)
	b.ctx = ctx
	t.Cleanup(func() {
		stop()
		end()
		release()
	})
	enable := func(ctx context.Context, target *chromedp.Target) (chromedp.Void, error) {
		_, err := cdp.Call(ctx, target, log.Enable, cdp.Empty{})
		return chromedp.Void{}, err
	}
	if err := chromedp.Do(ctx, enable, chromedp.Navigate(url)); err != nil {
		t.Fatal(err)
	}
	return b
}

// hear keeps what the browser complains of.
func (b *tab) hear(event any) {
	b.mu.Lock()
	defer b.mu.Unlock()
	switch e := event.(type) {
	case *log.EventEntryAdded:
		b.complaints = append(b.complaints, e.Entry.Text+" "+e.Entry.URL)
	case *runtime.EventExceptionThrown:
		b.complaints = append(b.complaints, e.ExceptionDetails.Text)
	}
}

func (b *tab) complained() string {
	b.mu.Lock()
	defer b.mu.Unlock()
	return strings.Join(b.complaints, "\n")
}

// reload has the page load itself again, and waits until it has. A worker may be sending the page elsewhere at the same moment; then it has no
// frame for a while that a command from outside could reload ("Not attached to an active page"), and in the page it does no harm.
func (b *tab) reload() {
	b.t.Helper()
	b.becomes(`(window.left = true, location.reload(), true)`)
	b.becomes(`!window.left && document.readyState === "complete"`)
}

// within waits for the expression to be true in the page, and tells whether it was. While a page loads, an expression may fail.
func (b *tab) within(patience time.Duration, expression string) (bool, error) {
	b.t.Helper()
	late := time.After(patience)
	for {
		is, err := chromedp.Run(b.ctx, chromedp.Evaluate[bool](expression))
		if err == nil && is {
			return true, nil
		}
		select {
		case <-late:
			return false, err
		case <-time.After(20 * time.Millisecond):
		}
	}
}

// becomes waits until the expression is true in the page.
func (b *tab) becomes(expression string) {
	b.t.Helper()
	if is, err := b.within(deadline, expression); !is {
		shown, _ := chromedp.Run(b.ctx, chromedp.Evaluate[string]("location.href + document.body.innerText"))
		b.t.Fatalf("%s: %v\n%s\n%s\n%s", expression, err, shown, b.complained(), b.notes)
	}
}

// An open page shows a change by itself, says below it that there are findings, and takes that back.
func TestPageFollows(t *testing.T) {
	t.Parallel()
	folder, edition := newManual(t)
	addWax(t, folder, "Warm it.")
	url, notes, stop := serving(t, "watch", folder, "--to", edition, "--at", "127.0.0.1:0")
	b := openTab(t, url+"soils/wax.html", notes)
	b.becomes(`document.body.innerText.includes("Warm it.")`)

	addWax(t, folder, "Warm it slowly.")
	b.becomes(`document.body.innerText.includes("Warm it slowly.")`)

	addWax(t, folder, "Warm it slowly. See [tar](tar.md).")
	b.becomes(`document.querySelector("body > p[role=status]")?.textContent.includes("stops publication")`)
	// It stands at the lower edge of the window; the page shows what can be shown, and what is wrong with it, and where.
	b.becomes(`(line => getComputedStyle(line).position === "fixed" && Math.abs(line.getBoundingClientRect().bottom - innerHeight) < 2)(document.querySelector("body > p[role=status]"))`)
	b.becomes(`document.querySelector("main").innerText.includes("See tar.") && document.body.innerText.includes("soils/wax.md:12:21")`)
	if kept, err := os.ReadFile(filepath.Join(edition, "soils/wax.html")); err != nil || bytes.Contains(kept, []byte("See tar")) {
		t.Errorf("what was not published stands in the edition: %v", err)
	}

	addWax(t, folder, "Warm it slowly, and no hotter.")
	b.becomes(`document.body.innerText.includes("and no hotter.") && !document.querySelector("body > p[role=status]") && !document.body.innerText.includes("In no edition")`)
	if got := b.complained(); strings.Contains(got, "Content Security Policy") || strings.Contains(got, "Error") {
		t.Errorf("the browser complains:\n%s", got)
	}
	if code := stop(); code != exitDone {
		t.Errorf("exit status %d\n%s", code, notes)
	}
}

// What a browser keeps of a hosted edition does not stand in for a manual that is being written at the same address later.
func TestKeptEditionIsRetired(t *testing.T) {
	t.Parallel()
	folder, edition := newManual(t)
	addWax(t, folder, "As it was hosted.")
	must(t, "publish", folder, "--to", edition)
	url, notes, stop := serving(t, "host", edition, "--at", "127.0.0.1:0")
	b := openTab(t, url+"soils/wax.html", notes)
	b.becomes(`navigator.serviceWorker.controller !== null`)
	if code := stop(); code != exitDone {
		t.Fatalf("exit status %d\n%s", code, notes)
	}
	// Offline, the kept edition answers.
	b.reload()
	b.becomes(`document.body.innerText.includes("As it was hosted.")`)

	reviseWax(t, folder, "B", "As it is written.")
	at := strings.TrimSuffix(strings.TrimPrefix(url, "http://"), "/")
	_, b.notes, stop = serving(t, "watch", folder, "--to", edition, "--at", at)
	// When a browser looks for a newer worker is its own affair: at a visit, at the latest at one of the next.
	for range 10 {
		b.reload()
		if is, _ := b.within(deadline/20, `document.body.innerText.includes("As it is written.")`); is {
			break
		}
	}
	b.becomes(`document.body.innerText.includes("As it is written.")`)
	reviseWax(t, folder, "B", "As it is written now.")
	b.becomes(`document.body.innerText.includes("As it is written now.")`)
	if code := stop(); code != exitDone {
		t.Errorf("exit status %d\n%s", code, b.notes)
	}
}
