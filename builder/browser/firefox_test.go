package browser

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

// firefox is a Firefox driven through Marionette, the remote protocol that is part of it: messages of JSON with their length before them.
type firefox struct {
	t    testing.TB
	conn net.Conn
	in   *bufio.Reader
	last int
}

// The profile's preferences: a free port for Marionette; what people have by default where the driver would loosen it (files may
// not read their neighbours); and no traffic but to this machine.
const firefoxPreferences = `user_pref("marionette.port", 0);
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

// startFirefox starts a Firefox with a fresh profile and ends it with the test.
func startFirefox(t testing.TB) *firefox {
	t.Helper()
	path, err := exec.LookPath("firefox-esr")
	if err != nil {
		path, err = exec.LookPath("firefox")
	}
	if err != nil {
		t.Fatalf("Firefox does not run here: %v. make test installs Debian's firefox-esr; elsewhere put a program of that name on the PATH.", err)
	}
	profile := t.TempDir()
	if err := os.WriteFile(filepath.Join(profile, "user.js"), []byte(firefoxPreferences), 0o644); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(path, "--marionette", "--headless", "--no-remote", "--profile", profile)
	cmd.Env = append(os.Environ(), "MOZ_HEADLESS=1", "HOME="+profile)
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	f := &firefox{t: t}
	t.Cleanup(func() {
		if f.conn != nil {
			if err := f.send("Marionette:Quit", map[string]any{"flags": []string{"eForceQuit"}}); err != nil {
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
		case <-time.After(15 * time.Second):
			if err := cmd.Process.Kill(); err != nil {
				t.Log(err)
			}
			<-ended
		}
	})
	deadline := time.Now().Add(60 * time.Second)
	for f.conn == nil {
		if time.Now().After(deadline) {
			t.Fatal("Firefox did not open its Marionette port within a minute")
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
	f.call("WebDriver:SetTimeouts", map[string]any{"script": 30000, "pageLoad": 30000}, nil)
	return f
}

func (f *firefox) send(command string, parameters any) error {
	f.last++
	message, err := json.Marshal([]any{0, f.last, command, parameters})
	if err != nil {
		return err
	}
	_, err = fmt.Fprintf(f.conn, "%d:%s", len(message), message)
	return err
}

func (f *firefox) receive() (json.RawMessage, error) {
	if err := f.conn.SetReadDeadline(time.Now().Add(60 * time.Second)); err != nil {
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

// call sends a command and stores its value.
func (f *firefox) call(command string, parameters, value any) {
	f.t.Helper()
	err := f.send(command, parameters)
	var data json.RawMessage
	if err == nil {
		data, err = f.receive()
	}
	var message [4]json.RawMessage
	if err == nil {
		err = json.Unmarshal(data, &message)
	}
	if err == nil && string(message[2]) != "null" {
		err = errors.New(string(message[2]))
	}
	if err == nil && value != nil {
		var wrapped struct {
			Value json.RawMessage `json:"value"`
		}
		if err = json.Unmarshal(message[3], &wrapped); err == nil {
			err = json.Unmarshal(wrapped.Value, value)
		}
	}
	if err != nil {
		f.t.Fatalf("%s: %v", command, err)
	}
}

func (f *firefox) open(address string) {
	f.t.Helper()
	f.call("WebDriver:Navigate", map[string]any{"url": address}, nil)
}

// ask evaluates an expression in the page; a promise is waited for.
func (f *firefox) ask(expression string, value any) {
	f.t.Helper()
	script := "const done = arguments[arguments.length - 1]; Promise.resolve().then(() => (" + expression + ")).then(v => done({ok: v}), e => done({error: String(e)}));"
	var answer struct {
		OK    json.RawMessage `json:"ok"`
		Error string          `json:"error"`
	}
	f.call("WebDriver:ExecuteAsyncScript", map[string]any{"script": script, "args": []any{}}, &answer)
	if answer.Error != "" {
		f.t.Fatalf("%s: %s", expression, answer.Error)
	}
	if value != nil && len(answer.OK) > 0 { // a page that is left while it is asked gives nothing
		if err := json.Unmarshal(answer.OK, value); err != nil {
			f.t.Fatalf("%s: %v", expression, err)
		}
	}
}

// until waits for an expression of the page to become true.
func (f *firefox) until(expression string) {
	f.t.Helper()
	deadline := time.Now().Add(20 * time.Second)
	for {
		var ok bool
		f.ask("!!("+expression+")", &ok)
		if ok {
			return
		}
		if time.Now().After(deadline) {
			f.t.Fatalf("in vain waited for %s", expression)
		}
		time.Sleep(20 * time.Millisecond)
	}
}

// press clicks the first element that a selector finds.
func (f *firefox) press(selector string) {
	f.t.Helper()
	f.ask("(document.querySelector("+quote(selector)+").click(), true)", nil)
}

// enter puts text into a field as typing it would.
func (f *firefox) enter(selector, text string) {
	f.t.Helper()
	f.ask(`(() => { const e = document.querySelector(`+quote(selector)+`); e.focus(); e.value = `+quote(text)+
		`; e.dispatchEvent(new Event("input", {bubbles: true})); return true; })()`, nil)
}

// The main paths in Firefox: search, a walk, a calculator.
func TestFirefox(t *testing.T) {
	bothSchemes(t, func(t *testing.T, base string) {
		f := startFirefox(t)
		f.open(base + "index.html")
		f.press(`.swatches a[href="symptoms/spotty-parts.html"]`)
		f.until(`document.querySelectorAll(".walk > section:not([hidden])").length === 1`)
		for range 12 {
			var remedy bool
			f.ask(`document.querySelector(".walk > section:not([hidden])").classList.contains("remedy")`, &remedy)
			if remedy {
				break
			}
			f.press(`.walk > section:not([hidden]) .answers a[href^="#"]`)
			time.Sleep(50 * time.Millisecond) // the address has changed; the page follows in its next turn
		}
		f.until(`document.querySelector(".walk > section:not([hidden])").classList.contains("remedy")`)

		f.enter("#find-words", "white spots")
		f.until(`document.querySelectorAll(".find-hit").length > 0`)
		var first string
		f.ask(`document.querySelector(".find-hit").getAttribute("href")`, &first)
		if !strings.Contains(first, "spotty-parts.html") {
			t.Errorf("the first hit for white spots is %s", first)
		}

		f.open(base + "tanks/wash-2.html")
		f.enter("#sum-dilution-volume", "30")
		f.until(`document.querySelector("#sum-dilution .sum-value").textContent.replace(/\s/g, " ") === "600 mL"`)
	})
}
