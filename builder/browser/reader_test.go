package browser

import (
	"context"
	"encoding/json"
	"testing"
	"time"

	"github.com/chromedp/cdproto/audits"
	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/chromedp"

	"tankside/builder/browser/drive"
)

// reader is a browser with a fresh profile and tabs, for tests that both browsers take. Its methods end the test on an error.
type reader interface {
	Open(address string)
	Until(expression string)
	Ask(expression string, value any)
	Press(selector string)
	Type(selector, keys string)

	// Tab turns to a tab: 0 is the first; the one after the last is opened.
	Tab(n int)
}

// inBothBrowsers runs a test in Chromium and in Firefox.
func inBothBrowsers(t *testing.T, test func(t *testing.T, start func(t *testing.T, base string) reader)) {
	t.Helper()
	t.Run("Chromium", func(t *testing.T) {
		test(t, func(t *testing.T, base string) reader { return startChromium(t, base) })
	})
	t.Run("Firefox", func(t *testing.T) {
		f := &firefoxReader{Firefox: drive.StartFirefox(t)} // each server has a port of its own, and what is kept goes by it
		test(t, func(t *testing.T, _ string) reader {
			f.turnTo(t)
			return f
		})
	})
}

func startChromium(t *testing.T, base string) *chromiumReader {
	t.Helper()
	b := open(t, blank, "")
	b.forgive = func(string) bool { return true } // of what is missing and damaged, the browser complains
	b.base = base
	return &chromiumReader{tabs: []*tab{b}}
}

type chromiumReader struct {
	tabs []*tab
	at   int
}

func (r *chromiumReader) now() *tab { return r.tabs[r.at] }

func (r *chromiumReader) Open(address string) {
	r.now().t.Helper()
	r.now().do(chromedp.Navigate(address))
}

func (r *chromiumReader) Until(expression string) { r.now().t.Helper(); r.now().until(expression) }

func (r *chromiumReader) Press(selector string) { r.now().t.Helper(); r.now().press(selector) }

func (r *chromiumReader) Type(selector, keys string) {
	r.now().t.Helper()
	r.now().keys(selector, keys)
}

func (r *chromiumReader) Ask(expression string, value any) {
	r.now().t.Helper()
	text := ask[string](r.now(), "Promise.resolve("+expression+").then(v => JSON.stringify(v ?? null))")
	if value == nil {
		return
	}
	if err := json.Unmarshal([]byte(text), value); err != nil {
		r.now().t.Fatalf("%s: %s: %v", expression, text, err)
	}
}

func (r *chromiumReader) Tab(n int) {
	r.at = n
	if n < len(r.tabs) {
		return
	}
	first := r.tabs[0]
	b := &tab{t: first.t, base: first.base, forgive: first.forgive}
	ctx, cancel := chromedp.NewContext(first.ctx, chromedp.WithListener(b.hear))
	ctx, stop := context.WithTimeout(ctx, 20*time.Minute)
	b.ctx = ctx
	first.t.(interface{ Cleanup(func()) }).Cleanup(func() { stop(); cancel() })
	r.tabs = append(r.tabs, b)
	b.do(command(network.Enable, network.EnableParams{}), command(log.Enable, cdp.Empty{}), command(audits.Enable, cdp.Empty{}), size(1280, 900))
}

type firefoxReader struct {
	*drive.Firefox
	names []string
}

func (r *firefoxReader) Tab(n int) {
	if n < len(r.names) {
		r.Turn(r.names[n])
		return
	}
	before, now := r.NewTab()
	if len(r.names) == 0 {
		r.names = append(r.names, before)
	}
	r.names = append(r.names, now)
}

// turnTo has the browser answer to a test, in its first tab.
func (r *firefoxReader) turnTo(t *testing.T) {
	r.For(t)
	if len(r.names) > 0 {
		r.Turn(r.names[0])
	}
	r.Open(blank)
}

func jsonOf(v any) string {
	data, err := json.Marshal(v)
	if err != nil {
		panic(err) // numbers, texts and lists of them always have their JSON
	}
	return string(data)
}
