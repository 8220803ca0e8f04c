package search_test

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp/kb"
)

// firefox drives Firefox by Marionette, its remote control: JSON messages over
// a connection, each behind its length and a colon.
type firefox struct {
	connection net.Conn
	in         *bufio.Reader
	sent       *int
}

func startFirefox(t testing.TB) browser {
	program, err := exec.LookPath("firefox-esr")
	if err != nil {
		t.Skip("firefox-esr is not installed")
	}
	profile := t.TempDir()
	// The driver relaxes what a page from a folder may do; a person's profile does not.
	settings := `user_pref("marionette.port", 0);
user_pref("security.fileuri.strict_origin_policy", true);
user_pref("remote.prefs.recommended", false);
user_pref("browser.shell.checkDefaultBrowser", false);
user_pref("datareporting.policy.dataSubmissionEnabled", false);
`
	if err := os.WriteFile(filepath.Join(profile, "user.js"), []byte(settings), 0o600); err != nil {
		t.Fatal(err)
	}
	run := exec.Command(program, "--headless", "--marionette", "--no-remote", "--profile", profile)
	run.Env = append(os.Environ(), "HOME="+profile)
	if err := run.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := run.Process.Kill(); err != nil {
			t.Log(err)
		}
		_ = run.Wait() // it was killed, which is no news
	})
	port := ""
	for end := time.Now().Add(time.Minute); port == "" && time.Now().Before(end); time.Sleep(100 * time.Millisecond) {
		data, err := os.ReadFile(filepath.Join(profile, "MarionetteActivePort"))
		if err == nil {
			port = strings.TrimSpace(string(data))
		}
	}
	connection, err := net.Dial("tcp", "127.0.0.1:"+port)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { connection.Close() })
	f := firefox{connection, bufio.NewReader(connection), new(int)}
	if _, err := f.read(); err != nil {
		t.Fatal(err)
	}
	f.command(t, "WebDriver:NewSession", map[string]any{})
	return f
}

func (f firefox) read() ([]byte, error) {
	length, err := f.in.ReadString(':')
	if err != nil {
		return nil, err
	}
	n, err := strconv.Atoi(strings.TrimSuffix(length, ":"))
	if err != nil {
		return nil, err
	}
	message := make([]byte, n)
	_, err = io.ReadFull(f.in, message)
	return message, err
}

func (f firefox) command(t testing.TB, name string, parameters any) json.RawMessage {
	t.Helper()
	*f.sent++
	message, err := json.Marshal([]any{0, *f.sent, name, parameters})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := fmt.Fprintf(f.connection, "%d:%s", len(message), message); err != nil {
		t.Fatal(err)
	}
	reply, err := f.read()
	if err != nil {
		t.Fatal(err)
	}
	var parts [4]json.RawMessage
	if err := json.Unmarshal(reply, &parts); err != nil {
		t.Fatal(err)
	}
	if string(parts[2]) != "null" {
		t.Fatalf("%s: %s", name, parts[2])
	}
	return parts[3]
}

func (f firefox) open(t testing.TB, address string) {
	t.Helper()
	f.command(t, "WebDriver:Navigate", map[string]any{"url": address})
}

func (f firefox) run(t testing.TB, expression string) string {
	t.Helper()
	reply := f.command(t, "WebDriver:ExecuteScript", map[string]any{
		"script": "return (" + expression + ");", "args": []any{}, "sandbox": nil,
	})
	var result struct{ Value string }
	if err := json.Unmarshal(reply, &result); err != nil {
		t.Fatalf("%s gives %s: %v", expression, reply, err)
	}
	return result.Value
}

// keys types, with the code points WebDriver gives the keys that have none.
func (f firefox) keys(t testing.TB, keys string) {
	t.Helper()
	keys = strings.NewReplacer(kb.ArrowDown, "\ue015", kb.Enter, "\ue007", kb.Escape, "\ue00c").Replace(keys)
	var found struct {
		Value map[string]string
	}
	reply := f.command(t, "WebDriver:FindElement", map[string]any{"using": "css selector", "value": "#find-words"})
	if err := json.Unmarshal(reply, &found); err != nil {
		t.Fatal(err)
	}
	for _, id := range found.Value {
		f.command(t, "WebDriver:ElementSendKeys", map[string]any{"id": id, "text": keys})
	}
}
