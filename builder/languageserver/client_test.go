package languageserver

import (
	"bufio"
	"context"
	"encoding/json"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// today is the day on which the demo manual has no findings.
var today = time.Date(2026, 12, 1, 0, 0, 0, 0, time.UTC)

// client is an editor as far as the protocol goes.
type client struct {
	t       testing.TB
	folder  string
	to      io.WriteCloser
	results chan result
	ended   chan error
	asked   int
	texts   map[string]int // versions
	told    map[string][]diagnostic
	raw     map[string]publishParams
}

// result is a response as it comes.
type result struct {
	ID     *int            `json:"id"`
	Method string          `json:"method"`
	Params json.RawMessage `json:"params"`
	Result json.RawMessage `json:"result"`
	Error  *problem        `json:"error"`
}

// onDisk are the options of a server that works on folders of the machine, as the command has them.
func onDisk() Options {
	return Options{
		Now:   func() time.Time { return today },
		After: func(time.Duration) <-chan time.Time { return time.After(time.Millisecond) },
		Folder: func(file string) (string, bool) {
			for f := file; ; f = filepath.Dir(f) {
				if _, err := os.Stat(filepath.Join(f, "shop.yaml")); err == nil {
					return f, true
				}
				if f == filepath.Dir(f) {
					return "", false
				}
			}
		},
		Open: func(folder string) (fs.FS, func() error, error) {
			root, err := os.OpenRoot(folder)
			if err != nil {
				return nil, nil, err
			}
			return root.FS(), root.Close, nil
		},
	}
}

// demo is a copy of the demo manual.
func demo(t testing.TB) string {
	t.Helper()
	to := filepath.Join(t.TempDir(), "my manual")
	if err := os.CopyFS(to, os.DirFS("../../content")); err != nil {
		t.Fatal(err)
	}
	return to
}

// connect begins a conversation about a folder.
func connect(t testing.TB, folder string, capabilities map[string]any, o Options) (*client, json.RawMessage) {
	t.Helper()
	c := dial(t, folder, o)
	answer := c.ask("initialize", map[string]any{"processId": nil, "rootUri": uriOf(folder), "capabilities": capabilities})
	c.say("initialized", map[string]any{})
	return c, answer
}

// dial has a server wait for the first message.
func dial(t testing.TB, folder string, o Options) *client {
	fromClient, toServer := io.Pipe()
	fromServer, toClient := io.Pipe()
	c := &client{
		t: t, folder: folder, to: toServer, results: make(chan result, 1000), ended: make(chan error, 1),
		texts: map[string]int{}, told: map[string][]diagnostic{}, raw: map[string]publishParams{},
	}
	go func() {
		err := Serve(t.Context(), fromClient, toClient, o)
		toClient.Close()
		fromClient.Close()
		c.ended <- err
	}()
	go func() {
		defer close(c.results)
		r := bufio.NewReader(fromServer)
		for {
			content, err := readFrame(r)
			if err != nil {
				return
			}
			var m result
			if err := json.Unmarshal(content, &m); err != nil {
				panic(err) // every message of the server can be read
			}
			c.results <- m
		}
	}()
	return c
}

// say sends a notification.
func (c *client) say(method string, params any) { c.send(notification{"2.0", method, params}) }

func (c *client) send(v any) {
	c.t.Helper()
	content, err := json.Marshal(v)
	if err == nil {
		err = writeFrame(c.to, content)
	}
	if err != nil {
		c.t.Fatal(err)
	}
}

// try sends a request and gives its answer or its error.
func (c *client) try(method string, params any) (json.RawMessage, *problem) {
	c.t.Helper()
	c.asked++
	id := c.asked
	c.send(request{"2.0", id, method, params})
	var answer result
	c.until("an answer to "+method, func(r result) bool {
		answer = r
		return r.Method == "" && r.ID != nil && *r.ID == id
	})
	return answer.Result, answer.Error
}

// ask is the same for what has to be answered.
func (c *client) ask(method string, params any) json.RawMessage {
	c.t.Helper()
	answer, err := c.try(method, params)
	if err != nil {
		c.t.Fatalf("%s: %v", method, err)
	}
	return answer
}

// until takes messages until one is what is waited for; diagnostics are noted on the way.
func (c *client) until(what string, is func(result) bool) {
	c.t.Helper()
	late := time.After(60 * time.Second)
	for {
		select {
		case r, more := <-c.results:
			if !more {
				c.t.Fatalf("the server went away before there was %s", what)
			}
			if r.Method == "textDocument/publishDiagnostics" {
				var p publishParams
				if err := json.Unmarshal(r.Params, &p); err != nil {
					c.t.Fatal(err)
				}
				file, _ := fileOf(p.URI)
				path, _ := within(c.folder, file)
				c.told[path], c.raw[path] = p.Diagnostics, p
			}
			if is(r) {
				return
			}
		case <-late:
			c.t.Fatalf("there was no %s in a minute", what)
		}
	}
}

// published waits until the findings of a file have been told and are such.
func (c *client) published(path string, such func([]diagnostic) bool) []diagnostic {
	c.t.Helper()
	c.until("findings of "+path+" as they should be", func(r result) bool {
		if r.Method != "textDocument/publishDiagnostics" {
			return false
		}
		p, told := c.raw[path]
		return told && such(p.Diagnostics)
	})
	return c.told[path]
}

func (c *client) uri(path string) string {
	return uriOf(filepath.Join(c.folder, filepath.FromSlash(path)))
}

func (c *client) read(path string) string {
	c.t.Helper()
	data, err := os.ReadFile(filepath.Join(c.folder, filepath.FromSlash(path)))
	if err != nil {
		c.t.Fatal(err)
	}
	return string(data)
}

func (c *client) openText(path, text string) {
	c.texts[path] = 1
	c.say("textDocument/didOpen", didOpenParams{documentItem{c.uri(path), 1, text}})
}

func (c *client) changeText(path string, changes ...change) {
	c.texts[path]++
	c.say("textDocument/didChange", didChangeParams{documentID{c.uri(path), c.texts[path]}, changes})
}

// close ends the conversation in order.
func (c *client) close() {
	c.t.Helper()
	c.ask("shutdown", nil)
	c.say("exit", nil)
	for {
		select {
		case err := <-c.ended:
			if err != nil && !errors.Is(err, io.ErrClosedPipe) {
				c.t.Error(err)
			}
			return
		case _, more := <-c.results:
			if !more {
				c.results = nil // and the end comes
			}
		}
	}
}

func clean(list []diagnostic) bool { return len(list) == 0 }

// has tells whether there is a finding of a rule.
func has(rule string) func([]diagnostic) bool {
	return func(list []diagnostic) bool {
		for _, d := range list {
			if d.Code == rule {
				return true
			}
		}
		return false
	}
}

// place is the position of a word in a text, in UTF-16.
func place(t testing.TB, text, word string) Position {
	t.Helper()
	before, _, found := strings.Cut(text, word)
	if !found {
		t.Fatalf("the text has no %q", word)
	}
	all := lines(before)
	return Position{uint32(len(all) - 1), utf16.columns(all[len(all)-1])}
}

// instead replaces a word of a text.
func instead(t testing.TB, text, word, with string) change {
	from := place(t, text, word)
	return change{&Range{from, Position{from.Line, from.Character + utf16.columns(word)}}, with}
}

func write(t testing.TB, folder, path, text string) {
	t.Helper()
	if err := os.WriteFile(filepath.Join(folder, path), []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

func remove(t testing.TB, folder, path string) {
	t.Helper()
	if err := os.Remove(filepath.Join(folder, path)); err != nil {
		t.Fatal(err)
	}
}

// publish tells all findings at one go.
func (s *server) publish(ctx context.Context, d *desk) error {
	_, err := s.publishUnless(ctx, func() bool { return false }, d)
	return err
}
