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
	"github.com/chromedp/cdproto/cdp"
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

// newChromium starts one, with more options behind the usual ones.
func newChromium(path string, more ...chromedp.ExecAllocatorOption) (context.Context, context.CancelFunc, error) {
	options := append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(path), chromedp.Headless, chromedp.NoSandbox, chromedp.DisableGPU,
		chromedp.Flag("force-prefers-reduced-motion", true),                                           // a page that glides slips from under a click
		chromedp.Flag("host-resolver-rules", "MAP * ~NOTFOUND, EXCLUDE 127.0.0.1, EXCLUDE localhost"), // nothing leaves this machine
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-component-update", true), chromedp.Flag("disable-sync", true))
	allocator, stop := chromedp.NewExecAllocator(context.Background(), append(options, more...)...)
	ctx, _ := chromedp.NewContext(allocator)
	return ctx, stop, chromedp.Do(ctx)
}

func chromiumContext(t testing.TB) context.Context {
	t.Helper()
	chromium.once.Do(func() {
		path, err := exec.LookPath("chromium")
		if err != nil {
			chromium.err = err
			return
		}
		chromium.ctx, _, chromium.err = newChromium(path)
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
	page string // what was opened last

	mu         sync.Mutex
	requests   []string
	complaints []string
	forgive    func(complaint string) bool // where a test makes something go wrong
	mayAsk     string                      // an address outside of the edition that pages may ask
}

// step is something done in a tab.
type step = chromedp.Action[chromedp.Void]

// command makes a step of a protocol command.
func command[P, R any](c cdp.Command[P, R], parameters P) step {
	return func(ctx context.Context, t *chromedp.Target) (chromedp.Void, error) {
		_, err := cdp.Call(ctx, t, c, parameters)
		return chromedp.Void{}, err
	}
}

func size(width, height int64) step { return chromedp.EmulateViewport(width, height) }

func withoutScripts() step {
	return command(emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
}

// paper makes the page light or dark.
func paper(scheme string) step {
	return command(emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
		Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}},
	})
}

// open opens a page of the edition at base after some steps, in a fresh profile. When the test ends, it fails if a request left the edition or
// anything was complained of.
func open(t testing.TB, base, page string, before ...step) *tab {
	t.Helper()
	return openIn(t, chromiumContext(t), base, page, before...)
}

// openIn does so in a Chromium of one's own.
func openIn(t testing.TB, browser context.Context, base, page string, before ...step) *tab {
	t.Helper()
	b := &tab{t: t, base: base, page: page}
	ctx, cancel := chromedp.NewContext(browser, chromedp.WithNewBrowserContext(), chromedp.WithListener(b.hear))
	ctx, stop := context.WithTimeout(ctx, 20*time.Minute)
	b.ctx = ctx
	t.Cleanup(func() {
		b.judge()
		stop()
		cancel()
	})
	b.do(command(network.Enable, network.EnableParams{}), command(log.Enable, cdp.Empty{}), command(audits.Enable, cdp.Empty{}), size(1280, 900))
	b.do(before...)
	b.do(chromedp.Navigate(base + page))
	return b
}

// blank lies between two addresses that differ only behind their #: without it, the page would not be loaded again.
const blank = "about:blank"

// turn opens another page in the tab, after the same steps as open would. A fresh profile would keep the whole edition on the device anew for each
// page, which takes twenty times what the page takes.
func (b *tab) turn(page string, before ...step) {
	b.t.Helper()
	file := func(page string) string { name, _, _ := strings.Cut(page, "#"); return name }
	if file(page) == file(b.page) {
		b.do(chromedp.Navigate(blank))
	}
	b.do(command(emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{}), size(1280, 900))
	b.do(before...)
	b.page = page
	b.do(chromedp.Navigate(b.base + page))
}

// eachPage opens pages one after another in one tab, each after the same steps, and hands them to the test; where an address asks something, with its
// answer.
func eachPage(t *testing.T, base string, pages []string, before []step, test func(b *tab, page string)) {
	t.Helper()
	b := open(t, base, pages[0], before...)
	for i, page := range pages {
		if i > 0 {
			b.turn(page, before...)
		}
		if strings.Contains(page, "#") {
			b.until(`document.querySelector(".verdict, .seen-cause")`)
		}
		test(b, page)
	}
}

// of has a subtest answer for what is done in the tab until it ends.
func (b *tab) of(t *testing.T) {
	whole := b.t
	b.t = t
	t.Cleanup(func() {
		b.judge()
		b.t = whole
	})
}

// judge fails the test for what was heard since it was last asked.
func (b *tab) judge() {
	b.mu.Lock()
	defer b.mu.Unlock()
	for _, r := range b.requests {
		if !strings.HasPrefix(r, b.base) && r != blank && !strings.HasPrefix(r, "data:") && !strings.HasPrefix(r, "blob:") && (b.mayAsk == "" || !strings.HasPrefix(r, b.mayAsk)) {
			b.t.Errorf("a request left the edition: %s", r)
		}
	}
	for _, c := range b.complaints {
		if b.forgive != nil && b.forgive(c) {
			continue
		}
		b.t.Errorf("the browser complains: %s", c)
	}
	b.requests, b.complaints = nil, nil
}

// hear keeps what the browser says.
func (b *tab) hear(event any) {
	b.mu.Lock()
	defer b.mu.Unlock()
	switch e := event.(type) {
	case *network.EventRequestWillBeSent:
		b.requests = append(b.requests, e.Request.URL)
	case *log.EventEntryAdded:
		if e.Entry.Level == log.EntryLevelError || e.Entry.Level == log.EntryLevelWarning {
			b.complaints = append(b.complaints, e.Entry.Text+" "+e.Entry.URL)
		}
	case *runtime.EventExceptionThrown:
		text := e.ExceptionDetails.Text
		if e.ExceptionDetails.Exception != nil {
			text += " " + e.ExceptionDetails.Exception.Description
		}
		b.complaints = append(b.complaints, text)
	case *runtime.EventConsoleAPICalled:
		if e.Type == runtime.ConsoleAPICalledTypeError || e.Type == runtime.ConsoleAPICalledTypeWarning {
			b.complaints = append(b.complaints, "console: "+string(e.Args[0].Value)+" "+e.Args[0].Description)
		}
	case *audits.EventIssueAdded:
		if e.Issue.Code == audits.InspectorIssueCodeContentSecurityPolicyIssue {
			b.complaints = append(b.complaints, "the security policy was breached: "+e.Issue.Details.ContentSecurityPolicyIssueDetails.ViolatedDirective)
		}
	}
}

// do runs steps and ends the test at the first that fails.
func (b *tab) do(steps ...step) {
	b.t.Helper()
	if err := chromedp.Do(b.ctx, steps...); err != nil {
		b.picture()
		b.t.Fatal(err)
	}
}

// press clicks what a CSS selector finds.
func (b *tab) press(selector string) {
	b.t.Helper()
	b.do(chromedp.Click(chromedp.CSS(selector)))
}

// keys types into what a CSS selector finds.
func (b *tab) keys(selector, keys string) {
	b.t.Helper()
	b.do(chromedp.SendKeys(chromedp.CSS(selector), keys))
}

// ask evaluates an expression in the page; a promise is waited for.
func ask[T any](b *tab, expression string) T {
	b.t.Helper()
	v, err := chromedp.Run(b.ctx, chromedp.Evaluate[T](expression, chromedp.EvalAwaitPromise))
	if err != nil {
		b.picture()
		b.t.Fatalf("%s: %v", expression, err)
	}
	return v
}

// text gives the text that a reader sees of what a CSS selector finds, with plain spaces.
func (b *tab) text(selector string) string {
	b.t.Helper()
	return strings.ReplaceAll(ask[string](b, "document.querySelector("+quote(selector)+").innerText"), "\u00a0", " ")
}

// until waits for an expression to become true in a page that is loaded. What is not there yet is not true yet, and neither is what was asked
// of a page that was left meanwhile.
func (b *tab) until(expression string) {
	b.t.Helper()
	question := `(async () => { try { return document.readyState === "complete" && !!await (` + expression + `); } catch { return false; } })()`
	for deadline := time.Now().Add(3 * time.Minute); ; time.Sleep(20 * time.Millisecond) {
		ok, err := chromedp.Run(b.ctx, chromedp.Evaluate[bool](question, chromedp.EvalAwaitPromise))
		switch {
		case ok:
			return
		case err != nil && !left(err):
			b.picture()
			b.t.Fatalf("%s: %v", expression, err)
		case time.Now().After(deadline):
			b.picture()
			b.t.Fatalf("in vain waited for %s (%v); the page stands at: %s", expression, err, b.state())
		}
	}
}

// state tells of a page for whose change somebody waited in vain: where it is, what it says of being kept, who serves it and what is kept.
func (b *tab) state() string {
	now, err := chromedp.Run(b.ctx, chromedp.Evaluate[string](`(async () => {
		const say = selector => document.querySelector(selector)?.textContent ?? "";
		const of = navigator.serviceWorker && await navigator.serviceWorker.getRegistration();
		return [location.href, document.readyState, say(".offline"), say(".newer"), navigator.serviceWorker?.controller?.state ?? "served by no worker",
			"installing " + of?.installing?.state, "waiting " + of?.waiting?.state, "active " + of?.active?.state, ...(self.caches ? await caches.keys() : [])].join(" | ");
	})()`, chromedp.EvalAwaitPromise))
	if err != nil {
		return err.Error()
	}
	return now
}

// left tells whether Chromium could not answer because the page that was asked is being left. The protocol has one code for all errors of
// this kind, so its words decide.
func left(err error) bool {
	for _, words := range []string{"Inspected target navigated or closed", "Execution context was destroyed", "Cannot find context", "Cannot find default execution context", "Promise was collected"} {
		if strings.Contains(err.Error(), words) {
			return true
		}
	}
	return false
}

// picture keeps what the page looks like when a test fails, where TANKSIDE_PICTURES names a folder.
func (b *tab) picture() {
	folder := os.Getenv("TANKSIDE_PICTURES")
	if folder == "" {
		return
	}
	png, err := chromedp.Run(b.ctx, chromedp.CaptureScreenshot())
	if err == nil {
		name := folder + "/" + strings.ReplaceAll(b.t.Name(), "/", "-") + ".png"
		err = os.WriteFile(name, png, 0o644)
		b.t.Logf("picture: %s", name)
	}
	if err != nil {
		b.t.Logf("no picture: %v", err)
	}
}
