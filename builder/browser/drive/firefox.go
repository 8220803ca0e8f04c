// Package drive drives a Firefox for tests through Marionette, the remote protocol that comes with it: messages of JSON with their length
// before them. (Chromium has a library for its own protocol; Firefox needs no more than this.)
package drive

import (
	"bufio"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// Firefox is a running Firefox with one window. Its methods end the test on an error.
type Firefox struct {
	t    testing.TB
	conn net.Conn
	in   *bufio.Reader
	last int
}

// The profile's preferences: a free port for Marionette; what people have by default where the driver would loosen it (files may
// not read their neighbours); and no traffic but to this machine.
const preferences = `user_pref("marionette.port", 0);
user_pref("remote.prefs.recommended", false);
user_pref("security.fileuri.strict_origin_policy", true);
user_pref("network.proxy.type", 1);
user_pref("network.proxy.http", "127.0.0.1");
user_pref("network.proxy.http_port", 9);
user_pref("network.proxy.ssl", "127.0.0.1");
user_pref("network.proxy.ssl_port", 9);
user_pref("network.proxy.no_proxies_on", "127.0.0.1, localhost");
user_pref("network.proxy.allow_hijacking_localhost", false);
user_pref("browser.shell.checkDefaultBrowser", false);
user_pref("browser.startup.page", 0);
user_pref("browser.aboutwelcome.enabled", false);
user_pref("datareporting.policy.dataSubmissionEnabled", false);
user_pref("toolkit.telemetry.enabled", false);
user_pref("app.normandy.enabled", false);
user_pref("extensions.update.enabled", false);
`

// StartFirefox starts a Firefox with a fresh profile, and some preferences more as lines of its user.js, and ends it with the test.
func StartFirefox(t testing.TB, more ...string) *Firefox {
	t.Helper()
	path, err := exec.LookPath("firefox-esr")
	if err != nil {
		path, err = exec.LookPath("firefox")
	}
	if err != nil {
		t.Fatalf("Firefox does not run here: %v. make test installs Debian's firefox-esr; elsewhere put a program of that name on the PATH.", err)
	}
	profile := t.TempDir()
	if err := os.WriteFile(filepath.Join(profile, "user.js"), []byte(preferences+strings.Join(more, "")), 0o644); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(path, "--marionette", "--headless", "--no-remote", "--profile", profile)
	cmd.Env = append(os.Environ(), "MOZ_HEADLESS=1", "HOME="+profile)
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	f := &Firefox{t: t}
	t.Cleanup(func() {
		if f.conn != nil {
			if err := f.try("Marionette:Quit", map[string]any{"flags": []string{"eForceQuit"}}, nil); err != nil {
				t.Logf("asking Firefox to end: %v", err)
			}
			if err := f.conn.Close(); err != nil {
				t.Log(err)
			}
		}
		ended := make(chan error, 1)
		go func() { ended <- cmd.Wait() }()
		select {
		case <-ended:
		case <-time.After(time.Minute):
			if err := cmd.Process.Kill(); err != nil {
				t.Log(err)
			}
			<-ended
		}
	})
	deadline := time.Now().Add(3 * time.Minute)
	for f.conn == nil {
		if time.Now().After(deadline) {
			t.Fatal("Firefox did not open its Marionette port within three minutes")
		}
		if port, err := os.ReadFile(filepath.Join(profile, "MarionetteActivePort")); err == nil {
			if conn, err := net.Dial("tcp", "127.0.0.1:"+strings.TrimSpace(string(port))); err == nil {
				f.conn, f.in = conn, bufio.NewReader(conn)
				break
			}
		}
		time.Sleep(50 * time.Millisecond)
	}
	if _, err := f.receive(); err != nil { // the greeting
		t.Fatal(err)
	}
	f.call("WebDriver:NewSession", map[string]any{"capabilities": map[string]any{}}, nil)
	f.call("WebDriver:SetTimeouts", map[string]any{"script": 180_000, "pageLoad": 180_000}, nil)
	return f
}

func (f *Firefox) send(command string, parameters any) error {
	f.last++
	message, err := json.Marshal([]any{0, f.last, command, parameters})
	if err != nil {
		return err
	}
	_, err = fmt.Fprintf(f.conn, "%d:%s", len(message), message)
	return err
}

func (f *Firefox) receive() (json.RawMessage, error) {
	if err := f.conn.SetReadDeadline(time.Now().Add(5 * time.Minute)); err != nil {
		return nil, err
	}
	length, err := f.in.ReadString(':')
	if err != nil {
		return nil, err
	}
	var n int
	if _, err := fmt.Sscanf(length, "%d:", &n); err != nil {
		return nil, fmt.Errorf("message length %q: %w", length, err)
	}
	data := make([]byte, n)
	_, err = io.ReadFull(f.in, data)
	return data, err
}

// call sends a command, which must succeed, and stores its value.
func (f *Firefox) call(command string, parameters, value any) {
	f.t.Helper()
	if err := f.try(command, parameters, value); err != nil {
		f.t.Fatalf("%s: %v", command, err)
	}
}

// try sends a command and stores its value.
func (f *Firefox) try(command string, parameters, value any) error {
	if err := f.send(command, parameters); err != nil {
		return err
	}
	data, err := f.receive()
	if err != nil {
		return err
	}
	var message [4]json.RawMessage
	if err := json.Unmarshal(data, &message); err != nil {
		return err
	}
	if string(message[2]) != "null" {
		return errors.New(string(message[2]))
	}
	if value == nil {
		return nil
	}
	var wrapped struct {
		Value json.RawMessage `json:"value"`
	}
	if err := json.Unmarshal(message[3], &wrapped); err != nil || wrapped.Value == nil {
		return json.Unmarshal(message[3], value) // what is opened comes without the wrapping
	}
	return json.Unmarshal(wrapped.Value, value)
}

// Open opens an address and waits until it is loaded.
func (f *Firefox) Open(address string) {
	f.t.Helper()
	f.call("WebDriver:Navigate", map[string]any{"url": address}, nil)
}

// Ask evaluates an expression in the page; a promise is waited for.
func (f *Firefox) Ask(expression string, value any) {
	f.t.Helper()
	if err := f.ask(expression, value); err != nil {
		f.t.Fatalf("%s: %v", expression, err)
	}
}

func (f *Firefox) ask(expression string, value any) error {
	script := "const done = arguments[arguments.length - 1]; Promise.resolve().then(() => (" + expression + ")).then(v => done({ok: v}), e => done({error: String(e)}));"
	var answer struct {
		OK    json.RawMessage `json:"ok"`
		Error string          `json:"error"`
	}
	if err := f.try("WebDriver:ExecuteAsyncScript", map[string]any{"script": script, "args": []any{}}, &answer); err != nil {
		return err
	}
	if answer.Error != "" {
		return errors.New(answer.Error)
	}
	if value == nil || len(answer.OK) == 0 { // a page that is left while it is asked gives nothing
		return nil
	}
	return json.Unmarshal(answer.OK, value)
}

// Until waits for an expression of the page to become true. What was asked of a page that was left meanwhile is not true yet.
func (f *Firefox) Until(expression string) {
	f.t.Helper()
	for deadline := time.Now().Add(3 * time.Minute); ; time.Sleep(20 * time.Millisecond) {
		var ok bool
		err := f.ask("!!("+expression+")", &ok)
		switch {
		case ok:
			return
		case err != nil && !strings.Contains(err.Error(), "unloaded"): // WebDriver: "Document was unloaded"
			f.t.Fatalf("%s: %v", expression, err)
		case time.Now().After(deadline):
			var found string
			told := f.ask(whereItStands, &found)
			f.t.Fatalf("in vain waited for %s (%v); the page then: %s (%v)", expression, err, found, told)
		}
	}
}

// whereItStands tells of a page that something was in vain waited for: its address, the strip of a newer edition, the workers and what is kept.
const whereItStands = `(async () => {
	const r = await navigator.serviceWorker?.getRegistration(), state = worker => worker && worker.state + " " + worker.scriptURL;
	return JSON.stringify({
		page: location.href, state: document.readyState, hidden: document.hidden, newer: document.querySelector(".newer")?.outerHTML,
		controller: state(navigator.serviceWorker?.controller), installing: state(r?.installing), waiting: state(r?.waiting), active: state(r?.active),
		kept: await self.caches?.keys(), shown: document.body?.innerText.slice(0, 400),
	});
})()`

// For has another test end on its errors: one Firefox may serve several, one after another.
func (f *Firefox) For(t testing.TB) { f.t = t }

// NewTab opens a tab and turns to it. It gives names of the tab before and of the new one, for Turn.
func (f *Firefox) NewTab() (before, now string) {
	f.t.Helper()
	f.call("WebDriver:GetWindowHandle", map[string]any{}, &before)
	var opened struct {
		Handle string `json:"handle"`
	}
	f.call("WebDriver:NewWindow", map[string]any{"type": "tab", "focus": true}, &opened)
	if now = opened.Handle; now == "" {
		f.t.Fatal("Firefox opened a tab without a name")
	}
	f.Turn(now)
	return before, now
}

// Turn goes to a tab.
func (f *Firefox) Turn(tab string) {
	f.t.Helper()
	f.call("WebDriver:SwitchToWindow", map[string]any{"handle": tab, "focus": true}, nil)
}

// Press clicks the first element that a selector finds.
func (f *Firefox) Press(selector string) {
	f.t.Helper()
	f.Ask("(document.querySelector("+quote(selector)+").click(), true)", nil)
}

// Type types into the element that a CSS selector finds. Keys without a letter have the code points that WebDriver gives them (W3C
// WebDriver, section "Keyboard actions").
func (f *Firefox) Type(selector, keys string) {
	f.t.Helper()
	var found map[string]string // one element, under the name that the protocol gives elements
	f.call("WebDriver:FindElement", map[string]any{"using": "css selector", "value": selector}, &found)
	for _, id := range found {
		f.call("WebDriver:ElementSendKeys", map[string]any{"id": id, "text": keys}, nil)
	}
}

// The keys without a letter.
const (
	ArrowDown = "\ue015"
	Enter     = "\ue007"
	Escape    = "\ue00c"
)

// quote writes a text as JavaScript reads it.
func quote(s string) string {
	b, err := json.Marshal(s)
	if err != nil {
		panic(err) // a string always has its JSON
	}
	return string(b)
}
