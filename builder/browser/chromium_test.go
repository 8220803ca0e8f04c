package browser

import (
	"context"
	"os"
	"os/exec"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/audits"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// One Chromium serves all tests; each test has a tab in a fresh profile of its own.
var chromium struct {
	once sync.Once
	ctx  context.Context
	err  error
}

func chromiumContext(t testing.TB) context.Context {
	t.Helper()
	chromium.once.Do(func() {
		path, err := exec.LookPath("chromium")
		if err != nil {
			chromium.err = err
			return
		}
		options := append(chromedp.DefaultExecAllocatorOptions[:],
			chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.DisableGPU,
			chromedp.Flag("disable-quic", true), chromedp.Flag("disable-component-update", true), chromedp.Flag("disable-sync", true))
		allocator, _ := chromedp.NewExecAllocator(context.Background(), options...)
		chromium.ctx, _ = chromedp.NewContext(allocator)
		chromium.err = chromedp.Run(chromium.ctx)
	})
	if chromium.err != nil {
		t.Fatalf("Chromium does not run here: %v. make test installs Debian's chromium; elsewhere put a program of that name on the PATH.", chromium.err)
	}
	return chromium.ctx
}

// tab is one page in Chromium, watched.
type tab struct {
	t    testing.TB
	ctx  context.Context
	base string

	mu         sync.Mutex
	requests   []string
	complaints []string
	forgive    func(string) bool
}

// option changes a tab before its first page.
type option func() chromedp.Action

func size(width, height int64) option {
	return func() chromedp.Action { return chromedp.EmulateViewport(width, height) }
}

func withoutScripts() option {
	return func() chromedp.Action { return emulation.SetScriptExecutionDisabled(true) }
}

func scheme(light string) option {
	return func() chromedp.Action {
		return emulation.SetEmulatedMedia().WithFeatures([]*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: light}})
	}
}

// open opens a page of the edition at base. When the test ends, it fails if a request left the edition or anything was complained of.
func open(t testing.TB, base, page string, options ...option) *tab {
	t.Helper()
	ctx, cancel := chromedp.NewContext(chromiumContext(t), chromedp.WithNewBrowserContext())
	ctx, stop := context.WithTimeout(ctx, 90*time.Second)
	b := &tab{t: t, ctx: ctx, base: base}
	t.Cleanup(func() {
		stop()
		cancel()
		b.mu.Lock()
		defer b.mu.Unlock()
		for _, r := range b.requests {
			if !strings.HasPrefix(r, base) && !strings.HasPrefix(r, "data:") && !strings.HasPrefix(r, "blob:") {
				t.Errorf("a request left the edition: %s", r)
			}
		}
		for _, c := range b.complaints {
			if b.forgive == nil || !b.forgive(c) {
				t.Errorf("the browser complains: %s", c)
			}
		}
	})
	chromedp.ListenTarget(ctx, b.hear)
	actions := []chromedp.Action{network.Enable(), log.Enable(), runtime.Enable(), audits.Enable(), size(1280, 900)()}
	for _, o := range options {
		actions = append(actions, o())
	}
	b.do(append(actions, chromedp.Navigate(base+page))...)
	return b
}

// hear keeps what the browser says.
func (b *tab) hear(event any) {
	b.mu.Lock()
	defer b.mu.Unlock()
	switch e := event.(type) {
	case *network.EventRequestWillBeSent:
		b.requests = append(b.requests, e.Request.URL)
	case *log.EventEntryAdded:
		if e.Entry.Level == log.LevelError || e.Entry.Level == log.LevelWarning {
			b.complaints = append(b.complaints, e.Entry.Text+" "+e.Entry.URL)
		}
	case *runtime.EventExceptionThrown:
		b.complaints = append(b.complaints, e.ExceptionDetails.Error())
	case *runtime.EventConsoleAPICalled:
		if e.Type == runtime.APITypeError || e.Type == runtime.APITypeWarning {
			b.complaints = append(b.complaints, "console: "+string(e.Args[0].Value))
		}
	case *audits.EventIssueAdded:
		if e.Issue.Code == audits.InspectorIssueCodeContentSecurityPolicyIssue {
			b.complaints = append(b.complaints, "the security policy was breached: "+e.Issue.Details.ContentSecurityPolicyIssueDetails.ViolatedDirective)
		}
	}
}

// do runs actions and ends the test at the first that fails.
func (b *tab) do(actions ...chromedp.Action) {
	b.t.Helper()
	if err := chromedp.Run(b.ctx, actions...); err != nil {
		b.picture()
		b.t.Fatal(err)
	}
}

// ask evaluates an expression in the page and stores what it gives.
func (b *tab) ask(expression string, answer any) {
	b.t.Helper()
	b.do(chromedp.Evaluate(expression, answer))
}

// until waits for an expression of the page to become true.
func (b *tab) until(expression string) {
	b.t.Helper()
	if err := chromedp.Run(b.ctx, chromedp.Poll(expression, nil, chromedp.WithPollingInterval(20*time.Millisecond), chromedp.WithPollingTimeout(20*time.Second))); err != nil {
		b.picture()
		b.t.Fatalf("in vain waited for %s: %v", expression, err)
	}
}

// picture keeps what the page looks like when a test fails, where TANKSIDE_PICTURES names a folder.
func (b *tab) picture() {
	folder := os.Getenv("TANKSIDE_PICTURES")
	if folder == "" {
		return
	}
	var png []byte
	if err := chromedp.Run(b.ctx, chromedp.CaptureScreenshot(&png)); err == nil {
		name := folder + "/" + strings.ReplaceAll(b.t.Name(), "/", "-") + ".png"
		if err := os.WriteFile(name, png, 0o644); err == nil {
			b.t.Logf("picture: %s", name)
		}
	}
}
